"""Pieces together in a setting: where they stand, whether they meet, and what they leave clear."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.job_reading import read_job
from mockup.design.setting import DOOR_CLEAR, HEAD_ROOM, ROUTE_CLEAR
from mockup.piece.assemble import assemble
from mockup.piece.elevation.findings import find_elevation
from mockup.piece.elevation.solids import meetings
from mockup.piece.elevation.standing import Elevation, elevation_of
from mockup.piece.elevation.ways import blocked, ways
from mockup.piece.extent import floor
from mockup.piece.finding import Finding

# One large balloon before a short pole: in the elevation a ball of known place and size.
BALL = """
title = "Ball"
colours = { A = "oat" }
frame = { kind = "pole", height = "10in", tube = "1/2in" }
[[section]]
at = "5in"
kind = "single"
size = "36in"
clusters = [{ fill = "30in", turn = 90 }]
[limits]
bare_frame = "90%"
"""
ARCH = """
title = "Arch"
colours = { A = "oat", B = "moss" }
size = "11in"
frame = { kind = "arch", width = "8ft", height = "9ft", legs = "6ft", tube = "3/4in" }
[[section]]
at = "12"
whole = true
clusters = [{ fill = "9in", colours = "ABAB" }]
"""


def elevation(folder: Path, setting: str, *rows: str, piece: str = BALL) -> Elevation:
    (folder / "piece.toml").write_text(piece, encoding="utf-8")
    each = "".join(f'[[piece]]\nfile = "piece.toml"\n{row}\n' for row in rows)
    path = folder / "job.toml"
    path.write_text(f'title = "J"\n[setting]\n{setting}\n{each}', encoding="utf-8")
    job = read_job(path)
    found = elevation_of(job, {one.file: assemble(one.design) for one in job.pieces})
    assert found is not None
    return found


def named(whole: Elevation, name: str) -> Finding:
    return next(finding for finding in find_elevation(whole) if finding.name == name)


def test_a_row_stands_evenly_round_its_middle(tmp_path: Path) -> None:
    whole = elevation(
        tmp_path, 'kind = "floor"\nwidth = "40ft"', 'count = 3\nat = "2ft"\napart = "5ft"'
    )
    assert [one.at[0] for one in whole.standings] == pytest.approx([-914.4, 609.6, 2133.6])


def test_without_a_spacing_a_row_is_spread_over_the_setting(tmp_path: Path) -> None:
    whole = elevation(tmp_path, 'kind = "floor"\nwidth = "40ft"', "count = 4")
    each = 40 * 304.8 / 4
    assert [one.at[0] / each for one in whole.standings] == pytest.approx([-1.5, -0.5, 0.5, 1.5])


@pytest.mark.parametrize(
    ("row", "base"),
    [("", 609.6), ('on = "floor"', 0.0), ('up = "1ft"', 914.4), ('on = "floor"\nup = "1in"', 25.4)],
)
def test_a_piece_stands_on_what_it_is_put_on(tmp_path: Path, row: str, base: float) -> None:
    whole = elevation(tmp_path, 'kind = "stage"\nwidth = "20ft"\nheight = "2ft"', row)
    assert whole.standings[0].box.y[0] == pytest.approx(base)


def test_a_piece_with_a_stand_stands_on_its_plate(tmp_path: Path) -> None:
    piece = BALL + '[stand]\nrise = "40in"\n'
    whole = elevation(tmp_path, 'kind = "floor"\nwidth = "20ft"', "", piece=piece)
    one = whole.standings[0]
    assert one.at[1] == pytest.approx(-floor(one.piece.frame, one.piece.design.stand))


@pytest.mark.parametrize(("apart", "meet"), [(29.0, True), (29.9, True), (30.2, False)])
def test_two_balls_meet_when_nearer_than_their_diameter(
    tmp_path: Path, apart: float, meet: bool
) -> None:
    row = f'count = 2\napart = "{apart}in"'
    whole = elevation(tmp_path, 'kind = "floor"\nwidth = "40ft"', row)
    found = [each.depth for each in meetings(whole)]
    assert bool(found) == meet
    assert found == pytest.approx([(30.0 - apart) * 25.4] if meet else [], abs=0.01)
    assert named(whole, "stand apart").verdict == ("fails" if meet else "holds")


def test_one_that_stands_far_enough_forward_meets_nothing(tmp_path: Path) -> None:
    whole = elevation(tmp_path, 'kind = "floor"\nwidth = "40ft"', "", 'forward = "31in"')
    assert not list(meetings(whole))
    # It is in the way all the same: widths are those seen from the front.
    assert len(blocked(whole)) == 1


def test_a_piece_inside_an_arch_meets_nothing_though_their_boxes_do(tmp_path: Path) -> None:
    (tmp_path / "arch.toml").write_text(ARCH, encoding="utf-8")
    inside = elevation(tmp_path, 'kind = "floor"\nwidth = "40ft"', "")
    arch = elevation(tmp_path, 'kind = "floor"\nwidth = "40ft"', "", piece=ARCH)
    both = Elevation(inside.setting, (*inside.standings, *arch.standings), "in")
    assert not list(meetings(both))


def test_the_way_through_an_arch_is_its_clear_opening(tmp_path: Path) -> None:
    whole = elevation(tmp_path, 'kind = "floor"\nwidth = "20ft"', "", piece=ARCH)
    # The legs run straight up to 6 ft; the way is as wide as the narrowest place under 80 in.
    (middle,) = [way for way in ways(whole) if way.low < 0 < way.high]
    balloons = whole.standings[0].piece.balloons
    low = [b for b in balloons if b.centre[1] - whole.standings[0].box.y[0] < HEAD_ROOM]
    nearest = min(abs(b.centre[0]) - b.radius for b in low)
    assert middle.width == pytest.approx(2 * nearest, rel=0.02)
    assert middle.width < 8 * 304.8 - 9 * 25.4


def test_what_hangs_above_the_head_is_no_obstacle(tmp_path: Path) -> None:
    high = elevation(tmp_path, 'kind = "floor"\nwidth = "20ft"', 'up = "81in"')
    assert blocked(high) == []
    low = elevation(tmp_path, 'kind = "floor"\nwidth = "20ft"', 'up = "79in"')
    # An inch of the ball hangs lower: the chord of a 30 in ball an inch from its edge.
    chord = 2 * (15.0**2 - 14.0**2) ** 0.5 * 25.4
    assert [high - low for low, high in blocked(low)] == pytest.approx([chord], abs=0.01)


@pytest.mark.parametrize(("door", "verdict"), [("61in", "fails"), ("95in", "holds")])
def test_a_doorway_is_judged_by_what_is_left_of_it(tmp_path: Path, door: str, verdict: str) -> None:
    # A ball in the middle leaves half of what it does not fill at either side: 15 1/2 or 32 1/2 in.
    setting = f'kind = "doorway"\nwidth = "{door}"\nheight = "84in"'
    found = named(elevation(tmp_path, setting, ""), "doorway left open")
    assert found.verdict == verdict
    assert found.measured == pytest.approx((float(door[:-2]) - 30.0) / 2 * 25.4, abs=0.1)
    # ADA Standards 404.2.3 (32 in), as the Corada guide quotes it.
    assert found.limit == pytest.approx(DOOR_CLEAR, abs=0.1) == 32 * 25.4
    assert "codes decide" in found.says


def test_the_limit_is_the_jobs_own_where_it_has_one(tmp_path: Path) -> None:
    setting = 'kind = "doorway"\nwidth = "95in"\nheight = "84in"\nclear = "33in"'
    found = named(elevation(tmp_path, setting, ""), "doorway left open")
    assert (found.verdict, found.limit) == ("fails", round(33 * 25.4, 1))
    assert "as the job asks" in found.says


def test_the_widest_stretch_of_a_floor_is_a_way(tmp_path: Path) -> None:
    # 36 in: ADA Standards 403.5.1 (from memory).
    for wide, verdict in (("103in", "holds"), ("101in", "look")):
        whole = elevation(tmp_path, f'kind = "floor"\nwidth = "{wide}"', "")
        found = named(whole, "way through")
        assert (found.verdict, found.limit) == (verdict, round(ROUTE_CLEAR, 1))


def test_an_exit_that_is_filled_fails(tmp_path: Path) -> None:
    setting = (
        'kind = "floor"\nwidth = "30ft"\nexits = [{ name = "steps", at = "AT", width = "4ft" }]'
    )
    for at, verdict in (("8ft", "holds"), ("-1ft", "fails")):
        whole = elevation(tmp_path, setting.replace("AT", at), "")
        assert named(whole, "steps left open").verdict == verdict


@pytest.mark.parametrize(
    ("at", "verdict"), [("0in", "holds"), ("-50in", "look"), ("65in", "fails")]
)
def test_what_stands_beyond_the_end_of_a_table_fails(tmp_path: Path, at: str, verdict: str) -> None:
    setting = 'kind = "table"\nwidth = "10ft"\nheight = "30in"'
    assert named(elevation(tmp_path, setting, f'at = "{at}"'), "on the table").verdict == verdict


def test_mirrored_places_give_mirrored_ways(tmp_path: Path) -> None:
    setting = 'kind = "floor"\nwidth = "30ft"'
    one, other = (ways(elevation(tmp_path, setting, f'at = "{sign}5ft"')) for sign in ("", "-"))
    spans = sorted((-way.high, -way.low) for way in other)
    assert [(w.low, w.high) for w in one] == [pytest.approx(span) for span in spans]
