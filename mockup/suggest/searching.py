"""The search: every option in the order of its rank until enough are found that hold.

Options are judged in batches, and those that pass are settled fully, in order; the answer is the
same however many processes share the work, as batches and order depend on the wishes alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.errors import MockupError
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.suggest.comparing import Expense, Price
from mockup.suggest.crew import Crew, Task, Trial, crew
from mockup.suggest.designs import design_of
from mockup.suggest.judging import NUMERALS, PASSES
from mockup.suggest.ranking import Order, facts_of, ranked
from mockup.suggest.space import MOST_OPTIONS, Options, Space, every_option, space_of

Ints = NDArray[np.intp]
Floats = NDArray[np.float64]
Progress = Callable[[int, int, int], None]
"""Told now and then: options looked at, of how many, and how many were found."""

BATCH = 256
_WINDOW = 8 * BATCH
_NEAREST = 12


class TooMany(MockupError):
    """More combinations than are looked at one by one."""


@dataclass(frozen=True)
class Suggested:
    """One design that holds, with what was refused before it was reached."""

    design: Design
    piece: Piece
    findings: tuple[Finding, ...]
    expense: Expense
    figure: float
    refused: dict[str, int]


@dataclass(frozen=True)
class Miss:
    """The option that comes nearest to fitting: its piece, and by how much it misses, mm."""

    piece: Piece
    by: float


@dataclass(frozen=True)
class Outcome:
    """What the search came to.

    ``looked_at`` options of ``total`` were judged, ``settled`` of them fully. ``refused`` counts
    the reasons, in words. ``stopped`` where the user stopped it, ``thinned`` where only an even
    sample of the space was looked at: then nothing is proven.
    """

    best: tuple[Suggested, ...]
    total: int
    looked_at: int
    settled: int
    refused: dict[str, int]
    nearest: Miss | None = None
    stopped: bool = False
    thinned: bool = False


@dataclass
class _Tally:
    looked_at: int = 0
    settled: int = 0
    refused: Counter[str] = field(default_factory=Counter)
    rooms: list[tuple[float, int, int]] = field(default_factory=list)

    def note_room(self, room: float, shape: int, row: int) -> None:
        """Keep the roomiest of those whose numerals do not fit."""
        self.rooms.append((room, shape, row))
        if len(self.rooms) > 8 * _NEAREST:
            self.rooms = self.roomiest()

    def roomiest(self) -> list[tuple[float, int, int]]:
        return sorted(self.rooms, key=lambda one: (-one[0], one[1], one[2]))[:_NEAREST]


class Search:
    """One search through the space that the wishes leave open."""

    def __init__(
        self, design: Design, wishes: Wishes, price: Price, *, at_most: int | None = None
    ) -> None:
        self.design, self.wishes, self.price = design, wishes, price
        self.space: Space = space_of(design, wishes)
        if self.space.total > (at_most or MOST_OPTIONS) and at_most is None:
            raise TooMany(too_many_words(self.space, wishes))
        self.facts = facts_of(design, wishes, self.space, price)
        self.every = every_option(self.space, at_most)
        self.order: Order = ranked(self.space, self.every, wishes, self.facts)
        self.tally = _Tally()
        self.found: list[Suggested] = []

    def run(self, *, cores: int = 1, progress: Progress | None = None) -> Outcome:
        """Look until the wished number is found or all are refused; Ctrl-C ends it early."""
        stopped = False
        try:
            with crew(self.design, self.wishes, self.space, self._cores(cores)) as hands:
                self._through(hands, progress)
        except KeyboardInterrupt:
            stopped = True
        return self._outcome(stopped)

    def _cores(self, cores: int) -> int:
        """Another process takes about as long to start as judging some thousand options."""
        return cores if len(self.order) > 2 * _WINDOW else 1

    def _through(self, hands: Crew, progress: Progress | None) -> None:
        start, size = 0, BATCH
        while start < len(self.order):
            window = slice(start, min(len(self.order), start + size))
            if self._window(hands, window):
                return
            start, size = window.stop, min(_WINDOW, 2 * size)
            if progress:
                progress(self.tally.looked_at, len(self.order), len(self.found))

    def _window(self, hands: Crew, window: slice) -> bool:
        """Judge a window and settle its survivors in order; whether enough are found now."""
        shapes, rows = self.order.shape[window], self.order.row[window]
        reasons, rooms = self._judged(hands, shapes, rows)
        survivors = np.flatnonzero(reasons == PASSES)
        trials = hands.settle(
            Options(int(shapes[k]), self.every[shapes[k]].fills[rows[k] : rows[k] + 1])
            for k in survivors
        )
        at = 0
        for k, trial in zip(survivors.tolist(), trials, strict=True):
            self._note(reasons[at:k], rooms[at:k], shapes[at:k], rows[at:k])
            at = k + 1
            self._tried(trial, int(shapes[k]), int(rows[k]), float(self.order.figure[window][k]))
            if len(self.found) >= self.wishes.best:
                return True
        self._note(reasons[at:], rooms[at:], shapes[at:], rows[at:])
        return False

    def _judged(self, hands: Crew, shapes: Ints, rows: Ints) -> tuple[Ints, Floats]:
        reasons = np.array([self.facts[s].reason for s in range(len(self.facts))])[shapes]
        rooms = np.full(len(shapes), np.nan)
        tasks: list[Task] = []
        for shape in np.flatnonzero(np.bincount(shapes[reasons == PASSES])).tolist():
            own = np.flatnonzero((shapes == shape) & (reasons == PASSES))
            for start in range(0, len(own), BATCH):
                part = own[start : start + BATCH]
                tasks.append(Task(part, Options(shape, self.every[shape].fills[rows[part]])))
        for task, verdicts in hands.judge(tasks):
            reasons[task.places], rooms[task.places] = verdicts.reason, verdicts.room
        return reasons, rooms

    def _note(self, reasons: Ints, rooms: Floats, shapes: Ints, rows: Ints) -> None:
        self.tally.looked_at += len(reasons)
        for reason, count in enumerate(np.bincount(reasons).tolist()):
            if count:
                self.tally.refused[REASONS[reason]] += count
        for k in np.flatnonzero(reasons == NUMERALS):
            self.tally.note_room(float(rooms[k]), int(shapes[k]), int(rows[k]))

    def _tried(self, trial: Trial, shape: int, row: int, figure: float) -> None:
        self.tally.looked_at += 1
        self.tally.settled += 1
        if trial.refused:
            self.tally.refused[trial.refused] += 1
            if trial.refused == REASONS[NUMERALS]:
                self.tally.note_room(trial.room, shape, row)
            return
        piece = assemble(self._design(shape, row))
        refused = dict(self.tally.refused)
        self.found.append(
            Suggested(piece.design, piece, find_all(piece), self.price(piece), figure, refused)
        )

    def _design(self, shape: int, row: int) -> Design:
        options = Options(shape, self.every[shape].fills[row : row + 1])
        return design_of(self.design, self.wishes, self.space, options, 0)

    def _outcome(self, stopped: bool) -> Outcome:
        outcome = Outcome(
            best=tuple(self.found),
            total=self.space.total,
            looked_at=self.tally.looked_at,
            settled=self.tally.settled,
            refused={k: n for k, n in self.tally.refused.most_common() if n},
            stopped=stopped,
            thinned=len(self.order) < self.space.total,
        )
        if self.found or stopped:
            return outcome
        return replace(outcome, nearest=self._nearest())

    def _nearest(self) -> Miss | None:
        """Of the roomiest that were refused for their numerals, the one that misses by least."""
        misses = []
        for _, shape, row in self.tally.roomiest():
            piece = assemble(self._design(shape, row))
            if piece.fit is not None:
                misses.append(Miss(piece, self.wishes.room - piece.fit.room))
        return min(misses, key=lambda miss: miss.by, default=None)


REASONS: dict[int, str] = {
    1: "do not go on the frame",
    2: "cross too far",
    3: "take more balloons than wished",
    4: "take more of a colour than is at hand",
    5: "cost more than wished",
    6: "take longer than wished",
    7: "leave too little room for the numerals",
    8: "swing out of their valleys",
    9: "step down too steeply",
}
"""Why options are refused, in words that follow a number."""


def too_many_words(space: Space, wishes: Wishes) -> str:
    """What to fix when there are too many combinations."""
    fills, (least, most) = len(space.diameters), wishes.a_side
    return (
        f"the wishes leave {space.total:,} combinations, and {MOST_OPTIONS:,} are looked at one by "
        f"one; name fewer than {fills} fills, allow less than {least} to {most} clusters a side, "
        "or try fewer turns, end caps and places. Or look at an even sample of them with "
        "'--at-most 100000': the best may then be passed over, and 'none fits' is no proof"
    )


def suggested(
    design: Design,
    wishes: Wishes,
    price: Price,
    *,
    cores: int = 1,
    at_most: int | None = None,
    progress: Progress | None = None,
) -> Outcome:
    """The best designs that hold, as many as are wished; see ``Search``."""
    return Search(design, wishes, price, at_most=at_most).run(cores=cores, progress=progress)


def in_rings(
    design: Design,
    wishes: Wishes,
    price: Price,
    rings: Sequence[float],
    *,
    cores: int = 1,
    at_most: int | None = None,
) -> Iterator[tuple[float, Outcome]]:
    """The outcome in one ring after another (outside diameter, mm), for the best alone."""
    wished = replace(wishes, best=1)
    for outside in rings:
        larger = replace(design, frame=replace(design.frame, outside=outside))
        yield outside, suggested(larger, wished, price, cores=cores, at_most=at_most)
