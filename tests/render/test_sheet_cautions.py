"""Cautions are chosen by what is in the piece."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mockup.piece.placed import Extent, Piece
from mockup.render.sheets.cautions import LOOKS_ONLY, cautions_for
from mockup.render.text import width
from tests.render.sheet_pieces import arc, ring


def under(piece: Piece, **facts: bool) -> str:
    design = replace(piece.design, **facts)  # type: ignore[arg-type] # facts are flags
    return " ".join(cautions_for(replace(piece, design=design)))


def test_every_piece_is_told_to_be_a_picture_only() -> None:
    assert cautions_for(ring())[0] == LOOKS_ONLY
    assert cautions_for(arc())[0] == LOOKS_ONLY


@pytest.mark.parametrize(
    "words", ["under 8 can choke", "latex can cause", "exits", "flame", "warmth", "Screens"]
)
def test_latex_indoors_carries_these(words: str) -> None:
    assert words in under(arc())


def test_foil_conducts_only_where_there_is_foil() -> None:
    assert "Foil conducts" in under(ring())
    assert "Foil" not in under(arc())


def test_outdoors_adds_letting_go_and_ballast() -> None:
    assert "fly away" not in under(ring())
    assert "fly away" in under(ring(), outdoors=True)
    assert "ballast" in under(ring(), outdoors=True)
    assert "ballast" not in under(ring(), outdoors=True, overhead=True)


def test_overhead_asks_for_local_code_and_a_ladder() -> None:
    assert "local code" not in under(ring())
    assert "local code" in under(ring(), overhead=True)
    assert "Ladders" in under(ring(), overhead=True)


def test_a_tall_piece_asks_for_a_ladder() -> None:
    low = replace(ring(), extent=Extent((0, 900), (0, 1900), (0, 300)))
    tall = replace(ring(), extent=Extent((0, 900), (0, 2100), (0, 300)))
    assert "Ladders" not in under(low)
    assert "Ladders" in under(tall)


def test_no_balloons_no_latex() -> None:
    assert "latex" not in under(replace(ring(), balloons=()))


def test_each_is_short_enough_to_be_read() -> None:
    """Two lines of a third of an A4 sheet, three at most, in the smallest lettering."""
    every = cautions_for(
        replace(ring(), design=replace(ring().design, outdoors=True, overhead=True))
    )
    assert len(every) == len(set(every))
    assert all(width(says, 1.8) < 3 * 50 for says in every)
