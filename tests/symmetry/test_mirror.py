"""The left/right mirror against shapely's reflection and scipy's KD-tree, and its laws."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import cKDTree
from shapely import Point, affinity

from mockup.symmetry.mirror import Break, Spot, left_right_breaks, mirror_pairs

TOLERANCE = 0.5
PLACE = st.integers(-200, 200).map(float)
SPOT = st.builds(
    Spot, PLACE, PLACE, PLACE, st.just(100.0), st.sampled_from("AB"), st.just(0), st.just(0)
)


def numbered(spots: list[Spot]) -> list[Spot]:
    return [replace(spot, index=index) for index, spot in enumerate(spots)]


def mirrored_by_shapely(spot: Spot) -> Spot:
    point = affinity.scale(Point(spot.x, spot.y, spot.z), xfact=-1, origin=(0, 0, 0))
    return replace(spot, x=point.x, y=point.y, z=point.z)


def apart(spots: list[Spot]) -> list[Spot]:
    """Only spots that neither crowd one another nor each other's mirrors."""
    kept: list[Spot] = []
    for spot in spots:
        both = [*kept, *map(mirrored_by_shapely, kept)]
        clear = all(max(abs(spot.x - o.x), abs(spot.y - o.y), abs(spot.z - o.z)) > 3 for o in both)
        if clear and abs(spot.x) > 3:
            kept.append(spot)
    return kept


FIELD = st.lists(SPOT, max_size=12).map(apart)


@given(FIELD)
def test_a_half_and_its_reflection_have_no_breaks(half: list[Spot]) -> None:
    # shapely.affinity is the independent mirror.
    whole = numbered([*half, *map(mirrored_by_shapely, half)])
    assert left_right_breaks(whole, TOLERANCE) == []
    assert len(mirror_pairs(whole, TOLERANCE)) == len(half)


@given(FIELD)
def test_mirrored_twice_is_the_same(spots: list[Spot]) -> None:
    twice = [mirrored_by_shapely(mirrored_by_shapely(spot)) for spot in spots]
    assert left_right_breaks(numbered(twice), TOLERANCE) == left_right_breaks(
        numbered(spots), TOLERANCE
    )


@given(FIELD)
def test_a_mirrored_piece_has_as_many_breaks(spots: list[Spot]) -> None:
    seen = numbered(list(map(mirrored_by_shapely, spots)))
    kinds = [each.kind for each in left_right_breaks(numbered(spots), TOLERANCE)]
    assert sorted(kinds) == sorted(each.kind for each in left_right_breaks(seen, TOLERANCE))


@given(FIELD, st.floats(0.2, 5))
def test_scaling_the_piece_changes_no_answer(spots: list[Spot], by: float) -> None:
    scaled = [
        replace(s, x=s.x * by, y=s.y * by, z=s.z * by, diameter=s.diameter * by) for s in spots
    ]
    plain = left_right_breaks(numbered(spots), TOLERANCE)
    other = left_right_breaks(numbered(scaled), TOLERANCE * by)
    assert [(b.index, b.kind, b.found) for b in plain] == [
        (b.index, b.kind, b.found) for b in other
    ]


@given(st.lists(SPOT, min_size=1, max_size=14).map(apart))
def test_who_has_a_mirror_agrees_with_a_tree(spots: list[Spot]) -> None:
    # scipy's KD-tree is the independent finder.
    if not spots:
        return
    at = np.array([(s.x, s.y, s.z) for s in spots])
    near = np.atleast_1d(cKDTree(at).query(at * (-1, 1, 1))[0])
    paired = {i for pair in mirror_pairs(numbered(spots), TOLERANCE) for i in pair}
    assert paired == {i for i, off in enumerate(near) if off <= TOLERANCE}


def pair(**right: object) -> list[Break]:
    base = Spot(300, 100, 40, 114.3, "A", 3, 0)
    left = replace(base, x=-300, cluster=5, index=1)
    return left_right_breaks([replace(base, **right), left], TOLERANCE)  # type: ignore[arg-type]  # fields by name


def test_a_break_of_colour_names_both_and_is_told_once() -> None:
    (found,) = pair(letter="B")
    assert (found.index, found.kind, found.found, found.expected) == (0, "colour", 1, "A")
    assert found.says == "B, where its mirror is A"


def test_the_balloon_further_right_is_named_whichever_is_listed_first() -> None:
    left = Spot(-300, 100, 40, 114.3, "A", 5, 0)
    (found,) = left_right_breaks([left, replace(left, x=300, letter="B", index=1)], TOLERANCE)
    assert (found.index, found.found, found.expected) == (1, 0, "A")


def test_a_break_of_size_says_by_how_much() -> None:
    (found,) = pair(diameter=120.0)
    assert (found.index, found.kind, found.found) == (0, "size", 1)
    assert found.off == pytest.approx(5.7)
    assert found.expected == "114.3 mm"


def test_size_and_colour_may_both_break() -> None:
    assert [each.kind for each in pair(diameter=120.0, letter="B")] == ["size", "colour"]


def test_a_break_of_place_says_how_far_off() -> None:
    (found,) = pair(y=112.0, z=45.0)
    assert (found.index, found.kind, found.found) == (0, "place", 1)
    assert found.off == pytest.approx(13.0)
    assert found.expected == "a mirror at x -300.0, y 112.0, z 45.0 mm"


def test_far_apart_both_are_told_as_alone() -> None:
    assert [(each.index, each.found) for each in pair(y=400.0)] == [(0, None), (1, None)]


def test_within_the_tolerance_nothing_is_told() -> None:
    assert pair(y=100.4) == []
    assert pair(diameter=114.7) == []


@pytest.mark.parametrize(("x", "breaks"), [(0.0, 0), (0.2, 0), (12.0, 1)])
def test_a_balloon_of_the_middle_is_its_own_mirror(x: float, breaks: int) -> None:
    found = left_right_breaks([Spot(x, 380, 50, 114.3, "A", 0, 7)], TOLERANCE)
    assert len(found) == breaks
    assert all(each.found == 7 and each.off == pytest.approx(x) for each in found)


def test_two_close_to_the_middle_are_not_robbed_of_each_other() -> None:
    spots = [Spot(0.2, 0, 0, 100, "A", 0, 0), Spot(-0.2, 0, 0, 100, "B", 0, 1)]
    assert mirror_pairs(spots, TOLERANCE) == [(0, 1)]


def test_one_balloon_is_not_the_mirror_of_two() -> None:
    right = Spot(50, 0, 0, 100, "A", 0, 0)
    spots = [right, replace(right, index=1), Spot(-50, 0, 0, 100, "A", 0, 2)]
    assert [(each.kind, each.found) for each in left_right_breaks(spots, TOLERANCE)] == [
        ("place", None)
    ]


def test_no_balloons_no_breaks() -> None:
    assert left_right_breaks([], TOLERANCE) == []


@pytest.mark.parametrize("tolerance", [0.0, -1.0, float("nan")])
def test_a_tolerance_of_nothing_is_refused(tolerance: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        left_right_breaks([], tolerance)
