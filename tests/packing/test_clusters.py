"""One cluster round its knot."""

from __future__ import annotations

from math import gcd, hypot, nan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.distance import pdist

from mockup.packing.clusters import (
    POINT_IN,
    VALLEY_IN,
    knot_radius,
    offsets,
    place_word,
    places,
    turn_for,
)
from mockup.packing.inflation import NotASize

law = settings(max_examples=60, deadline=None)

counts = st.integers(1, 8)
turns = st.floats(-720.0, 720.0)


@law
@given(count=st.integers(2, 8), diameter=st.floats(1.0, 900.0), turn=turns)
def test_balloons_of_a_cluster_just_touch(count: int, diameter: float, turn: float) -> None:
    gaps = pdist(offsets(count, diameter, turn))  # scipy, an independent measure
    assert gaps.min() == pytest.approx(diameter, rel=1e-9)
    assert np.isclose(gaps, diameter).sum() == (count if count > 2 else 1)


@law
@given(count=counts, turn=turns)
def test_places_go_evenly_round_from_the_turn(count: int, turn: float) -> None:
    steps = np.diff([turn, *places(count, turn)]) - 360.0 / count * np.minimum(range(count), 1)
    assert np.allclose(np.cos(np.radians(steps)), 1.0)
    assert all(0.0 <= phi <= 360.0 for phi in places(count, turn))


def test_a_quad_with_its_point_in_is_outer_front_inner_back() -> None:
    words = [place_word(phi, 4) for phi in places(4, turn_for(POINT_IN, 4))]
    assert words == ["outer", "front", "inner", "back"]


def test_a_quad_with_its_valley_in_turns_two_balloons_inward() -> None:
    words = [place_word(phi, 4) for phi in places(4, turn_for(VALLEY_IN, 4))]
    assert words == ["outer front", "inner front", "inner back", "outer back"]


@law
@given(count=counts, eighths=st.integers(-80, 80))
def test_every_balloon_of_a_cluster_has_a_word_of_its_own(count: int, eighths: int) -> None:
    # Also on the borders between two words, every 22.5 degrees.
    turn = eighths * 22.5 / gcd(count, 2)
    words = [place_word(phi, count) for phi in places(count, turn)]
    assert len(set(words)) == count


@law
@given(count=counts)
def test_point_in_puts_a_balloon_straight_in_and_valley_in_puts_it_midway(count: int) -> None:
    def nearest_to_straight_in(turn: float) -> float:
        return min(abs(phi - 180.0) for phi in places(count, turn))

    assert nearest_to_straight_in(turn_for(POINT_IN, count)) == pytest.approx(0.0, abs=1e-9)
    assert nearest_to_straight_in(turn_for(VALLEY_IN, count)) == pytest.approx(180.0 / count)


@law
@given(count=counts, diameter=st.floats(1.0, 900.0), turn=turns)
def test_every_centre_is_a_knot_radius_away(count: int, diameter: float, turn: float) -> None:
    spread = offsets(count, diameter, turn)
    assert spread.shape == (count, 2)
    assert [hypot(n, b) for n, b in spread] == pytest.approx([knot_radius(count, diameter)] * count)


def test_front_is_toward_the_viewer_and_outer_along_the_normal() -> None:
    assert offsets(1, 100.0, 0.0)[0] == pytest.approx([50.0, 0.0])
    assert offsets(1, 100.0, 90.0)[0] == pytest.approx([0.0, 50.0])


def test_what_is_no_cluster_is_refused() -> None:
    with pytest.raises(NotASize, match="one balloon or more, not 0"):
        knot_radius(0, 100.0)
    with pytest.raises(NotASize, match="diameter"):
        offsets(4, nan, 0.0)
    with pytest.raises(NotASize, match="at most eight"):
        place_word(0.0, 9)
    with pytest.raises(NotASize, match="write 'valley in' or 'point in'"):
        turn_for("sideways", 4)
