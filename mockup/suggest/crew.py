"""Who does the work: this process alone, or several that share it in a fixed order."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from itertools import islice
from multiprocessing import get_context
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.findings import failing, find_all
from mockup.suggest.designs import design_of
from mockup.suggest.judging import Judge, Verdicts
from mockup.suggest.lying import Fixed
from mockup.suggest.space import Options, Space

Ints = NDArray[np.intp]

_WORDS = {
    "nestle": "cross too far",
    "swing": "swing out of their valleys",
    "numerals fit": "leave too little room for the numerals",
}


@dataclass(frozen=True)
class Task:
    """A batch of options, and where its verdicts belong."""

    places: Ints
    options: Options


@dataclass(frozen=True)
class Trial:
    """A full settling: why it was refused (empty: it holds), and the numerals' room, mm."""

    refused: str
    room: float


class Crew(Protocol):
    """Judges batches and settles options, each in the order given."""

    def judge(self, tasks: Sequence[Task]) -> Iterator[tuple[Task, Verdicts]]:
        """Each task with its verdicts."""

    def settle(self, options: Iterable[Options]) -> Iterator[Trial]:
        """The trial of each single option; no more are begun than are soon asked for."""


class Bench:
    """What a process needs to judge and settle: the design, its wishes and its space."""

    def __init__(self, design: Design, wishes: Wishes, space: Space) -> None:
        self.design, self.wishes, self.space = design, wishes, space
        self.judge = Judge(design, wishes, space, fixed_part(design, wishes))

    def settle(self, options: Options) -> Trial:
        """One option settled fully and put to every check."""
        built = design_of(self.design, self.wishes, self.space, options, 0)
        try:
            piece = assemble(built)
        except FaultsFound:
            return Trial("do not go on the frame", float("nan"))
        room = piece.fit.room if piece.fit else float("nan")
        fails = [finding.name for finding in failing(find_all(piece))]
        if fails:
            return Trial(_WORDS.get(fails[0], f"fail the check '{fails[0]}'"), room)
        if piece.fit is not None and room < self.wishes.room - 1e-9:
            return Trial(_WORDS["numerals fit"], room)
        return Trial("", room)


def fixed_part(design: Design, wishes: Wishes) -> Fixed:
    """The balloons of the sections that do not vary."""
    kept = tuple(s for s in design.sections if s.name not in wishes.sections)
    balloons = assemble(replace(design, sections=kept)).balloons if kept else ()
    placed, knots = (
        np.array(rows).reshape(-1, 3).T
        for rows in ([b.placed for b in balloons], [b.knot for b in balloons])
    )
    clusters = np.array([b.cluster for b in balloons], dtype=np.intp)
    return Fixed(placed, knots, np.array([b.radius for b in balloons]), clusters)


class _Alone:
    def __init__(self, bench: Bench) -> None:
        self.bench = bench

    def judge(self, tasks: Sequence[Task]) -> Iterator[tuple[Task, Verdicts]]:
        yield from ((task, self.bench.judge(task.options)) for task in tasks)

    def settle(self, options: Iterable[Options]) -> Iterator[Trial]:
        yield from map(self.bench.settle, options)


class _Several:
    def __init__(self, pool: ProcessPoolExecutor, cores: int) -> None:
        self.pool, self.cores = pool, cores

    def judge(self, tasks: Sequence[Task]) -> Iterator[tuple[Task, Verdicts]]:
        answers = self.pool.map(_judge, [task.options for task in tasks])
        yield from zip(tasks, answers, strict=True)

    def settle(self, options: Iterable[Options]) -> Iterator[Trial]:
        waiting = iter(options)
        while few := list(islice(waiting, 2 * self.cores)):
            yield from self.pool.map(_settle, few)


@contextmanager
def crew(design: Design, wishes: Wishes, space: Space, cores: int) -> Iterator[Crew]:
    """This process, or ``cores`` others that end with the search."""
    if cores < 2:
        yield _Alone(Bench(design, wishes, space))
        return
    pool = ProcessPoolExecutor(
        cores,
        mp_context=get_context("spawn"),
        initializer=_begin,
        initargs=(design, wishes, space),
    )
    try:
        yield _Several(pool, cores)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


_BENCHES: list[Bench] = []
"""The bench of a helping process, made when it starts."""


def _begin(design: Design, wishes: Wishes, space: Space) -> None:
    # Ctrl-C reaches every process of the terminal; only the first one has to act on it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _BENCHES[:] = [Bench(design, wishes, space)]


def _judge(options: Options) -> Verdicts:
    return _BENCHES[0].judge(options)


def _settle(options: Options) -> Trial:
    return _BENCHES[0].settle(options)
