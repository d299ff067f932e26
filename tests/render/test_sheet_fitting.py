"""The largest preferred scale that fits is chosen; one that does not fit is refused in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.piece.placed import Extent
from mockup.render.record import Sheet
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.fitting import Spot, placed
from mockup.render.sheets.proof import Asked
from mockup.render.sheets.scale import SCALES, DoesNotFit
from tests.render.sheet_pieces import arc, dozen, proof, ring, said

ROOM, BAR = Area(10.0, 10.0, 180.0, 150.0), (55.0, 11.0)
BOXES = st.lists(
    st.builds(Area, st.floats(-90, 60), st.floats(-90, 60), st.floats(1, 120), st.floats(1, 120)),
    min_size=1,
    max_size=4,
)


@given(BOXES)
def test_what_is_placed_lies_in_the_room_clear_of_the_bar(boxes: list[Area]) -> None:
    spot = placed(boxes, ROOM, BAR)
    whole = hull(boxes)
    if spot is None:
        small = whole.width <= ROOM.width - BAR[0] and whole.height <= ROOM.height - BAR[1]
        assert not small
        return
    left = ROOM.x if spot.bar_at == "left" else ROOM.right - BAR[0]
    corner = Area(left, ROOM.bottom - BAR[1], *BAR)
    for box in boxes:
        assert ROOM.holds(box.moved(*spot.origin), 1e-6)
        assert not box.moved(*spot.origin).meets(corner)


def test_a_small_drawing_lies_in_the_middle() -> None:
    assert placed([Area(-10, -10, 20, 20)], ROOM, BAR) == Spot((100.0, 85.0), "left")


def test_the_bar_goes_to_the_right_where_the_left_is_taken() -> None:
    wide = [Area(0, 0, 178, 100), Area(0, 0, 100, 148)]
    spot = placed(wide, ROOM, BAR)
    assert spot is not None
    assert spot.bar_at == "right"


def scale_of(sheet: Sheet) -> int:
    return int(said(sheet).split("SCALE 1:")[1].split()[0])


@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid"])
@pytest.mark.parametrize("landscape", [False, True])
def test_the_scale_is_the_largest_that_fits(paper: str, landscape: bool) -> None:
    asked = Asked(paper=paper, landscape=landscape)
    document = proof(ring(), asked=asked)
    chosen = scale_of(document.sheets[0])
    assert document.extra["scale"] == f"1:{chosen}"
    larger = SCALES[SCALES.index(chosen) - 1]
    with pytest.raises(DoesNotFit, match=f"at 1:{larger}; 1:{chosen} fits"):
        proof(ring(), asked=replace(asked, scale=larger))


def test_a_scale_that_is_asked_for_is_kept() -> None:
    document = proof(ring(), asked=Asked(paper="a3", scale=20))
    assert scale_of(document.sheets[0]) == 20


def test_the_paper_follows_the_unit_and_the_piece() -> None:
    assert "Letter" in said(proof(ring()).sheets[0])
    wide = proof(arc()).sheets[0]
    assert wide.width > wide.height
    assert "A3" in said(wide)


def test_the_sheet_has_the_size_of_its_paper() -> None:
    """ISO 216."""
    sheet = proof(dozen(), asked=Asked(paper="a3", landscape=False)).sheets[0]
    assert (sheet.width, sheet.height) == (297.0, 420.0)


def test_a_piece_beyond_every_scale_is_refused() -> None:
    vast = replace(arc(), extent=Extent((-20000, 20000), (-20000, 20000), (-500, 500)))
    with pytest.raises(DoesNotFit, match="even at 1:100"):
        proof(vast)


def test_an_unknown_scale_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="1:3 is not a preferred one"):
        proof(ring(), asked=Asked(scale=3))
