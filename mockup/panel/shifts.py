"""How far a row may be moved up or down: the free stretches between what is in its way.

At a wanted clearance every pair of a disc and a segment rules out one interval of shifts, in closed
form: those at which the disc's centre lies in the segment's capsule. What is left of the shifts
that the opening allows are the free stretches.
"""

from __future__ import annotations

import numpy as np

from mockup.panel.capsules import Around, Row, Span, Trials, narrowed, ruled_out
from mockup.panel.outline import Floats, Ints, least_clearance
from mockup.records import dataclass

PRECISION = 2e-6
"""How near the best clearance is met, as a share of the opening's radius."""
_TRIED_AT_ONCE = 3
_FEW = 2_000
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Free:
    """Free stretches from ``low`` to ``high``, (g,) mm; ``trial`` (g,) says of which trial."""

    trial: Ints
    low: Floats
    high: Floats


def best_shift(row: Row, around: Around) -> float:
    """The shift up, mm, at which the least clearance to discs and opening is greatest.

    Climbs: the middles of the longest stretches that are free at more than the clearance reached
    so far are tried next, which at least halves them. Where several shifts are as good (to
    ``PRECISION``), the one nearest to 0.

    >>> from mockup.panel.capsules import around, row_of
    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> bar = row_of(outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0]))
    >>> round(best_shift(bar, around(200.0, np.array([[0.0, 200.0]]), np.array([50.0]))), 2)
    -25.0
    """
    step = PRECISION * around.radius
    reached, best = _climbed(row, around, step)
    level = max(reached - step, 0.0) if reached >= 0.0 else reached - step
    return _nearest_to_zero(_free(row, around, level), best)


def _climbed(row: Row, around: Around, step: float) -> tuple[float, float]:
    """The greatest least clearance, to ``step``, and a shift that has it."""
    reached, best = -np.inf, 0.0
    span = Span(np.array([-np.inf]), np.array([np.inf]))
    tried = np.append(0.0, _middles(_free(row, around, 0.0)))
    while len(tried):
        values = clearances(row, around, tried)
        if values.max() <= reached:
            break
        reached, best = float(values.max()), float(tried[values.argmax()])
        free = _cut(_free(row, around, reached + step), span)
        tried = _middles(free)
        if len(tried) and len(row.x) * len(around.xy) > _FEW:
            span = Span(free.low.min(keepdims=True), free.high.max(keepdims=True))
            row, around = narrowed(row, around, _at_most(free, reached), span)
    return reached, best


def _at_most(free: Free, reached: float) -> Trials:
    """A clearance that no shift in the free stretches exceeds: it changes no faster than they."""
    return Trials(np.ones(1), reached + (free.high - free.low).max(keepdims=True))


def _cut(free: Free, span: Span) -> Free:
    """What of the stretches lies in ``span``: beyond it, a narrowed row knows of no obstacle."""
    low, high = np.maximum(free.low, span.low), np.minimum(free.high, span.high)
    kept = low < high
    return Free(free.trial[kept], low[kept], high[kept])


def clearances(row: Row, around: Around, shifts: Floats) -> Floats:
    """The least clearance of the row to discs and opening at each of ``shifts`` (m,), mm.

    Below 0 where they cross; exact for the sampled centre-lines.
    """
    points = around.xy - np.column_stack([np.zeros_like(shifts), shifts])[:, None, :]
    apart = least_clearance(points.reshape(-1, 2), row.outline)
    apart = apart.reshape(len(shifts), len(around.xy)) - around.reach
    reaches = np.hypot(row.corner_x, row.corner_y + shifts[:, None]) + row.corner_half
    to_edge = around.radius - reaches.max(axis=1)
    return np.asarray(np.minimum(apart.min(axis=1, initial=np.inf), to_edge))


def free_shifts(row: Row, around: Around, trials: Trials) -> Free:
    """For each trial the stretches of shifts that leave at least its clearance, in order."""
    span = edge_shifts(row, around.radius, trials)
    which, starts, ends = ruled_out(row, around, trials, span)
    low, high = span.low, span.high
    every = np.arange(len(low))
    which = np.concatenate([every, which, every])
    apart = 2.0 * which * (1.0 + high.max() - low.min())
    starts = np.concatenate([low, starts, high]) + apart
    ends = np.concatenate([low, ends, high]) + apart
    order = np.argsort(starts, kind="stable")
    opens, closes = np.maximum.accumulate(ends[order])[:-1], starts[order][1:]
    which, apart = which[order], apart[order][1:]
    free = (closes - opens > _ROUNDING * around.radius) & (which[1:] == which[:-1])
    return Free(which[1:][free], (opens - apart)[free], (closes - apart)[free])


def edge_shifts(row: Row, radius: float, trials: Trials) -> Span:
    """The least and greatest shift, (m,) mm, at which the row lies in a circle about (0, 0).

    (0, 0) where there is none.

    >>> from mockup.panel.capsules import row_of
    >>> from mockup.panel.numerals import numeral_row
    >>> from mockup.panel.outline import outline_of
    >>> bar = row_of(outline_of(numeral_row("I", 100.0, {}, 0.0), [0.0]))
    >>> edge_shifts(bar, 200.0, Trials(np.array([1.0, 2.0]), np.zeros(2))).high.tolist()
    [150.0, 100.0]
    """
    share = trials.share[:, None]
    x, y = share * row.corner_x + (1.0 - share) * row.corner_fixed, share * row.corner_y
    room = radius - trials.clearance[:, None] - share * row.corner_half
    square = room * room - x * x
    span = np.sqrt(np.maximum(square, 0.0))
    low, high = (-y - span).max(axis=1), (span - y).min(axis=1)
    held = (square >= 0.0).all(axis=1) & (room >= 0.0).all(axis=1) & (low < high)
    return Span(np.where(held, low, 0.0), np.where(held, high, 0.0))


def _free(row: Row, around: Around, clearance: float) -> Free:
    return free_shifts(row, around, Trials(np.ones(1), np.array([clearance])))


def _middles(free: Free) -> Floats:
    """The middles of the longest stretches, few enough to try at once."""
    longest = np.argsort(free.low - free.high, kind="stable")[:_TRIED_AT_ONCE]
    return (free.low[longest] + free.high[longest]) / 2


def _nearest_to_zero(free: Free, otherwise: float) -> float:
    if not len(free.low):
        return otherwise
    points = np.clip(0.0, free.low, free.high)
    return float(points[np.abs(points).argmin()]) + 0.0
