"""What every benchmark of ratios shares: processor time of two jobs by turns, and one row told.

Where no rival does the same job, its time is told in yards: what Python takes, in the same run,
to sort 100,000 thrown numbers. So a ratio is much the same on a slow machine and on a fast one.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from time import process_time

from mockup.packing.balancing import forget


@dataclass(frozen=True)
class Row:
    """A figure and its goal, which it is to stay under or, of ``least``, to reach."""

    what: str
    figure: float
    goal: float
    unit: str = "x"
    least: bool = False

    @property
    def holds(self) -> bool:
        return self.figure >= self.goal if self.least else self.figure <= self.goal


_CHANCE = Random(30)
NUMBERS = [_CHANCE.random() for _ in range(100_000)]

ROWS: list[Row] = []
"""Every row told in this run, for the table at its end."""


def once(job: Callable[[], object]) -> float:
    """Seconds of this process's own time, so that what else the machine does counts little.

    Nothing is remembered from one run to the next.
    """
    forget()
    gc.collect()
    start = process_time()
    job()
    return process_time() - start


def by_turns(ours: Callable[[], object], theirs: Callable[[], object], rounds: int) -> float:
    """Our time over theirs: the least of several runs of each, taken by turns."""
    ours()
    theirs()
    pairs = [(once(ours), once(theirs)) for _ in range(rounds)]
    return min(a for a, _ in pairs) / min(b for _, b in pairs)


def yards(job: Callable[[], object], rounds: int = 5) -> float:
    """How often Python could sort 100,000 numbers meanwhile: the least of runs by turns."""
    return by_turns(job, lambda: sorted(NUMBERS), rounds)


def tell(what: str, figure: float, goal: float, unit: str = "x", *, least: bool = False) -> None:
    """One row, printed now and again in the table: what, how much, its goal. Fails beyond it."""
    row = Row(what, figure, goal, unit, least)
    ROWS.append(row)
    print(f"\n{written(row)}")
    assert row.holds, written(row)


def written(row: Row) -> str:
    """A row as one line: "what: ratio (goal)".

    >>> written(Row("settling", 0.914, 1.0))
    'settling: 0.914 x (at most 1)'
    """
    return f"{row.what}: {row.figure:.3g} {row.unit} ({goal(row)})"


def goal(row: Row) -> str:
    return f"at {'least' if row.least else 'most'} {row.goal:g}"


def table(rows: list[Row]) -> list[str]:
    """The rows as a Markdown table.

    >>> for line in table([Row("settling", 0.914, 1.0)]):
    ...     print(line)
    | what is measured | ratio | goal | |
    |---|---|---|---|
    | settling | 0.914 x | at most 1 | holds |
    """
    body = (
        f"| {r.what} | {r.figure:.3g} {r.unit} | {goal(r)} | {'holds' if r.holds else 'FAILS'} |"
        for r in rows
    )
    return ["| what is measured | ratio | goal | |", "|---|---|---|---|", *body]
