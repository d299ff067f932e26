"""Laws that settling keeps for any balloons."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial import KDTree
from scipy.spatial.distance import pdist
from shapely import MultiPoint, get_coordinates
from shapely.affinity import scale

from mockup.packing.clusters import offsets
from mockup.packing.frames import Ring
from mockup.packing.nesting import equal_pitch
from mockup.packing.settling import Settled, settle

Floats = NDArray[np.float64]
Tied = tuple[Floats, Floats, Floats]

law = settings(max_examples=25, deadline=None)
seeds = st.integers(0, 2**32)
some = st.integers(2, 24)


def heap(seed: int, balloons: int) -> Tied:
    """Balloons of all sizes thrown together, each tied somewhere near."""
    random = np.random.default_rng(seed)
    centres = random.normal(0.0, 100.0, (balloons, 3))
    knots = centres + random.normal(0.0, 60.0, (balloons, 3))
    return centres, random.uniform(60.0, 200.0, balloons), knots


def quads(clusters: int, radius_share: float) -> Tied:
    """An odd run of pressed quads over the top of a ring: long ones buckle."""
    diameter, tube = 120.0, 12.0
    ring = Ring(2 * radius_share * diameter + tube, tube)
    centres, knots = [], []
    for step in np.arange(clusters) - clusters // 2:
        s = step * equal_pitch(4, diameter, 0.1)
        axes = np.array([[*ring.normal(s), 0.0], [0.0, 0.0, 1.0]])
        centres.append([*ring.at(s), 0.0] + offsets(4, diameter, 45.0 * (step % 2)) @ axes)
        knots.append([[*ring.at(s), 0.0]] * 4)
    return np.concatenate(centres), np.full(4 * clusters, diameter), np.concatenate(knots)


def mirrored(points: Floats) -> Floats:
    """Left for right, by shapely."""
    return np.asarray(
        get_coordinates(scale(MultiPoint(points), -1.0, 1.0, 1.0, origin=(0, 0, 0)), include_z=True)
    )


def off_the_mirror(points: Floats) -> float:
    """How far, at most, a mirrored point is from the nearest one there is, mm."""
    return float(np.max(KDTree(points).query(mirrored(points))[0]))


@law
@given(
    seed=seeds,
    balloons=some,
    neck=st.floats(0.0, 1.0) | st.sampled_from([30.0, 1e3, 1e6]),
    steps=st.integers(0, 400),
)
def test_energy_never_ends_above_its_start(
    seed: int, balloons: int, neck: float, steps: int
) -> None:
    settled = settle(*heap(seed, balloons), neck_stiffness=neck, max_steps=steps)
    assert settled.energy_end <= settled.energy_start
    assert np.isfinite(settled.centres).all()


@law
@given(seed=seeds, balloons=some)
def test_settled_balloons_cross_by_no_more_than_reported(seed: int, balloons: int) -> None:
    centres, sizes, knots = heap(seed, balloons)
    settled = settle(centres, sizes, knots)
    i, j = np.triu_indices(balloons, 1)
    shares = ((sizes[i] + sizes[j]) / 2 - pdist(settled.centres)) / np.minimum(sizes[i], sizes[j])
    assert shares.max() <= settled.pressed + 1e-12


@law
@given(seed=seeds, balloons=some)
def test_mirror_in_mirror_out(seed: int, balloons: int) -> None:
    centres, sizes, knots = heap(seed, balloons)
    shuffled = np.random.default_rng(seed).permutation(2 * balloons)
    both = np.concatenate([centres, mirrored(centres)])[shuffled]
    ties = np.concatenate([knots, mirrored(knots)])[shuffled]
    settled = settle(both, np.tile(sizes, 2)[shuffled], ties)
    assert off_the_mirror(both) <= 1e-12
    assert off_the_mirror(settled.centres) <= 1e-9


@pytest.mark.parametrize(("clusters", "radius_share"), [(13, 2.2), (63, 8.0), (251, 33.0)])
def test_long_pressed_runs_stay_mirrored_though_they_buckle(
    clusters: int, radius_share: float
) -> None:
    # Without keeping the mirror, rounding grew to 26 mm in the longest of these.
    centres, sizes, knots = quads(clusters, radius_share)
    settled = settle(centres, sizes, knots)
    assert settled.swing_deg.max() > 20.0
    assert off_the_mirror(settled.centres) <= 1e-9
    depth = settled.centres[:, 2]
    assert np.abs(np.sort(depth) - np.sort(-depth)).max() <= 1e-9


@law
@given(seed=seeds, balloons=some)
def test_the_mirrored_start_has_the_mirrored_answer(seed: int, balloons: int) -> None:
    centres, sizes, knots = heap(seed, balloons)
    one = settle(centres, sizes, knots)
    other = settle(mirrored(centres), sizes, mirrored(knots))
    assert np.array_equal(mirrored(one.centres), other.centres)


@law
@given(
    clusters=st.sampled_from([3, 5, 7]),
    radius_share=st.floats(2.0, 10.0),
    move=st.tuples(*[st.floats(-5000.0, 5000.0)] * 3),
)
def test_moving_the_whole_piece_moves_the_answer(
    clusters: int, radius_share: float, move: tuple[float, float, float]
) -> None:
    centres, sizes, knots = quads(clusters, radius_share)
    here, there = settle(centres, sizes, knots), settle(centres + move, sizes, knots + move)
    assert np.abs(there.centres - move - here.centres).max() <= 1e-6


@law
@given(
    clusters=st.sampled_from([3, 5, 7]),
    radius_share=st.floats(2.0, 10.0),
    factor=st.sampled_from([0.25, 0.5, 2.0, 8.0]),
)
def test_scaling_the_piece_scales_the_answer(
    clusters: int, radius_share: float, factor: float
) -> None:
    # By powers of two, which no rounding touches.
    centres, sizes, knots = quads(clusters, radius_share)
    one = settle(centres, sizes, knots)
    other = settle(centres * factor, sizes * factor, knots * factor)
    assert np.array_equal(one.centres * factor, other.centres)
    assert other.energy_end == one.energy_end * factor**2
    assert np.array_equal(one.swing_deg, other.swing_deg)


@law
@given(seed=seeds, balloons=some)
def test_the_same_balloons_settle_to_the_same_bytes(seed: int, balloons: int) -> None:
    first, second = (settle(*heap(seed, balloons)) for _ in range(2))
    assert first.centres.tobytes() == second.centres.tobytes()
    assert first.steps == second.steps


def two_on_a_line(a: float, b: float, knots_apart: float, overlap: float, seed: int) -> Settled:
    """Balloons of diameters a and b overlapping along a random line.

    The second one's knot lies ``knots_apart`` beyond the first one's, toward the first balloon.
    """
    line = np.random.default_rng(seed).normal(size=3)
    line /= np.linalg.norm(line)
    apart = (a + b) / 2 - overlap
    along, knots = np.array([0.0, apart]), np.array([a / 2, a / 2 - knots_apart])
    return settle(
        np.outer(along, line),
        [a, b],
        np.outer(knots, line),
        tolerance=1e-7,
    )


sizes = st.floats(60.0, 300.0)
shares = st.floats(0.01, 0.4)


@law
@given(a=sizes, b=sizes, share=shares, seed=seeds)
@example(a=100.0, b=100.0, share=0.2, seed=1)
def test_two_balloons_alone_separate_until_they_touch(
    a: float, b: float, share: float, seed: int
) -> None:
    """Slack necks: each goes by half the overlap along their line, the middle stays."""
    overlap = share * min(a, b)
    line = np.random.default_rng(seed).normal(size=3)
    line /= np.linalg.norm(line)
    start = np.outer([0.0, (a + b) / 2 - overlap], line)
    settled = settle(start, [a, b], start)
    expected = start + np.outer([-overlap / 2, overlap / 2], line)
    assert np.abs(settled.centres - expected).max() <= 1e-9


@law
@given(a=sizes, b=sizes, share=shares, crossed=shares, seed=seeds)
def test_two_balloons_held_by_their_necks_press_by_the_closed_form(
    a: float, b: float, share: float, crossed: float, seed: int
) -> None:
    """Knots crossed by q: both necks stretch by F / k_n and the balloons overlap by F / k_c.

    Along the line, from centre to centre: ``-q + a/2 + b/2 + 2 F/k_n = a/2 + b/2 - F/k_c``, so
    that the overlap is ``F / k_c = q k_n / (k_n + 2 k_c)``, whatever the sizes.
    """
    q = crossed * min(a, b)
    settled = two_on_a_line(a, b, q, share * min(a, b), seed)
    overlap = (a + b) / 2 - np.linalg.norm(settled.centres[1] - settled.centres[0])
    assert overlap == pytest.approx(q * 0.3 / (0.3 + 2.0), abs=1e-4 * min(a, b))
    assert settled.pressed == pytest.approx(overlap / min(a, b), abs=1e-12)


def test_a_ring_of_pressed_quads_keeps_its_turns() -> None:
    """Eighteen quads all round a ring keep the ring's mirrors and press by less than they did."""
    ring = Ring(2 * 18 * equal_pitch(4, 120.0, 0.1) / (2 * pi) + 12.0, 12.0)
    centres, knots = [], []
    for step in range(18):
        s = ring.length * step / 18
        axes = np.array([[*ring.normal(s), 0.0], [0.0, 0.0, 1.0]])
        centres.append([*ring.at(s), 0.0] + offsets(4, 120.0, 45.0 * (step % 2)) @ axes)
        knots.append([[*ring.at(s), 0.0]] * 4)
    placed = np.concatenate(centres)
    settled = settle(placed, np.full(72, 120.0), np.concatenate(knots))
    assert settled.pressed < 0.1
    assert off_the_mirror(settled.centres) <= 1e-9
