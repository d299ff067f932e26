"""Wishes that cannot hold together, told before anything is searched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.errors import Fault, FaultsFound
from mockup.lengths import format_length, format_spare
from mockup.piece.assemble import assemble
from mockup.suggest.comparing import Price
from mockup.suggest.designs import design_of
from mockup.suggest.ranking import letters_used
from mockup.suggest.space import Options, Space


def refuse_contradictions(design: Design, wishes: Wishes, space: Space, price: Price) -> None:
    """Raise ``FaultsFound`` naming every two wishes that cannot both hold.

    ``price`` tells whether a cost is known at all.
    """
    faults = [
        *_room(design, wishes),
        *_counts(design, wishes, space),
        *_costs(design, wishes, space, price),
    ]
    if faults:
        raise FaultsFound(faults)


def _at(design: Design, key: str) -> str:
    return design.where(("wishes", key))


def _room(design: Design, wishes: Wishes) -> Iterator[Fault]:
    """The room asked for, against the ring and what is fixed on it."""
    if design.panel is None:
        if wishes.room:
            what = "room round numerals is asked for, and the piece has no panel"
            yield Fault(_at(design, "room"), what, "add a [panel], or take 'room' out")
        return
    kept = tuple(s for s in design.sections if s.name not in wishes.sections)
    fit = assemble(replace(design, sections=kept)).fit
    if fit is None or fit.room >= wishes.room:
        return
    unit = design.unit
    fixed = "the fixed clusters" if kept else "the bare frame"
    has = (
        f"have only {format_spare(fit.room, unit)} to spare"
        if fit.room >= 0
        else f"miss by {format_spare(fit.room, unit)}"
    )
    largest = format_length(fit.largest_height, unit)
    if not wishes.room:
        what = f"these numerals and {fixed} cannot both hold: with nothing else the numerals {has}"
        instead = f"take numerals under {largest} filled, or a larger frame"
        yield Fault(design.where(("panel",)), what, instead)
        return
    what = (
        f"the clearance asked for and {fixed} cannot both hold: with nothing else on the frame "
        f"the numerals {has}, and {format_length(wishes.room, unit)} is asked for"
    )
    yield Fault(_at(design, "room"), what, f"take numerals under {largest} filled, or less room")


def _counts(design: Design, wishes: Wishes, space: Space) -> Iterator[Fault]:
    """Balloons allowed, against the least that any option takes."""
    used = [letters_used(_smallest(design, wishes, space, n)) for n in range(len(space.shapes))]
    least = min(sum(counts.values()) for counts in used)
    if wishes.most_balloons is not None and least > wishes.most_balloons:
        what = (
            f"at most {wishes.most_balloons} balloons and at least {_clusters(wishes.a_side[0])} a "
            f"side cannot both hold: the smallest option takes {least}"
        )
        yield Fault(_at(design, "most_balloons"), what, f"write {least} or more")
    for letter, most in wishes.stock.items():
        needed = min(counts[letter] for counts in used)
        if needed > most:
            what = (
                f"{most} of {letter} at hand and this order of colours cannot both hold: the "
                f"smallest option takes {needed}"
            )
            yield Fault(_at(design, "stock"), what, f"find {needed - most} more")


def _clusters(count: int) -> str:
    return f"{count} cluster{'' if count == 1 else 's'}"


def _smallest(design: Design, wishes: Wishes, space: Space, number: int) -> Design:
    fills = np.full((1, space.shapes[number].length), len(space.diameters) - 1, dtype=np.intp)
    return design_of(design, wishes, space, Options(number, fills), 0)


def _costs(design: Design, wishes: Wishes, space: Space, price: Price) -> Iterator[Fault]:
    """A cost asked for, against a studio book that does not tell it."""
    if wishes.most_cost is None and wishes.rank != "cost":
        return
    key = "most_cost" if wishes.most_cost is not None else "rank"
    expense = price(assemble(_smallest(design, wishes, space, 0)))
    if expense.cost is None:
        known = f" (known: {expense.cost_words})" if expense.cost_words else ""
        what = f"a cost is asked for, and no studio book tells what all of it costs{known}"
        instead = "write its bags into the book ('mockup studio' tells where), or take this out"
        yield Fault(_at(design, key), what, instead)
