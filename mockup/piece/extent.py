"""How much room the whole piece takes: frame, stand, balloons and numerals."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from mockup.design.model import StandSpec
from mockup.packing.frames import Frame
from mockup.panel.fit import Fit
from mockup.piece.placed import Balloon, Extent

# What is level with the lowest point, mm; what is so many tubes apart is another foot.
_LEVEL, _APART, _MOST_FEET = 0.5, 6.0, 4

Box = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


def foot(frame: Frame) -> float:
    """The frame's lowest point (its outer edge), mm."""
    return float(frame.sample(2.0)[:, 1].min()) - frame.tube / 2


def floor(frame: Frame, stand: StandSpec | None) -> float:
    """The height of the floor (y), mm: under the stand, or under the frame's lowest point."""
    return foot(frame) - (stand.rise if stand else 0.0)


def feet(frame: Frame) -> tuple[float, ...]:
    """Where a stand's poles meet the frame, x in mm: under each stretch of its lowest level.

    A frame that has uprights names them itself.
    """
    own: tuple[float, ...] | None = getattr(frame, "feet", None)
    if own is not None:
        return own
    line = np.asarray(frame.sample(2.0))
    low = line[line[:, 1] <= line[:, 1].min() + _LEVEL]
    across = np.sort(low[:, 0])
    parts = np.split(across, np.flatnonzero(np.diff(across) > _APART * frame.tube) + 1)
    if len(parts) > _MOST_FEET:
        parts = [parts[0], parts[-1]]
    return tuple(round(float(part.min() + part.max()) / 2, 6) + 0.0 for part in parts)


def extent(
    frame: Frame,
    stand: StandSpec | None,
    balloons: Iterable[Balloon],
    fit: Fit | None,
    slab: tuple[float, float],
) -> Extent:
    """The box round everything; ``slab`` is the z-range of the numerals' weld, mm."""
    boxes = [_frame_box(frame), *_balloon_box(list(balloons)), *_numeral_boxes(fit, slab)]
    if stand:
        half, low = stand.plate / 2, floor(frame, stand)
        for x in feet(frame):
            boxes.append(((x - half, x + half), (low, low + stand.plate_thickness), (-half, half)))
    spans = [(min(b[i][0] for b in boxes), max(b[i][1] for b in boxes)) for i in range(3)]
    return Extent(spans[0], spans[1], spans[2])


def _frame_box(frame: Frame) -> Box:
    line, half = np.asarray(frame.sample(2.0)), frame.tube / 2
    (x0, y0), (x1, y1) = line.min(axis=0), line.max(axis=0)
    return (
        (float(x0) - half, float(x1) + half),
        (float(y0) - half, float(y1) + half),
        (-half, half),
    )


def _balloon_box(balloons: Sequence[Balloon]) -> Iterator[Box]:
    """The box round all balloons; none where there are none."""
    if not balloons:
        return
    centres = np.array([each.centre for each in balloons])
    radii = np.array([each.radius for each in balloons])[:, None]
    low, high = (centres - radii).min(axis=0).tolist(), (centres + radii).max(axis=0).tolist()
    yield (low[0], high[0]), (low[1], high[1]), (low[2], high[2])


def _numeral_boxes(fit: Fit | None, slab: tuple[float, float]) -> Iterator[Box]:
    middle, half = (slab[0] + slab[1]) / 2, (slab[1] - slab[0]) / 2
    for shape in fit.numerals if fit else ():
        deep = max(half, shape.bulge)
        yield (
            (shape.x - shape.width / 2, shape.x + shape.width / 2),
            (shape.y - shape.height / 2, shape.y + shape.height / 2),
            (middle - deep, middle + deep),
        )
