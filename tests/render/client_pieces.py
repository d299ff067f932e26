"""Invented pieces for the tests of what the client gets."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from mockup.design.reading import design_from_text, read_design
from mockup.piece.assemble import assemble
from mockup.piece.code import proof_code
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.page.client_page import client_page
from mockup.render.page.page_asked import PageAsked

SAMPLES = Path(__file__).parents[2] / "samples"
LETTER = (215.9, 279.4)
HOSTILE = "</svg></title><script>alert(1)</script>\"'&\u202eabc\x07"
"""Words that would break out of a careless page, turn it round, or ring its bell."""

HUNDRED = """
title = "Club of a hundred"
palette = "harbour"
[frame]
outside = "48in"
[stand]
[colours]
A = "deep teal"
B = "oat"
C = "brass"
[[section]]
at = "12"
colours = "ABAC"
clusters = [{ strokes = 4 }, { strokes = 4, times = 3 }, { strokes = 3.5, times = 2 }]
end_cap = { strokes = 1.5, kind = "trio" }
[[section]]
at = "6"
colours = "ABAC"
clusters = [{ strokes = 4 }, { strokes = 4, times = 3 }, { strokes = 3.5, times = 2 }]
end_cap = { strokes = 1.5, kind = "trio" }
[panel]
numerals = "100"
height = "16in"
colour = "C"
[[colourway]]
name = "B"
colours.A = { name = "our own red", srgb = "#b3202c", finish = "pearl" }
colours.B = "oat"
colours.C = "brass"
foil = { name = "our own silver", srgb = "#b9bcc4" }
"""


@cache
def sample(name: str) -> Piece:
    """A sample of the repository, laid out once."""
    return hundred() if name == "hundred" else assemble(read_design(SAMPLES / f"{name}.toml"))


@cache
def hundred() -> Piece:
    """A hundred balloons in two colourways."""
    return assemble(design_from_text(HUNDRED, "hundred.toml"))


def page_of(
    piece: Piece, findings: Sequence[Finding] | None = None, asked: PageAsked | None = None
) -> str:
    """The client's page of a piece, by itself."""
    return client_page(
        piece,
        find_all(piece) if findings is None else findings,
        code=proof_code(piece.design),
        asked=asked or PageAsked(10, LETTER),
        shares=visible_shares(piece),
    )


@cache
def usual_page(name: str) -> str:
    """The page of a sample as it comes, or of the hundred balloons."""
    return page_of(sample(name))
