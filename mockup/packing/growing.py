"""Loose garlands of mixed sizes: grown along a frame by laying balloons where the gap is largest.

As a maker-up works (common practice, no source): the large ones first, set back and spread out;
clusters of the middle size along the line; then what fills it, and small ones in front in twos
and threes. Then all settle as soft spheres on their necks, and fillers go where daylight remains
until the asked coverage holds: small ones, or a middle size while it is short of its share.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import pi

import numpy as np
from numpy.typing import NDArray

from mockup.packing.clusters import knot_radius, offsets
from mockup.packing.frames import Frame
from mockup.packing.inflation import NotASize
from mockup.packing.settling import settle
from mockup.packing.valleys import Valleys
from mockup.records import dataclass

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

MOST_BALLOONS = 10_000
# Balloons fill this share of the band's rough volume (half as deep as it is wide); a band gets
# more while the asked coverage is far off.
_FILLED, _FULLER, _TRIES = 0.62, 1.15, 5
_NEARLY, _SPARE = 0.04, 0.004
_ROUNDS = 6
_DEEP = 0.62
# How uneven the outline is, as a share of the width, and how long its waves are, in widths.
_UNEVEN, _WAVES = 0.16, 1.7
_LEAN = 0.45
_CELLS, _LINE = 36_000, 180
_COVERED_BAND = 0.80


@dataclass(frozen=True)
class Portion:
    """One size of a recipe: the ``diameter`` filled to (mm) and its ``share`` of the count."""

    diameter: float
    share: float


@dataclass(frozen=True)
class Growth:
    """What a garland is asked to be: ``width`` mm over all, from ``start`` to ``end`` mm along.

    ``coverage`` is the share of its band that shows no gap; ``lean`` 1 makes the start (as
    the frame runs) thicker and the end thinner, -1 the other way, 0 neither.
    """

    portions: tuple[Portion, ...]
    start: float
    end: float
    width: float
    coverage: float
    seed: int = 1
    lean: float = 0.0


@dataclass(frozen=True)
class Grown:
    """k balloons where they lie: ``centres`` and ``ties`` (k, 3), the size each has and its group.

    ``portion`` (k,) numbers the recipe from its largest size; balloons of one ``group`` (k,) are
    tied together; ``along`` (k,) is where on the frame, mm. ``covered`` is the share reached.
    """

    centres: Floats
    ties: Floats
    diameters: Floats
    portion: NDArray[np.intp]
    group: NDArray[np.intp]
    along: Floats
    covered: float


def grow(frame: Frame, growth: Growth) -> Grown:
    """A garland along ``frame``; equal figures give an equal garland. Raises ``NotASize``.

    >>> from mockup.packing.frames import frame_from
    >>> bar = frame_from("straight", length=1200.0, tube=12.0)
    >>> recipe = (Portion(300.0, 0.1), Portion(240.0, 0.4), Portion(110.0, 0.5))
    >>> garland = grow(bar, Growth(recipe, 0.0, 1200.0, 420.0, 0.95))
    >>> garland.covered >= 0.95, len(garland.centres) == len(garland.diameters)
    (True, True)
    """
    _check(growth)
    return _grown(frame, growth)  # type: ignore[arg-type]  # frames are frozen, so they hash


@lru_cache(maxsize=8)
def _grown(frame: Frame, growth: Growth) -> Grown:
    """Kept, since a piece is asked for its balloons and for what to buy."""
    dense, bed = _FILLED, _Bed(frame, growth)
    for _ in range(_TRIES):
        bed.clear()
        _lay(bed, dense)
        bed.settle()
        if bed.covered() >= growth.coverage - _NEARLY:
            break
        dense *= _FULLER
    for _ in range(_ROUNDS):
        if bed.covered() >= growth.coverage:
            break
        bed.fill_gaps()
        bed.settle()
    bed.settle(1e-3)
    return bed.grown()


def _check(growth: Growth) -> None:
    if not growth.portions or abs(sum(p.share for p in growth.portions) - 1.0) > 1e-6:
        raise NotASize("the shares of a recipe must come to 100 %")
    if not growth.end > growth.start:
        raise NotASize("a garland must end further along than it begins")
    if not 0.0 < growth.coverage <= 1.0:
        raise NotASize("a garland's coverage lies between 0 and 100 %")
    mean = sum(p.share * p.diameter**3 * pi / 6 for p in growth.portions)
    count = _FILLED * (growth.end - growth.start) * _DEEP * growth.width**2 / mean
    if count > MOST_BALLOONS:
        most = f"{MOST_BALLOONS:,} are the most"
        raise NotASize(f"this garland would take about {count:,.0f} balloons; {most}")


class _Bed:
    """A garland while it grows."""

    def __init__(self, frame: Frame, growth: Growth) -> None:
        self.frame, self.growth = frame, growth
        self.portions = sorted(growth.portions, key=lambda p: -p.diameter)
        self.chance = np.random.default_rng(growth.seed)
        self.line_s = np.linspace(growth.start, growth.end, _LINE)
        self.line = np.array([frame.at(s) for s in self.line_s.tolist()])
        self.half = self._half_widths()
        self._lay_grid()
        self._thrown = self.chance.bit_generator.state
        self.clear()

    def clear(self) -> None:
        """Take every balloon off again; what is thrown after is what was thrown the first time."""
        self.centres: list[Floats] = []
        self.ties: list[Floats] = []
        self.sizes: list[int] = []
        self.groups: list[int] = []
        self.valleys.clear()
        self.chance.bit_generator.state = self._thrown

    def _half_widths(self) -> Floats:
        """Half the width along the line: in waves, the same to both sides of its middle."""
        growth = self.growth
        t = np.linspace(-1.0, 1.0, len(self.line_s))
        waves = (growth.end - growth.start) / (_WAVES * growth.width)
        shift = self.chance.random(2) * 2 * pi
        uneven = np.cos(pi * waves * np.abs(t) + shift[0]) + 0.6 * np.cos(
            1.7 * pi * waves * np.abs(t) + shift[1]
        )
        ends = np.clip((1.0 - np.abs(t)) * (growth.end - growth.start) / growth.width, 0.0, 1.0)
        taper = 0.72 + 0.28 * np.sqrt(ends)
        lean = 1.0 - _LEAN * growth.lean * t
        return np.asarray(growth.width / 2 * (1.0 + _UNEVEN * uneven / 1.6) * taper * lean)

    def _lay_grid(self) -> None:
        radii = [p.diameter / 2 for p in self.portions]
        room = self.growth.width
        low, high = self.line.min(axis=0) - room, self.line.max(axis=0) + room
        step = max(radii[-1] / 4, float(np.sqrt(np.prod(high - low) / _CELLS)))
        self.step = step
        self.valleys = Valleys((low, high), step, radii)
        cells = self.valleys.cells
        near, far = _nearest(cells, self.line)
        shape = self.valleys.gap.shape
        self.reach = (far - self.half[near]).reshape(shape)
        self.share = (far / self.half[near]).reshape(shape)
        self.on_frame = far.reshape(shape) <= max(self.frame.tube / 2, self.step / 2)
        self.rough = self.chance.random(shape)

    def allowed(self, size: int, margin: float = 0.45) -> Flags:
        """Where the middle of a balloon may come so that it keeps to the band."""
        return np.asarray(self.reach <= -margin * self.portions[size].diameter)

    def radius(self, size: int) -> float:
        """Half a size's diameter, mm."""
        return self.portions[size].diameter / 2

    def put(self, size: int, centre: Floats, tie: Floats, group: int) -> None:
        """Lay a balloon down, tied at ``tie``."""
        self.centres.append(centre)
        self.ties.append(tie)
        self.sizes.append(size)
        self.groups.append(group)
        self.valleys.add(centre, self.radius(size))

    def new_group(self) -> int:
        """The number of the next group."""
        return self.groups[-1] + 1 if self.groups else 0

    def tie_for(self, size: int, centre: Floats) -> Floats:
        """Where a balloon that rests on others is held: on its way to the frame's line."""
        near, _ = _nearest(centre[None, :2], self.line)
        root = np.array([*self.line[int(near[0])], 0.0])
        toward = root - centre
        far = float(np.sqrt(toward @ toward))
        return np.asarray(centre + toward * min(1.0, self.radius(size) / max(far, 1e-9)))

    def settle(self, tolerance: float = 2e-3) -> None:
        """Let everything swing on its necks, and see the valleys afresh."""
        diameters = np.array([2 * self.radius(size) for size in self.sizes])
        lain = settle(np.array(self.centres), diameters, np.array(self.ties), tolerance=tolerance)
        self.centres = list(lain.centres)
        self.valleys.clear()
        for centre, size in zip(self.centres, self.sizes, strict=True):
            self.valleys.add(centre, self.radius(size))

    def covered(self) -> float:
        """The share of the inner band in which neither a gap nor the frame shows."""
        return float((self._open()[self.share <= _COVERED_BAND] <= 0.0).mean())

    def _open(self) -> Floats:
        """How far each cell lies open, mm: as a gap, or as frame that no balloon hides."""
        bare = self.on_frame & (self.valleys.skin <= self.frame.tube / 2)
        return np.where(bare, np.maximum(self.valleys.gap, self.frame.tube / 2), self.valleys.gap)

    def fill_gaps(self) -> None:
        """Balloons into the largest gaps of the inner band, until it is covered."""
        inner = self.share <= _COVERED_BAND
        enough = min(1.0, self.growth.coverage + _SPARE)
        for _ in range(MOST_BALLOONS - len(self.sizes)):
            open_ = np.where(inner, self._open(), -np.inf)
            if open_.max() <= 0.0 or self.covered() >= enough:
                return
            row, column = divmod(int(np.argmax(open_)), open_.shape[1])
            size = self._wanting((row, column))
            centre = self.valleys.point((row, column), size, 0.0)
            self.put(size, centre, self.tie_for(size, centre), self.new_group())

    def _wanting(self, cell: tuple[int, int]) -> int:
        """The largest size that is short of its share and keeps to the band at a cell.

        Else the smallest; never the largest, which is set back: in front it would hide the rest.
        """
        counts, last = np.bincount(self.sizes, minlength=len(self.portions)), len(self.portions) - 1
        for size in range(min(1, last), last):
            short = self.portions[size].share * (len(self.sizes) + 1) - counts[size]
            if short >= 0.5 and self.allowed(size)[cell]:
                return size
        return last

    def grown(self) -> Grown:
        """What there is."""
        centres = np.array(self.centres)
        near, _ = _nearest(np.array(self.ties)[:, :2], self.line)
        return Grown(
            centres,
            np.array(self.ties),
            np.array([2 * self.radius(size) for size in self.sizes]),
            np.array(self.sizes, dtype=np.intp),
            np.array(self.groups, dtype=np.intp),
            np.asarray(self.line_s[near]),
            self.covered(),
        )


def _nearest(points: Floats, line: Floats) -> tuple[NDArray[np.intp], Floats]:
    """For each point (m, 2) the nearest point of the line (k, 2): its number and how far."""
    near, far = np.empty(len(points), dtype=np.intp), np.empty(len(points))
    for start in range(0, len(points), 4096):
        x, y = points[start : start + 4096].T[:, :, None]
        off = (x - line[:, 0]) ** 2
        off += (y - line[:, 1]) ** 2
        own = off.argmin(axis=1)
        near[start : start + 4096] = own
        far[start : start + 4096] = np.sqrt(off[np.arange(len(own)), own])
    return near, far


def _lay(bed: _Bed, dense: float) -> None:
    """All balloons of the recipe: large ones set back, core, middle sizes, small ones in front."""
    counts = _counts(bed, dense)
    last = len(counts) - 1
    core = min(1, last)
    if core:
        _set_back(bed, counts[0])
    counts[core] -= _core(bed, core, counts[core])
    for size in range(core, last + 1):
        groups = _in_front(bed, counts[size]) if size == last and last else [1] * counts[size]
        for together in groups:
            _rest(bed, size, together)


def _counts(bed: _Bed, dense: float) -> list[int]:
    """How many of each size fill the band to a density; at least one of each that has a share."""
    widths = 2 * bed.half
    length = bed.growth.end - bed.growth.start
    volume = dense * _DEEP * float((widths**2).mean()) * length
    mean = sum(p.share * p.diameter**3 * pi / 6 for p in bed.portions)
    return [max(1, round(p.share * volume / mean)) if p.share else 0 for p in bed.portions]


def _set_back(bed: _Bed, count: int) -> None:
    """Large ones spread along the line, to either side by turns, behind the middle plane."""
    d = bed.portions[0].diameter
    room = np.cumsum(bed.half**2)
    for k in range(count):
        t = (k + 0.5 + 0.36 * (bed.chance.random() - 0.5)) / count
        # Where the garland is thicker it takes more of them.
        at = min(int(np.searchsorted(room, t * room[-1])), len(room) - 1)
        nx, ny = bed.frame.normal(float(bed.line_s[at]))
        aside = max(0.0, float(bed.half[at]) - 0.42 * d)
        side = (1.0 if k % 2 else -1.0) * aside * (0.45 + 0.5 * bed.chance.random())
        x, y = bed.line[at] + side * np.array([nx, ny])
        centre = np.array([x, y, -0.30 * d])
        bed.put(0, centre, bed.tie_for(0, centre), bed.new_group())


def _core(bed: _Bed, size: int, most: int) -> int:
    """Quads of the middle size along the line, every second one turned; how many balloons."""
    d = bed.portions[size].diameter
    length = bed.growth.end - bed.growth.start
    quads = max(0, min(int(length / (1.25 * d)), most // 4))
    for k in range(quads):
        s = bed.growth.start + length * (k + 0.5) / quads
        knot = np.array([*bed.frame.at(s), 0.0])
        nx, ny = bed.frame.normal(s)
        spread = offsets(4, d, 45.0 * (k % 2) + 20.0 * (bed.chance.random() - 0.5))
        spread *= min(1.0, 0.8 * float(bed.half.mean()) / knot_radius(4, d))
        group = bed.new_group()
        for across, front in spread.tolist():
            centre = knot + np.array([nx * across, ny * across, front])
            bed.put(size, centre, knot, group)
    return 4 * quads


def _in_front(bed: _Bed, count: int) -> Iterator[int]:
    """Twos and threes that come to ``count``."""
    left = count
    while left > 0:
        together = min(left, 2 if bed.chance.random() < 0.5 or left == 4 else 3)
        yield together
        left -= together


def _rest(bed: _Bed, size: int, together: int) -> None:
    """One balloon into the largest gap or deepest valley, and those tied with it beside it."""
    allowed, group = bed.allowed(size), bed.new_group()
    d = bed.portions[size].diameter
    for number in range(together):
        cell = bed.valleys.best(size, allowed, 0.22 * d * bed.rough)
        if cell is None:
            return
        centre = bed.valleys.point(cell, size, 0.0)
        bed.put(size, centre, bed.tie_for(size, centre), group)
        if number == 0:
            x, y = bed.valleys.x - centre[0], (bed.valleys.y - centre[1])[:, None]
            allowed = allowed & (x * x + y * y <= (1.05 * d) ** 2)


def inner_band(frame: Frame, growth: Growth) -> tuple[Floats, Flags]:
    """The cells (m, 2) that coverage is judged over, mm, and which of them lie on the tube."""
    bed = _Bed(frame, growth)
    inner = bed.share.ravel() <= _COVERED_BAND
    return bed.valleys.cells[inner], bed.on_frame.ravel()[inner]


def sizes_of(portions: Sequence[Portion]) -> list[float]:
    """The diameters of a recipe as ``Grown.portion`` numbers them, the largest first."""
    return sorted((p.diameter for p in portions), reverse=True)
