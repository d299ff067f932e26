"""Rings, arcs and bars, and how another path joins them."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, hypot, inf, pi, sqrt
from typing import ClassVar

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from shapely import LineString

from mockup.errors import MockupError
from mockup.packing.frames import FRAMES, Arc, Frame, NotAFrame, Ring, Straight, frame_from

law = settings(max_examples=60, deadline=None)

EVERY: list[Frame] = [
    Ring(762.0, 12.7),
    Arc(1500.0, 25.0, 270.0, 90.0),
    Arc(900.0, 20.0, 300.0, 200.0),
    Straight(2000.0, 25.0),
]
every_frame = pytest.mark.parametrize("frame", EVERY, ids=lambda f: f"{f.kind}-{f.length:.0f}")


@every_frame
@law
@given(share=st.floats(0.0, 1.0))
def test_s_is_arc_length_and_the_normal_stands_left_of_the_way(frame: Frame, share: float) -> None:
    s, step = share * frame.length, 1e-3
    (x0, y0), (x1, y1) = frame.at(s - step), frame.at(s + step)
    tangent = ((x1 - x0) / (2 * step), (y1 - y0) / (2 * step))
    assert hypot(*tangent) == pytest.approx(1.0, abs=1e-6)
    assert frame.normal(s) == pytest.approx((-tangent[1], tangent[0]), abs=1e-6)


@every_frame
@law
@given(share=st.floats(0.001, 0.999))
def test_clock_angles_and_arc_lengths_go_both_ways(frame: Frame, share: float) -> None:
    s = share * frame.length
    assert 0.0 <= frame.deg_at(s) < 360.0
    assert frame.s_at_deg(frame.deg_at(s)) == pytest.approx(s, abs=1e-6)


@every_frame
def test_the_sample_is_as_long_as_the_centre_line(frame: Frame) -> None:
    line = frame.sample(1.0)
    assert LineString(line).length == pytest.approx(frame.length, rel=1e-5)  # shapely's length
    assert tuple(line[0]) == pytest.approx(frame.at(0.0))
    assert tuple(line[-1]) == pytest.approx(frame.at(frame.length))
    assert np.hypot(*np.diff(line, axis=0).T).max() <= 1.0


@pytest.mark.parametrize(
    ("deg", "point"),
    [(0.0, (0.0, 1.0)), (90.0, (1.0, 0.0)), (180.0, (0.0, -1.0)), (270.0, (-1.0, 0.0))],
)
def test_a_ring_reads_like_a_clock(deg: float, point: tuple[float, float]) -> None:
    ring = Ring(212.0, 12.0)
    x, y = ring.at(ring.s_at_deg(deg))
    assert (x / 100.0, y / 100.0) == pytest.approx(point, abs=1e-12)


@law
@given(s=st.floats(-5000.0, 5000.0))
def test_a_ring_goes_round_and_round_and_is_its_own_mirror(s: float) -> None:
    ring = Ring(762.0, 12.7)
    assert ring.at(s + ring.length) == pytest.approx(ring.at(s), abs=1e-9)
    x, y = ring.at(s)
    assert ring.at(-s) == (-x, y)


def test_the_centre_line_of_a_thirty_inch_ring() -> None:
    assert Ring(762.0, 12.7).length == pytest.approx(pi * (762.0 - 12.7))


def test_an_arc_over_the_top_runs_from_left_to_right() -> None:
    arc = Arc(1012.0, 12.0, 270.0, 90.0)
    assert arc.length == pytest.approx(pi * 500.0)
    assert arc.at(0.0) == pytest.approx((-500.0, 0.0), abs=1e-9)
    assert arc.at(arc.length / 2) == pytest.approx((0.0, 500.0), abs=1e-9)
    assert arc.at(arc.length) == pytest.approx((500.0, 0.0), abs=1e-9)


def test_a_clock_angle_off_an_arc_lies_beyond_the_nearer_end() -> None:
    arc = Arc(1012.0, 12.0, 270.0, 90.0)
    assert arc.s_at_deg(95.0) == pytest.approx(arc.length + 500.0 * pi / 36)
    assert arc.s_at_deg(265.0) == pytest.approx(-500.0 * pi / 36)


def test_an_arc_of_equal_angles_goes_all_the_way_round() -> None:
    assert Arc(1012.0, 12.0, 0.0, 360.0).span_deg == 360.0
    assert Arc(1012.0, 12.0, 90.0, 90.0).span_deg == 360.0


def test_the_opening_ends_at_the_tubes_outer_or_inner_edge() -> None:
    for frame in (Ring(762.0, 12.0), Arc(762.0, 12.0, 270.0, 90.0)):
        assert frame.opening("in front") == (0.0, 0.0, 381.0)
        assert frame.opening("inside") == (0.0, 0.0, 369.0)
    assert Straight(1000.0, 12.0).opening("in front") is None
    with pytest.raises(NotAFrame, match="'in front' or 'inside', not 'behind'"):
        Ring(762.0, 12.0).opening("behind")


def test_frames_are_built_by_their_word_from_one_set_of_figures() -> None:
    figures = {"outside": 762.0, "tube": 12.7, "start_deg": 270.0, "end_deg": 90.0}
    assert frame_from("ring", **figures) == Ring(762.0, 12.7)
    assert frame_from("arc", **figures) == Arc(762.0, 12.7, 270.0, 90.0)
    assert all(frame.kind in FRAMES for frame in EVERY)


@pytest.mark.parametrize(
    ("kind", "figures", "says"),
    [
        ("hoop", {"outside": 762.0}, "the kinds are ring, arc, straight"),
        ("arc", {"outside": 762.0, "tube": 12.7}, "needs start_deg and end_deg"),
        ("ring", {"outside": -762.0, "tube": 12.7}, "outside diameter"),
        ("ring", {"outside": 25.0, "tube": 12.7}, "no opening"),
        ("straight", {"length": inf, "tube": 12.7}, "length"),
        ("arc", {"outside": 762.0, "tube": 12.7, "start_deg": inf, "end_deg": 0.0}, "angles"),
    ],
)
def test_what_is_no_frame_says_why(kind: str, figures: dict[str, float], says: str) -> None:
    with pytest.raises(MockupError, match=says):
        frame_from(kind, **figures)


def test_a_sample_needs_a_step() -> None:
    with pytest.raises(NotAFrame, match="step"):
        Ring(762.0, 12.7).sample(0.0)


@dataclass(frozen=True)
class Slant:
    """A frame the program does not know: a pole that climbs at 45 degrees."""

    length: float
    tube: float
    kind: ClassVar[str] = "slant"
    closed: ClassVar[bool] = False

    def at(self, s: float) -> tuple[float, float]:
        return s / sqrt(2), s / sqrt(2)

    def normal(self, s: float) -> tuple[float, float]:  # noqa: ARG002 - the same everywhere
        return -1 / sqrt(2), 1 / sqrt(2)

    def s_at_deg(self, deg: float) -> float:
        return self.length * deg / 360.0

    def deg_at(self, s: float) -> float:
        return 360.0 * s / self.length

    def opening(self, place: str) -> None:  # noqa: ARG002 - a pole encloses nothing
        return None

    def sample(self, step: float) -> NDArray[np.float64]:
        return np.array([self.at(s) for s in np.arange(0.0, self.length + step, step)])


def test_any_path_can_join(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(FRAMES, "slant", Slant)
    pole = frame_from("slant", length=1000.0, tube=25.0)
    assert degrees(atan2(*pole.at(500.0))) == pytest.approx(45.0)
