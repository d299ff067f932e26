"""Facts of the trade that the geometry must give by itself (common practice, no source)."""

from __future__ import annotations

import pytest

from mockup.design.wish import Wish, design_from_wish
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece

CRESCENT = "3, 2, 2, end 1"


def ring_24(numerals: str, height: str) -> Piece:
    wish = Wish(ring="24in", numerals=numerals, height=height, top=CRESCENT, bottom=CRESCENT)
    return assemble(design_from_wish(wish))


@pytest.mark.parametrize("numerals", ["100", "130", "175", "816"])
def test_three_numerals_named_13_in_fit_abreast_when_one_is_a_1(numerals: str) -> None:
    fit = ring_24(numerals, "13in").fit
    assert fit is not None
    assert fit.verdict in ("clear", "tucks"), (fit.verdict, fit.room)
    assert fit.room >= 0


@pytest.mark.parametrize("numerals", ["3", "8", "30", "50", "75"])
def test_one_or_two_numerals_named_16_in_fit(numerals: str) -> None:
    fit = ring_24(numerals, "16in").fit
    assert fit is not None
    assert fit.verdict in ("clear", "tucks"), (fit.verdict, fit.room)


@pytest.mark.parametrize("numerals", ["100", "130", "888"])
def test_three_numerals_named_16_in_do_not_fit(numerals: str) -> None:
    fit = ring_24(numerals, "16in").fit
    assert fit is not None
    assert fit.verdict in ("clashes", "overhangs")
    assert fit.largest_height < fit.height


def test_the_piece_of_the_fact_nestles_and_mirrors() -> None:
    piece = ring_24("100", "13in")
    assert len(piece.balloons) == 2 * (5 * 4 + 2 * 2)
    assert piece.nestling.crossing <= 0.25
    assert max(piece.nestling.swings_deg) <= 45
