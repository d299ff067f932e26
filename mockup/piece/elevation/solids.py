"""What of a piece stands in the way of another, or of people: balls on all that is solid of it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from mockup.piece.elevation.standing import Elevation, Standing
from mockup.piece.extent import feet, floor, foot
from mockup.piece.placed import Extent, Piece
from mockup.records import dataclass

Floats = NDArray[np.float64]
_GRID = 25.0
_PART = 1000


@dataclass(frozen=True)
class Meeting:
    """Two pieces that run into each other by ``depth`` mm."""

    first: Standing
    second: Standing
    depth: float


class Solids:
    """The balls (k, 4) of each piece: centre and radius, mm of the setting; found once a piece."""

    def __init__(self) -> None:
        self._own: dict[int, Floats] = {}

    def of(self, standing: Standing) -> Floats:
        """The balls of a piece where it stands."""
        key = id(standing.piece)
        if key not in self._own:
            self._own[key] = np.vstack(list(_solid(standing.piece)))
        return np.asarray(self._own[key] + np.array([*standing.at, 0.0]))


def meetings(elevation: Elevation) -> Iterator[Meeting]:
    """Every two pieces of which some parts would be in one place, and by how much they are."""
    solids = Solids()
    for one, other in combinations(elevation.standings, 2):
        room = _shared(one.box, other.box)
        if room is None:
            continue
        depth = _depth(_within(solids.of(one), room), _within(solids.of(other), room))
        if depth > 0.0:
            yield Meeting(one, other, depth)


def _shared(one: Extent, other: Extent) -> Extent | None:
    ranges = [
        (max(a[0], b[0]), min(a[1], b[1]))
        for a, b in ((one.x, other.x), (one.y, other.y), (one.z, other.z))
    ]
    return Extent(*ranges) if all(low < high for low, high in ranges) else None


def _within(balls: Floats, room: Extent) -> Floats:
    low = np.array([room.x[0], room.y[0], room.z[0]])
    high = np.array([room.x[1], room.y[1], room.z[1]])
    r = balls[:, 3:]
    return np.asarray(balls[((balls[:, :3] + r >= low) & (balls[:, :3] - r <= high)).all(axis=1)])


def _depth(one: Floats, other: Floats) -> float:
    """How deep the deepest ball of one lies in a ball of the other, mm; 0 where none does."""
    worst = 0.0
    for start in range(0, len(one), _PART):
        some = one[start : start + _PART, None]
        gap = np.sqrt(((some[..., :3] - other[None, :, :3]) ** 2).sum(axis=2))
        worst = max(worst, float((some[..., 3] + other[None, :, 3] - gap).max(initial=0.0)))
    return worst


def _solid(piece: Piece) -> Iterator[Floats]:
    yield np.array([(*b.centre, b.radius) for b in piece.balloons]).reshape(-1, 4)
    half = piece.frame.tube / 2
    line = np.asarray(piece.frame.sample(2 * half))
    yield _balls(line[:, 0], line[:, 1], np.zeros(len(line)), half)
    yield from _stands(piece, half)
    for shape in piece.fit.numerals if piece.fit else ():
        thick = piece.design.panel.thickness / 2 if piece.design.panel else half
        across = _steps(shape.x - shape.width / 2 + thick, shape.x + shape.width / 2 - thick)
        up = _steps(shape.y - shape.height / 2 + thick, shape.y + shape.height / 2 - thick)
        x, y = (each.ravel() for each in np.meshgrid(across, up))
        yield _balls(x, y, np.full(len(x), half), thick)


def _stands(piece: Piece, half: float) -> Iterator[Floats]:
    stand = piece.design.stand
    if stand is None:
        return
    low, thick = floor(piece.frame, stand), stand.plate_thickness / 2
    pole = _steps(low + half, max(low + half, foot(piece.frame)))
    ring = np.arange(0.0, 2 * np.pi, 0.1)
    rims = [(r * np.cos(ring), r * np.sin(ring)) for r in _steps(_GRID, stand.plate / 2 - thick)]
    for x in feet(piece.frame):
        yield _balls(np.full(len(pole), x), pole, np.zeros(len(pole)), half)
        for across, front in rims:
            yield _balls(x + across, np.full(len(across), low + thick), front, thick)


def _steps(low: float, high: float) -> Floats:
    """Places from ``low`` to ``high`` at most a grid apart."""
    return np.linspace(low, max(low, high), max(2, int((high - low) / _GRID) + 2))


def _balls(x: Floats, y: Floats, z: Floats, radius: float) -> Floats:
    return np.column_stack([x, y, z, np.full(len(x), radius)])
