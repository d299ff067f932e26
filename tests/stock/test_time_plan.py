"""The time plan: nothing overlaps, all work is in it, and it ends at the hour."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.design.studio import Minutes, WorkingDay
from mockup.stock.picking import Counts
from mockup.stock.time_plan import (
    ALONE,
    ON_THE_DAY,
    ORDER,
    TimePlan,
    TooLong,
    labour_minutes,
    time_plan,
)

DAY = date(2027, 5, 8)
SMALL = Counts(pieces=1, clusters=10, balloons=36, numerals=2, attach_points=4)


def plan(counts: Counts = SMALL, helpers: int = 0, ready: time = time(14)) -> TimePlan:
    return time_plan(
        counts,
        Minutes(),
        WorkingDay(),
        on=DAY,
        ready=ready,
        helpers=helpers,
        outdoors=False,
    )


def test_a_plan_worked_by_hand() -> None:
    """36 x 0.5 = 18 min to fill; 10 x 0.75 = 7.5 -> 8 to tie; 10 x 1.5 = 15 to place; 12 numerals;
    15 + 10 + 30 + 20 to finish, load, drive, set up; 20 to prepare: 148 min before 14:00."""
    slots = plan().slots
    assert [slot.task for slot in slots] == list(ORDER)
    assert slots[0].starts == datetime(2027, 5, 8, 11, 32)
    assert slots[-1].ends == datetime(2027, 5, 8, 14, 0)


COUNTS = st.builds(
    lambda pieces, clusters, balloons, numerals: Counts(pieces, clusters, balloons, numerals, 0),
    st.integers(1, 20),
    st.integers(1, 300),
    st.integers(1, 1500),
    st.integers(0, 30),
)


@settings(max_examples=150, deadline=None)
@given(COUNTS, st.integers(0, 6), st.times(time(5), time(23)))
def test_no_two_slots_overlap_and_all_work_is_in_them(
    counts: Counts, helpers: int, ready: time
) -> None:
    ready = ready.replace(second=0, microsecond=0)
    made = plan(counts, helpers, ready)
    for earlier, later in pairwise(made.slots):
        assert earlier.ends <= later.starts
        assert ORDER.index(earlier.task) <= ORDER.index(later.task)
    assert made.slots[-1].ends == datetime.combine(DAY, ready)
    needed = labour_minutes(counts, Minutes())
    needed |= {"drive": needed["drive"] / 2}  # paid there and back, planned one way
    for task in ORDER:
        spent = sum((s.ends - s.starts for s in made.slots if s.task == task), timedelta())
        share = needed[task] if task in ALONE else needed[task] / (helpers + 1)
        assert 0 <= Decimal(spent.total_seconds()) / 60 - share < 1
    for slot in made.slots:
        if slot.task not in ON_THE_DAY:
            assert time(8) <= slot.starts.time() < slot.ends.time() <= time(18)


@given(st.integers(0, 5))
def test_more_hands_never_start_earlier(helpers: int) -> None:
    large = Counts(pieces=5, clusters=120, balloons=500, numerals=9)
    fewer, more = plan(large, helpers), plan(large, helpers + 1)
    assert fewer.slots[0].starts <= more.slots[0].starts


def test_work_that_does_not_fit_the_day_moves_to_the_days_before() -> None:
    made = plan(Counts(pieces=13, clusters=139, balloons=500, numerals=24))
    assert {slot.starts.date() for slot in made.slots} > {DAY}


def test_latex_filled_too_early_is_told() -> None:
    made = plan(Counts(pieces=40, clusters=900, balloons=4000))
    assert made.fills_too_early
    assert made.fill_from == datetime(2027, 5, 5, 14)
    assert not plan().fills_too_early


def test_endless_work_is_refused() -> None:
    with pytest.raises(TooLong, match="add helpers"):
        plan(Counts(pieces=1000, clusters=90_000, balloons=400_000))
    with pytest.raises(TooLong, match="add helpers"):
        plan(Counts(balloons=10**15))
