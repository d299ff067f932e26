"""The room that numerals have among many options' balloons."""

from __future__ import annotations

import numpy as np
import pytest

from mockup.suggest.rooms import numeral_map, room

SIDES = np.array([[-240.0, 240.0, 0.0], [0.0, 0.0, 150.0]])[:, :, None]


def discs(*radii: float) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array(radii)[:, None]


def test_shifts_as_good_may_leave_unlike_room_in_front() -> None:
    """A stroke between two discs may go up under the balloon in front, or down away from it."""
    numerals = numeral_map("I", 200.0, {}, 0.0, radius=300.0, raised=None)
    found = room(numerals, SIDES, discs(60.0, 60.0, 0.0), discs(0.0, 0.0, 50.0), 90.0)
    half_stroke = float(-numerals.clearance(np.zeros(1), np.zeros(1))[0])
    assert found.solid[0] == pytest.approx(180.0 - half_stroke, abs=1.0)
    # Level with the discs the stroke is as clear of them 40 mm up as 40 mm down.
    assert found.front[0] == pytest.approx(0.0 - 40.0, abs=3.0)
    assert found.most[0] == pytest.approx(0.0 + 40.0, abs=3.0)


def test_a_row_that_is_fixed_has_one_room_in_front() -> None:
    numerals = numeral_map("I", 200.0, {}, 0.0, radius=300.0, raised=0.0)
    found = room(numerals, SIDES, discs(60.0, 60.0, 0.0), discs(0.0, 0.0, 40.0), 90.0)
    assert found.front[0] == found.most[0] == pytest.approx(10.0, abs=1.0)


@pytest.mark.parametrize(("height", "radius"), [(60.0, 900.0), (250.0, 300.0)])
def test_every_shift_is_tried_that_keeps_the_row_in_the_opening(
    height: float, radius: float
) -> None:
    """Small numerals may go far up: what blocks all below leaves them their room there."""
    numerals = numeral_map("I", height, {}, 0.0, radius=radius, raised=None)
    assert numerals.shifts.max() >= radius - height / 2 - 2.0
    assert np.diff(numerals.shifts).max() <= 7.0
    low = np.array([[0.0], [-radius]])[:, :, None]
    found = room(numerals, low, discs(1.2 * radius), discs(0.0), 90.0)
    best = (0.8 * radius - height) / 2
    assert found.solid[0] == pytest.approx(best, abs=7.0)


def test_a_sharp_best_shift_has_its_own_room_in_front() -> None:
    """Between two blocked discs one shift is best by far, whichever of those tried it is."""
    numerals = numeral_map("I", 60.0, {}, 0.0, radius=900.0, raised=None)
    for up in np.linspace(0.0, 28.0, 29):
        xy = np.array([[0.0, 0.0, 200.0], [up - 500.0, up + 500.0, up]])[:, :, None]
        found = room(numerals, xy, discs(300.0, 300.0, 0.0), discs(0.0, 0.0, 60.0), 150.0)
        assert found.front[0] <= found.most[0]
        assert found.most[0] == pytest.approx(200.0 - 60.0 - 7.0, abs=8.0)
