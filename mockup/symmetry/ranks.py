"""Do two sections match, cluster by cluster in order from their centres?

Made for a crescent at the top and one at the bottom, which may differ in length; just as good for
the right side of one section against its left. Through the horizontal axis the outward direction of
a cluster goes over into the outward direction, and the front stays in front: so the angle of a
balloon round its knot, from outward toward the viewer, is kept, and *letters at equal angles must
agree*. Steps count outward from 0 in the middle. A side means the side one sees, so that the right
of the top goes with the right of the bottom, although clockwise leads right at the top and left at
the bottom.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from mockup.records import dataclass
from mockup.symmetry.angles import SAME_ANGLE_DEG

_KINDS = ("nothing", "single", "pair", "trio", "quad", "five")
_SIDES = ("middle", "right", "left")


@dataclass(frozen=True)
class Ranked:
    """A cluster by its rank: ``step`` outward from the centre of its section, on the seen ``side``.

    ``kind_count`` balloons of ``diameter`` mm, the first at ``turn_deg`` round the knot, with
    ``letters`` from there on; ``index`` names it in every answer.
    """

    section: str
    step: int
    side: str
    kind_count: int
    diameter: float
    turn_deg: float
    letters: str
    index: int
    end_cap: bool = False


@dataclass(frozen=True)
class RankBreak:
    """Two clusters of the same rank that do not match.

    ``first`` and ``second`` are their indices, ``balloons`` the places in the first's letters whose
    colour differs, ``expected`` what the first would need; ``remedy`` is empty for a colour, where
    a search finds the least one.
    """

    kind: Literal["count", "size", "turn", "colour"]
    first: int
    second: int
    expected: str
    says: str
    remedy: str = ""
    balloons: tuple[int, ...] = ()


@dataclass(frozen=True)
class TopBottom:
    """How far two sections match.

    ``matched`` counts the steps from the centres outward that match without a break. ``stops_at``
    is the step at which only one of them goes on, or closes with an end cap where the other does
    not (None: both end together) and ``longer`` the section that goes on. ``pairs`` are the indices
    of the clusters that were compared.
    """

    breaks: tuple[RankBreak, ...]
    matched: int
    stops_at: int | None
    longer: str
    pairs: tuple[tuple[int, int], ...]


def top_bottom(
    first: Sequence[Ranked], second: Sequence[Ranked], *, tolerance: float = 1.0
) -> TopBottom:
    """Compare two sections from their centres outward; ``tolerance`` in mm of diameter.

    >>> top = [Ranked("top", 0, "middle", 4, 100, 45, "ABAB", 0)]
    >>> top_bottom(top, [Ranked("bottom", 0, "middle", 4, 100, 135, "BABA", 7)]).matched
    1
    """
    ones, others = _by_rank(first), _by_rank(second)
    stop, longer = _stop(ones, others)
    ranks = [rank for rank in ones if rank in others and (stop is None or rank[0] < stop)]
    met = [(ones[rank], others[rank]) for rank in ranks]
    breaks = tuple(each for one, other in met for each in _breaks(one, other, tolerance))
    broken = {each.first for each in breaks}
    steps = sorted({one.step for one, _ in met})
    bad = min((one.step for one, _ in met if one.index in broken), default=None)
    matched = sum(1 for step in steps if bad is None or step < bad)
    pairs = tuple((one.index, other.index) for one, other in met)
    return TopBottom(breaks, matched, stop, longer, pairs)


def _by_rank(clusters: Sequence[Ranked]) -> dict[tuple[int, int], Ranked]:
    ranked = {(each.step, _SIDES.index(each.side)): each for each in clusters}
    if len(ranked) != len(clusters):
        raise ValueError("two clusters have the same step and side")
    return dict(sorted(ranked.items()))


def _stop(
    ones: dict[tuple[int, int], Ranked], others: dict[tuple[int, int], Ranked]
) -> tuple[int | None, str]:
    for rank in sorted({*ones, *others}):
        one, other = ones.get(rank), others.get(rank)
        if one is None or other is None:
            lone = one or other
            return rank[0], lone.section if lone else ""
        if one.end_cap != other.end_cap:
            return rank[0], other.section if one.end_cap else one.section
    return None, ""


def _breaks(one: Ranked, other: Ranked, tolerance: float) -> Iterator[RankBreak]:
    if one.kind_count != other.kind_count:
        kinds = _kind(one.kind_count), _kind(other.kind_count)
        says = f"a {kinds[0]}, where the other is a {kinds[1]}"
        yield RankBreak("count", one.index, other.index, kinds[1], says, f"make both a {kinds[1]}")
        return
    if abs(one.diameter - other.diameter) > tolerance:
        expected = f"{other.diameter:.1f} mm"
        says = f"filled to {one.diameter:.1f} mm, where the other is filled to {expected}"
        yield RankBreak("size", one.index, other.index, expected, says, "fill both alike")
    yield from _turn_and_colours(one, other)


def _turn_and_colours(one: Ranked, other: Ranked) -> Iterator[RankBreak]:
    place = 360.0 / one.kind_count
    places = (one.turn_deg - other.turn_deg) / place
    off = abs(places - round(places)) * place
    if off > SAME_ANGLE_DEG:
        expected = f"turned {other.turn_deg % place:.0f} degrees"
        says = f"sits {off:.0f} degrees away from how the other sits"
        yield RankBreak("turn", one.index, other.index, expected, says, _turn_words(off, place))
        return
    shift = round(places)
    wanted = "".join(other.letters[(k + shift) % one.kind_count] for k in range(one.kind_count))
    differing = tuple(k for k in range(one.kind_count) if one.letters[k] != wanted[k])
    if differing:
        says = f"its colours run {one.letters}, where the other has {wanted}"
        yield RankBreak("colour", one.index, other.index, wanted, says, balloons=differing)


def _turn_words(off: float, place: float) -> str:
    half = abs(off - place / 2) <= SAME_ANGLE_DEG
    return f"turn one of them by {'half a place' if half else f'{off:.0f} degrees'}"


def _kind(count: int) -> str:
    return _KINDS[count] if count < len(_KINDS) else f"cluster of {count}"
