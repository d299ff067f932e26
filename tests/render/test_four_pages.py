"""The largest proof that is usual: about a hundred balloons on four pages, small and the same."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from pathlib import Path

from pypdf import PdfReader

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.render.page.client_page import client_page
from mockup.render.page.page_asked import PageAsked
from mockup.render.pdf import pdf_bytes
from mockup.render.record import Document
from mockup.render.sheets.aspects import Aspect
from mockup.render.sheets.colourways import colourways_document
from mockup.render.sheets.proof import Asked
from mockup.render.svg import svg_text

VIEWS: tuple[Aspect, ...] = ("front", "side", "plan")
SAMPLE = Path(__file__).parents[2] / "samples/winter-ring.toml"
SECOND = """
[[colourway]]
name = "after dark"
colours = { A = "winter noon", B = "tin", C = "fresh snow" }
"""


@cache
def piece() -> Piece:
    made = assemble(design_from_text(SAMPLE.read_text("utf-8") + SECOND, "winter.toml"))
    assert 90 <= len(made.balloons) <= 130
    return made


@cache
def document() -> Document:
    asked = Asked(views=VIEWS)
    return colourways_document(piece(), find_all(piece()), code="1A2B3C4D", asked=asked)


def test_a_proof_of_four_pages_is_at_most_a_megabyte() -> None:
    made = pdf_bytes(document())
    assert len(document().sheets) == 4
    assert len(made) <= 1_000_000
    assert made == pdf_bytes(document())
    words = [page.extract_text() for page in PdfReader(BytesIO(made)).pages]
    assert all("The winter ring" in each for each in words)
    assert "winter noon" in words[2]


def test_its_clients_page_is_at_most_400_kilobytes() -> None:
    """With all that is on its four pages: both colourways, and the front, side and plan."""
    asked = PageAsked(10, (297.0, 210.0), views=VIEWS)
    page = client_page(piece(), find_all(piece()), code="1A2B3C4D", asked=asked)
    assert all(name in page for name in ("after dark", "winter noon", "frozen lake"))
    assert len(page.encode()) <= 400_000


def test_each_of_its_pages_as_svg_is_under_a_megabyte() -> None:
    sizes = [len(svg_text(each, title=each.name).encode()) for each in document().sheets]
    assert max(sizes) < 1_000_000
