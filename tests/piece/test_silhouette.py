"""The union of discs, followed arc by arc, against shapely's polygons."""

from __future__ import annotations

from math import pi

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from mockup.piece.silhouette import Disc, Unclear, area, holds, loops

spots = st.tuples(st.floats(0, 300), st.floats(0, 300), st.floats(10, 60))


@given(st.lists(spots, min_size=1, max_size=30))
def test_the_area_is_that_of_the_union(discs: list[Disc]) -> None:
    try:
        found = loops(discs)
    except Unclear:
        assume(False)
    union = shapely.union_all([shapely.Point(x, y).buffer(r, quad_segs=128) for x, y, r in discs])
    assert sum(area(discs, loop) for loop in found) == pytest.approx(union.area, rel=3e-4)


def test_a_ring_of_discs_has_one_hole_that_holds_its_middle() -> None:
    discs = [(2.0, 0.0, 1.5), (0.0, 2.0, 1.5), (-2.0, 0.0, 1.5), (0.0, -2.0, 1.5)]
    found = loops(discs)
    holes = [loop for loop in found if area(discs, loop) < 0]
    assert (len(found), len(holes)) == (2, 1)
    assert holds(discs, holes[0], (0.0, 0.0))
    assert not holds(discs, holes[0], (3.0, 0.0))


def test_a_disc_inside_another_adds_nothing() -> None:
    discs = [(0.0, 0.0, 2.0), (0.5, 0.0, 1.0), (0.0, 0.0, 2.0)]
    assert sum(area(discs, loop) for loop in loops(discs)) == pytest.approx(4 * pi)
