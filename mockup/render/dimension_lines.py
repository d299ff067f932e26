"""One dimension line after ISO 129-1: extension lines, arrows, figure and name."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from math import radians, tan
from typing import Literal

from mockup.render.record import Anchor, Line, Path, Point, Style, Text
from mockup.render.text import width

Edge = Literal["top", "bottom", "left", "right"]

ARROW = 2.5
"""Length of an arrow, mm; it opens 15 degrees."""
HALF_ARROW = ARROW * tan(radians(15.0 / 2))
BEYOND = 1.6
"""How far an extension line passes its dimension line, mm."""

_INK, _SOFT = "#1c1c1e", "#5b5e64"
LINE = Style(stroke=_INK, stroke_width=0.18)
EXTENSION = Style(stroke="#8a8e95", stroke_width=0.18)
ARROWHEAD = Style(fill=_INK)


@dataclass(frozen=True)
class Measure:
    """What is to be dimensioned: two points on the sheet, the printed figure and its name.

    On the top or bottom ``edge`` the distance across is meant, on the left or right the one up.
    Measures of one ``chain`` lie on one line where they find room on it.
    """

    name: str
    figure: str
    edge: Edge
    start: Point
    end: Point
    chain: str = ""

    @property
    def across(self) -> bool:
        """Whether it runs from left to right."""
        return self.edge in ("top", "bottom")

    @property
    def span(self) -> tuple[float, float]:
        """From where to where it runs along its line, mm on the sheet, low to high."""
        axis = 0 if self.across else 1
        low, high = sorted((self.start[axis], self.end[axis]))
        return low, high

    @property
    def length(self) -> float:
        """How long its line is on the sheet, mm."""
        return self.span[1] - self.span[0]


@dataclass(frozen=True)
class Heights:
    """Lettering heights of ISO 3098 for the figures and their names, mm."""

    figure: float = 2.5
    name: float = 1.8

    def inline(self, measure: Measure) -> float:
        """Width of name and figure side by side, mm."""
        name = width(measure.name, self.name)
        return width(measure.figure, self.figure) + (name + self.between if name else 0.0)

    def two_sided(self, measure: Measure) -> float:
        """Width of figure and name on the two sides of the line, mm."""
        return max(width(measure.figure, self.figure), width(measure.name, self.name))

    @property
    def between(self) -> float:
        """From the name to the figure beside it, mm."""
        return 0.6 * self.figure

    @property
    def below(self) -> float:
        """From the line down to the base of a name under it, mm."""
        return 1.1 + self.name

    @property
    def above(self) -> float:
        """From the line up to the base of a figure, so that its tails clear the line, mm."""
        return 0.36 * self.figure


@dataclass(frozen=True)
class Label:
    """A place for a label along its line.

    ``inline`` has name and figure side by side; ``beyond`` stands past the arrows.
    """

    centre: float
    wide: float
    inline: bool
    arrows_outside: bool
    beyond: bool = False


@dataclass(frozen=True)
class Drawn:
    """One dimension where it was put."""

    measure: Measure
    extensions: tuple[Line, ...]
    line: Line
    arrows: tuple[Path, ...]
    texts: tuple[Text, ...]

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every line of it."""
        return (*self.extensions, self.line)


def draw(measure: Measure, at: float, label: Label, heights: Heights) -> Drawn:
    """The dimension with its line at ``at`` (y for one across, x for an upright one), sheet mm."""
    low, high = measure.span
    reach = _reach(measure, label)
    out = BEYOND if measure.edge in ("right", "bottom") else -BEYOND
    features = sorted((measure.start, measure.end), key=lambda p: p[0 if measure.across else 1])
    extensions = tuple(
        Line(feature, _point(measure, along, at + out), EXTENSION)
        for feature, along in zip(features, (low, high), strict=True)
    )
    line = Line(_point(measure, reach[0], at), _point(measure, reach[1], at), LINE)
    arrows = (
        _arrow(measure, low, at, label.arrows_outside),
        _arrow(measure, high, at, not label.arrows_outside),
    )
    return Drawn(measure, extensions, line, arrows, _texts(measure, label, at, heights))


def _reach(measure: Measure, label: Label) -> tuple[float, float]:
    """The two ends of the dimension line: out to an outside label and its arrow tails."""
    low, high = measure.span
    if not label.arrows_outside:
        return low, high
    half = label.wide / 2
    return min(low - 2 * ARROW, label.centre - half), max(high + 2 * ARROW, label.centre + half)


def _point(measure: Measure, along: float, at: float) -> Point:
    return (along, at) if measure.across else (at, along)


def _arrow(measure: Measure, tip: float, at: float, backward: bool) -> Path:
    """A filled arrow with its tip at ``tip``; ``backward`` has its body on the lower side."""
    back = tip - ARROW if backward else tip + ARROW
    points = (
        _point(measure, tip, at),
        _point(measure, back, at - HALF_ARROW),
        _point(measure, back, at + HALF_ARROW),
    )
    return Path("M" + " L".join(f"{x:.3f} {y:.3f}" for x, y in points) + " Z", ARROWHEAD)


def _texts(measure: Measure, label: Label, at: float, heights: Heights) -> tuple[Text, ...]:
    """The figure, and its name before it or below the line."""
    above, below = at - heights.above, at + heights.below
    figure = partial(_figure, measure, heights)
    name = partial(_name, measure, heights)
    if not measure.name:
        return (figure(label.centre, above, "middle"),)
    if not label.inline:
        return (figure(label.centre, above, "middle"), name(label.centre, below, "middle"))
    half = label.wide / 2 if measure.across else -label.wide / 2  # upright text runs up the sheet
    return (
        figure(label.centre + half, above, "end"),
        name(label.centre - half, above, "start"),
    )


def _figure(measure: Measure, heights: Heights, along: float, base: float, anchor: Anchor) -> Text:
    at, turn = _point(measure, along, base), _turn(measure)
    return Text(
        at,
        measure.figure,
        heights.figure,
        anchor,
        colour=_INK,
        turn=turn,
        role="dimension",
    )


def _name(measure: Measure, heights: Heights, along: float, base: float, anchor: Anchor) -> Text:
    at, turn = _point(measure, along, base), _turn(measure)
    return Text(
        at,
        measure.name,
        heights.name,
        anchor,
        colour=_SOFT,
        turn=turn,
        role="dimension name",
    )


def _turn(measure: Measure) -> float:
    return 0.0 if measure.across else -90.0
