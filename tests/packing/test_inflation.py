"""Strokes and diameters."""

from __future__ import annotations

from math import inf, nan, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.errors import MockupError
from mockup.packing.inflation import (
    NotASize,
    diameter_for_strokes,
    fill_share,
    strokes_for_diameter,
)

law = settings(max_examples=60, deadline=None)

figures = st.floats(0.01, 1e4)


@pytest.mark.parametrize(("strokes", "inches"), [(4, 4.5), (3, 4.1), (2, 3.6), (1, 2.8)])
def test_a_pump_whose_four_strokes_give_four_and_a_half_inches(
    strokes: float, inches: float
) -> None:
    # Common practice, no source: what the pump gives, to 2 %.
    got = diameter_for_strokes(strokes, ref_strokes=4, ref_diameter=4.5)
    assert got == pytest.approx(inches, rel=0.02)


@law
@given(strokes=figures, ref_strokes=figures, ref_diameter=figures)
def test_strokes_to_diameter_and_back(
    strokes: float, ref_strokes: float, ref_diameter: float
) -> None:
    diameter = diameter_for_strokes(strokes, ref_strokes=ref_strokes, ref_diameter=ref_diameter)
    back = strokes_for_diameter(diameter, ref_strokes=ref_strokes, ref_diameter=ref_diameter)
    assert back == pytest.approx(strokes, rel=1e-12)


@law
@given(strokes=figures, more=figures)
def test_each_stroke_moves_the_same_volume(strokes: float, more: float) -> None:
    def volume(count: float) -> float:
        return pi / 6 * diameter_for_strokes(count, ref_strokes=1, ref_diameter=70.0) ** 3

    assert volume(strokes + more) == pytest.approx(volume(strokes) + volume(more), rel=1e-9)


def test_the_share_a_balloon_is_filled_to() -> None:
    assert fill_share(114.3, 127.0) == pytest.approx(0.9)


@pytest.mark.parametrize("bad", [0.0, -1.0, nan, inf])
def test_what_no_pump_can_do_is_refused_by_name(bad: float) -> None:
    with pytest.raises(NotASize, match="strokes"):
        diameter_for_strokes(bad, ref_strokes=4, ref_diameter=4.5)
    with pytest.raises(NotASize, match="ref_diameter"):
        strokes_for_diameter(4.0, ref_strokes=4, ref_diameter=bad)
    with pytest.raises(MockupError, match="nominal"):
        fill_share(4.0, bad)
