"""What single slips in measured figures, pricing and planning once got past the other tests."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal

import pytest
from shapely import Point, points

from mockup.design.job import Job
from mockup.design.studio import Minutes, Studio, WorkingDay
from mockup.packing.clusters import place_word
from mockup.panel.numerals import numeral_row
from mockup.piece.assemble import assemble
from mockup.piece.code import LENGTH
from mockup.stock.build_plan import turn_words
from mockup.stock.calibrating import Nonsense, pump_factor, shrink_of
from mockup.stock.fixing import SEAM, Meeting, meetings
from mockup.stock.gauging import strokes_for
from mockup.stock.money import share
from mockup.stock.order import Order, order
from mockup.stock.picking import Counts
from mockup.stock.quoting import quote
from mockup.stock.time_plan import Slot, TimePlan, time_plan
from mockup.worksheets.opening import read_order
from tests.trust.running import SAMPLES

JOB = SAMPLES / "jobs/alder-weekend.toml"
ZERO = Decimal(0)


@pytest.fixture(scope="module")
def job() -> Order:
    return read_order(JOB)


# measured figures


def test_a_pump_is_judged_by_one_stroke_of_it() -> None:
    """Eight strokes give twice the diameter of one; 20 and 250 mm a stroke are just possible."""
    for one in (20.0, 250.0):
        assert pump_factor([("1", 1.0, one)]).factor == pytest.approx(one)
    assert pump_factor([("8", 8.0, 41.0)]).factor == pytest.approx(20.5)
    for strokes, mm in ((8.0, 39.0), (1.0, 19.9), (1.0, 250.1), (8.0, 501.0)):
        with pytest.raises(Nonsense, match="no pump"):
            pump_factor([("x", strokes, mm)])


def test_a_foil_may_keep_its_height_or_lose_just_half_of_it() -> None:
    assert shrink_of([("x", 400.0, 400.0)]).factor == 1.0
    assert shrink_of([("x", 400.0, 200.0)]).factor == 0.5
    assert shrink_of([("x", 1.0, 0.9)]).factor == pytest.approx(0.9)
    for flat, filled in ((0.0, 1.0), (1.0, 0.0), (-1.0, 1.0)):
        with pytest.raises(Nonsense, match="nothing"):
            shrink_of([("x", flat, filled)])


def test_strokes_are_told_to_a_quarter(job: Order) -> None:
    """The cube law: 4 x (100 / 114.3)^3 = 2.679, nearest to 2.75."""
    pump = replace(job.designs[0][0].pump, strokes=4.0, gives=114.3)
    assert strokes_for(pump, None, 100.0) == 2.75
    assert strokes_for(pump, 3.1, 100.0) == 3.1


# numerals


@pytest.mark.parametrize(("gap", "trim"), [(15.9, True), (2 * SEAM, False), (17.0, False)])
def test_seams_are_trimmed_where_they_would_lie_on_each_other(gap: float, trim: bool) -> None:
    assert Meeting("3", "0", gap, 0.5).trim == trim


def test_numerals_meet_where_the_left_one_is_nearest() -> None:
    """Each outline walked in small steps, and every step measured to the other one."""
    piece = assemble(read_order(SAMPLES / "juniper-two.toml").designs[0][0])
    assert piece.fit is not None
    row = numeral_row("47", 400.0, {}, 12.0)
    (met,) = meetings(replace(piece, fit=replace(piece.fit, numerals=row)))
    left, right = (shape.polygon() for shape in row)
    line = left.exterior
    walked = points([line.interpolate(at).coords[0] for at in range(int(line.length))])
    away = [right.distance(one) for one in walked]
    nearest: Point = walked[away.index(min(away))]
    foot = row[0].y - row[0].height / 2
    assert met.gap == pytest.approx(min(away), abs=0.1)
    assert met.height == pytest.approx((nearest.y - foot) / row[0].height, abs=0.02)


# the order, its price and its plan


def test_a_single_piece_is_known_by_its_own_code_and_a_job_by_one_of_all(job: Order) -> None:
    ruby = read_order(SAMPLES / "ruby-thirty.toml")
    assert ruby.code == ruby.codes[0]
    assert job.code not in job.codes
    assert len(job.code) == LENGTH
    first = job.job.pieces[0]
    more: Job = replace(
        job.job, pieces=(replace(first, count=first.count + 1), *job.job.pieces[1:])
    )
    assert replace(job, job=more).code != job.code


def test_the_first_colours_by_their_name_are_the_first_colours_of_pieces_with_others() -> None:
    """One piece has colourways, so that its first is called A; of the other A is none."""
    lanterns, ruby = (
        read_order(SAMPLES / f"{n}.toml").job for n in ("market-lanterns", "ruby-thirty")
    )
    both = replace(lanterns, pieces=(*lanterns.pieces, *ruby.pieces))
    assert order(both, Studio(), "A").colourway == ""


def test_what_is_left_of_the_price_is_the_gain(job: Order) -> None:
    quoted = quote(job, date(2027, 3, 1))
    assert quoted.materials > 0
    assert quoted.labour_cost > 0
    assert quoted.cost == quoted.materials + sum((line.cost for line in quoted.labour), ZERO)
    assert quoted.gain + quoted.cost == quoted.work


def test_one_thing_hired_is_told_without_a_count(job: Order) -> None:
    alone = read_order(SAMPLES / "ruby-thirty.toml")
    one = replace(alone, studio=job.studio)
    assert [line.name for line in quote(one, date(2027, 3, 1)).client.lines][1] == (
        f"Hire: {job.studio.hires[0].name}"
    )
    first = one.job.pieces[0]
    two = replace(one, job=replace(one.job, pieces=(replace(first, count=2),)))
    says = [line.name for line in quote(two, date(2027, 3, 1)).client.lines][1]
    assert says == f"Hire: 2 × {job.studio.hires[0].name}"


NOON = datetime(2027, 5, 8, 12)


@pytest.mark.parametrize(
    ("task", "before", "early"),
    [("inflate", 1, True), ("inflate", 0, False), ("inflate", -1, False), ("tie", 1, False)],
)
def test_only_filling_can_be_too_early(task: str, before: int, early: bool) -> None:
    starts = NOON - timedelta(minutes=before)
    made = TimePlan((Slot(task, starts, starts + timedelta(hours=1)),), 1, NOON, NOON, dated=True)
    assert made.fills_too_early == early


def test_what_does_not_fit_before_the_doors_open_is_done_the_evening_before() -> None:
    made = time_plan(
        Counts(pieces=1, clusters=10, balloons=36),
        Minutes(),
        WorkingDay(),
        on=NOON.date(),
        ready=time(9),
        helpers=0,
        outdoors=False,
    )
    ends = max(slot.ends for slot in made.slots if slot.ends.date() < NOON.date())
    assert ends == datetime(2027, 5, 7, 18)


def test_work_of_one_sort_may_take_up_to_sixty_days() -> None:
    def made(days: int) -> TimePlan:
        return time_plan(
            Counts(pieces=1),
            replace(Minutes(), set_up=Decimal(days * 24 * 60)),
            WorkingDay(),
            on=NOON.date(),
            ready=time(12),
            helpers=0,
            outdoors=False,
        )

    assert made(40).slots[-1].starts == NOON - timedelta(days=40)


def test_a_turn_past_the_full_circle_is_told_as_the_turn_it_is() -> None:
    whole = assemble(read_order(SAMPLES / "ruby-thirty.toml").designs[0][0]).clusters[0]
    one = replace(whole, balloons=(0,), turn_deg=382.6)
    assert turn_words(one) == place_word(22.6, 1) != place_word(21.6, 1)
    four = replace(whole, balloons=(0, 1, 2, 3))
    assert turn_words(replace(four, turn_deg=46.0)) == "46° round"
    assert turn_words(replace(four, turn_deg=45.5)) == "valley in"
    assert turn_words(replace(four, turn_deg=44.5)) == "valley in"


def test_a_share_is_told_to_its_last_place() -> None:
    assert share(Decimal("0.0825"), "en_US") == "8.25%"
