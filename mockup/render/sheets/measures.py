"""What is dimensioned on a proof: figures of the layout itself, each once, and where they show."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from mockup.lengths import Unit, format_length, format_room
from mockup.piece.extent import feet
from mockup.piece.hanging import NOTICED, Hanging, hanging, numerals_box
from mockup.piece.placed import Piece
from mockup.render.dimensions import Edge, Measure
from mockup.render.record import Point

Units = Literal["own", "both"]
OnSheet = Callable[[float, float], Point]
"""From mm of the piece as it is seen (right, up) to the sheet."""

SAME = 25.4 / 16
"""Ends nearer than this, mm, are one place in print, so that one dimension serves for both."""
_TOUCH = 0.01


@dataclass(frozen=True)
class Printed:
    """How lengths are printed: in the design's unit, or in that and the other.

    ``large`` has those of a room in feet or metres.
    """

    unit: Unit
    units: Units = "own"
    large: bool = False

    def figure(self, mm: float) -> str:
        """A length as it is printed.

        >>> Printed("in", "both").figure(762.0)
        '30 in (76.2 cm)'
        """
        written = format_room if self.large else format_length
        own = written(mm, self.unit)
        other: Unit = "cm" if self.unit == "in" else "in"
        return f"{own} ({written(mm, other)})" if self.units == "both" else own


@dataclass(frozen=True)
class Span:
    """A length of the piece, ``mm``, between two points of it as it is seen (right, up)."""

    name: str
    mm: float
    edge: Edge
    ends: tuple[Point, Point]
    sign: str = ""
    chain: str = ""

    @property
    def along(self) -> tuple[float, float]:
        """From where to where it runs, low to high, mm."""
        axis = 0 if self.edge in ("top", "bottom") else 1
        low, high = sorted(end[axis] for end in self.ends)
        return low, high


def front_spans(piece: Piece) -> list[Span]:
    """What a front view is dimensioned by: ring, window, numerals and overall size."""
    found = (*_ring(piece), *_window(piece), *_overall(piece), *_numerals(piece))
    return list(_each_once(found))


def depth_span(piece: Piece) -> Span:
    """The overall depth under a view from the right, where -z runs to the right."""
    near, far = -piece.extent.z[1], -piece.extent.z[0]
    foot = piece.extent.y[0]
    ends = ((near, foot), (far, foot))
    return Span("overall depth", piece.extent.depth, "bottom", ends)


def plan_depth_span(piece: Piece) -> Span:
    """The overall depth beside a view from above, where -z runs up."""
    right, near, far = piece.extent.x[1], -piece.extent.z[1], -piece.extent.z[0]
    return Span("overall depth", piece.extent.depth, "right", ((right, near), (right, far)))


def measured(spans: Iterable[Span], on_sheet: OnSheet, printed: Printed) -> list[Measure]:
    """The spans where they lie on the sheet, with their printed figures."""
    return [
        Measure(
            span.name,
            f"{span.sign}{printed.figure(span.mm)}",
            span.edge,
            on_sheet(*span.ends[0]),
            on_sheet(*span.ends[1]),
            span.chain,
        )
        for span in spans
    ]


def _each_once(spans: Iterable[Span]) -> Iterator[Span]:
    """Spans between the same two places as one, under all their names."""
    kept: list[Span] = []
    for span in spans:
        same = next((at for at, other in enumerate(kept) if _same(span, other)), None)
        if same is None:
            kept.append(span)
        else:
            kept[same] = replace(kept[same], name=f"{kept[same].name}, {span.name}")
    for span in kept:
        first, comma, last = span.name.rpartition(", ")
        yield replace(span, name=f"{first} and {last}") if comma else span


def _same(a: Span, b: Span) -> bool:
    across = ("top", "bottom")
    if (a.edge in across) != (b.edge in across):
        return False
    return all(abs(one - two) < SAME for one, two in zip(a.along, b.along, strict=True))


def _overall(piece: Piece) -> Iterator[Span]:
    (left, right), (low, high) = piece.extent.x, piece.extent.y
    ends = (_at_x(piece, left, -1), _at_x(piece, right, 1))
    yield Span("overall width", piece.extent.width, "bottom", ends)
    ends = (_at_y(piece, low, -1), _at_y(piece, high, 1))
    yield Span("overall height", piece.extent.height, "left", ends)


def _ring(piece: Piece) -> Iterator[Span]:
    """The outside diameter, where both ends of the level diameter are on the frame."""
    frame = piece.design.frame
    if frame.kind not in ("ring", "arc"):
        yield from _shape(piece)
        return
    if frame.kind == "arc" and not (_on_arc(piece, 90.0) and _on_arc(piece, 270.0)):
        return
    half = frame.outside / 2
    yield Span(frame.kind, frame.outside, "bottom", ((-half, 0.0), (half, 0.0)), "Ø ")


def _shape(piece: Piece) -> Iterator[Span]:
    """The overall width and height of a frame that is no ring; of a pole its height alone."""
    kind, half = piece.frame.kind, piece.frame.tube / 2
    line = piece.frame.sample(2.0)
    left, right = (line[at] for at in (line[:, 0].argmin(), line[:, 0].argmax()))
    low, high = (line[at] for at in (line[:, 1].argmin(), line[:, 1].argmax()))
    wide, tall = float(right[0] - left[0]) + 2 * half, float(high[1] - low[1]) + 2 * half
    if wide > 2 * piece.frame.tube:
        ends = (left[0] - half, left[1]), (right[0] + half, right[1])
        yield Span(kind, wide, "bottom", _points(ends))
    ends = (low[0], low[1] - half), (high[0], high[1] + half)
    yield Span(f"{kind} height", tall, "left", _points(ends))


def _points(ends: tuple[tuple[float, float], tuple[float, float]]) -> tuple[Point, Point]:
    """Ends as plain numbers, out of numpy's."""
    (x0, y0), (x1, y1) = ends
    return (float(x0), float(y0)), (float(x1), float(y1))


def _on_arc(piece: Piece, deg: float) -> bool:
    frame = piece.design.frame
    sweep = (frame.end_deg - frame.start_deg) % 360.0 or 360.0
    return (deg - frame.start_deg) % 360.0 <= sweep


def _at_x(piece: Piece, x: float, way: int) -> Point:
    """The point of the outline that reaches furthest left (``way`` -1) or right (1)."""
    touching = [b for b in piece.balloons if abs(b.centre[0] + way * b.radius - x) < _TOUCH]
    stand = piece.design.stand
    if stand and not touching:
        plates = (foot + way * stand.plate / 2 for foot in feet(piece.frame))
        if any(abs(edge - x) < _TOUCH for edge in plates):
            return (x, piece.extent.y[0])
    return (x, min((b.centre[1] for b in touching), key=abs, default=0.0))


def _at_y(piece: Piece, y: float, way: int) -> Point:
    """The leftmost point of the outline that reaches furthest down (``way`` -1) or up (1)."""
    line = piece.frame.sample(2.0)
    reached = abs(line[:, 1] + way * piece.design.frame.tube / 2 - y) < _TOUCH
    touching = [float(x) for x in line[reached, 0]]
    touching += [
        b.centre[0] for b in piece.balloons if abs(b.centre[1] + way * b.radius - y) < _TOUCH
    ]
    if piece.design.stand and way < 0:
        touching.append(min(feet(piece.frame)) - piece.design.stand.plate / 2)
    return (min(touching, default=0.0), y)


def _numerals(piece: Piece) -> Iterator[Span]:
    fit = piece.fit
    if fit is None or not fit.numerals:
        return
    left, low, right, high = numerals_box(fit)
    many = len(fit.numerals) > 1
    yield Span(
        "numerals" if many else "numeral", fit.height, "right", ((right, low), (right, high))
    )
    name = "row of numerals" if many else "numeral"
    yield Span(name, fit.width, "top", ((left, high), (right, high)))


def _window(piece: Piece) -> Iterator[Span]:
    """Width and height of the opening that is seen, through its centre."""
    seen = piece.opening
    if piece.design.panel is None or seen is None or not seen.width:
        return
    (cx, cy, _), (west, east), (foot, top) = seen.disc, seen.across, seen.up
    names = _clearances(hanging(piece), piece.design.unit)
    yield Span(f"window{names[0]}", seen.width, "top", ((west, cy), (east, cy)))
    yield Span(f"window{names[1]}", seen.height, "right", ((cx, foot), (cx, top)))


def _clearances(hangs: Hanging | None, unit: Unit) -> tuple[str, str]:
    """How far the numerals stay from the window's ends, where they are within it: level, upright.

    Few words, so that they find room on the dimension of a small window: upright the least, and
    level nothing of a row that hangs in the middle, but both ends of one that hangs aside.
    """
    if hangs is None:
        return "", ""
    left, right, least = hangs.left, hangs.right, min(hangs.above, hangs.below)
    aside = abs(hangs.aside) >= NOTICED and min(left, right) >= 0
    first, second, clear = (format_length(room, unit) for room in (left, right, least))
    return (
        f" ({first} clear left and {second} right)" if aside else "",
        f" ({clear} clear)" if least >= 0 else "",
    )
