"""What every benchmark of ratios shares: processor time of two jobs by turns, and one line told."""

from __future__ import annotations

import gc
from collections.abc import Callable
from time import process_time


def once(job: Callable[[], object]) -> float:
    """Seconds of this process's own time, so that what else the machine does counts little."""
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


def tell(what: str, figure: float, goal: float, unit: str = "x") -> None:
    """One line: "what: ratio (goal)"."""
    print(f"\n{what}: {figure:.3g} {unit} (goal {goal:g})")
