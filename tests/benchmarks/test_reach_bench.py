"""How far it reaches: two thousand balloons on paper, a column of thousands, a hundred thousand.

uv run pytest tests/benchmarks/test_reach_bench.py -s

Cairo's own paint is what the same page asks of cairo, call by call, made again by a loop that does
nothing else: what is over is what choosing and preparing those calls costs.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from io import BytesIO
from math import log
from pathlib import Path
from typing import Any

import cairocffi
import numpy as np
import pytest

from mockup.design.reading import design_from_text
from mockup.packing.clusters import offsets
from mockup.packing.nesting import ClusterShape, next_turn, pitch
from mockup.packing.settling import settle
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.render import pathdata, pdf, png
from mockup.render.front_view import front_view
from mockup.render.record import Document, Sheet
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.proof import proof_document
from mockup.render.viewpoint import ViewOptions
from tests.benchmarks.cairo_calls import Calls, Listening, again
from tests.benchmarks.ratios import by_turns, once, tell
from tests.benchmarks.test_memory_bench import peak

WALL = """
title = "Two thousand"
size = "5in"
colours = { A = "oat", B = "brass", C = "moss" }
[frame]
kind = "wall"
width = "18ft"
height = "11ft"
[wall]
fill = "4in"
pattern = "diamond"
"""
DIAMETER = 114.3


@pytest.fixture(scope="module")
def wall() -> Piece:
    piece = assemble(design_from_text(WALL, "wall.toml"))
    assert 1_950 <= len(piece.balloons) <= 2_300
    return piece


@pytest.fixture(scope="module")
def page(wall: Piece) -> Sheet:
    view = front_view(wall, 0.04, (150.0, 100.0), ViewOptions(letters=True))
    return Sheet(297.0, 210.0, (view,), name="Front")


def afresh(job: Callable[[], object]) -> Callable[[], object]:
    """The job with no path read before."""

    def run() -> None:
        pathdata.steps.cache_clear()
        pathdata.bounding_box.cache_clear()
        job()

    return run


def test_two_thousand_balloons_to_pdf(page: Sheet, monkeypatch: pytest.MonkeyPatch) -> None:
    document, pages = Document((page,), "Wall"), list[Calls]()
    with monkeypatch.context() as patched:
        patched.setattr(pdf, "cairo", lambda: Listening(cairocffi.PDFSurface, pages))
        pdf.pdf_bytes(document)
    size = pdf._points(page)

    def bare() -> None:
        out = BytesIO()
        surface = cairocffi.PDFSurface(out, *size)
        again(pages[0], surface)
        surface.show_page()
        surface.finish()

    ratio = by_turns(afresh(lambda: pdf.pdf_bytes(document)), bare, rounds=3)
    tell("2,000 lettered balloons to PDF over cairo's own paint", ratio, 2.0)


def test_two_thousand_balloons_to_png(page: Sheet, monkeypatch: pytest.MonkeyPatch) -> None:
    pages = list[Calls]()
    with monkeypatch.context() as patched:
        patched.setattr(png, "cairo", lambda: Listening(cairocffi.ImageSurface, pages))
        png.png_bytes(page, 100.0)
    wide, high = png.pixels(page, 100.0)

    def bare() -> None:
        surface = cairocffi.ImageSurface(cairocffi.FORMAT_RGB24, wide, high)
        again(pages[0], surface)
        surface.write_to_png(BytesIO())

    ratio = by_turns(afresh(lambda: png.png_bytes(page, 100.0)), bare, rounds=2)
    tell("2,000 lettered balloons to PNG over cairo's own paint", ratio, 2.0)


def test_a_sheet_of_two_thousand_letters_is_soon_looked_over(wall: Piece) -> None:
    sheet = proof_document(wall, find_all(wall), code="1A2B3C4D").sheets[0]
    view = front_view(wall, 0.04, (150.0, 100.0), ViewOptions(letters=True))
    lettered = Sheet(sheet.width, sheet.height, (*sheet.items, view), name="Front")
    ratio = by_turns(lambda: overlaps(lettered), lambda: front_view(wall, 0.04, (0, 0)), rounds=2)
    tell("looking over the labels of a lettered wall against drawing it", ratio, 0.5)


def column(balloons: int) -> tuple[Any, Any, Any]:
    """Quads nestled up a straight pole: centres, diameters, knots."""
    shape = ClusterShape(4, DIAMETER, 45.0)
    gap = pitch(shape, ClusterShape(4, DIAMETER, next_turn(shape)), 0.1)
    axes = np.array([[-1.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
    knots = [np.array([0.0, k * gap, 0.0]) for k in range(balloons // 4)]
    centres = [knot + offsets(4, DIAMETER, 45.0 * (k % 2)) @ axes for k, knot in enumerate(knots)]
    return np.concatenate(centres), np.full(balloons, DIAMETER), np.repeat(knots, 4, axis=0)


def test_how_settling_a_straight_column_grows() -> None:
    """It folds from its ends inward, a cluster in about four steps: n steps of n
    balloons at worst, while rounding starts no other fold in its middle."""
    few, many = column(400), column(4_000)
    small = min(once(lambda: settle(*few)) for _ in range(3))
    large = min(once(lambda: settle(*many)) for _ in range(2))
    grows = log(large / small, 10)
    tell("settling a straight column, 400 to 4,000, grows as n to the", grows, 1.8, "")


HUNDRED = """
from tests.benchmarks.test_growth_bench import quads
from mockup.packing.settling import settle
assert settle(*quads({count})).at_rest
"""


def test_a_hundred_thousand_balloons_are_settled_in_bounded_memory(tmp_path: Path) -> None:
    root = Path(__file__).parent.parent.parent
    run = f"import sys; sys.path.insert(0, {str(root)!r}){HUNDRED}"
    few, many = (peak(tmp_path, "-c", run.format(count=n)) for n in (1_000, 100_000))
    tell("peak memory of settling 100,000 balloons", (many - few) / 99_000, 4.0, "KB each")


REFUSED = {
    "section": (
        '[[section]]\nat = "12"\nclusters = [{ fill = "1in", times = 12500 }]\n',
        "'times' is 12500; write a number from 1 to 2000",
    ),
    "wall": (
        '[frame]\nkind = "wall"\nwidth = "40ft"\nheight = "40ft"\n[wall]\nfill = "1 1/2in"\n'
        'pattern = "diamond"\n',
        "a wall takes at most 20,000",
    ),
}


@pytest.mark.parametrize("name", list(REFUSED))
def test_a_file_of_a_hundred_thousand_says_why_not_and_holds_no_memory(
    tmp_path: Path, name: str
) -> None:
    more, says = REFUSED[name]
    text = f'title = "W"\ncolours = {{ A = "oat" }}\nsize = "2in"\n{more}'
    (tmp_path / "many.toml").write_text(text, encoding="utf-8")
    words = ["-m", "mockup", "check", "many.toml"]
    ran = subprocess.run(
        [sys.executable, *words], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert (ran.returncode, "Traceback" in ran.stderr) == (2, False), ran
    assert says in ran.stderr
    told = f"import subprocess, sys; subprocess.run([sys.executable, *{words!r}])"
    ratio = peak(tmp_path, "-c", told) / peak(tmp_path, "-c", "import click, numpy, shapely")
    tell(f"peak memory of refusing a {name} of 100,000 over the libraries", ratio, 1.6)
