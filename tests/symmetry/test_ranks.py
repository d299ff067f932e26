"""Top against bottom: the reading of a crescent through the horizontal axis, and where it stops."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, affinity

from mockup.symmetry.mirror import Ranked, top_bottom

RING = 380.0


def balloons(cluster: Ranked, clock_deg: float) -> set[tuple[float, float, float, str]]:
    """Places (mm, rounded) and letters of a cluster whose knot is at ``clock_deg`` on the ring."""
    theta = clock_deg * pi / 180
    outward = np.array([sin(theta), cos(theta), 0.0])
    front = np.array([0.0, 0.0, 1.0])
    found: set[tuple[float, float, float, str]] = set()
    for k, letter in enumerate(cluster.letters):
        phi = (cluster.turn_deg + 360 * k / cluster.kind_count) * pi / 180
        at = RING * outward + 80 * (cos(phi) * outward + sin(phi) * front)
        x, y, z = (round(float(each), 6) + 0.0 for each in at)
        found.add((x, y, z, letter))
    return found


def upside_down(
    placed: set[tuple[float, float, float, str]],
) -> set[tuple[float, float, float, str]]:
    # shapely.affinity is the independent mirror through the horizontal axis.
    turned: set[tuple[float, float, float, str]] = set()
    for x, y, z, letter in placed:
        point = affinity.scale(Point(x, y, z), yfact=-1, origin=(0, 0, 0))
        at = [round(each, 6) + 0.0 for each in (point.x, point.y, point.z)]
        turned.add((at[0], at[1], at[2], letter))
    return turned


CLUSTER = st.integers(1, 5).flatmap(
    lambda n: st.builds(
        Ranked,
        st.just("top"),
        st.just(0),
        st.just("middle"),
        st.just(n),
        st.just(114.3),
        st.integers(-8, 8).map(lambda half: half * 180.0 / n),
        st.text("AB", min_size=n, max_size=n),
        st.just(0),
    )
)


@given(CLUSTER, CLUSTER, st.integers(0, 11))
def test_no_break_just_when_the_balloons_themselves_mirror(
    top: Ranked, bottom: Ranked, hour: int
) -> None:
    clock = 30.0 * hour
    truly = upside_down(balloons(top, clock)) == balloons(bottom, 180 - clock)
    assert (top_bottom([top], [bottom]).breaks == ()) == truly


@given(CLUSTER, st.integers(0, 4))
def test_a_cluster_listed_from_another_balloon_is_the_same(top: Ranked, by: int) -> None:
    by %= top.kind_count
    letters = top.letters[by:] + top.letters[:by]
    other = replace(top, turn_deg=top.turn_deg + 360 * by / top.kind_count, letters=letters)
    assert upside_down(balloons(top, 30)) == balloons(other, 150)
    assert top_bottom([top], [other]).breaks == ()


def crescent(section: str, steps: int, first: int = 0, caps: bool = True) -> list[Ranked]:
    rows = [Ranked(section, 0, "middle", 4, 127, 45, "ABAB", first)]
    for step in range(1, steps + 1):
        for side in ("right", "left"):
            cap = caps and step == steps
            row = Ranked(
                section, step, side, 2 if cap else 4, 60 if cap else 114, 45 + 45 * step,
                "CC" if cap else "ABAB", first + len(rows), cap,
            )  # fmt: skip
            rows.append(row)
    return rows


def changed(rows: list[Ranked], index: int, **fields: object) -> list[Ranked]:
    return [replace(r, **fields) if r.index == index else r for r in rows]  # type: ignore[arg-type]  # fields by name


def test_equal_crescents_match_to_the_end() -> None:
    found = top_bottom(crescent("top", 3), crescent("bottom", 3, 50))
    assert found.breaks == ()
    assert (found.matched, found.stops_at, found.longer) == (4, None, "")
    assert len(found.pairs) == 7


def test_a_longer_crescent_is_said_to_go_on_and_is_no_break() -> None:
    found = top_bottom(crescent("top", 4), crescent("bottom", 3, 50))
    assert found.breaks == ()
    assert (found.matched, found.stops_at, found.longer) == (3, 3, "top")
    turned = top_bottom(crescent("bottom", 3, 50), crescent("top", 4))
    assert (turned.matched, turned.stops_at, turned.longer) == (3, 3, "top")


def test_without_caps_it_stops_where_one_has_nothing() -> None:
    found = top_bottom(crescent("top", 1, caps=False), crescent("bottom", 3, 50, caps=False))
    assert (found.matched, found.stops_at, found.longer) == (2, 2, "bottom")


def test_one_missing_side_stops_both() -> None:
    short = [row for row in crescent("bottom", 3, 50) if (row.step, row.side) != (2, "left")]
    found = top_bottom(crescent("top", 3), short)
    assert (found.matched, found.stops_at, found.longer) == (2, 2, "top")


def test_a_middle_on_one_only_stops_at_once() -> None:
    found = top_bottom(crescent("top", 2), crescent("bottom", 2, 50)[1:])
    assert (found.breaks, found.matched, found.stops_at) == ((), 0, 0)


@pytest.mark.parametrize(
    ("fields", "kind", "expected", "remedy"),
    [
        ({"letters": "BABA"}, "colour", "ABAB", ""),
        ({"turn_deg": 135.0}, "turn", "turned 0 degrees", "turn one of them by half a place"),
        ({"turn_deg": 110.0}, "turn", "turned 0 degrees", "turn one of them by 20 degrees"),
        ({"diameter": 120.0}, "size", "114.0 mm", "fill both alike"),
        ({"kind_count": 3, "letters": "ABA"}, "count", "quad", "make both a quad"),
    ],
)
def test_each_kind_of_break(
    fields: dict[str, object], kind: str, expected: str, remedy: str
) -> None:
    found = top_bottom(changed(crescent("top", 3), 1, **fields), crescent("bottom", 3, 50))
    (broken,) = found.breaks
    assert (broken.kind, broken.first, broken.second) == (kind, 1, 51)
    assert (broken.expected, broken.remedy) == (expected, remedy)
    assert (found.matched, found.stops_at) == (1, None)


def test_a_colour_break_names_the_balloons() -> None:
    top = changed(crescent("top", 2), 0, letters="ABBA")
    (broken,) = top_bottom(top, crescent("bottom", 2, 50)).breaks
    assert broken.balloons == (2, 3)


def test_the_same_rank_twice_is_refused() -> None:
    rows = crescent("top", 1)
    with pytest.raises(ValueError, match="same step and side"):
        top_bottom([*rows, rows[0]], rows)


def test_two_empty_sections_match() -> None:
    assert top_bottom([], []).matched == 0
