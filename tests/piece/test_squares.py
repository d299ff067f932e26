"""Points in squares: none within reach may be missed."""

from __future__ import annotations

from math import hypot

from hypothesis import given
from hypothesis import strategies as st

from mockup.piece.squares import Squares

places = st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))


@given(st.lists(places, max_size=40), places, st.floats(0.5, 2e3))
def test_none_within_reach_is_missed(
    points: list[tuple[float, float]], at: tuple[float, float], reach: float
) -> None:
    found = Squares(points, reach).around(*at)
    apart = [hypot(x - at[0], y - at[1]) for x, y in points]
    assert found == sorted(set(found))
    assert {k for k, far in enumerate(apart) if far < reach} <= set(found)
    assert all(apart[k] < 3 * reach for k in found)


def test_a_point_a_reach_away_is_seen_where_rounding_would_part_them() -> None:
    """0.1 + 0.2 is above 0.3 in doubles: squares just as wide as the reach would miss some."""
    points = [(0.1 * k, 0.0) for k in range(60)]
    for reach in (0.1, 0.3, 0.7):
        squares = Squares(points, reach)
        for k in range(len(points)):
            near = {j for j, (x, _) in enumerate(points) if abs(x - points[k][0]) <= reach}
            assert near <= set(squares.around(*points[k]))


def test_far_points_cost_a_disc_nothing() -> None:
    row = [(10.0 * k, 0.0) for k in range(10_000)]
    assert len(Squares(row, 20.0).around(50_000.0, 0.0)) <= 8
