"""The colours that a pattern gives each balloon along a frame, from where the balloon really sits.

In the trade's words (common practice, no source), for clusters nestled by half a place:

- *rows*: each colour runs straight along the frame.
- *spiral*: each colour winds round the frame by half a place a cluster; the right hand turns like
  a common screw. ``starts`` is how often the order of colours begins anew round the frame.
- *bands*: every cluster is of one colour, ``each`` clusters of a colour after another.
- *blocks*: rows that move on by one colour after every ``each`` clusters, like a chequered board.
- *diamond*: colours in nested diamonds, as many clusters long as there are half places round.
- *gradual*: from the first colour to the last along the run, a balloon at a time.

All but the spiral are counted outward from the middle of a section, so that its sides mirror.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate
from typing import Literal

from mockup.records import dataclass

Hand = Literal["right", "left"]

# Places that should lie on a border between two colours must not fall either way by rounding.
_HAIR = 1e-6


@dataclass(frozen=True)
class Order:
    """How a pattern is meant: its colours in order, and the figures of the patterns above."""

    letters: str
    starts: int = 1
    hand: Hand = "right"
    each: int = 1


@dataclass(frozen=True)
class Laid:
    """One cluster of a run: its ``step`` outward and the angles of its balloons round the frame."""

    step: int
    phis_deg: tuple[float, ...]


def pattern_letters(pattern: str, run: Sequence[Laid], order: Order) -> list[str]:
    """The letters of every cluster of a run that is listed along the frame, balloon by balloon.

    >>> quads = [Laid(i, tuple((45.0 * i + 90.0 * k) % 360 for k in range(4))) for i in range(3)]
    >>> pattern_letters("spiral", quads, Order("ABCD"))
    ['ABCD', 'ABCD', 'ABCD']
    >>> pattern_letters("rows", quads, Order("AB", starts=2))
    ['ABAB', 'ABAB', 'BABA']
    >>> pattern_letters("bands", quads, Order("AB"))
    ['AAAA', 'BBBB', 'AAAA']
    """
    return _PATTERNS[pattern](run, order) if run else []


def _half_place(laid: Laid) -> float:
    return 180.0 / len(laid.phis_deg)


def _twists(run: Sequence[Laid]) -> list[float]:
    """How far the nestling has turned each cluster from the first, degrees."""
    return [0.0, *accumulate(_half_place(laid) for laid in run[1:])]


def _sector(angle: float, order: Order) -> int:
    """Which of the colours' shares of the round an angle falls into."""
    share = (angle + _HAIR) % 360.0 / 360.0
    return int(share * len(order.letters) * order.starts)


def _letter(order: Order, place: int) -> str:
    return order.letters[place % len(order.letters)]


def _spiral(run: Sequence[Laid], order: Order) -> list[str]:
    first, way = run[0].phis_deg[0], 1.0 if order.hand == "right" else -1.0
    return [
        "".join(_letter(order, _sector(phi - first - way * twist, order)) for phi in laid.phis_deg)
        for laid, twist in zip(run, _twists(run), strict=True)
    ]


def _straight(run: Sequence[Laid], laid: Laid) -> list[float]:
    """Angles from the first row; odd clusters, which lie between the rows, are led to theirs."""
    off = _half_place(laid) if (laid.step - _first(run)) % 2 else 0.0
    origin = next(each for each in run if each.step == _first(run)).phis_deg[0]
    return [phi - origin - off for phi in laid.phis_deg]


def _first(run: Sequence[Laid]) -> int:
    return min(laid.step for laid in run)


def _rows(run: Sequence[Laid], order: Order) -> list[str]:
    return [
        "".join(_letter(order, _sector(angle, order)) for angle in _straight(run, laid))
        for laid in run
    ]


def _bands(run: Sequence[Laid], order: Order) -> list[str]:
    first = _first(run)
    return [_letter(order, (laid.step - first) // order.each) * len(laid.phis_deg) for laid in run]


def _blocks(run: Sequence[Laid], order: Order) -> list[str]:
    first = _first(run)
    return [
        "".join(
            _letter(order, _sector(angle, order) + (laid.step - first) // order.each)
            for angle in _straight(run, laid)
        )
        for laid in run
    ]


def _diamond(run: Sequence[Laid], order: Order) -> list[str]:
    first = _first(run)
    origin = next(each for each in run if each.step == first).phis_deg[0]
    return [
        "".join(_nested(laid, phi - origin, laid.step - first, order) for phi in laid.phis_deg)
        for laid in run
    ]


def _nested(laid: Laid, angle: float, step: int, order: Order) -> str:
    """The colour by the distance, in half places, to the nearest middle of a diamond."""
    count = len(laid.phis_deg)
    column = round(angle / _half_place(laid)) % (2 * count)
    far = min(_apart(step, a, 2 * count) + _apart(column, a, 2 * count) for a in (0, count))
    shells = count // 2 + 1
    return order.letters[min(far // 2 * len(order.letters) // shells, len(order.letters) - 1)]


def _apart(one: int, other: int, period: int) -> int:
    off = (one - other) % period
    return min(off, period - off)


def _gradual(run: Sequence[Laid], order: Order) -> list[str]:
    steps = sorted({laid.step for laid in run})
    counts = {laid.step: len(laid.phis_deg) for laid in run}
    mixed = _mixed([counts[step] for step in steps], order.letters)
    by_step = dict(zip(steps, mixed, strict=True))
    return [_round_from_outer(laid, by_step[laid.step]) for laid in run]


def _round_from_outer(laid: Laid, letters: str) -> str:
    """Letters dealt round the frame from the outer side on, whichever balloon is the first."""
    around = sorted(range(len(laid.phis_deg)), key=lambda k: (laid.phis_deg[k] + _HAIR) % 360.0)
    return "".join(letters[around.index(k)] for k in range(len(around)))


def _mixed(counts: Sequence[int], letters: str) -> list[str]:
    """Each cluster's letters; what a single rounds off is carried on to the next one."""
    last, carry, found = max(1, len(counts) - 1), 0.0, []
    for number, count in enumerate(counts):
        place = number / last * (len(letters) - 1)
        low = min(int(place + _HAIR), len(letters) - 1)
        wanted = (place - low) * count + carry
        later = min(count, max(0, int(wanted + 0.5 - _HAIR)))
        carry = wanted - later if count == 1 else 0.0
        found.append(_spread(letters[low], letters[min(low + 1, len(letters) - 1)], later, count))
    return found


def _spread(one: str, other: str, later: int, count: int) -> str:
    """``later`` balloons of the other colour spread evenly round a cluster.

    >>> _spread("A", "B", 2, 4)
    'ABAB'
    """
    return "".join(
        other if (k + 1) * later // count > k * later // count else one for k in range(count)
    )


_PATTERNS: dict[str, Callable[[Sequence[Laid], Order], list[str]]] = {
    "rows": _rows,
    "spiral": _spiral,
    "bands": _bands,
    "blocks": _blocks,
    "diamond": _diamond,
    "gradual": _gradual,
}
PATTERNS = tuple(_PATTERNS)
"""The patterns by their words."""
