"""The time plan, backwards from the hour at which everything stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import ROUND_CEILING, Decimal

from mockup.design.studio import MINUTES_PER, Minutes, WorkingDay
from mockup.errors import MockupError
from mockup.stock.picking import Counts

ORDER = ("prepare", "inflate", "tie", "place", "numeral", "finish", "load", "drive", "set_up")
"""The tasks from the first to the last before the event."""

ALONE = frozenset({"prepare", "drive"})
"""Tasks that take as long with many hands as with one."""

ON_THE_DAY = frozenset({"drive", "set_up"})
"""Tasks that run up to the hour itself, whatever the working day."""

WORDS = {
    "prepare": "Lay out colours, gauge and pump; mark the tubes",
    "inflate": "Fill every balloon to its hole and knot it",
    "tie": "Tie the clusters",
    "place": "Set the clusters on the frame",
    "numeral": "Fill, trim and fix the numerals",
    "finish": "Finish and check",
    "load": "Wrap and load",
    "drive": "Drive there",
    "set_up": "Carry in, stand, weigh down, look over",
}
THERE_AND_BACK = 2
"""The drive is paid both ways; the plan up to the event holds the way there."""

_LONGEST = timedelta(days=60)
_TOO_LONG = "the work does not fit into sixty days; add helpers to the job file"
_NO_DAY = date(2000, 1, 1)


class TooLong(MockupError):
    """Work that does not fit into sixty days before the event."""


@dataclass(frozen=True)
class Slot:
    """One stretch of work from ``starts`` to ``ends``; a long task has several."""

    task: str
    starts: datetime
    ends: datetime


@dataclass(frozen=True)
class TimePlan:
    """The slots in order of time, with the ``hands`` that share the work.

    ``fill_from`` is the earliest hour to fill latex for it to look fresh at ``ready``.
    """

    slots: tuple[Slot, ...]
    hands: int
    ready: datetime
    fill_from: datetime
    dated: bool

    @property
    def fills_too_early(self) -> bool:
        """Whether the plan fills latex before it should."""
        starts = [slot.starts for slot in self.slots if slot.task == "inflate"]
        return bool(starts) and min(starts) < self.fill_from


def labour_minutes(counts: Counts, minutes: Minutes) -> dict[str, Decimal]:
    """Minutes of one pair of hands for every task that is paid for, the taking down included.

    The book tells one way of the drive; it is paid there and back. A second journey on another
    day is part of the minutes for taking down.
    """
    once = _once(counts, minutes)
    return once | {"drive": once["drive"] * THERE_AND_BACK}


def _once(counts: Counts, minutes: Minutes) -> dict[str, Decimal]:
    """Minutes of every task, with the drive one way."""
    return {
        task: Decimal(getattr(minutes, task)) * counts.of(per) for task, per in MINUTES_PER.items()
    }


def time_plan(
    counts: Counts,
    minutes: Minutes,
    working: WorkingDay,
    *,
    on: date | None,
    ready: time,
    helpers: int,
    outdoors: bool,
) -> TimePlan:
    """The plan for a job whose everything stands at ``ready`` on the day ``on``.

    Work before loading ends goes into working hours, the latest that do. Raises ``TooLong``.
    """
    hands = helpers + 1
    end = datetime.combine(on or _NO_DAY, ready)
    needed = _once(counts, minutes)
    slots: list[Slot] = []
    at = end
    for task in reversed(ORDER):
        share = needed[task] if task in ALONE else needed[task] / hands
        for slot in _backwards(task, at, _whole_minutes(share), working):
            slots.append(slot)
            at = slot.starts
            if end - at > _LONGEST:
                raise TooLong(_TOO_LONG)
    fresh = working.fresh_outdoors if outdoors else working.fresh_indoors
    slots.reverse()
    return TimePlan(tuple(slots), hands, end, end - timedelta(hours=fresh), on is not None)


def _whole_minutes(share: Decimal) -> timedelta:
    minutes = int(share.to_integral_value(ROUND_CEILING))
    if minutes > _LONGEST / timedelta(minutes=1):
        raise TooLong(_TOO_LONG)
    return timedelta(minutes=minutes)


def _backwards(task: str, at: datetime, left: timedelta, working: WorkingDay) -> Iterator[Slot]:
    """Stretches of work that end at ``at`` or before it, the latest first."""
    if task in ON_THE_DAY:
        if left:
            yield Slot(task, at - left, at)
        return
    while left:
        at = _in_hours(at, working)
        starts = max(at - left, datetime.combine(at.date(), working.starts))
        yield Slot(task, starts, at)
        left -= at - starts
        at = starts


def _in_hours(at: datetime, working: WorkingDay) -> datetime:
    """The latest working moment not after ``at`` that has work before it."""
    closes = datetime.combine(at.date(), working.ends)
    opens = datetime.combine(at.date(), working.starts)
    if at > closes:
        return closes
    return at if at > opens else closes - timedelta(days=1)
