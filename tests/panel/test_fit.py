"""Verdicts, room and heights of hand-made pieces with closed-form answers, and the laws."""

from __future__ import annotations

import time
import tracemalloc
from dataclasses import fields
from math import hypot, inf, pi, sqrt
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from mockup.panel.fit import Fit, fit_numerals
from mockup.panel.numerals import NotANumeral, UnknownCharacter
from mockup.panel.window import NotAnOpening, blocked_radii

R, H, W = 300.0, 200.0, 260.0
HALF = 0.115 * H
"""Half the stroke; the minus is a capsule: a line from -REACH to REACH at y 0, HALF thick."""
REACH = W / 2 - HALF
LENGTHS = (
    "room",
    "raised",
    "height",
    "width",
    "largest_height",
    "window_width",
    "window_height",
    "overhang",
)


def fit(text: str, balloons: list[tuple[float, float, float, float]], **more: Any) -> Fit:
    """Fit among balloons of (x, y, z, diameter); the slab is 8 mm about z 0."""
    figures: dict[str, Any] = {
        "widths": {"-": W},
        "gap": 12.0,
        "thickness": 8.0,
        "z0": 0.0,
        "opening_radius": R,
        "centres": [balloon[:3] for balloon in balloons],
        "diameters": [balloon[3] for balloon in balloons],
    }
    return fit_numerals(text, more.pop("height", H), **{**figures, **more})


def crowd(seed: int, count: int = 16) -> list[tuple[float, float, float, float]]:
    """Balloons round the opening, on, behind and in front of the panel."""
    rng = np.random.default_rng(seed)
    angle, apart = rng.uniform(0, 2 * pi, count), rng.uniform(230, 330, count)
    x, y, z = apart * np.cos(angle), apart * np.sin(angle), rng.uniform(-45, 45, count)
    return list(zip(x.tolist(), y.tolist(), z.tolist(), rng.uniform(60, 110, count), strict=True))


# --- one balloon over a minus -------------------------------------------------------------------


@settings(deadline=None, max_examples=25)
@given(low=st.floats(0.1, 200), d=st.floats(20, 200), raised=st.floats(-60, 60))
def test_room_under_one_balloon(low: float, d: float, raised: float) -> None:
    y = low + d / 2
    found = fit("-", [(0.0, y, 0.0, d)], raised=raised)
    to_balloon = abs(y - raised) - HALF - d / 2
    to_edge = R - hypot(REACH, raised) - HALF
    assert found.room == pytest.approx(min(to_balloon, to_edge), abs=1e-9)
    assert found.verdict == ("clear" if min(to_balloon, to_edge) >= 0 else "clashes")
    assert found.raised == raised


def test_a_clash_tells_balloon_numeral_depth_and_place() -> None:
    found = fit("--", [(0.0, 280.0, 0.0, 20.0), (150.0, 60.0, 0.0, 100.0)], gap=20.0, raised=0.0)
    assert found.verdict == "clashes"
    assert found.room == pytest.approx(60.0 - HALF - 50.0)
    (touch,) = found.touches
    assert (touch.balloon, touch.numeral) == (1, 1)
    assert touch.depth == pytest.approx(50.0 + HALF - 60.0)
    assert touch.at == pytest.approx((150.0, HALF))


@settings(deadline=None, max_examples=25)
@given(low=st.floats(1, 0.95 * (R - REACH)), d=st.floats(60, 200))
def test_best_shift_under_one_balloon_has_a_closed_form(low: float, d: float) -> None:
    """Balloon and edge are equally far where low - s = R - hypot(REACH, s)."""
    k = R - low
    shift = (REACH**2 - k**2) / (2 * k)
    found = fit("-", [(0.0, low + d / 2, 0.0, d)])
    assert found.raised == pytest.approx(shift, abs=0.005)
    assert found.room == pytest.approx(low - HALF - shift, abs=0.002)


def test_without_balloons_the_row_stays_in_the_middle() -> None:
    found = fit("-", [])
    assert found.raised == 0.0
    assert found.verdict == "clear"
    assert found.room == pytest.approx(R - W / 2, abs=0.002)
    assert (found.window_width, found.window_height) == (2 * R, 2 * R)
    assert found.window_area == pytest.approx(pi * R**2)


def test_largest_height_in_an_empty_ring() -> None:
    found = fit("-", [])
    assert found.largest_height == pytest.approx(H * R / (W / 2), abs=0.05)


@settings(deadline=None, max_examples=25)
@given(e=st.floats(2, 40), d=st.floats(60, 200))
def test_largest_height_under_one_balloon_has_a_closed_form(e: float, d: float) -> None:
    """The minus touches balloon and edge at once: s = e - b h < 0 and hypot(a h, s) + b h = R."""
    a, b = REACH / H, HALF / H
    p, q = 2 * b * (R - e), e * e - R * R
    tallest = (-p + sqrt(p * p - 4 * a * a * q)) / (2 * a * a)
    assert e < b * tallest
    found = fit("-", [(0.0, e + d / 2, 0.0, d)])
    assert found.largest_height == pytest.approx(tallest, abs=0.05)


# --- verdicts -----------------------------------------------------------------------------------


def test_overhangs_by_how_much() -> None:
    found = fit("-", [], raised=260.0)
    assert found.verdict == "overhangs"
    assert found.overhang == pytest.approx(hypot(REACH, 260.0) + HALF - R)
    assert found.room == pytest.approx(-found.overhang)


def test_a_clash_is_named_before_an_overhang_and_both_are_told() -> None:
    found = fit("-", [(0.0, 295.0, 0.0, 60.0)], raised=260.0)
    assert found.verdict == "clashes"
    assert found.overhang > 0.0
    assert found.room == pytest.approx(min(-found.overhang, 35.0 - 30.0 - HALF))


@settings(deadline=None, max_examples=25)
@given(depth=st.floats(1.0, 20.0))
def test_tucks_under_a_balloon_in_front(depth: float) -> None:
    d, z = 120.0, 60.0
    blocked = sqrt(60.0**2 - 56.0**2)
    y = HALF + 60.0 - depth
    found = fit("-", [(0.0, y, z, d)], raised=0.0)
    assert found.verdict == "tucks"
    (touch,) = found.touches
    assert touch.depth == pytest.approx(depth)
    assert touch.at == pytest.approx((0.0, HALF))
    assert found.room == pytest.approx(min(y - HALF - blocked, R - W / 2))


def test_a_numeral_in_front_of_a_balloon_does_not_tuck() -> None:
    found = fit("-", [(0.0, HALF + 50.0, -60.0, 120.0)], raised=0.0)
    assert found.verdict == "clear"
    assert found.touches == ()
    assert found.room == pytest.approx(50.0 - sqrt(60.0**2 - 56.0**2))


def test_room_of_a_clear_numeral_is_also_that_to_silhouettes_in_front() -> None:
    found = fit("-", [(0.0, HALF + 70.0, 60.0, 120.0)], raised=0.0)
    assert found.verdict == "clear"
    assert found.room == pytest.approx(10.0)


def test_slips_between_a_front_and_a_back_balloon_until_the_valley_is_slab_wide() -> None:
    """They touch on the plane at y = 150; the valley is t wide at sqrt(r^2 - (r - t/2)^2) of it."""
    r, t = 60.0, 8.0
    valley = sqrt(r * r - (r - t / 2) ** 2)
    pair = [(0.0, 150.0, r, 2 * r), (0.0, 150.0, -r, 2 * r)]
    touching = 150.0 - valley - HALF
    inside = fit("-", pair, raised=touching - 0.001)
    assert inside.verdict == "tucks"
    assert inside.room == pytest.approx(0.001, abs=1e-6)
    (touch,) = inside.touches
    assert touch.balloon == 0
    assert touch.depth == pytest.approx(r - valley, abs=0.01)
    assert fit("-", pair, raised=touching + 0.001).verdict == "clashes"


def test_touching_is_not_clashing() -> None:
    found = fit("-", [(0.0, HALF + 50.0, 0.0, 100.0)], raised=0.0)
    assert found.room == pytest.approx(0.0, abs=1e-9)
    assert found.verdict == "clear"


# --- laws ---------------------------------------------------------------------------------------


@settings(deadline=None, max_examples=12)
@given(seed=st.integers(0, 10_000), k=st.floats(0.3, 4.0), text=st.sampled_from(["75", "8", "1-"]))
def test_scaling_everything_scales_every_figure(seed: int, k: float, text: str) -> None:
    balloons = crowd(seed)
    widths = {"7": 120.0, "-": W}
    one = fit(text, balloons, widths=widths)
    many = fit(
        text,
        [(k * x, k * y, k * z, k * d) for x, y, z, d in balloons],
        height=k * H,
        widths={char: k * width for char, width in widths.items()},
        gap=k * 12.0,
        thickness=k * 8.0,
        opening_radius=k * R,
    )
    assert many.verdict == one.verdict
    for name in LENGTHS:
        assert getattr(many, name) == pytest.approx(k * getattr(one, name), abs=0.01 * k), name
    assert many.window_area == pytest.approx(k * k * one.window_area, rel=1e-9)
    assert [t.depth for t in many.touches] == pytest.approx([k * t.depth for t in one.touches])


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 10_000), text=st.sampled_from(["80", "A", "T-O", "H8"]))
def test_mirror_in_mirror_out(seed: int, text: str) -> None:
    balloons = crowd(seed)
    one = fit(text, balloons)
    two = fit(text[::-1], [(-x, y, z, d) for x, y, z, d in balloons])
    assert two.verdict == one.verdict
    for name in LENGTHS:
        assert getattr(two, name) == pytest.approx(getattr(one, name), abs=0.05), name
    mirrored = shapely.transform(shapely.Polygon(one.window), lambda p: p * (-1, 1))
    assert mirrored.symmetric_difference(shapely.Polygon(two.window)).area < 1e-6
    last = len(one.numerals) - 1
    for here, there in zip(
        one.touches, sorted(two.touches, key=lambda t: (t.balloon, last - t.numeral)), strict=True
    ):
        assert (there.balloon, there.numeral) == (here.balloon, last - here.numeral)
        assert there.depth == pytest.approx(here.depth, abs=0.002)


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 10_000), which=st.integers(0, 15), by=st.floats(1, 30))
def test_growing_a_balloon_never_gives_more_room(seed: int, which: int, by: float) -> None:
    balloons = crowd(seed)
    grown = [(x, y, z, d + by * (i == which)) for i, (x, y, z, d) in enumerate(balloons)]
    before, after = fit("75", balloons, raised=0.0), fit("75", grown, raised=0.0)
    order = ["clear", "tucks", "clashes"]
    assume("overhangs" not in (before.verdict, after.verdict))
    assert order.index(after.verdict) >= order.index(before.verdict)
    if before.verdict == after.verdict:
        assert after.room <= before.room + 1e-9


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 10_000), text=st.sampled_from(["75", "100", "4"]))
def test_fits_at_its_largest_height_and_not_a_millimetre_above(seed: int, text: str) -> None:
    balloons = crowd(seed)
    largest = fit(text, balloons).largest_height
    assert fit(text, balloons, height=largest).verdict in ("clear", "tucks")
    assert fit(text, balloons, height=largest + 1.0).verdict in ("clashes", "overhangs")


@settings(deadline=None, max_examples=10)
@given(seed=st.integers(0, 10_000))
def test_the_polygons_of_numerals_and_window_agree_with_the_verdict(seed: int) -> None:
    """Judge: shapely's own overlap of outlines and blocked discs."""
    balloons = crowd(seed)
    found = fit("75", balloons)
    blocked = blocked_radii([b[:3] for b in balloons], [b[3] for b in balloons], 8.0, 0.0)
    numerals = shapely.union_all([n.polygon() for n in found.numerals])
    apart = [
        shapely.Point(b[0], b[1]).distance(numerals) - radius
        for b, radius in zip(balloons, blocked, strict=True)
        if radius > 0
    ]
    edge = R - np.hypot(*shapely.get_coordinates(numerals).T).max()
    if found.verdict in ("clear", "tucks"):
        assert min(*apart, edge) > -0.01
        assert shapely.difference(numerals, shapely.Polygon(found.window)).area < 25.0
    if found.verdict == "tucks":
        assert found.room == pytest.approx(min(*apart, edge), abs=0.1)


def test_same_input_same_answer() -> None:
    assert fit("75", crowd(4)) == fit("75", crowd(4))


def test_another_opening_centre_moves_everything() -> None:
    balloons = crowd(2)
    here = fit("75", balloons)
    moved = [(x + 40.0, y - 900.0, z, d) for x, y, z, d in balloons]
    there = fit("75", moved, opening_centre=(40.0, -900.0))
    assert there.verdict == here.verdict
    assert there.room == pytest.approx(here.room, abs=1e-6)
    assert there.raised == pytest.approx(here.raised, abs=1e-3)
    for a, b in zip(here.numerals, there.numerals, strict=True):
        assert (b.x - 40.0, b.y + 900.0) == pytest.approx((a.x, a.y), abs=1e-3)
    for p, q in zip(here.attach, there.attach, strict=True):
        assert (q[0] - 40.0, q[1] + 900.0) == pytest.approx(p, abs=1e-2)
    assert there.window[0][1] == pytest.approx(here.window[0][1] - 900.0)


# --- glue points --------------------------------------------------------------------------------


def test_glue_points_are_where_upper_and_lower_halves_come_nearest() -> None:
    found = fit("I", [(0.0, 250.0, 0.0, 100.0), (60.0, -240.0, 0.0, 90.0)], raised=0.0)
    upper, lower = found.attach
    assert upper == pytest.approx((0.0, H / 2))
    end = (0.0, -H / 2 + HALF)
    way = hypot(60.0, -240.0 - end[1])
    assert lower == pytest.approx((HALF * 60.0 / way, end[1] + HALF * (-240.0 - end[1]) / way))


def test_glue_points_lie_on_the_outlines() -> None:
    found = fit("75", crowd(7))
    outline = shapely.union_all([n.polygon() for n in found.numerals]).boundary
    assert len(found.attach) == 4
    assert all(outline.distance(shapely.Point(p)) < 0.1 for p in found.attach)


def test_without_balloons_glue_points_are_nearest_to_the_tube() -> None:
    found = fit("I", [], raised=0.0)
    upper, lower = found.attach
    assert upper == pytest.approx((0.0, H / 2))
    assert lower == pytest.approx((0.0, -H / 2))


# --- what may come in ---------------------------------------------------------------------------


def test_a_balloon_over_the_centre_leaves_no_window_and_clashes() -> None:
    found = fit("0", [(10.0, 0.0, 0.0, 30.0)], height=500.0, widths={"0": 400.0}, raised=0.0)
    assert found.verdict == "clashes"
    assert found.room == pytest.approx(10.0 - 15.0)
    assert (found.window, found.window_area, found.window_width) == ((), 0.0, 0.0)
    assert found.largest_height == 0.0
    (touch,) = found.touches
    assert (touch.balloon, touch.numeral) == (0, 0)
    assert touch.depth == pytest.approx(5.0)


@pytest.mark.parametrize("text", ["", "  "])
def test_no_numeral_is_told(text: str) -> None:
    with pytest.raises(NotANumeral, match="write at least one"):
        fit(text, [])


def test_an_unknown_character_is_told() -> None:
    with pytest.raises(UnknownCharacter, match="'a'"):
        fit("7a", [])


@pytest.mark.parametrize("bad", [{"raised": inf}, {"height": 0.0}, {"gap": inf}])
def test_bad_figures_of_the_row_are_told(bad: dict[str, float]) -> None:
    with pytest.raises(NotANumeral):
        fit("7", [], **bad)


@pytest.mark.parametrize("bad", [{"opening_radius": -1.0}, {"thickness": -1.0}, {"z0": inf}])
def test_bad_figures_of_the_opening_are_told(bad: dict[str, float]) -> None:
    with pytest.raises(NotAnOpening):
        fit("7", [], **bad)


def test_a_row_far_too_wide_has_no_height_that_fits() -> None:
    found = fit("11111111", [], gap=200.0)
    assert found.verdict == "overhangs"
    assert found.largest_height == 0.0


def test_figures_are_plain_numbers() -> None:
    """Whoever writes them to JSON or a drawing needs no numpy."""
    found = fit("75", crowd(4))
    told = [field.name for field in fields(found) if field.compare]
    for name in (*told, "largest_height", "window_area", "window"):
        assert type(getattr(found, name)) in (float, str, tuple), name
    assert all(type(x) is float for point in (*found.window, *found.attach) for x in point)
    for touch in found.touches:
        assert (type(touch.balloon), type(touch.numeral), type(touch.depth)) == (int, int, float)


def test_five_thousand_balloons_stay_within_time_and_memory() -> None:
    rng = np.random.default_rng(1)
    angle, apart = rng.uniform(0, 2 * pi, 5000), rng.uniform(230, 400, 5000)
    z = rng.uniform(-30, 30, 5000)
    centres: NDArray[np.float64] = np.column_stack(
        [apart * np.cos(angle), apart * np.sin(angle), z]
    )
    tracemalloc.start()
    start = time.perf_counter()
    found = fit("1988", [], centres=centres, diameters=rng.uniform(20, 60, 5000))
    taken, peak = time.perf_counter() - start, tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert found.largest_height > 0.0
    assert peak < 100e6
    assert taken < 20.0
