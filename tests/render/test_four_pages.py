"""The largest proof that is usual: about a hundred balloons on four pages, small and the same."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

from pypdf import PdfReader

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.render.pdf import pdf_bytes
from mockup.render.sheets.colourways import colourways_document
from mockup.render.sheets.proof import Asked

SAMPLE = Path(__file__).parents[2] / "samples/winter-ring.toml"
SECOND = """
[[colourway]]
name = "after dark"
colours = { A = "winter noon", B = "tin", C = "fresh snow" }
"""


def test_a_proof_of_four_pages_is_at_most_a_megabyte() -> None:
    piece = assemble(design_from_text(SAMPLE.read_text("utf-8") + SECOND, "winter.toml"))
    asked = Asked(views=("front", "side", "plan"))
    document = colourways_document(piece, find_all(piece), code="1A2B3C4D", asked=asked)
    made = pdf_bytes(document)
    assert len(document.sheets) == 4
    assert len(made) <= 1_000_000
    assert made == pdf_bytes(document)
    words = [page.extract_text() for page in PdfReader(BytesIO(made)).pages]
    assert all("The winter ring" in each for each in words)
    assert "winter noon" in words[2]
