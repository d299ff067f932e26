"""What single changes of the code (mutants) once got past the other tests, held from now on."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date
from math import atan2, degrees, dist, sqrt
from pathlib import Path

import numpy as np
import pytest

from mockup.design.reading import read_design
from mockup.packing.closing import closing_options
from mockup.packing.clusters import place_word, turn_for
from mockup.packing.hoops import Ring
from mockup.packing.nesting import ClusterShape, equal_pitch, next_turn
from mockup.panel.capsules import Trials, around, row_of
from mockup.panel.numerals import numeral_row
from mockup.panel.outline import outline_of
from mockup.panel.shifts import PRECISION, best_shift, clearances, edge_shifts
from mockup.panel.window import NotAnOpening, require_opening
from mockup.piece.assemble import assemble
from mockup.stock.build_plan import turn_words
from mockup.stock.buy_rows import buy_rows
from mockup.stock.buying import buy_list
from mockup.stock.calibrated_book import write_pump
from mockup.stock.fixing import RING, fixings, meetings, tucks
from mockup.stock.quoting import quote
from mockup.symmetry.alternation import ClusterColours, alternation_links
from mockup.symmetry.links import Row
from mockup.symmetry.ranks import Ranked, top_bottom
from mockup.worksheets.opening import read_order
from tests.trust.running import SAMPLES


@pytest.mark.parametrize(("turn", "after"), [(350.0, 35.0), (315.0, 0.0), (359.5, 44.5)])
def test_a_turn_past_the_full_circle_begins_anew(turn: float, after: float) -> None:
    assert next_turn(ClusterShape(4, 100.0, turn)) == pytest.approx(after)


@pytest.mark.parametrize("count", [4, 6])
def test_the_smallest_rings_close_by_their_own_count(count: int) -> None:
    length = count * equal_pitch(4, 100.0, 0.1)
    fewer, closes, more = closing_options(length, 4, 100.0)
    assert [fewer.count, closes.count, more.count] == [count - 2, count, count + 2]
    assert closes.squeeze == pytest.approx(0.1)
    assert closes.diameter == pytest.approx(100.0)


def test_an_opening_may_be_as_small_as_it_likes_but_not_nothing() -> None:
    require_opening(0.5, 0.0, 0.0)
    with pytest.raises(NotAnOpening):
        require_opening(0.0, 8.0, 0.0)


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
def test_a_cluster_of_any_kind_is_told_how_it_sits(count: int) -> None:
    whole = assemble(read_design(SAMPLES / "ruby-thirty.toml")).clusters[0]
    cluster = replace(whole, balloons=tuple(range(count)))
    if count == 1:
        assert turn_words(replace(cluster, turn_deg=405.0)) == place_word(45.0, 1)
        return
    for word in ("valley in", "point in"):
        turn = turn_for(word, count)
        for round_about in (-360.0 / count, 0.0, 720.0):
            assert turn_words(replace(cluster, turn_deg=turn + round_about)) == word
        assert turn_words(replace(cluster, turn_deg=turn + 7.0)).endswith(" round")


def test_a_margin_is_the_gain_as_a_share_of_the_work() -> None:
    order = read_order(SAMPLES / "jobs/alder-weekend.toml", None, "")
    quoted = quote(order, date(2027, 3, 1))
    assert quoted.gain > 0
    assert quoted.margin * quoted.work == pytest.approx(quoted.gain)


def test_the_best_shift_is_the_nearest_to_nothing_of_all_that_are_as_good() -> None:
    """A bar under one disc is best 25 mm down; nearer by the precision is as good, room or none."""
    surroundings = around(200.0, np.array([[0.0, 200.0]]), np.array([50.0]))
    for height, room in ((100.0, True), (380.0, False)):
        bar = row_of(outline_of(numeral_row("I", height, {}, 0.0), [0.0]))
        shift = best_shift(bar, surroundings)
        assert (clearances(bar, surroundings, np.array([shift]))[0] > 0) == room
        assert shift == pytest.approx(-25.0 + PRECISION * 200.0, abs=PRECISION * 20.0)


@pytest.mark.parametrize("room", [0.5, 0.9, 20.0])
def test_a_row_that_only_just_lies_in_the_opening_may_still_be_moved(room: float) -> None:
    """Less than a millimetre of room, sideways or in all, is room: a bar is moved as a point is."""
    bar = row_of(outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0]))
    tiny = 1e-3
    asked = 200.0 - room - tiny * bar.corner_half.max()
    found = edge_shifts(bar, 200.0, Trials(np.array([tiny]), np.array([asked])))
    reach = room - tiny * bar.corner_y.max()
    assert (found.low[0], found.high[0]) == pytest.approx((-reach, reach))


def test_a_row_whose_corners_nearly_touch_the_edge_may_still_be_moved() -> None:
    bar = row_of(outline_of(numeral_row("-", 100.0, {}, 0.0), [0.0]))
    far = float(np.abs(bar.corner_x).max())
    room = sqrt(far**2 + 0.25)
    trials = Trials(np.ones(1), np.array([200.0 - room - bar.corner_half.max()]))
    found = edge_shifts(bar, 200.0, trials)
    assert (found.low[0], found.high[0]) == pytest.approx((-0.5, 0.5))


def test_clusters_of_unlike_kinds_are_told_each_by_its_own_name() -> None:
    quad = Ranked("top", 0, "middle", 4, 100.0, 45.0, "ABAB", 0)
    trio = Ranked("bottom", 0, "middle", 3, 100.0, 45.0, "ABA", 1)
    (told,) = top_bottom([quad], [trio]).breaks
    assert told.says == "a quad, where the other is a trio"
    assert (told.expected, told.remedy) == ("trio", "make both a trio")


@pytest.mark.parametrize(("inner", "outer"), [(0.5, 1.5), (1.5, 0.5), (359.5, 0.5), (0.5, 359.5)])
def test_a_row_is_found_at_the_very_end_of_its_tolerance(inner: float, outer: float) -> None:
    """Half degrees round to the even one: 0.5 and 1.5 are one degree apart and round to 0 and 2."""
    clusters = [
        ClusterColours("AB", (phi, phi + 180.0), k, "right", "top", False, k)
        for k, phi in enumerate((inner, outer))
    ]
    rows = [link for link in alternation_links(clusters) if isinstance(link, Row)]
    assert rows == [Row(0, 1, ((0, 0), (1, 1)))]


def clock(x: float, y: float) -> float:
    return degrees(atan2(x, y)) % 360.0


@pytest.mark.parametrize("name", ["ruby-thirty", "juniper-two"])
def test_what_a_numeral_is_tied_to_is_the_nearest_thing_there_is(name: str) -> None:
    piece = assemble(read_design(SAMPLES / f"{name}.toml"))
    assert piece.fit is not None
    assert piece.design.panel is not None
    opening = piece.frame.opening(piece.design.panel.place)
    assert opening is not None
    points = sorted(piece.fit.attach, key=lambda at: clock(*at))
    assert len(points) > 1
    for one, at in zip(fixings(piece), points, strict=True):
        away = {ball.index: dist(at, ball.centre[:2]) - ball.radius for ball in piece.balloons}
        away[RING] = opening[2] - dist(at, opening[:2])
        assert one.angle == pytest.approx(clock(*at))
        assert one.away == pytest.approx(max(0.0, min(away.values())), abs=1e-9)
        assert away[one.balloon] == pytest.approx(min(away.values()), abs=1e-9)
        nearest = min(piece.fit.numerals, key=lambda shape: abs(shape.x - at[0]))
        assert one.numeral == nearest.char


def test_a_piece_without_numerals_has_nothing_to_fix_and_nothing_that_meets() -> None:
    piece = replace(assemble(read_design(SAMPLES / "ruby-thirty.toml")), fit=None)
    assert (fixings(piece), meetings(piece), tucks(piece)) == ((), (), ())


class Moved(Ring):
    """A ring whose opening lies off the middle, as that of a path drawn by hand may."""

    def opening(self, place: str) -> tuple[float, float, float]:  # noqa: ARG002 - the same for both
        return 40.0, -30.0, 381.0


def test_the_way_to_the_ring_is_measured_from_the_middle_of_its_opening() -> None:
    piece = assemble(read_design(SAMPLES / "ruby-thirty.toml"))
    bare = replace(piece, frame=Moved(762.0, 12.7), balloons=())
    assert bare.fit is not None
    points = sorted(bare.fit.attach, key=lambda at: clock(*at))
    away = [381.0 - dist(at, (40.0, -30.0)) for at in points]
    assert [one.away for one in fixings(bare)] == pytest.approx(away)
    assert {one.balloon for one in fixings(bare)} == {RING}


def test_a_second_bag_of_a_colour_needs_nothing_more() -> None:
    order = read_order(SAMPLES / "jobs/alder-weekend.toml", None, "")
    rows = tuple(buy_rows(buy_list(order.picking, order.studio, from_shelf=False), "in"))
    further = [row for row in rows if not row.first]
    assert further
    assert not any(row.needed or row.spares or row.on_hand or row.filled for row in further)


@pytest.mark.parametrize(
    ("before", "pumps"),
    [
        ("", ["mine"]),
        ('[[pump]]\nname = "other"\nstrokes = 2\ngives = "4in"\n', ["other", "mine"]),
        ('pump = [{ name = "other", strokes = 2, gives = "4in" }]\n', ["other", "mine"]),
    ],
)
def test_a_new_pump_joins_those_there_are_however_they_are_written(
    before: str, pumps: list[str], tmp_path: Path
) -> None:
    book = tmp_path / "studio.toml"
    book.write_text('name = "Mine"\n' + before, "utf-8")
    write_pump(book, "mine", 4.0, 114.3, "in")
    read = tomllib.loads(book.read_text("utf-8"))
    assert [pump["name"] for pump in read["pump"]] == pumps
    assert read["pump"][-1] == {"name": "mine", "strokes": 4, "gives": "4.500in"}
