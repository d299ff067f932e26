"""The same hundred shaded circles by our writers and by others, in one run.

uv run pytest tests/benchmarks/test_drawing_rivals_bench.py -s
"""

from __future__ import annotations

from io import BytesIO
from random import Random
from typing import Any

import pytest

from mockup.render.fallback import resvg_png_bytes
from mockup.render.pdf import POINTS_PER_MM, pdf_bytes
from mockup.render.png import png_bytes
from mockup.render.record import Circle, Document, Place, Radial, Sheet, Stop, Style, Symbol
from tests.benchmarks.ratios import by_turns, tell

WIDE, HIGH, COUNT = 210.0, 297.0, 100
SHADES = (("#e9f4f4", "#1d6f75", "#0b3336"), ("#fbf6ec", "#d9c7a5", "#7c6d50"))
FOCUS, BODY = (0.36, 0.30), (0.42, 0.38, 0.67)


def balls() -> list[tuple[float, float, float, int]]:
    """Middle, radius and shade of each, mm."""
    chance = Random(30)
    return [
        (chance.uniform(20, 190), chance.uniform(20, 277), chance.uniform(8, 20), k % 2)
        for k in range(COUNT)
    ]


def symbol(shade: int) -> Symbol:
    light, base, dark = SHADES[shade]
    stops = (Stop(0.0, light), Stop(0.45, base), Stop(1.0, dark))
    body = Radial(f"body-{shade}", stops, *BODY, *FOCUS)
    return Symbol(f"ball-{shade}", (Circle((0.0, 0.0), 1.0, Style(body)),))


def document() -> Document:
    symbols = [symbol(shade) for shade in range(len(SHADES))]
    items = tuple(Place(symbols[shade], (x, y), r) for x, y, r, shade in balls())
    return Document((Sheet(WIDE, HIGH, items),), "Rivals")


def rgb(colour: str) -> tuple[float, float, float]:
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


def by_matplotlib() -> bytes:
    """A picture of the shading clipped to each circle: matplotlib has no radial gradients."""
    import numpy as np
    from matplotlib.backends.backend_pdf import FigureCanvasPdf
    from matplotlib.colors import LinearSegmentedColormap
    from matplotlib.figure import Figure
    from matplotlib.patches import Circle as Round

    figure = Figure(figsize=(WIDE / 25.4, HIGH / 25.4))
    FigureCanvasPdf(figure)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_xlim(0, WIDE)
    axes.set_ylim(HIGH, 0)
    axes.axis("off")
    side = np.linspace(-1.0, 1.0, 64)
    fx, fy = 2 * FOCUS[0] - 1, 2 * FOCUS[1] - 1
    shading = np.hypot(side[None, :] - fx, side[:, None] - fy)
    maps = [LinearSegmentedColormap.from_list(f"s{n}", list(s)) for n, s in enumerate(SHADES)]
    for x, y, r, shade in balls():
        box = (x - r, x + r, y + r, y - r)
        picture = axes.imshow(shading, extent=box, cmap=maps[shade], aspect="auto")
        picture.set_clip_path(Round((x, y), r, transform=axes.transData))
    axes.set_xlim(0, WIDE)
    axes.set_ylim(HIGH, 0)
    out = BytesIO()
    figure.savefig(out, format="pdf")
    return out.getvalue()


def flat_by_matplotlib() -> bytes:
    """The circles without any shading, which is all that matplotlib draws as shapes."""
    from matplotlib.backends.backend_pdf import FigureCanvasPdf
    from matplotlib.collections import EllipseCollection
    from matplotlib.figure import Figure

    figure = Figure(figsize=(WIDE / 25.4, HIGH / 25.4))
    FigureCanvasPdf(figure)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_xlim(0, WIDE)
    axes.set_ylim(HIGH, 0)
    axes.axis("off")
    every = balls()
    across = [2 * r for _, _, r, _ in every]
    circles = EllipseCollection(
        across,
        across,
        [0.0] * COUNT,
        units="xy",
        offsets=[(x, y) for x, y, _, _ in every],
        offset_transform=axes.transData,
        facecolors=[SHADES[shade][1] for *_, shade in every],
    )
    axes.add_collection(circles)
    out = BytesIO()
    figure.savefig(out, format="pdf")
    return out.getvalue()


def by_cairo() -> bytes:
    """Cairo called by hand for just these shapes, as short as it can be."""
    import cairocffi

    out = BytesIO()
    surface = cairocffi.PDFSurface(out, WIDE * POINTS_PER_MM, HIGH * POINTS_PER_MM)
    context = cairocffi.Context(surface)
    context.scale(POINTS_PER_MM, POINTS_PER_MM)
    for x, y, r, shade in balls():
        context.set_source(_gradient(cairocffi, x, y, r, shade))
        context.arc(x, y, r, 0.0, 6.283185307179586)
        context.fill()
    surface.finish()
    return out.getvalue()


def _gradient(cairocffi: Any, x: float, y: float, r: float, shade: int) -> Any:
    fx, fy = x + r * (2 * FOCUS[0] - 1), y + r * (2 * FOCUS[1] - 1)
    cx, cy = x + r * (2 * BODY[0] - 1), y + r * (2 * BODY[1] - 1)
    made = cairocffi.RadialGradient(fx, fy, 0.0, cx, cy, 2 * r * BODY[2])
    for offset, colour in zip((0.0, 0.45, 1.0), SHADES[shade], strict=True):
        made.add_color_stop_rgba(offset, *rgb(colour), 1.0)
    return made


def by_reportlab() -> bytes:
    """The same by reportlab, where it is installed (no test needs it)."""
    canvas = pytest.importorskip("reportlab.pdfgen.canvas")
    colours = pytest.importorskip("reportlab.lib.colors")
    out = BytesIO()
    page = canvas.Canvas(out, pagesize=(WIDE * POINTS_PER_MM, HIGH * POINTS_PER_MM))
    page.scale(POINTS_PER_MM, POINTS_PER_MM)
    for x, y, r, shade in balls():
        page.saveState()
        outline = page.beginPath()
        outline.circle(x, y, r)
        page.clipPath(outline, stroke=0, fill=0)
        shades = [colours.HexColor(colour) for colour in SHADES[shade]]
        page.radialGradient(x - 0.2 * r, y - 0.3 * r, 1.4 * r, shades, positions=[0.0, 0.45, 1.0])
        page.restoreState()
    page.save()
    return out.getvalue()


@pytest.mark.parametrize(
    ("name", "rival", "goal"),
    [
        ("matplotlib", by_matplotlib, 0.5),
        ("matplotlib drawing them flat", flat_by_matplotlib, 0.5),
        ("cairo's own paint", by_cairo, 2.0),
        ("reportlab", by_reportlab, 1.0),
    ],
)
def test_a_page_to_pdf(name: str, rival: Any, goal: float) -> None:
    ours = document()
    assert rival().startswith(b"%PDF")
    assert pdf_bytes(ours).startswith(b"%PDF")
    ratio = by_turns(lambda: pdf_bytes(ours), rival, rounds=7)
    tell(f"{COUNT} shaded circles to PDF against {name}", ratio, goal)


def test_a_page_to_png_against_resvg() -> None:
    sheet = document().sheets[0]
    ratio = by_turns(lambda: png_bytes(sheet, 150), lambda: resvg_png_bytes(sheet, 150), rounds=3)
    tell(f"{COUNT} shaded circles to a PNG of 150 dpi against resvg", ratio, 1.0)
