"""One sheet that uses every shape, paint and setting the record has."""

from __future__ import annotations

from mockup.render.record import (
    Circle,
    Document,
    Ellipse,
    Group,
    Item,
    Line,
    Linear,
    Path,
    Place,
    Radial,
    Rect,
    Sheet,
    Stop,
    Style,
    Symbol,
    Text,
)

BODY = Radial(
    "gloss-teal",
    (
        Stop(0.0, "#9fe0dd"),
        Stop(0.26, "#3c9a9c"),
        Stop(0.46, "#1d6f75"),
        Stop(0.78, "#11494f"),
        Stop(1.0, "#082a30"),
    ),
    0.42, 0.38, 0.67, 0.35, 0.29,
)  # fmt: skip
EDGE = Radial("edge", (Stop(0.93, "#000000", 0.0), Stop(0.985, "#000000", 0.4)))
GLINT = Radial("glint", (Stop(0.0, "#ffffff", 0.9), Stop(1.0, "#ffffff", 0.0)))
BRASS = Linear("brass", (Stop(0.0, "#f3dfa0"), Stop(0.5, "#a8802a"), Stop(1.0, "#6b4d12")))
ACROSS = Linear(
    "across",
    (Stop(0.0, "#d04060"), Stop(1.0, "#4060d0", 0.5)),
    (110.0, 0.0),
    (150.0, 20.0),
    on_sheet=True,
)
BALLOON = Symbol(
    "balloon",
    (
        Circle((0.0, 0.0), 1.0, Style(fill=BODY)),
        Circle((0.0, 0.0), 1.0, Style(fill=EDGE)),
        Ellipse((-0.35, -0.4), 0.19, 0.09, Style(fill=GLINT), turn=-40.0),
        Text((0.0, 0.3), "A", 0.4, "middle", colour="#ffffff"),
    ),
)
RING = "M 150 60 A 20 20 0 1 1 149.99 60 Z M 150 68 A 12 12 0 1 1 149.99 68 Z"
WAVE = "M10 120 Q20 100 30 120 C40 140 50 100 60 120 L70 110 H80 V130 Z"

SHAPES: tuple[Item, ...] = (
    Circle((25.0, 25.0), 15.0, Style(fill=BODY, stroke="#202020", stroke_width=0.5)),
    Ellipse((65.0, 25.0), 18.0, 9.0, Style(fill=BRASS), turn=30.0),
    Rect(90.0, 10.0, 15.0, 30.0, Style(fill=BRASS, stroke="#302010"), corner=3.0),
    Rect(110.0, 10.0, 40.0, 30.0, Style(fill=ACROSS)),
    Circle((175.0, 25.0), 14.0, Style("#cc3344", "#113355", 4.0, opacity=0.5)),
    Circle((185.0, 30.0), 9.0, Style(fill=GLINT, opacity=0.8)),
    Line((10.0, 50.0), (110.0, 50.0), Style(stroke="#000000", stroke_width=0.35)),
    Line((10.0, 55.0), (110.0, 57.0), Style(stroke="#aa2200", stroke_width=0.7, dash=(3.0, 1.5))),
    Path("M12 65 L30 90 L48 65", Style(stroke="#225522", stroke_width=3.0, round_ends=True)),
    Path("M60 65 L64 90 L68 65", Style(stroke="#552222", stroke_width=2.0)),
    Path(WAVE, Style(fill=BODY, stroke="#333333")),
    Path(RING, Style(fill="#b08d3c"), evenodd=True),
    Path("M90 66 A14 8 25 0 0 112 86 A14 8 25 0 0 90 66 Z", Style(fill=BRASS)),
)
GROUPS: tuple[Item, ...] = (
    Group(
        (
            Circle((100.0, 120.0), 15.0, Style(fill="#2255aa")),
            Rect(85.0, 118.0, 30.0, 4.0, Style(fill="#ffdd55")),
            Group((Circle((110.0, 115.0), 8.0, Style(fill="#dd2255")),), opacity=0.5),
        ),
        kind="numeral",
        name="3 of 30",
        title="The 3 <& more>",
        clip="M88 105 H112 V135 H88 Z",
        opacity=0.75,
    ),
    Group(
        (Place(BALLOON, (140.0, 125.0), 14.0), Place(BALLOON, (165.0, 125.0), 9.0, 25.0)),
        kind="balloon",
        name="top 1",
    ),
)
WORDS: tuple[Item, ...] = (
    Text((10.0, 98.0), "Zoë & Łukasz — “Peña”", 3.5, role="title"),
    Text((105.0, 98.0), "Ωδή в среду", 3.5, "end", "bold", colour="#114477"),
    Text((190.0, 110.0), "AWAY 1:10", 5.0, "middle", turn=-90.0, role="dimension"),
    Text((100.0, 145.0), "Zoe\u0308 has no ⛷", 2.5, "middle"),
)


def everything() -> Sheet:
    """The sheet, 200 x 150 mm: 1000 x 750 pixels at 127 dpi."""
    return Sheet(200.0, 150.0, SHAPES + GROUPS + WORDS, name="Everything")


def document() -> Document:
    """Two pages of different size round it, with all that describes a document."""
    return Document(
        (everything(), Sheet(297.0, 210.0, WORDS, name="Second")),
        title="Ring for Zoë <& Łukasz>",
        author="Invented Balloons",
        subject="Colour proof",
        keywords=("proof", "ring"),
        language="en-GB",
    )
