"""Do colours alternate round each cluster and into its neighbours?

The rules, as a decorator would put them (common practice, no source):

1. *Round the knot*: no two balloons side by side in a cluster share a colour. A cluster of one
   colour is plain, and singles always are: neither is judged. A trio or five in two colours cannot
   help one such meeting, so one is let pass.
2. *Along the row*: balloons at the same angle round the frame make a row. In a nestled run the next
   on a row sits two clusters on, since the cluster between is turned by half a place. Its colour is
   another. Not judged where one of both clusters is plain, or is a trio or five in two colours
   (there rule 3 settles everything); and where the colours of the two clusters force some repeats
   (three A of four meet two A of four), only repeats beyond those count.
3. *Into the valley*: where two clusters side by side hold the same colours, a balloon does not lie
   between two of its own colour.

They are judged outward from the middle along one side. Across the middle of a mirrored section they
cannot hold, because both sides begin alike there.

The usual run keeps them all: quads A B A B, each turned half a place on from the one before, so
that a balloon's angle runs 45, 90, 135, ... Any order of colours that rule 1 passes cleanly does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from mockup.records import dataclass
from mockup.symmetry.angles import SAME_ANGLE_DEG, apart_deg, at_same_angle, banks, round_the_knot
from mockup.symmetry.links import Link, Nestle, Round, Row, Twin

Rule = Literal["round", "row", "valley"]


@dataclass(frozen=True)
class ClusterColours:
    """One cluster's colours: ``letters`` and ``phis_deg`` go balloon by balloon.

    ``index`` names the cluster in every answer. ``plain`` asks that it be left out of the rules.
    """

    letters: str
    phis_deg: tuple[float, ...]
    step: int
    side: str
    section: str
    plain: bool
    index: int

    def __post_init__(self) -> None:
        if len(self.letters) != len(self.phis_deg):
            raise ValueError(f"{len(self.letters)} letters for {len(self.phis_deg)} balloons")


@dataclass(frozen=True)
class AlternationBreak:
    """One balloon whose colour repeats: ``balloon`` counts from 0 within the cluster ``index``.

    ``others`` are the balloons of cluster ``other`` that have the same letter (the same cluster for
    the rule "round").
    """

    rule: Rule
    index: int
    balloon: int
    other: int
    others: tuple[int, ...]
    letter: str
    says: str


def alternation_breaks(
    sequence: Sequence[ClusterColours], *, closed: bool = False
) -> list[AlternationBreak]:
    """Every break of alternation in clusters listed outward along one side.

    ``closed`` lets the last meet the first, for a run that goes all the way round.

    >>> quads = [ClusterColours("ABAB", (t, t + 90, t + 180, t + 270), i, "right", "top", False, i)
    ...          for i, t in enumerate((45.0, 90.0, 135.0))]
    >>> alternation_breaks(quads)
    []
    """
    letters = {each.index: each.letters for each in sequence}
    found: list[AlternationBreak] = []
    for link in alternation_links(sequence, closed=closed):
        if link.excess(letters):
            found.extend(_told(link, letters))
    return found


def _told(link: Link, letters: dict[int, str]) -> Iterator[AlternationBreak]:
    if isinstance(link, Round):
        for a, b in link.repeats(letters):
            letter = letters[link.cluster][a]
            says = f"two {letter} lie side by side round the knot"
            yield AlternationBreak("round", link.cluster, b, link.cluster, (a,), letter, says)
    elif isinstance(link, Row):
        for a, b in link.repeats(letters):
            letter = letters[link.outer][b]
            says = f"{letter} follows {letter} along its row"
            yield AlternationBreak("row", link.outer, b, link.inner, (a,), letter, says)
    elif isinstance(link, Nestle):
        for b, one, two in link.repeats(letters):
            letter = letters[link.outer][b]
            says = f"{letter} lies in the valley between two {letter}"
            yield AlternationBreak("valley", link.outer, b, link.inner, (one, two), letter, says)


def alternation_links(
    sequence: Sequence[ClusterColours], *, closed: bool = False
) -> tuple[Link, ...]:
    """The links that ``alternation_breaks`` judges; clusters of the same index share letters."""
    judged = [each for each in sequence if not each.plain]
    rounds = [link for each in judged for link in _round(each)]
    valleys = [link for a, b in _side_by_side(sequence, closed) for link in _valleys(a, b)]
    return tuple(dict.fromkeys([*rounds, *_rows(sequence, closed), *valleys]))


def twin(first: ClusterColours, second: ClusterColours) -> Twin | None:
    """The link between two clusters that mirror each other, None where their places do not match.

    A mirror, left to right or top to bottom, keeps the outward and the front direction of a
    cluster, so the balloons that stand for each other have equal angles round their knots.
    """
    pairs = at_same_angle(first.phis_deg, second.phis_deg)
    whole = len(pairs) == len(first.phis_deg) == len(second.phis_deg)
    return Twin(first.index, second.index, pairs) if whole and pairs else None


def _round(cluster: ClusterColours) -> Iterator[Link]:
    order = round_the_knot(cluster.phis_deg)
    if len(order) == 2:
        yield Round(cluster.index, ((order[0], order[1]),))
    elif len(order) > 2:
        following = [*order[1:], order[0]]
        yield Round(cluster.index, tuple(zip(order, following, strict=True)))


def _side_by_side(
    sequence: Sequence[ClusterColours], closed: bool
) -> Iterator[tuple[ClusterColours, ClusterColours]]:
    yield from pairwise(sequence)
    if closed and len(sequence) > 2:
        yield sequence[-1], sequence[0]


def _valleys(inner: ClusterColours, outer: ClusterColours) -> Iterator[Link]:
    if inner.plain or outer.plain or inner.index == outer.index:
        return
    found = [(k, banks(inner.phis_deg, phi)) for k, phi in enumerate(outer.phis_deg)]
    valleys = tuple((k, *two) for k, two in found if two is not None)
    if valleys:
        yield Nestle(inner.index, outer.index, valleys)


class _Rows:
    """The last balloon seen on each row, as (place in the sequence, balloon, angle)."""

    def __init__(self) -> None:
        self._last: dict[int, tuple[int, int, float]] = {}

    def last(self, phi: float) -> tuple[int, int] | None:
        """The latest balloon within the tolerance of ``phi``, as (place in sequence, balloon)."""
        degree = round(phi) % 360
        near = (self._last.get((degree + step) % 360) for step in (-2, -1, 0, 1, 2))
        on_row = [each for each in near if each and apart_deg(each[2], phi) <= SAME_ANGLE_DEG]
        return max(on_row)[:2] if on_row else None

    def lay(self, at: int, cluster: ClusterColours) -> None:
        """Put a cluster's balloons on their rows."""
        for k, phi in enumerate(cluster.phis_deg):
            self._last[round(phi) % 360] = (at, k, phi)


def _rows(sequence: Sequence[ClusterColours], closed: bool) -> Iterator[Link]:
    rows = _Rows()
    if closed:
        for at, cluster in enumerate(sequence):
            rows.lay(at - len(sequence), cluster)
    for at, outer in enumerate(sequence):
        for place, pairs in _met(rows, outer, len(sequence)).items():
            inner = sequence[place]
            if not (inner.plain or outer.plain or inner.index == outer.index):
                yield Row(inner.index, outer.index, tuple(pairs))
        rows.lay(at, outer)


def _met(rows: _Rows, outer: ClusterColours, count: int) -> dict[int, list[tuple[int, int]]]:
    """For each cluster last met on the rows of ``outer``: its balloons and those that meet them."""
    met: dict[int, list[tuple[int, int]]] = {}
    for k, phi in enumerate(outer.phis_deg):
        before = rows.last(phi)
        if before is not None:
            met.setdefault(before[0] % count, []).append((before[1], k))
    return met
