"""Finding a start's mirrors and laying the motion back on them."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from mockup.packing.reflections import Mirror, mirrors

Floats = NDArray[np.float64]

law = settings(max_examples=60, deadline=None)
signs = np.array(np.meshgrid([1.0, -1.0], [1.0, -1.0], [1.0, -1.0])).reshape(3, -1).T


def images(seed: int, balloons: int, axes: set[int]) -> tuple[Floats, Floats, Floats]:
    """Random balloons with all their images across ``axes``, shuffled: (3, k), (3, k), (k,)."""
    random = np.random.default_rng(seed)
    points, knots = random.uniform(5.0, 500.0, (2, balloons, 3))
    radii = random.uniform(30.0, 80.0, balloons)
    kept = np.array([sign for sign in signs if all(sign[a] > 0 for a in {0, 1, 2} - axes)])
    order = random.permutation(balloons * len(kept))
    every, tied = ((kept[:, None, :] * p).reshape(-1, 3)[order].T for p in (points, knots))
    return every, tied, np.tile(radii, len(kept))[order]


@law
@given(st.integers(0, 2**32), st.integers(1, 12), st.sets(st.integers(0, 2)))
def test_every_mirror_there_is_and_no_other_is_found(
    seed: int, balloons: int, axes: set[int]
) -> None:
    points, knots, radii = images(seed, balloons, axes)
    noise = np.random.default_rng(seed).normal(0.0, 1e-9, points.shape)
    found = mirrors(points + noise, knots, radii, 1e-5)
    assert {mirror.axis for mirror in found} == axes
    for mirror in found:
        image = points[:, mirror.partner]
        image[mirror.axis] *= -1.0
        assert np.array_equal(image, points)
        assert np.array_equal(radii[mirror.partner], radii)


def test_a_mirror_needs_equal_sizes_and_mirrored_knots() -> None:
    points = np.array([[-50.0, 50.0], [10.0, 10.0], [3.0, 3.0]])
    knots = np.array([[-20.0, 20.0], [0.0, 0.0], [0.0, 0.0]])
    assert [m.axis for m in mirrors(points, knots, np.array([30.0, 30.0]), 1e-5)] == [0]
    assert mirrors(points, knots, np.array([30.0, 31.0]), 1e-5) == ()
    aside = knots + np.array([[1.0], [0.0], [0.0]])
    assert mirrors(points, aside, np.array([30.0, 30.0]), 1e-5) == ()


def test_partners_that_go_round_in_a_circle_are_no_mirror() -> None:
    # Two balloons a side in almost one place, across the border of a rounding cell on the right
    # but not on the left, where the order of the list then pairs them the other way.
    tolerance, hair = 1e-5, 1e-6
    border = (1.0 - 0.318) * 1000.0 * tolerance + 500 * 1000.0 * tolerance
    x = [border + hair, border - hair, -border + hair, -border - hair]
    points = np.array([x, [7.0] * 4, [3.0] * 4])
    assert mirrors(points, points, np.full(4, 30.0), tolerance) == ()
    nearer = mirrors(points[:, [0, 1, 3, 2]], points[:, [0, 1, 3, 2]], np.full(4, 30.0), tolerance)
    assert [mirror.axis for mirror in nearer] == [0]


def test_what_was_kept_is_mirrored_to_the_last_bit() -> None:
    points, knots, radii = images(3, 20, {0, 2})
    shaken = points + np.random.default_rng(4).normal(0.0, 1.0, points.shape)
    for mirror in mirrors(points, knots, radii, 1e-5):
        shaken = mirror.kept(shaken)
    for mirror in mirrors(points, knots, radii, 1e-5):
        assert np.array_equal(mirror.kept(shaken), shaken)


def test_a_balloon_on_the_plane_is_laid_on_it() -> None:
    shaken = np.array([[1e-3], [7.0], [0.0]])
    assert Mirror(0, np.array([0])).kept(shaken).tolist() == [[0.0], [7.0], [0.0]]
