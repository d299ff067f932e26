"""Dimensions after ISO 129-1, placed so that no label meets another label or a line.

Thin lines, filled 15 degree arrows, name and figure above the line, read from below or from the
right; the first line lies 10 mm off the outline and each next one 8 mm further. Where the line is
too short for both, the name goes below it; where it is too short for the figure, arrows and figure
go outside.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, zip_longest

from mockup.render.dimension_lines import (
    ARROW,
    EXTENSION,
    Drawn,
    Edge,
    Heights,
    Label,
    Measure,
    draw,
)
from mockup.render.record import Group, Item, Line
from mockup.render.text import bounds

__all__ = ["Box", "Dimensioned", "Edge", "Heights", "Measure", "dimensioned"]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom on the sheet, mm."""

FIRST, NEXT = 10.0, 8.0
"""From the outline to the first dimension line and from each to the next, mm (ISO 129-1)."""
_CLEAR = 1.0
_PATIENCE, _MOST_LEVELS = 3, 12


@dataclass(frozen=True)
class Dimensioned:
    """Extension lines to lie behind the view, dimensions over it, and the boxes of what is inked.

    ``boxes`` begin with the view's own outline.
    """

    behind: Group
    over: Group
    boxes: tuple[Box, ...]

    @property
    def box(self) -> Box:
        """The one box round everything."""
        lefts, tops, rights, bottoms = zip(*self.boxes, strict=True)
        return min(lefts), min(tops), max(rights), max(bottoms)


def dimensioned(
    measures: Sequence[Measure], outline: Box, heights: Heights | None = None
) -> Dimensioned:
    """Every measure drawn round ``outline``, the shorter ones nearer to it.

    >>> ring = Measure("ring", "30 in", "bottom", (10.0, 40.0), (86.2, 40.0))
    >>> dimensioned([ring], (10.0, 2.0, 86.2, 78.2)).over.items[0].name
    'ring'
    """
    lettered = heights or Heights()
    drawn: list[Drawn] = []
    for edge in ("bottom", "right", "top", "left"):
        own = sorted((m for m in measures if m.edge == edge), key=lambda m: m.length)
        level, chains = 0, dict[str, int]()
        for at, measure in enumerate(own):
            start = chains.get(measure.chain, level) if measure.chain else level
            one, after = _placed(
                measure, own[at + 1 :], drawn, outline=outline, level=start, heights=lettered
            )
            chains.setdefault(measure.chain, after - 1)
            level = max(level, after)
            drawn.append(one)
    return Dimensioned(
        Group(tuple(line for one in drawn for line in one.extensions), kind="extension lines"),
        Group(tuple(_group(one) for one in drawn), kind="dimensions"),
        (outline, *(box for one in drawn for box in _boxes(one))),
    )


def _group(one: Drawn) -> Group:
    words = f"{one.measure.name} {one.measure.figure}"
    items: tuple[Item, ...] = (one.line, *one.arrows, *one.texts)
    return Group(items, kind="dimension", name=one.measure.name, title=words)


def _placed(
    measure: Measure,
    later: Sequence[Measure],
    drawn: Sequence[Drawn],
    *,
    outline: Box,
    level: int,
    heights: Heights,
) -> tuple[Drawn, int]:
    """The measure at the first level and label place that meets nothing; and the next level."""
    places = list(_label_places(measure, later, heights))
    inside = [label for label in places if not label.beyond]
    outside = [label for label in places if label.beyond]
    tries = [
        *((at, label) for at in range(level, level + _PATIENCE) for label in inside),
        *((at, label) for at in range(level, level + _MOST_LEVELS) for label in outside),
    ]
    for tried, label in tries:
        one = draw(measure, _line_at(measure.edge, outline, tried), label, heights)
        if not _meets(one, later, drawn):
            return one, tried + 1
    # What still collides is told by the check of the whole sheet.
    last = draw(measure, _line_at(measure.edge, outline, level), places[0], heights)
    return last, level + 1


def _line_at(edge: Edge, outline: Box, level: int) -> float:
    off = FIRST + NEXT * level
    left, top, right, bottom = outline
    return {"left": left - off, "top": top - off, "right": right + off, "bottom": bottom + off}[
        edge
    ]


def _label_places(measure: Measure, later: Sequence[Measure], heights: Heights) -> Iterator[Label]:
    """Where the label may stand, the best first."""
    inline, two_sided = heights.inline(measure), heights.two_sided(measure)
    for wide, is_inline, around in (
        (inline, True, ARROW + _CLEAR),
        (two_sided, False, ARROW + _CLEAR),
        (two_sided, False, _CLEAR),
    ):
        for centre in _centres(measure, later, wide / 2 + around):
            yield Label(centre, wide, is_inline, arrows_outside=around < ARROW)
    for centre in _centres_outside(measure, later, two_sided / 2 + _CLEAR):
        yield Label(centre, two_sided, inline=False, arrows_outside=True, beyond=True)


def _centres_outside(measure: Measure, later: Sequence[Measure], room: float) -> Iterator[float]:
    """Middles beyond the arrows, first where reading goes on; further out past other lines."""
    low, high = measure.span
    ends = [end for other in later for end in other.span]
    above = (high + 2 * ARROW, *sorted(end for end in ends if end > high))
    below = (low - 2 * ARROW, *sorted((end for end in ends if end < low), reverse=True))
    ups, downs = [end + room for end in above], [end - room for end in below]
    for up, down in zip_longest(ups, downs):
        for centre in (up, down) if measure.across else (down, up):
            if centre is not None:
                yield centre


def _centres(measure: Measure, later: Sequence[Measure], room: float) -> Iterator[float]:
    """Middles along the line with ``room`` on both sides, clear of lines that cross it."""
    low, high = measure.span
    cuts = sorted({low, high, *(end for m in later for end in m.span if low < end < high)})
    for a, b in ((low, high), *pairwise(cuts)):
        if b - a >= 2 * room:
            yield (a + b) / 2


def _meets(one: Drawn, later: Sequence[Measure], drawn: Sequence[Drawn]) -> bool:
    """Whether its labels meet another label or line, or its lines another label."""
    labels = [bounds(text) for text in one.texts]
    others = [bounds(text) for two in drawn for text in two.texts]
    lines = [_line_box(line) for two in drawn for line in two.lines]
    own = [_line_box(line) for line in one.lines]
    rays = [ray for measure in later for ray in _rays(measure)]
    return any(_overlap(a, b) for a in labels for b in (*others, *lines, *rays)) or any(
        _overlap(a, b) for a in own for b in others
    )


def _rays(measure: Measure) -> Iterator[Box]:
    """Where the extension lines of a dimension further out will pass."""
    far = 1e4 if measure.edge in ("right", "bottom") else -1e4
    for point in (measure.start, measure.end):
        end = (point[0], far) if measure.across else (far, point[1])
        yield _line_box(Line(point, end, EXTENSION))


def _line_box(line: Line) -> Box:
    (x0, y0), (x1, y1) = line.start, line.end
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _boxes(one: Drawn) -> Iterator[Box]:
    yield from (bounds(text) for text in one.texts)
    yield from (_line_box(line) for line in one.lines)
