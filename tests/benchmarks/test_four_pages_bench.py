"""A whole proof of about 100 balloons: front, sides, a second colourway and both side by side.

uv run pytest tests/benchmarks/test_four_pages_bench.py -s

The yardstick is what its four pages ask of cairo, call by call, made again by a loop that does
nothing else; ours is laying the sheets out, painting them and writing the file.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import cairocffi
import pytest

import mockup.cli  # noqa: F401 - it sets how often memory is looked over, as for every command
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.visible import visible_shares
from mockup.render import necks, pathdata, pdf
from mockup.render.record import Document
from mockup.render.sheets import aspects
from mockup.render.sheets.colourways import colourways_document
from mockup.render.sheets.proof import Asked
from tests.benchmarks.cairo_calls import Calls, Listening, again
from tests.benchmarks.ratios import by_turns, tell

SAMPLE = Path(__file__).parents[2] / "samples/winter-ring.toml"
SECOND = """
[[colourway]]
name = "after dark"
colours = { A = "winter noon", B = "tin", C = "fresh snow" }
"""


@pytest.fixture(scope="module")
def given() -> tuple[Any, ...]:
    piece = assemble(design_from_text(SAMPLE.read_text("utf-8") + SECOND, "winter.toml"))
    assert 90 <= len(piece.balloons) <= 130
    return piece, find_all(piece), visible_shares(piece)


def laid_out(given: tuple[Any, ...]) -> Document:
    piece, findings, shares = given
    asked = Asked(views=("front", "side", "plan"))
    made = colourways_document(piece, findings, code="1A2B3C4D", shares=shares, asked=asked)
    assert len(made.sheets) == 4
    return made


def test_a_proof_of_four_pages_to_pdf(
    given: tuple[Any, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    document, pages = laid_out(given), list[Calls]()
    with monkeypatch.context() as patched:
        patched.setattr(pdf, "cairo", lambda: Listening(cairocffi.PDFSurface, pages))
        pdf.pdf_bytes(document)
    assert len(pages) == 4

    def bare() -> None:
        out = BytesIO()
        surface = cairocffi.PDFSurface(out, 1.0, 1.0)
        for sheet, calls in zip(document.sheets, pages, strict=True):
            surface.set_size(*pdf._points(sheet))
            again(calls, surface)
            surface.show_page()
        surface.finish()

    writing = by_turns(lambda: pdf.pdf_bytes(document), bare, rounds=4)
    tell("four pages written to PDF over cairo's own paint of them", writing, 2.5)

    def afresh() -> None:
        pathdata.steps.cache_clear()
        pathdata.bounding_box.cache_clear()
        necks._drawn.cache_clear()
        aspects._dimensions.cache_clear()
        pdf.pdf_bytes(laid_out(given))

    whole = by_turns(afresh, bare, rounds=4)
    tell("four pages laid out and written over cairo's own paint of them", whole, 2.5)
