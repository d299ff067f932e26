"""The slab rule and the window, against published areas, a raster and closed forms."""

from __future__ import annotations

import csv
from math import acos, pi, sqrt
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from mockup.panel.window import NotAnOpening, blocked_radii, discs, window, window_spans

LENSES = Path(__file__).parents[1] / "data" / "lens_area.csv"
AREA_SHARE = 2e-4
"""What 256 sides cost where the areas of whole discs are exact, as a share of the lens."""

Scene = tuple[NDArray[np.float64], NDArray[np.float64]]


def published_lenses() -> list[dict[str, float]]:
    """E. Weisstein, MathWorld "Circle-Circle Intersection" (the file's first line)."""
    lines = LENSES.read_text(encoding="utf-8").splitlines()[1:]
    return [{name: float(value) for name, value in row.items()} for row in csv.DictReader(lines)]


def lens(r: float, big: float, d: float) -> float:
    """MathWorld "Circle-Circle Intersection", equation for the asymmetric lens."""
    a = r * r * acos((d * d + r * r - big * big) / (2 * d * r))
    b = big * big * acos((d * d + big * big - r * r) / (2 * d * big))
    return a + b - 0.5 * sqrt((-d + r + big) * (d + r - big) * (d - r + big) * (d + r + big))


def scene(seed: int, count: int) -> Scene:
    """Balloons round a ring of 100 mm, some of them off the plane of the panel."""
    rng = np.random.default_rng(seed)
    angle, apart = rng.uniform(0, 2 * pi, count), rng.uniform(55, 110, count)
    z = rng.uniform(-30, 30, count)
    return np.column_stack([apart * np.cos(angle), apart * np.sin(angle), z]), rng.uniform(
        30, 70, count
    )


@pytest.mark.parametrize("row", published_lenses())
def test_lens_areas_are_those_published(row: dict[str, float]) -> None:
    r, big, d = row["r"], row["R"], row["d"]
    first, second = discs(np.array([[0.0, 0.0], [d, 0.0]]), np.array([big, r]))
    assert first.intersection(second).area == pytest.approx(row["lens"], rel=AREA_SHARE)
    assert first.union(second).area == pytest.approx(row["union"], rel=AREA_SHARE)
    assert lens(r, big, d) == pytest.approx(row["lens"], abs=2e-9)


@pytest.mark.parametrize("row", [row for row in published_lenses() if row["d"] >= row["r"]])
def test_one_balloon_takes_its_lens_from_the_opening(row: dict[str, float]) -> None:
    part = window(row["R"], [[row["d"], 0.0, 0.0]], [2 * row["r"]], 0.1, 0.0)
    assert part.area == pytest.approx(pi * row["R"] ** 2 - row["lens"], rel=AREA_SHARE)


@settings(deadline=None, max_examples=25)
@given(r=st.floats(5, 90), share=st.floats(0.001, 0.999))
def test_window_beside_one_balloon_has_the_closed_form(r: float, share: float) -> None:
    d = max(r, 100 - r) * (1 - share) + (100 + r) * share
    part = window(100.0, [[0.0, d, 0.0]], [2 * r], 8.0, 0.0)
    assert part.area == pytest.approx(pi * 100.0**2 - lens(r, 100.0, d), rel=AREA_SHARE)


def test_discs_are_mirror_symmetric_to_the_last_digit() -> None:
    ring = shapely.get_coordinates(discs(np.zeros((1, 2)), np.ones(1))[0])
    points = {(x, y) for x, y in ring.tolist()}
    assert len(points) == 256
    assert {(-x, y) for x, y in points} == {(x, -y) for x, y in points} == points
    assert {(y, x) for x, y in points} == points


@pytest.mark.parametrize("seed", range(6))
def test_area_agrees_with_a_raster(seed: int) -> None:
    """Judge: half-millimetre cells joined by scipy.ndimage.label, which knows no polygons."""
    from scipy import ndimage

    centres, diameters = scene(seed, 14)
    step = 0.5
    axis = np.arange(-100 + step / 2, 100, step)
    x, y = np.meshgrid(axis, axis)
    free = x**2 + y**2 < 100.0**2
    for (cx, cy, z), d in zip(centres, diameters, strict=True):
        square = (d / 2) ** 2 - max(0.0, abs(z - 2.0) - 4.0) ** 2
        free &= (x - cx) ** 2 + (y - cy) ** 2 > max(square, 0.0)
    joined, _ = ndimage.label(free)
    middle = joined[len(axis) // 2, len(axis) // 2]
    cells = int((joined == middle).sum()) if middle else 0
    part = window(100.0, centres, diameters, 8.0, 2.0)
    assert part.area == pytest.approx(cells * step**2, abs=0.004 * pi * 100.0**2)
    assert cells > 1000


@settings(deadline=None, max_examples=30)
@given(seed=st.integers(0, 10_000), which=st.integers(0, 7), by=st.floats(0.5, 30))
def test_window_shrinks_when_a_balloon_grows(seed: int, which: int, by: float) -> None:
    centres, diameters = scene(seed, 8)
    grown = diameters.copy()
    grown[which] += by
    before = window(100.0, centres, diameters, 8.0, 0.0)
    after = window(100.0, centres, grown, 8.0, 0.0)
    assert after.area <= before.area + 1e-6
    assert shapely.difference(after, before).area < 1e-6
    blocked = [blocked_radii(centres, sizes, 8.0, 0.0) for sizes in (diameters, grown)]
    spans = [window_spans(100.0, centres[:, :2], radii) for radii in blocked]
    assert spans[1][0] <= spans[0][0]
    assert spans[1][1] <= spans[0][1]


@settings(deadline=None, max_examples=25)
@given(seed=st.integers(0, 10_000))
def test_spans_agree_with_the_polygon_and_are_never_beyond_it(seed: int) -> None:
    centres, diameters = scene(seed, 8)
    part = window(100.0, centres, diameters, 8.0, 0.0)
    blocked = blocked_radii(centres, diameters, 8.0, 0.0)
    width, height = window_spans(100.0, centres[:, :2], blocked)
    for span, line in ((width, [(-200, 0), (200, 0)]), (height, [(0, -200), (0, 200)])):
        pieces = shapely.get_parts(part.intersection(shapely.LineString(line)))
        held = [p.length for p in pieces if p.distance(shapely.Point(0, 0)) < 1e-9]
        assert span == pytest.approx(max(held, default=0.0), abs=0.2)


def test_spans_of_one_balloon_above() -> None:
    assert window_spans(100.0, [[0.0, 90.0]], [50.0]) == (200.0, 140.0)
    side = 100.0 + 90.0 - sqrt(50.0**2 - 30.0**2)
    assert window_spans(100.0, [[90.0, 30.0]], [50.0]) == pytest.approx((side, 200.0))


@settings(deadline=None, max_examples=25)
@given(d=st.floats(20, 400), t=st.floats(0.5, 19))
def test_slab_enters_a_valley_until_the_valley_is_as_wide_as_it_is_thick(
    d: float, t: float
) -> None:
    """Two balloons touch on the plane, one in front, one behind: closed form of the valley."""
    reach = blocked_radii([[0, 0, d / 2], [0, 0, -d / 2]], [d, d], t, 0.0)
    assert reach[0] == reach[1]
    valley = d - 2 * sqrt((d / 2) ** 2 - reach[0] ** 2)
    assert valley == pytest.approx(t, rel=1e-9)


def test_a_balloon_off_the_slab_blocks_nothing_and_one_on_it_all_of_itself() -> None:
    reach = blocked_radii([[0, 0, 54.0], [0, 0, 53.9], [0, 0, -4.0], [0, 0, 4.0]], [100] * 4, 8, 0)
    assert reach[0] == 0.0
    assert 0.0 < reach[1] < 5.0
    assert reach[2] == reach[3] == 50.0


def test_without_balloons_the_window_is_the_opening() -> None:
    part = window(100.0, np.empty((0, 3)), [], 8.0, 0.0)
    assert part.area == pytest.approx(pi * 100.0**2, rel=1e-12)
    assert window_spans(100.0, np.empty((0, 2)), []) == (200.0, 200.0)


def test_a_balloon_over_the_centre_leaves_no_window() -> None:
    assert window(100.0, [[10.0, 0.0, 0.0]], [30.0], 8.0, 0.0).is_empty
    assert window_spans(100.0, [[10.0, 0.0]], [15.0]) == (0.0, 0.0)


def test_a_balloon_alone_in_the_opening_leaves_a_hole() -> None:
    part = window(100.0, [[50.0, 0.0, 0.0]], [30.0], 8.0, 0.0)
    assert len(part.interiors) == 1
    assert part.area == pytest.approx(pi * (100.0**2 - 15.0**2), rel=1e-9)


def test_only_the_part_with_the_centre_counts() -> None:
    wall = [[20.0 * k, 40.0, 0.0] for k in range(-5, 6)]
    part = window(100.0, wall, [30.0] * 11, 8.0, 0.0)
    assert part.bounds[3] < 40.0
    assert part.bounds[1] == pytest.approx(-100.0, abs=0.01)


def test_window_moves_with_its_opening() -> None:
    centres, diameters = scene(3, 8)
    here = window(100.0, centres, diameters, 8.0, 0.0)
    moved = centres + np.array([30.0, -7.0, 0.0])
    there = window(100.0, moved, diameters, 8.0, 0.0, opening_centre=(30.0, -7.0))
    back = shapely.transform(there, lambda points: points - (30.0, -7.0))
    assert shapely.symmetric_difference(here, back).area < 1e-6


@pytest.mark.parametrize(
    ("radius", "centres", "diameters", "thickness"),
    [
        (0.0, [], [], 8.0),
        (float("nan"), [], [], 8.0),
        (100.0, [], [], -1.0),
        (100.0, [[0, 0, 0]], [], 8.0),
        (100.0, [[0, 0, float("inf")]], [10.0], 8.0),
        (100.0, [[0, 90, 0]], [-10.0], 8.0),
    ],
)
def test_figures_without_sense_are_refused(
    radius: float, centres: list[list[float]], diameters: list[float], thickness: float
) -> None:
    with pytest.raises(NotAnOpening):
        window(radius, centres, diameters, thickness, 0.0)
