"""How long the writers take beside cairo itself, as ratios within one run.

The page holds 100 balloons of five painted layers in four colours, with forty lines of lettering.
"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from random import Random
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

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


def best(run: Callable[[], object], rounds: int = 5) -> float:
    """The shortest of several runs in seconds."""
    times = []
    for _ in range(rounds):
        begun = perf_counter()
        run()
        times.append(perf_counter() - begun)
    return min(times)


def by_cairosvg(svg: str) -> float:
    """Seconds in which CairoSVG paints ``svg`` into a PDF once it has read it."""
    from cairosvg.parser import Tree
    from cairosvg.surface import PDFSurface

    times = []
    for _ in range(2):
        tree = Tree(bytestring=svg.encode())
        begun = perf_counter()
        PDFSurface(tree, BytesIO(), 96).finish()
        times.append(perf_counter() - begun)
    return min(times)


@pytest.mark.parametrize("shared", [True, False], ids=["placed", "each its own"])
def test_a_page_to_pdf_beside_cairo_painting_its_svg(
    benchmark: BenchmarkFixture, shared: bool
) -> None:
    document = page(shared=shared)
    pdf_bytes(document)
    balloons = Sheet(210.0, 297.0, document.sheets[0].items[:100])
    yardstick = by_cairosvg(svg_text(balloons))
    benchmark.extra_info["cairosvg_balloons_only"] = yardstick
    benchmark(pdf_bytes, document)
    assert best(lambda: pdf_bytes(document)) <= 2.0 * yardstick


def test_a_page_to_svg_beside_cairo_painting_it(benchmark: BenchmarkFixture) -> None:
    document = page(shared=True)
    sheet = document.sheets[0]
    svg_text(sheet)
    yardstick = by_cairosvg(svg_text(Sheet(210.0, 297.0, sheet.items[:100])))
    benchmark(svg_text, sheet)
    assert best(lambda: svg_text(sheet)) <= yardstick


def test_a_page_to_png_beside_resvg(benchmark: BenchmarkFixture) -> None:
    from mockup.render.fallback import resvg_png_bytes

    sheet = page(shared=True).sheets[0]
    yardstick = best(lambda: resvg_png_bytes(sheet, 96.0), 1)
    benchmark(png_bytes, sheet, 96.0)
    assert best(lambda: png_bytes(sheet, 96.0), 2) <= yardstick
