"""The order in which options are looked at: the best first, so that the search may stop early."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.suggest.comparing import Expense, Price
from mockup.suggest.designs import design_of
from mockup.suggest.judging import BALLOONS, COST, MINUTES, PASSES, STOCK
from mockup.suggest.space import Options, Space, front_area, roughness

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True)
class ShapeFacts:
    """What all options of a shape share: why it is cut, if it is, and its expense."""

    reason: int
    expense: Expense | None


@dataclass(frozen=True)
class Order:
    """Options in the order of their rank: which shape (n,), which of its options (n,), its figure.

    ``figure`` (n,) is what they are ranked by, the best being the least.
    """

    shape: Ints
    row: Ints
    figure: Floats

    def __len__(self) -> int:
        return len(self.shape)


def ranked(
    space: Space, every: Sequence[Options], wishes: Wishes, facts: Sequence[ShapeFacts]
) -> Order:
    """All options, the best first; of equals the fuller, then the one that comes first."""
    areas = [front_area(space, space.shapes[o.shape], o.fills) for o in every]
    figures = [
        _figure(space, options, wishes, facts[options.shape], area)
        for options, area in zip(every, areas, strict=True)
    ]
    shape = np.concatenate([np.full(len(o.fills), o.shape, dtype=np.intp) for o in every])
    row = np.concatenate([np.arange(len(o.fills)) for o in every])
    figure, area = np.concatenate(figures), np.concatenate(areas)
    order = np.lexsort((row, shape, -np.round(area, 3), np.round(figure, 6)))
    return Order(shape[order], row[order], figure[order])


def _figure(
    space: Space, options: Options, wishes: Wishes, facts: ShapeFacts, area: Floats
) -> Floats:
    if wishes.rank == "fullness":
        return -area
    if wishes.rank == "smoothness":
        return roughness(space, options.fills)
    expense = facts.expense or Expense(0.0)
    figure = expense.minutes if wishes.rank == "minutes" else expense.cost
    return np.full(len(area), 0.0 if figure is None else figure)


def facts_of(design: Design, wishes: Wishes, space: Space, price: Price) -> tuple[ShapeFacts, ...]:
    """What is known of each shape before any of its options is looked at."""
    return tuple(
        _facts(design, wishes, space, number, price) for number in range(len(space.shapes))
    )


def _facts(design: Design, wishes: Wishes, space: Space, number: int, price: Price) -> ShapeFacts:
    shape = space.shapes[number]
    smallest = np.full((1, shape.length), len(space.diameters) - 1, dtype=np.intp)
    built = design_of(design, wishes, space, Options(number, smallest), 0)
    counts = letters_used(built)
    if wishes.most_balloons is not None and sum(counts.values()) > wishes.most_balloons:
        return ShapeFacts(BALLOONS, None)
    if any(counts[letter] > most for letter, most in wishes.stock.items()):
        return ShapeFacts(STOCK, None)
    asks = wishes.most_cost is not None or wishes.most_minutes is not None
    if not asks and wishes.rank not in ("cost", "minutes"):
        return ShapeFacts(PASSES, None)
    try:
        expense = price(assemble(built))
    except FaultsFound:
        return ShapeFacts(PASSES, None)
    return ShapeFacts(_too_dear(wishes, expense), expense)


def _too_dear(wishes: Wishes, expense: Expense) -> int:
    cost = expense.cost
    if wishes.most_cost is not None and cost is not None and cost > wishes.most_cost + 1e-9:
        return COST
    if wishes.most_minutes is not None and expense.minutes > wishes.most_minutes + 1e-9:
        return MINUTES
    return PASSES


def letters_used(design: Design) -> Counter[str]:
    """How many balloons of each letter a design has (whole rings with their given count only)."""
    counts: Counter[str] = Counter()
    for section in design.sections:
        specs = (
            section.middle,
            *section.right,
            *section.left,
            section.end_right,
            section.end_left,
        )
        for spec in specs:
            counts.update(spec.letters if spec else "")
    return counts
