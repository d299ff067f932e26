"""Every order of colours that keeps the mirrors and alternates, the one with fewest to buy first.

The orders are counted exactly by going outward step by step: what may follow depends on the last
few clusters alone, so orders that agree in these and in what they have used are carried together.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from mockup.errors import MockupError
from mockup.piece.placed import Piece
from mockup.suggest.steps import Step, Steps, steps_of
from mockup.symmetry.links import is_plain

Purchase = Callable[[Mapping[str, int]], float]
"""How much is to buy for so many balloons of each letter; the least is best."""

MOST_STATES = 200_000
_USUAL_BAGS = (10, 12, 25, 50, 100)


class TooManyOrders(MockupError):
    """More orders of colours than can be carried along."""


@dataclass(frozen=True)
class ColourOrder:
    """One way to colour the piece: letters by step, and the balloons of each letter it takes.

    ``ways`` is how many orders take the same balloons; this is the first of them.
    """

    letters: tuple[str, ...]
    counts: dict[str, int]
    to_buy: float
    ways: int


_Key = tuple[tuple[str, ...], tuple[int, ...]]
_Carried = dict[_Key, tuple[int, tuple[str, ...]]]


def colour_orders(piece: Piece, purchase: Purchase) -> tuple[ColourOrder, ...]:
    """All orders in the letters that the piece's clusters wear now, by what they take.

    Clusters of one colour and end caps keep theirs. Every letter stays in use.
    """
    steps = steps_of(piece)
    letters = sorted({x for s in steps.steps if _may_change(s) for x in s.letters})
    carried: _Carried = {((), tuple(0 for _ in letters)): (1, ())}
    reach = _reach(steps)
    for step in steps.steps:
        carried = _onward(steps, step, letters, carried, reach)
        if len(carried) > MOST_STATES:
            raise TooManyOrders(
                f"there are more than {MOST_STATES:,} orders in {len(letters)} colours; "
                "give some clusters one colour"
            )
    return tuple(sorted(_told(piece, steps, letters, carried, purchase), key=_by_purchase))


def _by_purchase(order: ColourOrder) -> tuple[float, tuple[str, ...]]:
    return order.to_buy, order.letters


def _may_change(step: Step) -> bool:
    return not (step.end_cap or step.fixed or is_plain(step.letters))


def _reach(steps: Steps) -> int:
    """How many steps back a link looks."""
    return max((max(link.clusters) - min(link.clusters) for link in steps.links), default=0)


def _onward(
    steps: Steps, step: Step, letters: list[str], carried: _Carried, reach: int
) -> _Carried:
    further: _Carried = {}
    choices = list(_choices(step, letters))
    links = [link for link in steps.links if max(link.clusters) == step.index]
    for (recent, used), (ways, first) in carried.items():
        before = {step.index - len(recent) + k: each for k, each in enumerate(recent)}
        for choice in choices:
            worn = {**before, step.index: choice}
            if any(link.excess(worn) for link in links):
                continue
            now = tuple(
                n + choice.count(x) * len(step.clusters) * _may_change(step)
                for n, x in zip(used, letters, strict=True)
            )
            key = ((*recent, choice)[-reach:] if reach else (), now)
            known, earliest = further.get(key, (0, (*first, choice)))
            further[key] = (known + ways, min(earliest, (*first, choice)))
    return further


def _choices(step: Step, letters: list[str]) -> Iterator[str]:
    if not _may_change(step):
        yield step.letters
        return
    for choice in product(letters, repeat=len(step.letters)):
        if len(set(choice)) > 1:
            yield "".join(choice)


def _told(
    piece: Piece, steps: Steps, letters: list[str], carried: _Carried, purchase: Purchase
) -> Iterator[ColourOrder]:
    rest = Counter(balloon.letter for balloon in piece.balloons)
    for step in steps.steps:
        if _may_change(step):
            for letter in step.letters:
                rest[letter] -= len(step.clusters)
    alike: dict[tuple[int, ...], tuple[int, tuple[str, ...]]] = {}
    for (_, used), (ways, first) in carried.items():
        known, earliest = alike.get(used, (0, first))
        alike[used] = (known + ways, min(earliest, first))
    for used, (ways, first) in alike.items():
        if all(used):
            counts = rest + Counter(dict(zip(letters, used, strict=True)))
            whole = {letter: counts[letter] for letter in sorted(counts)}
            yield ColourOrder(first, whole, purchase(whole), ways)


def usual_purchase(counts: Mapping[str, int]) -> float:
    """Balloons in the fewest bags of the usual sizes (common practice, no source) that cover all.

    >>> usual_purchase({"A": 20, "B": 12})
    32
    """
    return sum(_bagged(count) for count in counts.values())


def _bagged(count: int) -> int:
    """The least number of balloons, at least ``count``, that whole bags hold."""
    held = [True] + [False] * (count + min(_USUAL_BAGS))
    for size in range(1, len(held)):
        held[size] = any(bag <= size and held[size - bag] for bag in _USUAL_BAGS)
    return next(size for size in range(count, len(held)) if held[size])
