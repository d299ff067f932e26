"""The cheapest set of bags that covers a need: an integer problem, solved exactly.

Costs are whole numbers (the smallest coin, or a fraction of it), so that nothing is lost to
rounding. The method is the unbounded covering knapsack (Martello and Toth, Knapsack Problems,
1990, chapter 3) with three exact reductions: bags that another beats outright are left out, common
factors are divided out, and all but a bounded part of a large need is met by the bag that is
cheapest a balloon.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from mockup.errors import MockupError

Rank = tuple[int, int, int]
"""What a choice is judged by, in this order: its cost, its balloons, its bags."""

_NOTHING: Rank = (0, 0, 0)


class NotABag(MockupError, ValueError):
    """A bag that holds nothing, or costs less than nothing."""


@dataclass(frozen=True)
class BagKind:
    """A bag on sale: ``count`` balloons for ``cost`` (a whole number of the smallest coin)."""

    count: int
    cost: int


def cheapest(need: int, kinds: Sequence[BagKind]) -> dict[int, int] | None:
    """How many of each kind (by its place in ``kinds``) cover ``need`` balloons at the least cost.

    Of equally cheap sets it takes the one with the fewest left over, then the fewest bags; the
    same answer every time. None where something is needed and there is no kind. Raises ``NotABag``.

    >>> cheapest(130, [BagKind(100, 1200), BagKind(50, 700), BagKind(12, 300)])
    {0: 1, 1: 1}
    """
    for kind in kinds:
        if kind.count < 1 or kind.cost < 0:
            raise NotABag(f"a bag of {kind.count} for {kind.cost} is not a bag")
    if need <= 0:
        return {}
    worth = _worth_having(kinds)
    if not worth:
        return None
    bags = _covering(need, [kinds[place] for place in worth])
    return {worth[place]: bags[place] for place in sorted(bags)}


def _worth_having(kinds: Sequence[BagKind]) -> list[int]:
    """Places of the kinds that no other beats: as many balloons or more for less money."""
    return [
        place
        for place, kind in enumerate(kinds)
        if not any(
            (other.count >= kind.count and other.cost < kind.cost)
            or (other == kind and earlier < place)
            for earlier, other in enumerate(kinds)
        )
    ]


def _covering(need: int, kinds: list[BagKind]) -> Counter[int]:
    factor = gcd(*(kind.count for kind in kinds))
    need = -(-need // factor)
    counts = [kind.count // factor for kind in kinds]
    best = min(
        range(len(kinds)),
        key=lambda place: (Fraction(kinds[place].cost, counts[place]), -counts[place]),
    )
    whole = _surely_best(need, counts, best)
    bags = _by_table(need - whole * counts[best], counts, [kind.cost for kind in kinds])
    bags[best] += whole
    return +bags


def _surely_best(need: int, counts: list[int], best: int) -> int:
    """How many of the best kind every need this large takes at least.

    Of ``counts[best]`` other bags some hold a multiple of ``counts[best]`` balloons together (by
    the pigeonhole principle on running sums), and are replaced at no more cost by the best kind.
    """
    others = (counts[best] - 1) * max(counts)
    return max(0, (need - others) // counts[best])


def _by_table(need: int, counts: list[int], costs: list[int]) -> Counter[int]:
    """The best ranked set for every number of balloons up to ``need``, then read back."""
    ranks: list[Rank] = [_NOTHING]
    takes: list[int] = [-1]
    steps = list(zip(range(len(counts)), counts, costs, strict=True))
    for wanted in range(1, need + 1):
        rank, place = min(
            (_plus(ranks[max(0, wanted - count)], cost, count), place)
            for place, count, cost in steps
        )
        ranks.append(rank)
        takes.append(place)
    bags: Counter[int] = Counter()
    while need > 0:
        bags[takes[need]] += 1
        need -= counts[takes[need]]
    return bags


def _plus(rank: Rank, cost: int, count: int) -> Rank:
    return rank[0] + cost, rank[1] + count, rank[2] + 1
