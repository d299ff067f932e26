"""Which paper, which way round and at which scale: the largest preferred scale that fits."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from mockup.render.record import Point
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.paper import Paper
from mockup.render.sheets.plans import Plan
from mockup.render.sheets.scale import SCALES, DoesNotFit, scale_words

WELL = 10
"""A small sheet is taken when it shows the piece at 1 : 10 or larger; else a large one is tried."""

_STEP = 1.0

BoxesAt = Callable[[Plan, int], Sequence[Area]]
"""The boxes that the drawing inks about its origin at 1 : n, sheet mm."""
PlansOn = Callable[[Paper], Iterator[Plan]]
BarOn = Callable[[Plan, int], Point]
"""Width and height of the scale bar that stands in the drawing's lower left corner, mm."""


@dataclass(frozen=True)
class Spot:
    """Where the drawing's origin lands, and at which side of its foot the scale bar stands."""

    origin: Point
    bar_at: Literal["left", "right"] = "left"


@dataclass(frozen=True)
class Fitted:
    """A plan with the scale that fits it and where drawing and scale bar go."""

    plan: Plan
    scale: int
    spot: Spot


def fitted(
    papers: Sequence[Paper], plans_on: PlansOn, boxes_at: BoxesAt, bar_on: BarOn, scale: int | None
) -> Fitted:
    """The smallest paper that shows the piece well, or the one that shows it largest.

    ``papers`` come small first, and of two ways round the preferred first. With ``scale`` that one
    is used and nothing else. Raises ``DoesNotFit`` telling what would fit.
    """
    best: Fitted | None = None
    for paper in papers:
        found = largest(tuple(plans_on(paper)), boxes_at, bar_on, (scale,) if scale else SCALES)
        if found and (best is None or found.scale < best.scale):
            best = found
        if best and _is_last_of(paper, papers) and (scale or best.scale <= WELL):
            return best
    if best is None:
        raise DoesNotFit(_what_fits(papers, plans_on, boxes_at, bar_on, scale))
    return best


def _is_last_of(paper: Paper, papers: Sequence[Paper]) -> bool:
    """Whether both ways round of this size of paper have been seen."""
    return paper is [each for each in papers if each.name == paper.name][-1]


def largest(
    plans: Sequence[Plan], boxes_at: BoxesAt, bar_on: BarOn, scales: Sequence[int]
) -> Fitted | None:
    """The first plan that takes the drawing at the largest of ``scales``."""
    for scale in scales:
        for plan in plans:
            spot = placed(boxes_at(plan, scale), plan.drawing, bar_on(plan, scale))
            if spot is not None:
                return Fitted(plan, scale, spot)
    return None


def placed(boxes: Sequence[Area], room: Area, bar: Point) -> Spot | None:
    """Where the origin of ``boxes`` goes so that they lie in ``room`` clear of the scale bar.

    The bar stands in the lower left corner and the boxes in the middle where they can; else they
    move up or away from the bar by the least that clears it; else the bar changes corners. None
    where they do not fit.
    """
    whole = hull(boxes)
    middle = (
        room.x + (room.width - whole.width) / 2 - whole.x,
        room.y + (room.height - whole.height) / 2 - whole.y,
    )
    corners: tuple[tuple[Literal["left", "right"], float, int], ...] = (
        ("left", room.x, 1),
        ("right", room.right - bar[0], -1),
    )
    for side, x, away in corners:
        corner = Area(x, room.bottom - bar[1], *bar)
        for aside, up in _shifts(room.width - whole.width, room.height - whole.height):
            at = (middle[0] + away * aside, middle[1] - up)
            if not any(box.moved(*at).meets(corner) for box in boxes):
                return Spot(at, side)
    return None


def _shifts(spare_width: float, spare_height: float) -> Iterator[Point]:
    """Moves aside and up from the middle, small ones first; none where nothing is spare."""
    if min(spare_width, spare_height) < 0:
        return
    yield (0.0, 0.0)
    for step in range(1, 1 + int(max(spare_width, spare_height) / 2 / _STEP)):
        if step * _STEP <= spare_height / 2:
            yield (0.0, step * _STEP)
        if step * _STEP <= spare_width / 2:
            yield (step * _STEP, 0.0)
    yield (0.0, spare_height / 2)
    yield (spare_width / 2, 0.0)
    yield (spare_width / 2, spare_height / 2)


def _what_fits(
    papers: Sequence[Paper], plans_on: PlansOn, boxes_at: BoxesAt, bar_on: BarOn, scale: int | None
) -> str:
    """The sentence that tells which scales fit which papers."""
    names = " or ".join(dict.fromkeys(paper.words for paper in papers))
    if scale is None:
        return f"the piece does not fit {names} even at {scale_words(SCALES[-1])}"
    fits = [
        f"{scale_words(found.scale)} fits {paper.words}"
        for paper in papers
        if (found := largest(tuple(plans_on(paper)), boxes_at, bar_on, SCALES))
    ]
    instead = "; ".join(fits) or "take a larger paper"
    return f"the piece does not fit {names} at {scale_words(scale)}; {instead}"
