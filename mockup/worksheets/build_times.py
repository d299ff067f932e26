"""The time plan in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time

from mockup.render.listing import Column, Heading, Part, Row, Table, Tone, Words
from mockup.stock.money import day
from mockup.stock.order import Order
from mockup.stock.time_plan import WORDS, TimePlan, time_plan

_NOON = time(12)


def plan_of(order: Order) -> TimePlan:
    """The plan of a job; one that names no hour is ready at noon."""
    job, studio = order.job, order.studio
    return time_plan(
        order.picking.counts,
        studio.minutes,
        studio.day,
        on=job.event_date,
        ready=job.ready or _NOON,
        helpers=job.helpers,
        outdoors=job.outdoors,
    )


def time_parts(order: Order) -> Iterator[Part]:
    """The plan from the first task to the hour at which everything stands."""
    plan = plan_of(order)
    hands = f"{plan.hands} pair{'s' if plan.hands > 1 else ''} of hands"
    yield Heading("Time plan", hands)
    rows = [
        Row(
            (
                _when(order, plan, slot.starts),
                f"{slot.starts:%H:%M}–{slot.ends:%H:%M}",
                WORDS[slot.task],
            )
        )
        for slot in plan.slots
    ]
    said = "" if order.job.ready else " (the job names no hour)"
    rows.append(
        Row(
            (_when(order, plan, plan.ready), f"{plan.ready:%H:%M}", f"Everything stands{said}"),
            lead=True,
        )
    )
    columns = (Column("Day", 3.6), Column("From and to", 2), Column("Task", 7))
    yield Table(columns, tuple(rows), ticks=True)
    yield Words(_fresh(order, plan), strong=plan.fills_too_early, tone=_tone(plan))


def _tone(plan: TimePlan) -> Tone:
    return "alarm" if plan.fills_too_early else "soft"


def _fresh(order: Order, plan: TimePlan) -> str:
    earliest = f"{_when(order, plan, plan.fill_from)}, {plan.fill_from:%H:%M}"
    if plan.fills_too_early:
        return (
            f"This plan fills latex before {earliest}, when it may look tired at the event: "
            "add helpers or hours."
        )
    return f"Fill latex no earlier than {earliest}."


def _when(order: Order, plan: TimePlan, at: datetime) -> str:
    """The day in the studio's language; days before the event where the job names none."""
    before = (plan.ready.date() - at.date()).days
    if plan.dated:
        return day(at.date(), order.studio.locale)
    return "the day itself" if before == 0 else f"{before} day{'s' if before > 1 else ''} before"
