"""Daylight and bare frame against closed forms."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

import pytest

from mockup.design.wish import Wish, design_from_wish
from mockup.piece.assemble import assemble
from mockup.piece.cover import bare_share, daylight_share
from mockup.piece.placed import Balloon, Piece


@pytest.fixture(scope="module")
def piece() -> Piece:
    crescent = "3, 2, 2, end 1"
    wish = Wish(ring="24in", numerals="30", height="13in", top=crescent, bottom=crescent)
    return assemble(design_from_wish(wish))


def ball(x: float, y: float, d: float) -> Balloon:
    c = (x, y, 0.0)
    return Balloon(0, "0", 0, "top", 0, "middle", "front", "A", d, d, c, c, c, 0.0)


def test_daylight_between_four_touching_discs_is_the_closed_form() -> None:
    """The gap between four unit discs in a square is 4 - pi; the silhouette with it 4 + 3 pi... of
    the square's 4 plus three quarters of each disc (elementary geometry)."""
    eps = 1e-6  # just crossing, so that the union encloses the gap
    square = [ball(x + 9, y, 2 + eps) for x in (-1, 1) for y in (-1, 1)]
    expected = (4 - pi) / (4 + 3 * pi)
    assert daylight_share(square) == pytest.approx(expected, rel=0.01)


def test_a_ring_of_frame_without_balloons_over_it_is_bare(piece: Piece) -> None:
    behind = tuple(replace(b, centre=(b.centre[0], b.centre[1], -400.0)) for b in piece.balloons)
    assert bare_share(replace(piece, balloons=behind), "top") == 1.0
    before = tuple(replace(b, diameter=600.0) for b in piece.balloons)
    assert bare_share(replace(piece, balloons=before), "top") == 0.0
    assert 0.0 < bare_share(piece, "top") < 0.3


def test_the_opening_of_a_whole_ring_is_no_daylight() -> None:
    ring = [ball(100 * cos(a), 100 * sin(a), 60) for a in (k * pi / 6 for k in range(12))]
    assert daylight_share(ring) == 0.0
