"""Is the piece the same left and right, balloon by balloon?

Each balloon at (x, y, z) should have another at (-x, y, z), as large and of the same letter. One on
the middle line is its own mirror. (Top against bottom is a matter of clusters in order: ``ranks``.)
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from math import dist, floor
from typing import Literal

from mockup.records import dataclass
from mockup.symmetry.ranks import RankBreak, Ranked, TopBottom, top_bottom

__all__ = [
    "Break",
    "RankBreak",
    "Ranked",
    "Spot",
    "TopBottom",
    "left_right_breaks",
    "mirror_pairs",
    "top_bottom",
]


@dataclass(frozen=True)
class Spot:
    """One balloon for the mirror: centre and diameter in mm, its letter, its cluster, its index."""

    x: float
    y: float
    z: float
    diameter: float
    letter: str
    cluster: int
    index: int


@dataclass(frozen=True)
class Break:
    """One break of the left/right mirror, told once for a pair, of the balloon further right.

    ``index`` is that balloon, ``found`` the balloon that stands for its mirror: None where nothing
    does, ``index`` itself where it should stand on the middle line. ``expected`` is what a true
    mirror would have; ``off`` by how many mm the place or the diameter misses (0 for a colour).
    """

    index: int
    kind: Literal["place", "size", "colour"]
    found: int | None
    expected: str
    says: str
    off: float = 0.0


def left_right_breaks(spots: Sequence[Spot], tolerance: float) -> list[Break]:
    """Every break of the mirror x -> -x, in the order of ``index``; ``tolerance`` in mm.

    >>> left_right_breaks([Spot(50, 9, 0, 100, "A", 0, 0), Spot(-50, 9, 0, 100, "B", 1, 1)], 0.5)
    [Break(index=0, kind='colour', found=1, expected='B', says='A, where its mirror is B', off=0.0)]
    """
    pairs = mirror_pairs(spots, tolerance)
    found = [each for i, j in pairs for each in _pair_breaks(spots[i], spots[j], tolerance)]
    matched = {i for pair in pairs for i in pair}
    lost = [i for i in range(len(spots)) if i not in matched]
    if lost:
        found.extend(_place_breaks(spots, lost))
    return sorted(found, key=lambda each: each.index)


def mirror_pairs(spots: Sequence[Spot], tolerance: float) -> list[tuple[int, int]]:
    """Places (i, j) in ``spots`` that mirror each other within ``tolerance`` mm, each used once.

    The balloon further right comes first; one on the middle line is paired with itself.

    >>> right, left = Spot(50, 9, 0, 100, "A", 0, 0), Spot(-50, 9, 0, 100, "A", 1, 1)
    >>> mirror_pairs([left, right], 0.5)
    [(1, 0)]
    """
    return _pairs(spots, range(len(spots)), tolerance)


def _pairs(spots: Sequence[Spot], among: Iterable[int], reach: float) -> list[tuple[int, int]]:
    """The closest first, so that a balloon near the middle is not robbed of its true mirror."""
    if not reach > 0:
        raise ValueError(f"a mirror needs a tolerance above zero, not {reach}")
    used: set[int] = set()
    pairs: list[tuple[int, int]] = []
    for _, i, j in sorted(_candidates(spots, list(among), reach)):
        if i not in used and j not in used:
            used.update((i, j))
            pairs.append((j, i) if (-spots[j].x, j) < (-spots[i].x, i) else (i, j))
    return sorted(pairs)


def _candidates(
    spots: Sequence[Spot], among: Sequence[int], reach: float
) -> Iterator[tuple[float, int, int]]:
    cell = 2 * reach
    cells: dict[tuple[int, int, int], list[int]] = {}
    for i in among:
        at = spots[i]
        key = (floor(at.x / cell), floor(at.y / cell), floor(at.z / cell))
        cells.setdefault(key, []).append(i)
    for i in among:
        mirrored = (-spots[i].x, spots[i].y, spots[i].z)
        spans = [range(floor((c - reach) / cell), floor((c + reach) / cell) + 1) for c in mirrored]
        for x, y, z in product(*spans):
            for j in cells.get((x, y, z), ()):
                off = dist(mirrored, (spots[j].x, spots[j].y, spots[j].z))
                if i <= j and off <= reach:
                    yield off, i, j


def _pair_breaks(right: Spot, left: Spot, tolerance: float) -> Iterator[Break]:
    off = right.diameter - left.diameter
    if abs(off) > tolerance:
        expected = f"{left.diameter:.1f} mm"
        says = f"{right.diameter:.1f} mm across, where its mirror is {expected}"
        yield Break(right.index, "size", left.index, expected, says, abs(off))
    if right.letter != left.letter:
        says = f"{right.letter}, where its mirror is {left.letter}"
        yield Break(right.index, "colour", left.index, left.letter, says)


def _place_breaks(spots: Sequence[Spot], lost: list[int]) -> Iterator[Break]:
    """Those without a mirror, paired with a balloon within a diameter of it where there is one."""
    reach = max(*(spots[i].diameter for i in lost), 1.0)
    alone = set(lost)
    for i, j in _pairs(spots, lost, reach):
        if i != j or _sits_in_the_middle(spots[i]):
            alone.difference_update((i, j))
            yield _moved(spots[i], spots[j])
    for i in sorted(alone):
        says = "has no mirror on the other side"
        yield Break(spots[i].index, "place", None, _mirrored_words(spots[i]), says)


def _sits_in_the_middle(spot: Spot) -> bool:
    return abs(spot.x) <= spot.diameter / 4


def _moved(right: Spot, left: Spot) -> Break:
    off = dist((-right.x, right.y, right.z), (left.x, left.y, left.z))
    if right is left:
        says = f"{abs(right.x):.1f} mm off the middle line, with nothing on the other side"
        return Break(right.index, "place", right.index, _mirrored_words(right), says, abs(right.x))
    says = f"{off:.1f} mm away from where its mirror has it"
    return Break(right.index, "place", left.index, _mirrored_words(right), says, off)


def _mirrored_words(spot: Spot) -> str:
    return f"a mirror at x {-spot.x:.1f}, y {spot.y:.1f}, z {spot.z:.1f} mm"
