"""Walls: the grid of balloons against closed forms of packing, and against settling itself."""

from __future__ import annotations

import itertools
from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box, union_all
from shapely.geometry import Point

from mockup.packing.meshes import Mesh, covered_share, fitting, pitches
from mockup.packing.neighbours import touching_pairs
from mockup.packing.settling import settle
from mockup.packing.walls import Wall


def middles(mesh: Mesh) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    return np.array([(x, y, mesh.diameter / 2) for _, _, x, y in mesh.cells()])


@pytest.mark.parametrize(("staggered", "density"), [(False, pi / 4), (True, pi / (2 * sqrt(3)))])
def test_hard_balloons_lie_as_dense_as_their_lattice_packing(
    staggered: bool, density: float
) -> None:
    """Densities of the square and the hexagonal circle packing (Conway and Sloane, Sphere
    Packings, Lattices and Groups, 1.1; Lagrange, Thue)."""
    along, down = pitches(100.0, 0.0, staggered)
    assert pi / 4 * 100.0**2 / (along * down) == pytest.approx(density, rel=1e-12)
    assert covered_share(0.0, staggered=staggered) == pytest.approx(density, rel=1e-12)


@pytest.mark.parametrize("staggered", [False, True])
@pytest.mark.parametrize("squeeze", [0.0, 0.05, 0.1, 0.2, 0.3])
def test_the_hidden_share_of_the_face_is_the_area_of_the_discs_together(
    staggered: bool, squeeze: float
) -> None:
    mesh = Mesh(13, 15, 100.0, squeeze, staggered)
    discs = union_all([Point(x, y).buffer(50.0, quad_segs=90) for x, y, _ in middles(mesh)])
    face = box(-2 * mesh.pitch, -3 * mesh.row_pitch, 2 * mesh.pitch, 3 * mesh.row_pitch)
    seen = discs.intersection(face).area / face.area
    assert covered_share(squeeze, staggered=staggered) == pytest.approx(seen, abs=2e-4)


@pytest.mark.parametrize(("staggered", "most"), [(False, 4), (True, 6)])
def test_inside_the_grid_each_balloon_touches_four_or_six(staggered: bool, most: int) -> None:
    """The kissing numbers of the two lattices in the plane."""
    mesh = Mesh(9, 9, 100.0, 0.1, staggered)
    spots = middles(mesh)
    pairs = touching_pairs(spots, np.full(len(spots), 50.0), 0.0)
    touches = np.bincount(pairs.ravel(), minlength=len(spots))
    inner = np.hypot(spots[:, 0], spots[:, 1]) < 2.5 * mesh.pitch
    assert set(touches[inner].tolist()) == {most}
    gaps = np.linalg.norm(spots[pairs[:, 0]] - spots[pairs[:, 1]], axis=1)
    assert gaps == pytest.approx(90.0)


@pytest.mark.parametrize("staggered", [False, True])
def test_inside_the_grid_settling_leaves_the_balloons_where_they_are(staggered: bool) -> None:
    """So a wall needs none: the forces on a balloon that is pressed alike all round cancel."""
    mesh = Mesh(15, 15, 100.0, 0.1, staggered)
    placed = middles(mesh)
    knots = placed * (1.0, 1.0, 0.0)
    step = settle(placed, np.full(len(placed), 100.0), knots, max_steps=3).centres
    inner = np.hypot(placed[:, 0], placed[:, 1]) < 3 * mesh.pitch
    assert np.abs(step - placed)[inner].max() < 1e-6
    assert np.abs(step - placed)[~inner].max() > 1e-3


@settings(max_examples=40, deadline=None)
@given(
    st.tuples(st.floats(500.0, 4000.0), st.floats(500.0, 3000.0)), st.floats(80.0, 300.0),
    st.floats(0.0, 0.3), st.booleans(), st.sampled_from([1, 2]),
)  # fmt: skip
def test_the_grid_comes_as_near_to_the_frame_as_whole_balloons_do(
    frame: tuple[float, float], diameter: float, squeeze: float, staggered: bool, by: int
) -> None:
    width, height = frame
    mesh = fitting(width, height, diameter, squeeze, staggered=staggered, by=by)
    assert mesh.columns % by == 0 == mesh.rows % by
    if mesh.columns > by:
        assert abs(mesh.width - width) <= by * mesh.pitch / 2 + 1e-6
    if mesh.rows > by:
        assert abs(mesh.height - height) <= by * mesh.row_pitch / 2 + 1e-6
    spots = {(round(x, 6), round(y, 6)) for _, _, x, y in mesh.cells()}
    assert spots == {(-x + 0.0, y) for x, y in spots}
    assert len(spots) == mesh.count == sum(mesh.lengths)


def test_a_walls_uprights_stand_at_most_eight_feet_apart() -> None:
    for width in (1000.0, 2440.0, 2500.0, 6000.0):
        feet = Wall(width, 2000.0, 25.0).feet
        assert feet[0] == -feet[-1] == pytest.approx(-(width - 25.0) / 2)
        assert max(b - a for a, b in itertools.pairwise(feet)) <= 2438.4
