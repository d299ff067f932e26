"""What single changes of the code (mutants) once got past the other tests, held from now on."""

from __future__ import annotations

import pytest

from mockup.packing.closing import closing_options
from mockup.packing.nesting import ClusterShape, equal_pitch, next_turn
from mockup.panel.window import NotAnOpening, require_opening


@pytest.mark.parametrize(("turn", "after"), [(350.0, 35.0), (315.0, 0.0), (359.5, 44.5)])
def test_a_turn_past_the_full_circle_begins_anew(turn: float, after: float) -> None:
    assert next_turn(ClusterShape(4, 100.0, turn)) == pytest.approx(after)


@pytest.mark.parametrize("count", [4, 6])
def test_the_smallest_rings_close_by_their_own_count(count: int) -> None:
    length = count * equal_pitch(4, 100.0, 0.1)
    fewer, closes, more = closing_options(length, 4, 100.0)
    assert [fewer.count, closes.count, more.count] == [count - 2, count, count + 2]
    assert closes.squeeze == pytest.approx(0.1)
    assert closes.diameter == pytest.approx(100.0)


def test_an_opening_may_be_as_small_as_it_likes_but_not_nothing() -> None:
    require_opening(0.5, 0.0, 0.0)
    with pytest.raises(NotAnOpening):
        require_opening(0.0, 8.0, 0.0)
