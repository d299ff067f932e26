"""How numerals hang in their window: moved by hand, between unlike crescents, in every unit."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.hanging import Hanging, hanging, off_middle
from mockup.piece.placed import Piece

RING = """title = "Off the middle"
unit = "{unit}"
frame = {{ outside = "30in" }}
colours = {{ A = "oat", B = "night tide" }}
[[section]]
at = "{at}"
colours = "AB"
clusters = [{{ fill = "4in" }}, {{ fill = "4in" }}]
[panel]
numerals = "7"
height = "10in"
{raised}
"""


def ring(at: str = "9", raised: str = "", unit: str = "in") -> Piece:
    return assemble(design_from_text(RING.format(at=at, raised=raised, unit=unit), "off.toml"))


def says(piece: Piece) -> str:
    return next(f.says for f in find_all(piece) if f.name == "numerals fit")


def test_balloons_on_one_side_leave_the_row_off_the_middle() -> None:
    hangs = hanging(ring("9"))
    assert hangs is not None
    assert hangs.aside < -25.4
    assert says(ring("9", 'raised = "0in"')).endswith(" in left of the middle of the window.")
    assert " left of and 3 in below the middle of the window." in says(ring("9", 'raised = "-3in"'))


def test_the_other_side_is_its_mirror() -> None:
    left, right = hanging(ring("9")), hanging(ring("3"))
    assert left is not None
    assert right is not None
    assert right.aside == pytest.approx(-left.aside, abs=1e-6)
    assert (right.left, right.right) == pytest.approx((left.right, left.left), abs=1e-6)


def test_a_row_moved_by_hand_tells_both_middles() -> None:
    said = says(ring("12", 'raised = "-1in"'))
    assert "lowered 1 in from the middle of the frame: " in said
    assert said.endswith("above the middle of the window.")


def test_a_row_that_is_moved_to_the_middle_of_its_window_says_so() -> None:
    there = hanging(ring("12", 'raised = "0in"'))
    assert there is not None
    moved = -there.up
    said = says(ring("12", f'raised = "{moved / 10:.3f}cm"'))
    assert said.endswith(" to the middle of the window.")


def test_centimetres_are_told_in_centimetres() -> None:
    assert says(ring("9", 'raised = "0in"', "cm")).endswith(" cm left of the middle of the window.")


def test_in_the_middle_of_both_nothing_is_said() -> None:
    assert off_middle(Hanging(5.0, 5.0, 7.0, 7.0), "in") == ""


def test_without_numerals_or_a_window_nothing_hangs() -> None:
    bare = RING.split("[panel]", maxsplit=1)[0].format(at="9", unit="in")
    assert hanging(assemble(design_from_text(bare, "off.toml"))) is None


@settings(max_examples=25, deadline=None)
@given(st.floats(-60, 60), st.floats(-60, 60))
def test_to_move_the_row_by_what_is_told_centres_it(aside: float, up: float) -> None:
    """The law of the two figures: taken back, the rooms on both sides are the same."""
    hangs = Hanging(80 + aside, 80 - aside, 90 + up, 90 - up)
    assert (hangs.aside, hangs.up) == pytest.approx((aside, up), abs=1e-9)
    assert hangs.left - hangs.aside == pytest.approx(hangs.right + hangs.aside, abs=1e-9)
    assert hangs.below - hangs.up == pytest.approx(hangs.above + hangs.up, abs=1e-9)
