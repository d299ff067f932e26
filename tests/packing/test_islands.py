"""Balloons that nothing joins settle each by itself."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import KDTree

from mockup.packing import balancing
from mockup.packing.clusters import offsets
from mockup.packing.frames import Ring
from mockup.packing.islands import islands
from mockup.packing.nesting import equal_pitch
from mockup.packing.settling import settle

Floats = NDArray[np.float64]
Tied = tuple[Floats, Floats, Floats]

RING = Ring(1600.0, 12.0)


def crescent(clusters: int, diameter: float, middle_deg: float = 0.0) -> Tied:
    """Pressed quads on a ring, about a place of it."""
    centres, knots = [], []
    for step in np.arange(clusters) - clusters // 2:
        s = RING.s_at_deg(middle_deg) + step * equal_pitch(4, diameter, 0.12)
        axes = np.array([[*RING.normal(s), 0.0], [0.0, 0.0, 1.0]])
        knot = np.array([*RING.at(s), 0.0])
        centres.append(knot + offsets(4, diameter, 45.0 * (step % 2)) @ axes)
        knots.append(np.repeat(knot[None], 4, axis=0))
    return np.concatenate(centres), np.full(4 * clusters, diameter), np.concatenate(knots)


def both(one: Tied, other: Tied) -> Tied:
    centres, diameters, knots = (np.concatenate(two) for two in zip(one, other, strict=True))
    return centres, diameters, knots


def flipped(tied: Tied) -> Tied:
    """Top for bottom, and told from its other end."""
    centres, diameters, knots = (each[::-1] for each in tied)
    return centres * [1, -1, 1], diameters, knots * [1, -1, 1]


@settings(max_examples=60, deadline=None)
@given(
    count=st.integers(1, 150),
    pairs=st.lists(st.tuples(st.integers(0, 149), st.integers(0, 149)), max_size=200),
)
def test_islands_are_the_connected_components_but_for_small_ones(
    count: int, pairs: list[tuple[int, int]]
) -> None:
    near = np.array([p for p in pairs if max(p) < count], dtype=np.intp).reshape(-1, 2)
    links = coo_array((np.ones(len(near)), near.T), shape=(count, count))
    named = connected_components(links, directed=False)[1]
    found = islands(near, count)
    assert sorted(np.concatenate(found)) == list(range(count))
    assert len(found) <= 6
    for part in found:
        whole = set(named[part])
        assert np.isin(named, list(whole)).sum() == len(part)
        if len(whole) > 1:
            assert max(np.bincount(named)[list(whole)]) < count / 5


def test_two_crescents_settle_as_each_would_alone() -> None:
    top, bottom = crescent(13, 110.0), crescent(11, 120.0, 180.0)
    together = settle(*both(top, bottom))
    assert together.at_rest
    assert np.array_equal(together.centres[:52], settle(*top).centres)
    assert np.array_equal(together.centres[52:], settle(*bottom).centres)
    assert np.abs(together.centres - both(top, bottom)[0]).max() > 1.0


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many balloons each island has that is settled from here on."""
    settled: list[int] = []
    own = balancing._alone

    def counted(island: balancing.Island, asked: balancing.Asked) -> balancing.Rest:
        settled.append(island.balloons)
        return own(island, asked)

    balancing.forget()
    monkeypatch.setattr(balancing, "_alone", counted)
    return settled


def test_an_edit_of_one_leaves_the_other_where_it_lay(alone: list[int]) -> None:
    first = settle(*both(crescent(13, 111.0), crescent(11, 121.0, 180.0)))
    second = settle(*both(crescent(13, 109.0), crescent(11, 121.0, 180.0)))
    assert alone == [52, 44, 52]
    assert np.array_equal(first.centres[52:], second.centres[52:])
    assert not np.array_equal(first.centres[:52], second.centres[:52])


@pytest.mark.parametrize("moved", [[0.0, 0.0, 0.0], [1234.5, -987.6, 54.3]])
def test_of_a_mirrored_pair_one_is_settled_and_the_other_laid(
    alone: list[int], moved: list[float]
) -> None:
    centres, diameters, knots = both(crescent(13, 112.0), flipped(crescent(13, 112.0)))
    settled = settle(centres + moved, diameters, knots + moved)
    assert alone == [52]
    assert settled.at_rest
    apart = settled.centres - np.mean(settled.centres, axis=0)
    assert np.max(KDTree(apart).query(apart * [1, -1, 1])[0]) < 1e-9


def test_a_mirror_that_holds_to_a_ten_millionth_is_kept() -> None:
    """Of a balloon's size: closer than any tape, and rounding of a file's own figures is less."""
    centres, diameters, knots = crescent(63, 120.0)
    bent = centres.copy()
    bent[centres[:, 0] > 1.0, 1] += 5e-6
    settled = settle(bent, diameters, knots).centres
    apart = settled - settled.mean(axis=0)
    assert np.max(KDTree(apart).query(apart * [-1, 1, 1])[0]) < 1e-9


def test_a_mirrored_pair_stays_mirrored_to_the_last_digit_of_its_middle() -> None:
    top = crescent(13, 112.0)
    settled = settle(*both(top, flipped(top))).centres
    assert np.max(KDTree(settled).query(settled * [1, -1, 1])[0]) < 1e-9
    assert np.allclose(settled[:52], settle(*top).centres, atol=1e-6)


def test_islands_that_are_drawn_together_come_to_rest_as_one() -> None:
    near, far = crescent(9, 110.0), crescent(9, 110.0)
    apart = near[0] + [0.0, 0.0, 400.0]
    # The necks of the second draw it down onto the first.
    start = both(near, (apart, far[1], far[2]))
    settled = settle(*start)
    assert settled.at_rest
    lower, upper = settled.centres[:36], settled.centres[36:]
    assert np.min(KDTree(lower).query(upper)[0]) < 110.0
    assert settled.energy_end < settled.energy_start
    assert settled.largest_force <= 1e-3 * 110.0 + 1e-9
    alone = max(settle(*one).steps for one in (near, (apart, far[1], far[2])))
    assert settled.steps > alone
    for most in (alone - 1, alone, alone + 3):
        assert settle(*start, max_steps=most).steps <= most


def test_many_single_balloons_are_taken_together() -> None:
    assert islands(np.zeros((0, 2), dtype=np.intp), 30)[0].tolist() == list(range(30))


def test_what_runs_out_of_steps_apart_takes_no_more_together() -> None:
    settled = settle(*both(crescent(13, 113.0), crescent(11, 123.0, 180.0)), max_steps=4)
    assert not settled.at_rest
    assert settled.steps <= 4
