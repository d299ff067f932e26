"""How long the writers take beside cairo itself, as ratios within one run.

The page holds 100 balloons of five painted layers in four colours, with forty lines of lettering.
"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from random import Random

import pytest

from mockup.render.pdf import pdf_bytes
from mockup.render.png import png_bytes
from mockup.render.record import (
    Circle,
    Document,
    Ellipse,
    Group,
    Item,
    Place,
    Radial,
    Sheet,
    Stop,
    Style,
    Symbol,
    Text,
)
from mockup.render.svg import svg_text
from tests.benchmarks.ratios import by_turns, tell

COLOURS = {"teal": "#1d6f75", "oat": "#d9c7a5", "brass": "#b08d3c", "plum": "#5b2c4f"}
EDGE = Radial("edge", (Stop(0.93, "#000000", 0.0), Stop(0.985, "#000000", 0.4)))
RIM = Radial("rim", (Stop(0.88, "#ffffff", 0.0), Stop(0.945, "#ffffff", 0.2)))
GLINT = Radial("glint", (Stop(0.0, "#ffffff", 0.9), Stop(1.0, "#ffffff", 0.0)))
SHADOW = Radial("shadow", (Stop(0.0, "#000000", 0.3), Stop(1.0, "#000000", 0.0)))


def balloon(name: str, colour: str, *, apart: int = 0) -> Symbol:
    stops = tuple(Stop(k / 5, colour if k else "#ffffff") for k in range(6))
    body = Radial(f"body-{name}-{apart}", stops, 0.42, 0.38, 0.67, 0.35, 0.29)
    return Symbol(
        f"balloon-{name}-{apart}",
        (
            Circle((0.05, 0.09), 1.11, Style(SHADOW)),
            Circle((0.0, 0.0), 1.0, Style(body)),
            Circle((0.0, 0.0), 1.0, Style(EDGE)),
            Circle((0.0, 0.0), 1.0, Style(RIM)),
            Ellipse((-0.35, -0.4), 0.165, 0.095, Style(GLINT), -40.0),
        ),
    )


def page(*, shared: bool) -> Document:
    """100 balloons: placed symbols, or with every balloon drawn on its own."""
    chance = Random(30)
    names = list(COLOURS)
    items: list[Item] = []
    for k in range(100):
        name = names[k % 4]
        symbol = balloon(name, COLOURS[name], apart=0 if shared else k)
        at = (chance.uniform(20.0, 190.0), chance.uniform(20.0, 250.0))
        items.append(Group((Place(symbol, at, chance.uniform(8.0, 20.0)),), "balloon", f"no {k}"))
    for k in range(40):
        items.append(Text((15.0, 20.0 + 6.0 * k), f"top section, quad {k}: 11 in, 4 strokes", 2.5))
    return Document((Sheet(210.0, 297.0, tuple(items)),), "Bench")


def by_cairosvg(svg: str) -> Callable[[], object]:
    """CairoSVG reading ``svg`` and painting it into a PDF."""
    from cairosvg.parser import Tree
    from cairosvg.surface import PDFSurface

    return lambda: PDFSurface(Tree(bytestring=svg.encode()), BytesIO(), 96).finish()


@pytest.mark.parametrize("shared", [True, False], ids=["placed", "each its own"])
def test_a_page_to_pdf_beside_cairosvg_painting_it(shared: bool) -> None:
    document = page(shared=shared)
    theirs = by_cairosvg(svg_text(Sheet(210.0, 297.0, document.sheets[0].items[:100])))
    ratio = by_turns(lambda: pdf_bytes(document), theirs, rounds=3)
    balloons = "placed" if shared else "each drawn on its own"
    tell(f"a lettered page of balloons {balloons} to PDF against CairoSVG", ratio, 1.0)


def test_a_page_to_svg_beside_cairosvg_painting_it() -> None:
    sheet = page(shared=True).sheets[0]
    theirs = by_cairosvg(svg_text(Sheet(210.0, 297.0, sheet.items[:100])))
    ratio = by_turns(lambda: svg_text(sheet), theirs, rounds=3)
    tell("a lettered page written as SVG over CairoSVG painting it", ratio, 1.0)


def test_a_page_to_png_beside_resvg() -> None:
    from mockup.render.fallback import resvg_png_bytes

    sheet = page(shared=True).sheets[0]
    ratio = by_turns(lambda: png_bytes(sheet, 96.0), lambda: resvg_png_bytes(sheet, 96.0), rounds=3)
    tell("a lettered page to PNG against resvg", ratio, 1.0)
