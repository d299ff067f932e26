"""The order of the build: every balloon filled, every cluster tied and placed, once."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from mockup.design.job_reading import read_job
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.stock.build_plan import fillings, placings, turn_words, tyings
from mockup.stock.fixing import RING, SEAM, fixings, meetings, tucks
from mockup.stock.gauging import gauge_holes

JOBS = Path(__file__).parents[2] / "samples" / "jobs"


@pytest.fixture(scope="module")
def ring() -> Piece:
    return assemble(read_design(JOBS / "alder-table-ring.toml"))


@pytest.fixture(scope="module")
def job() -> list[tuple[Piece, int]]:
    own = read_job(JOBS / "alder-weekend.toml")
    return [(assemble(one.design), one.count) for one in own.pieces]


def test_every_balloon_is_filled_once(job: list[tuple[Piece, int]]) -> None:
    every = sum(times * len(piece.balloons) for piece, times in job)
    assert sum(one.count for one in fillings(job)) == every
    assert (
        sum(hole.count for hole in gauge_holes((piece.design, times) for piece, times in job))
        == every
    )


def test_holes_come_in_the_order_of_use_and_hold_together(job: list[tuple[Piece, int]]) -> None:
    holes = [one.diameter for one in fillings(job)]
    runs = [hole for place, hole in enumerate(holes) if place == 0 or holes[place - 1] != hole]
    assert len(runs) == len(set(runs))
    first = job[0][0].clusters[0]
    assert runs[0] == round(first.diameter, 1)


def test_every_cluster_is_tied_and_placed_once(ring: Piece) -> None:
    steps = placings(ring)
    assert [one.number for one in steps] == list(range(1, len(ring.clusters) + 1))
    assert {one.cluster.index for one in steps} == {c.index for c in ring.clusters}
    assert Counter(one.sign for one in steps) == {one.sign: one.count for one in tyings(ring)}


def test_placing_goes_from_the_middle_outward_by_turns(ring: Piece) -> None:
    """Common practice, no source: the middle first, then outward on both sides."""
    top = [one for one in placings(ring) if one.cluster.section == "top"]
    assert [one.cluster.side for one in top] == ["middle", "right", "left", "right", "left"]
    far = [abs(one.cluster.along) for one in top]
    assert far == sorted(far)


def test_the_middle_cluster_of_a_quad_run_is_valley_in_and_the_next_point_in(ring: Piece) -> None:
    words = [one.turn for one in placings(ring)][:3]
    assert words == ["valley in", "point in", "point in"]
    odd = replace(ring.clusters[0], turn_deg=20.0)
    assert turn_words(odd) == "20° round"


def test_the_first_balloon_stands_where_the_sheet_says(ring: Piece) -> None:
    for one in placings(ring):
        first = ring.balloons[one.cluster.balloons[0]]
        assert one.first == first.place


def test_numerals_are_fixed_at_every_attach_point(ring: Piece) -> None:
    assert ring.fit is not None
    points = fixings(ring)
    assert len(points) == len(ring.fit.attach)
    assert {one.numeral for one in points} == {"4", "0"}
    assert [one.angle for one in points] == sorted(one.angle for one in points)
    assert all(one.balloon == RING or 0 <= one.balloon < len(ring.balloons) for one in points)


def test_seams_are_trimmed_where_they_would_lie_on_each_other(ring: Piece) -> None:
    (meeting,) = meetings(ring)
    assert (meeting.left, meeting.right) == ("4", "0")
    panel = ring.design.panel
    assert panel is not None
    assert meeting.gap >= panel.gap - 0.1
    assert meeting.trim is (meeting.gap < 2 * SEAM)
    assert 0.0 <= meeting.height <= 1.0


def test_a_piece_that_clears_has_no_tucks_and_one_without_numerals_nothing_to_fix(
    ring: Piece,
) -> None:
    bare = replace(ring, fit=None)
    assert tucks(ring) == tucks(bare) == ()
    assert fixings(bare) == ()
    assert meetings(bare) == ()


def test_tucks_are_told_the_deepest_first(ring: Piece) -> None:
    from mockup.panel.touches import Touch

    assert ring.fit is not None
    touches = (Touch(0, 0, 3.0, (0.0, 0.0)), Touch(1, 1, 9.0, (0.0, 0.0)))
    tucked = replace(ring, fit=replace(ring.fit, verdict="tucks", touches=touches))
    assert [(one.numeral, one.depth) for one in tucks(tucked)] == [("0", 9.0), ("4", 3.0)]
