"""Alternation against a judge that looks at points on circles, and the designs of the trade."""

from __future__ import annotations

from itertools import combinations, pairwise, permutations
from math import cos, dist, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.symmetry.alternation import (
    AlternationBreak,
    ClusterColours,
    alternation_breaks,
    twin,
)
from mockup.symmetry.links import Row


def run(*letters: str, start: float = 45.0, plain: tuple[int, ...] = ()) -> list[ClusterColours]:
    """Clusters outward, each turned half a place on from the one before (as nestled runs are)."""
    clusters, turn = [], start
    for step, own in enumerate(letters):
        phis = tuple(turn + 360 * k / len(own) for k in range(len(own)))
        clusters.append(ClusterColours(own, phis, step, "right", "top", step in plain, step))
        turn += 180 / len(own)
    return clusters


def told(found: list[AlternationBreak]) -> set[tuple[str, int, int, int]]:
    return {(each.rule, each.index, each.balloon, each.other) for each in found}


@pytest.mark.parametrize(
    "letters", ["AB", "ABAB", "ABC", "ABCB", "ABCD", "ABABC", "ABCAC", "A", "AAAA", "CC"]
)
@pytest.mark.parametrize("side", ["right", "left"])
def test_the_usual_run_has_no_breaks_on_either_side(letters: str, side: str) -> None:
    # Common practice, no source: every cluster alike, each half a place on from the one before.
    # The left side of a mirrored section has the same angles, so it is the same run.
    clusters = [
        ClusterColours(c.letters, c.phis_deg, c.step, side, c.section, False, c.index)
        for c in run(*[letters] * 9)
    ]
    assert alternation_breaks(clusters) == []


def test_the_usual_run_does_alternate_along_every_row() -> None:
    # A fact of the trade, checked by hand: on the row at 45 degrees clusters 0, 2, 4 go A, B, A.
    rows: dict[int, str] = {}
    for cluster in run(*["ABAB"] * 6):
        for letter, phi in zip(cluster.letters, cluster.phis_deg, strict=True):
            rows[round(phi) % 360] = rows.get(round(phi) % 360, "") + letter
    assert len(rows) == 8
    assert set(rows.values()) == {"ABA", "BAB"}


def test_two_side_by_side_round_the_knot() -> None:
    found = alternation_breaks(run("AABB"))
    assert told(found) == {("round", 0, 1, 0), ("round", 0, 3, 0)}
    assert found[0].says == "two A lie side by side round the knot"


def test_a_row_that_repeats() -> None:
    found = alternation_breaks(run("ABAB", "ABAB", "BABA"))
    assert {each.rule for each in found} == {"row"}
    assert {(each.index, each.other) for each in found} == {(2, 0)}
    assert len(found) == 4
    assert found[0].says == "B follows B along its row"


def test_the_next_on_a_row_may_sit_in_the_very_next_cluster() -> None:
    stacked = [
        ClusterColours("ABAB", (45, 135, 225, 315), i, "right", "top", False, i) for i in range(2)
    ]
    assert {(each.rule, each.other) for each in alternation_breaks(stacked)} == {("row", 0)}


def test_a_balloon_in_the_valley_of_its_own_colour() -> None:
    found = alternation_breaks(run("ABA", "ABA", start=0.0))
    assert told(found) == {("valley", 1, 2, 0)}
    assert found[0].others == (2, 0)
    assert found[0].says == "A lies in the valley between two A"
    assert alternation_breaks(run("ABA", "AAB", start=0.0)) == []


@pytest.mark.parametrize(
    "letters",
    [
        ("ABAB", "CCCC", "ABAB"),  # a plain cluster breaks nothing and is broken by nothing
        ("ABAB", "ABAB", "CC"),
        ("ABAB", "ABAB", "AA"),
        ("AAAA", "BBBB", "AAAA"),
        ("A", "A", "A"),
        ("ABABA",),  # a five in two colours cannot help one meeting
        ("ABA",),
    ],
)
def test_what_is_let_pass(letters: tuple[str, ...]) -> None:
    assert alternation_breaks(run(*letters)) == []


def test_a_five_in_three_colours_needs_no_meeting_and_gets_none() -> None:
    assert told(alternation_breaks(run("AABCB"))) == {("round", 0, 1, 0)}


def test_trios_in_two_colours_may_repeat_along_a_row_but_not_fill_a_valley() -> None:
    # B sits over the meeting of two A every time, so it comes back to the same row.
    assert alternation_breaks(run("ABA", "AAB", "BAA", start=0.0)) == []


def test_the_last_cluster_of_a_whole_ring_nestles_into_the_first() -> None:
    ring = run("AAB", "CCC", "CCC", "ABA", start=0.0)
    assert alternation_breaks(ring) == []
    assert told(alternation_breaks(ring, closed=True)) == {("valley", 0, 1, 3)}


def test_a_five_with_more_meetings_than_it_must_is_told_of_all() -> None:
    assert len(alternation_breaks(run("AABBA"))) == 3


def test_a_cluster_left_out_by_the_design_is_not_judged() -> None:
    assert alternation_breaks(run("AABB", plain=(0,))) == []
    assert alternation_breaks(run("ABAB", "ABAB", "BABA", plain=(2,))) == []


FOUR = st.text("ABC", min_size=4, max_size=4).filter(lambda own: len(set(own)) > 1)


@given(FOUR, FOUR)
def test_only_repeats_beyond_the_forced_ones_count(first: str, second: str) -> None:
    # Judged by trying every order of the second cluster's colours.
    row = Row(0, 1, tuple((k, k) for k in range(4)))
    orders = {"".join(order) for order in permutations(second)}
    least = min(sum(a == b for a, b in zip(first, order, strict=True)) for order in orders)
    alike = sum(a == b for a, b in zip(first, second, strict=True))
    assert row.excess((first, second)) == alike - least


def ringed(count: int, *letters: str) -> list[ClusterColours]:
    return run(*[letters[i % len(letters)] for i in range(count)])


@pytest.mark.parametrize(("count", "whole"), [(8, True), (12, True), (6, False), (10, False)])
def test_a_whole_ring_closes_only_on_the_period_of_its_colours(count: int, whole: bool) -> None:
    # A row changes colour every second cluster, so it comes back to its colour after four.
    assert (alternation_breaks(ringed(count, "ABAB"), closed=True) == []) == whole
    assert alternation_breaks(ringed(count, "ABAB")) == []


def test_letters_and_angles_go_together() -> None:
    with pytest.raises(ValueError, match="2 letters for 1 balloons"):
        ClusterColours("AB", (0.0,), 0, "right", "top", False, 0)


def test_twins_need_the_same_places() -> None:
    one, other = run("ABAB", "ABAB")
    assert twin(one, other) is None
    turned = ClusterColours("ABAB", (135, 225, 315, 405), 0, "left", "top", False, 7)
    link = twin(one, turned)
    assert link is not None
    assert link.differing({0: "ABAB", 7: "ABAB"}) == ((0, 3), (1, 0), (2, 1), (3, 2))
    assert link.excess({0: "ABAB", 7: "BABA"}) == 0


# An independent judge: balloons as points on unit circles, neighbours as the nearest points.


def point(phi: float) -> tuple[float, float]:
    return cos(phi * pi / 180), sin(phi * pi / 180)


def side_by_side(phis: tuple[float, ...]) -> list[tuple[int, int]]:
    if len(phis) < 2:
        return []
    step = 2 * sin(pi / len(phis))
    pairs = combinations(range(len(phis)), 2)
    return [(i, j) for i, j in pairs if dist(point(phis[i]), point(phis[j])) < step + 1e-6]


def lonely_meeting(letters: str) -> bool:
    return len(letters) % 2 == 1 and len(set(letters)) == 2


def judged_round(cluster: ClusterColours) -> bool:
    meetings = sum(
        cluster.letters[i] == cluster.letters[j] for i, j in side_by_side(cluster.phis_deg)
    )
    return len(set(cluster.letters)) > 1 and meetings > lonely_meeting(cluster.letters)


def judged_valley(inner: ClusterColours, outer: ClusterColours) -> bool:
    if len(set(inner.letters)) < 2 or set(inner.letters) != set(outer.letters):
        return False
    for letter, phi in zip(outer.letters, outer.phis_deg, strict=True):
        if min(dist(point(phi), point(each)) for each in inner.phis_deg) < 0.01:
            continue
        nearest = sorted(
            range(len(inner.phis_deg)), key=lambda k: dist(point(phi), point(inner.phis_deg[k]))
        )
        if {inner.letters[k] for k in nearest[:2]} == {letter}:
            return True
    return False


@given(
    st.integers(2, 5).flatmap(
        lambda n: st.lists(st.text("AB", min_size=n, max_size=n), min_size=1, max_size=4)
    )
)
def test_rounds_and_valleys_agree_with_points_on_circles(letters: list[str]) -> None:
    clusters = run(*letters)
    found = told(alternation_breaks(clusters))
    rounds = {index for rule, index, _, _ in found if rule == "round"}
    assert rounds == {c.index for c in clusters if judged_round(c)}
    valleys = {index for rule, index, _, _ in found if rule == "valley"}
    pairs = pairwise(clusters)
    assert valleys == {outer.index for inner, outer in pairs if judged_valley(inner, outer)}


@given(st.lists(st.text("ABC", min_size=4, max_size=4), min_size=3, max_size=6))
def test_rows_agree_with_points_on_circles(letters: list[str]) -> None:
    clusters = run(*letters)
    wrong = set()
    for at in range(2, len(clusters)):
        inner, outer = clusters[at - 2], clusters[at]
        if min(len(set(inner.letters)), len(set(outer.letters))) < 2:
            continue
        met = [
            (one, other)
            for one, phi in zip(inner.letters, inner.phis_deg, strict=True)
            for other, psi in zip(outer.letters, outer.phis_deg, strict=True)
            if dist(point(phi), point(psi)) < 0.01
        ]
        assert len(met) == 4
        alike = sum(one == other for one, other in met)
        forced = max(inner.letters.count(each) + outer.letters.count(each) - 4 for each in "ABC")
        if alike > max(0, forced):
            wrong.add(outer.index)
    found = alternation_breaks(clusters)
    assert {each.index for each in found if each.rule == "row"} == wrong


@given(st.lists(st.text("AB", min_size=4, max_size=4), min_size=1, max_size=5))
def test_renaming_the_colours_changes_no_answer(letters: list[str]) -> None:
    renamed = [own.translate(str.maketrans("AB", "BA")) for own in letters]
    assert told(alternation_breaks(run(*letters))) == told(alternation_breaks(run(*renamed)))


@given(
    st.lists(st.text("AB", min_size=4, max_size=4), min_size=1, max_size=5), st.floats(-720, 720)
)
def test_turning_the_whole_run_changes_no_answer(letters: list[str], by: float) -> None:
    turned = alternation_breaks(run(*letters, start=45 + by))
    assert {each[:2] for each in told(turned)} == {
        each[:2] for each in told(alternation_breaks(run(*letters)))
    }
