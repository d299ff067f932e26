"""The frame's table: the keys of every kind of frame, and which go with which."""

from __future__ import annotations

from mockup.design.kinds import Choice, Number, Text, YesNo
from mockup.design.measures import Clock, Length
from mockup.design.tables import Key, Table

_INCH, _FOOT = 25.4, 304.8
_MOST_LINE = 200_000

GOES_WITH: dict[str, tuple[str, ...]] = {
    "ring": ("outside",),
    "arc": ("outside", "from", "to"),
    "pole": ("height",),
    "arch": ("width", "height", "legs"),
    "square": ("outside", "corner"),
    "hexagon": ("outside", "corner"),
    "heart": ("width", "height", "corner"),
    "spiral": ("outside", "inner", "turns"),
    "path": ("line", "drawing", "unit", "closed"),
    "wall": ("width", "height"),
}
"""The keys that each kind of frame has beside its tube."""

FRAME = Table(
    "the frame",
    "What the balloons are tied to.",
    (
        Key(
            "kind",
            Choice(tuple(GOES_WITH)),
            "A whole ring, or an arc of one; a pole, an arch, a wall, another shape, or any path.",
            "ring",
        ),
        Key(
            "outside",
            Length(4 * _INCH, 40 * _FOOT),
            "Outside diameter; of a square or hexagon from flat to flat.",
            "30in",
        ),
        Key("tube", Length(1.0, 12 * _INCH), "Diameter of the tube.", "1/2in"),
        Key("from", Clock('"9"'), "Where an arc begins, on the clock.", example='"9"'),
        Key("to", Clock('"3"'), "Where it ends, clockwise from there.", example='"3"'),
        Key(
            "width",
            Length(4 * _INCH, 100 * _FOOT),
            "Overall width of an arch (8ft), heart (36in) or wall (8ft).",
            example='"8ft"',
        ),
        Key(
            "height",
            Length(4 * _INCH, 100 * _FOOT),
            "Overall height of a pole (6ft), arch (7ft), heart (36in) or wall (6ft).",
            example='"7ft"',
        ),
        Key(
            "legs",
            Length(0.0, 100 * _FOOT),
            "Height of an arch's straight legs (a third of its height).",
            example='"2ft"',
        ),
        Key(
            "corner",
            Length(1.0, 20 * _FOOT),
            "Radius of the bends at the corners, or at a heart's notch and tip (2in).",
            example='"2in"',
        ),
        Key(
            "inner",
            Length(_INCH, 40 * _FOOT),
            "Across a spiral's first turn, where it begins (a quarter of its outside).",
            example='"8in"',
        ),
        Key("turns", Number(0.25, 20), "How often a spiral winds round (2).", example="2"),
        Key(
            "line",
            Text(_MOST_LINE, may_be_empty=False, several_lines=True),
            "A path in the form SVG writes it.",
            example='"M 0 0 C 40 -60 80 60 120 0"',
        ),
        Key(
            "drawing",
            Text(400, may_be_empty=False),
            "Or the .svg file with one path in it, beside the piece file.",
            example='"garland.svg"',
        ),
        Key(
            "unit",
            Length(0.01, 10 * _FOOT),
            "What one unit of the path measures (1mm).",
            example='"1in"',
        ),
        Key("closed", YesNo(), "true: the path must end where it begins."),
    ),
    apart=(("line", "drawing"),),
    example='{ outside = "30in" }',
)
