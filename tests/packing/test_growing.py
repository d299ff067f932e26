"""Loose garlands: coverage by a raster of its own, shares, seeds, contacts, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial import cKDTree

from mockup.packing.frames import Frame, frame_from
from mockup.packing.growing import Grown, Growth, Portion, grow, inner_band
from mockup.packing.growing import _grown as grown_again
from mockup.packing.inflation import NotASize
from mockup.packing.neighbours import touching_pairs

RECIPE = (Portion(380.0, 0.08), Portion(250.0, 0.34), Portion(108.0, 0.58))
ARC = frame_from("arc", outside=1800.0, tube=20.0, start_deg=210.0, end_deg=390.0)


def garland(seed: int = 1, frame: Frame = ARC, lean: float = 0.0, width: float = 520.0) -> Grown:
    return grow(frame, Growth(RECIPE, 0.0, frame.length, width, 0.97, seed, lean))


def test_the_asked_coverage_holds_by_a_brute_force_raster() -> None:
    growth = Growth(RECIPE, 0.0, ARC.length, 520.0, 0.97)
    grown = grow(ARC, growth)
    cells, on_tube = inner_band(ARC, growth)
    off = ((cells[:, None, :] - grown.centres[None, :, :2]) ** 2).sum(axis=2)
    rise = (grown.diameters / 2) ** 2 - off
    skin = np.where(rise >= 0, grown.centres[:, 2] + np.sqrt(np.maximum(rise, 0)), -np.inf)
    seen = np.where(on_tube, skin.max(axis=1) > ARC.tube / 2, (rise >= 0).any(axis=1))
    assert seen.mean() >= 0.97 - 0.01
    assert grown.covered == pytest.approx(float(seen.mean()), abs=0.01)


def test_the_band_is_as_wide_as_asked_and_follows_the_frame() -> None:
    cells, _ = inner_band(ARC, Growth(RECIPE, 0.0, ARC.length, 520.0, 0.97))
    off = np.abs(np.hypot(*cells.T) - 890.0)
    ahead = cells[:, 1] > 0
    assert off[ahead].max() <= 0.8 * 260.0 * 1.2
    assert np.percentile(off[ahead], 90) >= 0.5 * 260.0


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_recipe_is_kept_to_within_its_fillers(seed: int) -> None:
    """A gap that takes a size which is short of its share gets that and no small filler."""
    grown = garland(seed)
    shares = np.bincount(grown.portion, minlength=3) / len(grown.portion)
    assert shares == pytest.approx([0.08, 0.34, 0.58], abs=0.04)


def test_a_seed_gives_the_same_garland_and_another_seed_another() -> None:
    first = garland(3)
    grown_again.cache_clear()
    again = grow(
        frame_from("arc", outside=1800.0, tube=20.0, start_deg=210.0, end_deg=390.0),
        Growth(RECIPE, 0.0, ARC.length, 520.0, 0.97, 3),
    )
    assert np.array_equal(first.centres, again.centres)
    other = garland(4)
    assert len(other.centres) != len(first.centres) or not np.allclose(other.centres, first.centres)


def test_balloons_settle_without_crossing() -> None:
    grown = garland()
    pairs = touching_pairs(grown.centres, grown.diameters / 2, 0.0)
    gaps = np.linalg.norm(grown.centres[pairs[:, 0]] - grown.centres[pairs[:, 1]], axis=1)
    radii = grown.diameters / 2
    overlap = (radii[pairs].sum(axis=1) - gaps) / (2 * radii[pairs].min(axis=1))
    assert overlap.max() <= 0.25


def test_contacts_are_those_of_a_kd_tree() -> None:
    """scipy's cKDTree as an independent judge of which balloons touch."""
    grown = garland()
    radii = grown.diameters / 2
    near = cKDTree(grown.centres).query_pairs(2 * float(radii.max()))
    judge = {
        (a, b)
        for a, b in near
        if np.linalg.norm(grown.centres[a] - grown.centres[b]) <= radii[a] + radii[b]
    }
    own = {(int(a), int(b)) for a, b in touching_pairs(grown.centres, radii, 0.0)}
    assert own == {(min(pair), max(pair)) for pair in judge}


def test_large_ones_are_set_back_and_small_ones_lie_in_front() -> None:
    grown = garland()
    depth = [float(grown.centres[grown.portion == size, 2].mean()) for size in range(3)]
    assert depth[0] < depth[1] < depth[2]


def test_small_ones_are_tied_in_twos_and_threes_or_singly_as_fillers() -> None:
    grown = garland()
    sizes = np.bincount(grown.group[grown.portion == 2])
    assert set(sizes[sizes > 0].tolist()) <= {1, 2, 3}
    assert (sizes >= 2).sum() > (sizes == 1).sum() / 2


@pytest.mark.parametrize(
    ("lean", "low", "high"), [(0.0, 0.42, 0.58), (1.0, 0.53, 1.0), (-1.0, 0.0, 0.47)]
)
def test_the_heavier_side_is_the_one_asked(lean: float, low: float, high: float) -> None:
    grown = garland(2, lean=lean)
    area = grown.diameters**2
    first = area[grown.along < ARC.length / 2].sum() / area.sum()
    assert low <= first <= high


def test_a_garland_goes_along_a_drawn_path() -> None:
    path = frame_from("path", line="M 0 0 C 60 -80 120 80 180 0", unit=10.0, tube=12.0)
    grown = grow(path, Growth(RECIPE, 0.0, path.length, 480.0, 0.95))
    assert grown.covered >= 0.95


@pytest.mark.parametrize(
    ("growth", "says"),
    [
        (Growth((Portion(100.0, 0.5),), 0.0, 900.0, 300.0, 0.9), "come to 100 %"),
        (Growth((), 0.0, 900.0, 300.0, 0.9), "come to 100 %"),
        (Growth((Portion(100.0, 1.0),), 900.0, 900.0, 300.0, 0.9), "end further along"),
        (Growth((Portion(100.0, 1.0),), 0.0, 900.0, 300.0, 1.5), "between 0 and 100"),
        (Growth((Portion(10.0, 1.0),), 0.0, 2700.0, 900.0, 0.9), "about 1,\\d+,\\d+ balloons"),
    ],
)
def test_what_cannot_be_grown_says_why_at_once(growth: Growth, says: str) -> None:
    with pytest.raises(NotASize, match=says):
        grow(ARC, growth)
