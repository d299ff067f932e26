"""Laws of the foil outlines: in their box, of one weight, in one piece, and each itself."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.panel.digits import DIGITS
from mockup.panel.letters import LETTERS
from mockup.panel.numerals import (
    NotANumeral,
    UnknownCharacter,
    glyph,
    numeral_row,
    unknown_characters,
    usual_width,
)

IN_ONE_PIECE = [*"0123456789+-.", *LETTERS]
FILL_THEIR_BOX = [*"0123456789!?", *LETTERS]
HOLES = {"0": 1, "6": 1, "8": 2, "9": 1, "A": 1, "B": 2, "D": 1, "O": 1, "P": 1, "Q": 1, "R": 1}
HOLES["&"] = 2
wider = st.floats(1.0, 2.5)


def outline(char: str, height: float = 300.0, width: float | None = None) -> shapely.Geometry:
    made = glyph(char, height, width)
    return shapely.MultiLineString(list(made.strokes)).buffer(made.half_width, quad_segs=32)


@pytest.mark.parametrize("char", [*DIGITS, *LETTERS])
@settings(max_examples=12, deadline=None)
@given(share=st.floats(0.5, 2.5))
def test_stays_inside_its_box_at_any_width(char: str, share: float) -> None:
    width = share * usual_width(char, 300.0)
    left, bottom, right, top = outline(char, 300.0, width).bounds
    assert left >= -1e-6
    assert bottom >= -1e-6
    assert right <= width + 1e-6
    assert top <= 300.0 + 1e-6


@pytest.mark.parametrize("char", FILL_THEIR_BOX)
@settings(max_examples=12, deadline=None)
@given(share=st.floats(0.8, 2.5))
def test_centre_line_reaches_every_side_of_its_box(char: str, share: float) -> None:
    width = share * usual_width(char, 1.0)
    made = glyph(char, 1.0, width)
    left, bottom, right, top = shapely.MultiLineString(list(made.strokes)).bounds
    half = made.half_width
    assert bottom == pytest.approx(half, abs=1e-9)
    assert top == pytest.approx(1.0 - half, abs=1e-9)
    if char not in "I!":
        assert left == pytest.approx(half, abs=1e-9)
        assert right == pytest.approx(width - half, abs=1e-9)


@pytest.mark.parametrize("char", [*DIGITS, *LETTERS])
@settings(deadline=None, max_examples=12)
@given(share=wider)
def test_widening_keeps_the_weight(char: str, share: float) -> None:
    usual = glyph(char, 300.0)
    wide = glyph(char, 300.0, share * usual.width)
    assert wide.half_width == usual.half_width == pytest.approx(0.115 * 300.0)


@pytest.mark.parametrize("char", [*DIGITS, *LETTERS])
def test_a_very_narrow_numeral_thins_and_never_crosses_its_box(char: str) -> None:
    usual = glyph(char, 300.0)
    narrow = glyph(char, 300.0, 0.3 * usual.width)
    assert 0.0 < narrow.half_width < usual.half_width
    assert 2 * narrow.half_width <= narrow.width


@pytest.mark.parametrize("char", IN_ONE_PIECE)
@pytest.mark.parametrize("share", [0.9, 1.0, 1.6])
def test_is_one_simple_piece(char: str, share: float) -> None:
    shape = outline(char, 300.0, share * usual_width(char, 300.0))
    assert shape.geom_type == "Polygon"
    assert shape.is_valid
    assert shape.exterior.is_simple


@pytest.mark.parametrize("char", [*"0123456789", *LETTERS])
@pytest.mark.parametrize("share", [0.9, 1.0, 1.6])
def test_openings_stay_open(char: str, share: float) -> None:
    shape = outline(char, 300.0, share * usual_width(char, 300.0))
    holes = [shapely.Polygon(ring) for ring in shape.interiors]
    assert len(holes) == HOLES.get(char, 0)
    assert all(hole.area > (6.0**2 if char == "&" else 15.0**2) for hole in holes)


@pytest.mark.parametrize("char", "2345679")
def test_mouths_stay_open(char: str) -> None:
    """A stroke 8 mm fatter all round (of 300 mm) still closes no mouth."""
    made = glyph(char, 300.0)
    fatter = shapely.MultiLineString(list(made.strokes)).buffer(made.half_width + 8.0)
    assert len(fatter.interiors) == HOLES.get(char, 0)


@pytest.mark.parametrize("char", [*DIGITS, *LETTERS])
def test_curves_are_finely_sampled(char: str) -> None:
    """No bend between two short steps is sharper than 48 segments a full turn allow."""
    for stroke in glyph(char, 1.0).strokes:
        way = np.diff(stroke, axis=0)
        length = np.hypot(way[:, 0], way[:, 1])
        turn = np.abs(np.angle(np.exp(1j * np.diff(np.arctan2(way[:, 1], way[:, 0])))))
        curved = (length[1:] < 0.05) & (length[:-1] < 0.05) & (turn < 1.0)
        assert turn[curved].max(initial=0.0) <= 2 * np.pi / 48 * 1.75


@pytest.mark.parametrize("char", "08AHIMOTUVWXY+-")
def test_is_the_same_on_both_sides(char: str) -> None:
    made = glyph(char, 300.0)
    lines = shapely.MultiLineString(list(made.strokes))
    mirrored = shapely.transform(lines, lambda points: points * (-1, 1) + (made.width, 0))
    assert shapely.hausdorff_distance(lines, mirrored) < 1e-9


def test_nine_is_six_upside_down() -> None:
    six, nine = glyph("6", 300.0), glyph("9", 300.0)
    assert abs((six.width, six.height) - six.strokes[0] - nine.strokes[0]).max() < 1e-9


def test_usual_widths_are_those_of_the_trade() -> None:
    """Width / height 0.55-0.75, a 1 about 0.3-0.5 (common practice, no source)."""
    assert 0.3 <= usual_width("1", 1.0) <= 0.5
    assert all(0.55 <= usual_width(char, 1.0) <= 0.75 for char in "023456789")


def test_a_row_is_centred_with_its_gaps() -> None:
    row = numeral_row("750", 300.0, {"7": 170.0}, 12.0)
    edges = [(n.x - n.width / 2, n.x + n.width / 2) for n in row]
    assert [n.width for n in row] == [170.0, usual_width("5", 300.0), usual_width("0", 300.0)]
    assert [b[0] - a[1] for a, b in pairwise(edges)] == pytest.approx([12, 12])
    assert edges[0][0] == pytest.approx(-edges[-1][1])
    assert all(n.y == 0.0 for n in row)


def test_strokes_lie_in_the_numerals_own_box() -> None:
    for n in numeral_row("7&1", 300.0, {}, 12.0):
        left, bottom, right, top = n.polygon().bounds
        assert n.x - n.width / 2 - 1e-6 <= left < right <= n.x + n.width / 2 + 1e-6
        assert (bottom, top) == pytest.approx((-150.0, 150.0), abs=0.05)


def test_a_space_leaves_room_and_is_no_numeral() -> None:
    apart = numeral_row("7 1", 300.0, {}, 10.0)
    assert [n.char for n in apart] == ["7", "1"]
    free = apart[1].x - apart[1].width / 2 - (apart[0].x + apart[0].width / 2)
    assert free == pytest.approx(0.30 * 300.0 + 2 * 10.0)
    assert numeral_row("  7 1 ", 300.0, {}, 10.0) == apart


@pytest.mark.parametrize("text", ["", " ", "   "])
def test_no_text_makes_no_numerals(text: str) -> None:
    assert numeral_row(text, 300.0, {}, 10.0) == ()


@pytest.mark.parametrize(
    ("char", "says"),
    [
        ("a", "'a' is not among the foil numerals and letters; write 'A'"),
        ("é", "'é' is not among the foil numerals and letters; write 'E'"),
        ("３", "'３' is not among the foil numerals and letters; write '3'"),
        ("٧", "'٧' is not among the foil numerals and letters; write '7'"),
        ("–", "'–' is not among the foil numerals and letters; write '-'"),
        ("#", "'#' is not among the foil numerals and letters; use 0-9, A-Z, & + - ! ? and ."),
        ("\t", "the character U+0009 is not among the foil numerals and letters; use 0-9"),
    ],
)
def test_an_unknown_character_is_named_with_the_nearest(char: str, says: str) -> None:
    with pytest.raises(UnknownCharacter) as caught:
        numeral_row(f"7{char}", 300.0, {}, 10.0)
    assert str(caught.value).startswith(says)


def test_unknown_characters_are_found_all_at_once() -> None:
    assert unknown_characters("7a #a1") == ("a", "#")


@pytest.mark.parametrize("bad", [0.0, -3.0, float("nan"), float("inf")])
def test_a_size_that_cannot_be_is_refused(bad: float) -> None:
    with pytest.raises(NotANumeral, match="height"):
        numeral_row("7", bad, {}, 10.0)
    with pytest.raises(NotANumeral, match="width"):
        numeral_row("7", 300.0, {"7": bad}, 10.0)


def test_a_gap_must_be_a_number() -> None:
    with pytest.raises(NotANumeral, match="gap"):
        numeral_row("71", 300.0, {}, float("nan"))


def test_moving_a_numeral_moves_its_strokes() -> None:
    seven = numeral_row("7", 300.0, {}, 0.0)[0]
    moved = seven.moved(30.0, -4.0)
    assert (moved.x, moved.y) == (30.0, -4.0)
    assert abs(moved.strokes[0] - seven.strokes[0] - (30.0, -4.0)).max() < 1e-9
