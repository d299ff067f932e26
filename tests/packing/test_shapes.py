"""Poles, arches, polygons, hearts, spirals and paths against closed forms and other judges."""

from __future__ import annotations

from math import asinh, atan2, degrees, hypot, pi, sqrt, tan

import numpy as np
import pytest
import svgpathtools
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ellipe
from shapely import LineString, Point, Polygon, maximum_inscribed_circle

from mockup.lengths import Unit
from mockup.packing.arches import Arch
from mockup.packing.drawn import DrawnPath
from mockup.packing.frames import FRAMES, Frame, NotAFrame, frame_from, frame_kind
from mockup.packing.hearts import Heart
from mockup.packing.joined import Joined
from mockup.packing.poles import Pole
from mockup.packing.polygons import Hexagon, Square
from mockup.packing.spirals import Spiral

WAVE = "M 0 0 C 200 -300 500 300 800 -50 S 1200 400 1500 0"
LOOP = "M 100 100 h 400 a 100 100 0 0 1 100 100 v 200 c 0 90 -120 160 -300 160 q -200 0 -200 -200 z"
EVERY: list[Joined] = [
    Pole(1800.0, 20.0),
    Arch(2020.0, 2200.0, 700.0, 20.0),
    Arch(2020.0, 900.0, 0.0, 20.0),
    Square(1000.0, 120.0, 20.0),
    Hexagon(1000.0, 80.0, 20.0),
    Heart(1020.0, 1020.0, 60.0, 20.0),
    Spiral(1500.0, 200.0, 2.5, 20.0),
    DrawnPath(WAVE, 1.0, 12.0),
    DrawnPath(LOOP, 2.0, 12.0),
]
shares = st.floats(0.001, 0.999)


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
@settings(max_examples=20)
@given(share=shares)
def test_s_is_arc_length_and_the_normal_stands_left_of_the_way(frame: Frame, share: float) -> None:
    s, step = share * frame.length, 1e-3
    (x0, y0), (x1, y1) = frame.at(s - step), frame.at(s + step)
    assert hypot(x1 - x0, y1 - y0) == pytest.approx(2 * step, rel=2e-4)
    nx, ny = frame.normal(s)
    assert hypot(nx, ny) == pytest.approx(1.0)
    way = (x1 - x0) / (2 * step), (y1 - y0) / (2 * step)
    if not _by_a_corner(frame, s, 2 * step):
        assert (nx, ny) == pytest.approx((-way[1], way[0]), abs=2e-3)


def _by_a_corner(frame: Frame, s: float, near: float) -> bool:
    return any(abs(at - s) <= near for at, _ in getattr(frame, "corners", ()))


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
@settings(max_examples=20)
@given(share=shares)
def test_the_bend_is_how_fast_the_way_turns(frame: Frame, share: float) -> None:
    s, step = share * frame.length, 0.01
    if any(abs(s - end) < 2 * step for end in EVERY[EVERY.index(frame)].ends):  # type: ignore[arg-type]
        return  # where legs meet the bend jumps
    (ax, ay), (bx, by) = frame.normal(s - step), frame.normal(s + step)
    turned = atan2(ay * bx - ax * by, ax * bx + ay * by)
    assert frame.bend(s) == pytest.approx(turned / (2 * step), abs=2e-6, rel=1e-3)


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
def test_the_sample_is_as_long_as_the_centre_line(frame: Frame) -> None:
    assert LineString(frame.sample(1.0)).length == pytest.approx(frame.length, rel=2e-5)


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
def test_clock_angles_and_arc_lengths_go_both_ways(frame: Frame) -> None:
    for share in np.linspace(0.02, 0.98, 49).tolist():
        s = share * frame.length
        assert frame.s_at_deg(frame.deg_at(s)) == pytest.approx(s, abs=1e-5)


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
def test_closed_frames_run_clockwise_so_that_normals_point_outward(frame: Frame) -> None:
    if frame.closed:
        ring = Polygon(frame.sample(2.0))
        assert not ring.exterior.is_ccw
        for share in (0.03, 0.31, 0.77):
            (x, y), (nx, ny) = (f(share * frame.length) for f in (frame.at, frame.normal))
            assert not ring.contains(Point(x + nx, y + ny))
            assert ring.contains(Point(x - nx, y - ny))


def test_half_an_ellipse_is_as_long_as_the_elliptic_integral_says() -> None:
    """Perimeter of an ellipse 4 a E(m), m = 1 - b^2/a^2 (scipy.special.ellipe; DLMF 19.9.9)."""
    for width, rise in ((2000.0, 700.0), (2000.0, 999.0), (1500.0, 2000.0)):
        arch = Arch(width + 20.0, rise + 310.0, 300.0, 20.0)
        a, b = sorted((width / 2, rise))[::-1]
        half = 2 * a * ellipe(1 - (b / a) ** 2)
        assert arch.length == pytest.approx(half + 2 * 290.0, rel=1e-11)


def test_an_ellipse_bends_at_its_crown_by_b_over_a_squared() -> None:
    """Curvature of an ellipse at its vertices: b/a^2 and a/b^2 (closed form)."""
    arch = Arch(2020.0, 1010.0, 300.0, 20.0)
    a, b = 1000.0, 700.0
    assert arch.bend(arch.length / 2) == pytest.approx(b / a**2, rel=1e-9)
    assert arch.bend(290.0 + 1e-6) == pytest.approx(a / b**2, rel=1e-4)
    assert arch.bend(100.0) == 0.0


def test_a_spiral_is_as_long_as_its_closed_form() -> None:
    """Archimedean r = q (angle): q/2 (t sqrt(1 + t^2) + asinh t) between two angles."""
    spiral = Spiral(1520.0, 300.0, 2.0, 20.0)
    q = (750.0 - 150.0) / (4 * pi)

    def gone(radius: float) -> float:
        t = radius / q
        return q / 2 * (t * sqrt(1 + t * t) + asinh(t))

    assert spiral.length == pytest.approx(gone(750.0) - gone(150.0), rel=1e-11)


def test_rounded_polygons_lose_at_each_corner_what_a_fillet_takes() -> None:
    """Each corner of turn T bent to r: 2 r tan(T/2) of straight becomes r T of bend (Euclid)."""
    square, hexagon = Square(1020.0, 100.0, 20.0), Hexagon(1020.0, 100.0, 20.0)
    assert square.length == pytest.approx(4 * 1000 - 8 * 100 + 2 * pi * 100)
    edges = 12 * 500 * tan(pi / 6)
    assert hexagon.length == pytest.approx(edges - 12 * 100 * tan(pi / 6) + 2 * pi * 100)


@pytest.mark.parametrize("corner", [20.0, 60.0, 120.0])
@pytest.mark.parametrize("height", [800.0, 1020.0, 1300.0])
def test_a_heart_is_smooth_and_keeps_its_measures(height: float, corner: float) -> None:
    heart = Heart(1020.0, height, corner, 20.0)
    line = heart.sample(1.0)
    assert np.ptp(line, axis=0) == pytest.approx([1000.0, height - 20.0], abs=0.01)
    ends = [0.0, *heart.ends]
    for s in ends[1:-1]:
        assert heart.normal(s - 1e-6) == pytest.approx(heart.normal(s + 1e-6), abs=1e-4)
    assert heart.at(0.3 * heart.length)[0] == pytest.approx(-heart.at(0.7 * heart.length)[0])


@pytest.mark.parametrize(("line", "unit"), [(WAVE, 1.0), (LOOP, 2.0), (WAVE, 25.4)])
def test_a_drawn_path_is_as_long_as_an_independent_library_says(line: str, unit: float) -> None:
    """svgpathtools, which shares no code with the library that reads the path here."""
    judge = svgpathtools.parse_path(line)
    assert DrawnPath(line, unit, 10.0).length == pytest.approx(unit * judge.length(), rel=1e-6)


def test_a_drawn_paths_bends_are_those_of_an_independent_library() -> None:
    judge, path = svgpathtools.parse_path(WAVE), DrawnPath(WAVE, 1.0, 10.0)
    for share in (0.1, 0.3, 0.45, 0.6, 0.85):
        t = judge.ilength(share * judge.length())
        segment, local = judge.t2T, judge.T2t(t)
        del segment
        bend = judge[local[0]].curvature(local[1])
        assert abs(path.bend(share * path.length)) == pytest.approx(bend, rel=1e-3)


@pytest.mark.parametrize("frame", EVERY, ids=lambda f: f.kind)
def test_the_opening_is_the_largest_disc_inside(frame: Frame) -> None:
    """Judged by GEOS' maximum inscribed circle."""
    found = frame.opening("inside")
    if isinstance(frame, Pole | Spiral) or (isinstance(frame, DrawnPath) and not frame.closed):
        assert found is None
        return
    assert found is not None
    x, y, radius = found
    shape = Polygon(frame.sample(1.0))
    judge = maximum_inscribed_circle(shape, tolerance=0.05).length
    assert radius + frame.tube / 2 == pytest.approx(judge, abs=0.3)
    assert shape.contains(Point(x, y).buffer(radius))
    in_front = frame.opening("in front")
    assert in_front is not None
    assert in_front[2] == pytest.approx(radius + frame.tube)


def test_the_arch_reads_its_clock_from_where_it_springs() -> None:
    arch = Arch(2020.0, 2200.0, 700.0, 20.0)
    assert arch.at(arch.s_at_deg(270.0)) == pytest.approx((-1000.0, 700.0))
    assert arch.at(arch.s_at_deg(90.0)) == pytest.approx((1000.0, 700.0))
    assert arch.at(0.0) == pytest.approx((-1000.0, 10.0))
    assert not 0 <= arch.s_at_deg(180.0) <= arch.length


def test_corners_of_a_path_are_told_with_their_turn() -> None:
    path = DrawnPath("M 0 0 H 300 V 200", 1.0, 10.0)
    assert path.corners[0] == pytest.approx((300.0, 90.0))
    triangle = DrawnPath("M 0 0 L 300 0 L 150 250 Z", 1.0, 10.0)
    assert [round(turn) for _, turn in triangle.corners] == [121, 118, 121]


def test_a_path_drawn_backward_is_turned_so_that_it_runs_clockwise() -> None:
    there = DrawnPath("M 0 0 L 0 200 L 300 200 L 300 0 Z", 1.0, 10.0)
    back = DrawnPath("M 0 0 L 300 0 L 300 200 L 0 200 Z", 1.0, 10.0)
    assert there.length == back.length
    assert sorted(map(tuple, there.sample(50).round(6))) == sorted(
        map(tuple, back.sample(50).round(6))
    )


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("", "no length"),
        ("M 5 5", "no length"),
        ("M 5 5 L 5 5", "no length"),
        ("not a path", "no SVG path|no length"),
        ("M 0 0 L 10 0 M 20 0 L 30 0", "several lines"),
        ("M 0 0 C 100 100 0 100 100 0 L 100 0 C 50 0 50 0 100 0", "doubles back|cusp|no length"),
        ("M 0 0 L 100 0 L 0 1", "doubles back"),
        ("M 0 0 C 100 100 0 100 100 0", "cusp"),
    ],
)
def test_what_is_no_path_says_why(line: str, says: str) -> None:
    with pytest.raises(NotAFrame, match=says):
        DrawnPath(line, 1.0, 10.0)


def test_an_open_path_is_refused_where_a_closed_one_is_asked() -> None:
    with pytest.raises(NotAFrame, match="open"):
        DrawnPath(WAVE, 1.0, 10.0, must_close=True)
    assert DrawnPath(LOOP, 1.0, 10.0, must_close=True).closed


@pytest.mark.parametrize(
    ("kind", "figures", "says"),
    [
        ("pole", {"height": 20.0}, "too short"),
        ("arch", {"width": 1000.0, "height": 500.0, "legs": 490.0}, "higher than its legs"),
        ("arch", {"width": 1000.0, "height": 500.0, "legs": -1.0}, "zero or more"),
        ("square", {"outside": 500.0, "corner": 300.0}, "at most 240"),
        ("hexagon", {"outside": 500.0, "corner": 0.0}, "above zero"),
        ("heart", {"width": 500.0, "height": 1500.0, "corner": 20.0}, "times as high"),
        ("heart", {"width": 500.0, "height": 500.0, "corner": 200.0}, "at most"),
        ("spiral", {"outside": 500.0, "inner": 480.0, "turns": 2.0}, "larger than its inner"),
        ("spiral", {"outside": 500.0, "inner": 100.0, "turns": 15.0}, "turns of this spiral touch"),
        ("spiral", {"outside": 500.0, "inner": 100.0, "turns": 99.0}, "between 0.25 and 20"),
        ("square", {"outside": 500.0}, "needs corner"),
    ],
)
def test_what_is_no_frame_says_why(kind: str, figures: dict[str, float], says: str) -> None:
    with pytest.raises(NotAFrame, match=says):
        frame_from(kind, tube=20.0, **figures)


@pytest.mark.parametrize(("unit", "says"), [("in", "at most 4.13 in"), ("cm", "at most 10.5 cm")])
def test_a_measure_that_is_wrong_is_told_in_the_readers_unit(unit: Unit, says: str) -> None:
    with pytest.raises(NotAFrame, match="at most 105 mm") as wrong:
        frame_from("heart", tube=20.0, width=800.0, height=800.0, corner=200.0)
    assert says in wrong.value.in_unit(unit)


def test_every_word_leads_to_a_frame_of_that_kind() -> None:
    assert {frame_kind(word).__name__ for word in FRAMES} >= {type(f).__name__ for f in EVERY}
    assert all(frame.kind in FRAMES for frame in EVERY)
    for word in FRAMES:
        assert getattr(frame_kind(word), "kind", None) == word


def test_a_clock_face_is_even_on_a_square() -> None:
    square = Square(1020.0, 100.0, 20.0)
    for hour in range(12):
        x, y = square.at(square.s_at_deg(30.0 * hour))
        assert degrees(atan2(x, y)) % 360 == pytest.approx(30.0 * hour, abs=1e-6)
