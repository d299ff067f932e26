"""The table of counts that close a ring or fill a stretch, with the fill that makes each exact."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import lcm
from typing import Any

from mockup.design.wishes_closing import ClosingWish
from mockup.design.wishes_fills import MOST_STROKES, Fill, strokes_near
from mockup.errors import Fault, FaultsFound
from mockup.lengths import format_length
from mockup.packing.closing import diameter_to_close, squeeze_to_close, touching_singles
from mockup.packing.inflation import NotASize
from mockup.packing.nesting import equal_pitch

_MOST_PRESSED, _PRESSED_MORE = 0.25, 0.1
"""Nothing is pressed by more (common practice, no source), or by so much more than usual."""
_MOST_APART = 0.25
"""A squeeze of less than minus this leaves gaps of about a third of a balloon: nothing closes."""


@dataclass(frozen=True)
class ClosingRow:
    """``count`` clusters of ``fill`` close at ``squeeze``, or leave gaps of ``gap`` mm each.

    ``exact`` is the diameter, mm, at which that count closes at the usual squeeze.
    """

    fill: Fill
    count: int
    squeeze: float
    exact: float
    gap: float = 0.0
    best: bool = False
    wished: bool = False


@dataclass(frozen=True)
class ClosingTable:
    """The rows of each fill, and what is said of the wished count."""

    wish: ClosingWish
    rows: tuple[ClosingRow, ...]
    says: tuple[str, ...] = ()

    @property
    def balloons(self) -> int:
        """Balloons in the count that closes best at the first fill."""
        return next(row.count for row in self.rows if row.best) * self.wish.balloons

    @property
    def step_words(self) -> str:
        """Why the counts go in the steps they go in."""
        step = step_of(self.wish)
        if not self.wish.closed and step > 1:
            return f"Counts go in steps of {step}, so that the colours end whole."
        if not self.wish.closed:
            return "A stretch takes any count."
        if self.wish.balloons == 1:
            colours = f"in steps of {step}, as the colours repeat" if step > 1 else "with any count"
            return f"Singles close {colours}."
        why = "so that the half-place turn meets itself"
        colours = " and the colours too" if step > 2 else ""
        return f"Counts go in steps of {step}, {why}{colours}."

    def pressed_words(self, row: ClosingRow) -> str:
        """How hard they are pressed, or how far they stand apart."""
        if row.gap > 0:
            return f"gaps of {format_length(row.gap, self.wish.unit)}"
        return f"{max(row.squeeze, 0.0):.1%}"

    def exact_words(self, row: ClosingRow) -> str:
        """The exact fill as a size and as strokes of the pump."""
        size = format_length(row.exact, self.wish.unit)
        strokes = strokes_near(row.exact, self.wish.pump)
        return size if strokes > MOST_STROKES else f"{size} ({strokes:g} strokes)"

    def data(self) -> dict[str, Any]:
        """Plain data, lengths in mm."""
        return {
            "version": 1,
            "unit": "mm",
            "length": round(self.wish.length, 3),
            "kind": self.wish.kind,
            "usual_squeeze": self.wish.squeeze,
            "step": step_of(self.wish),
            "rows": [
                {
                    "fill": round(row.fill.diameter, 3),
                    "clusters": row.count,
                    "squeeze": round(row.squeeze, 5),
                    "gap": round(row.gap, 3),
                    "exact_fill": round(row.exact, 3),
                    "exact_strokes": strokes_near(row.exact, self.wish.pump),
                    "best": row.best,
                    "wished": row.wished,
                }
                for row in self.rows
            ],
            "says": list(self.says),
        }


def closing_table(wish: ClosingWish) -> ClosingTable:
    """The neighbours of the best count for each fill, and the wished count where there is one.

    Raises ``FaultsFound`` where a count cannot be (odd where the turn must meet itself), and where
    the clusters would have to be pressed too hard or stand too far apart to be called closed.
    """
    _check_wanted(wish)
    rows = tuple(row for fill in wish.fills for row in _rows(wish, fill))
    _check_reach(wish, rows)
    return ClosingTable(wish, rows, tuple(_says(wish, rows)))


def step_of(wish: ClosingWish) -> int:
    """In which steps counts go: even for clusters that turn, a multiple of the colours' period.

    On an open stretch nothing has to meet itself: there a period that is asked for is kept alone.
    """
    return lcm(2 if wish.balloons > 1 and wish.closed else 1, wish.period)


def exact_diameter(wish: ClosingWish, count: int) -> float:
    """The diameter, mm, at which ``count`` clusters close at the usual squeeze.

    Singles on a ring touch across the chord, ``2 R sin(pi/N)`` (Euclid); all else goes by pitch.
    """
    if wish.closed and wish.balloons == 1 and wish.radius:
        return touching_singles(wish.radius, count) / (1 - wish.squeeze)
    return diameter_to_close(wish.length, _gaps(wish, count), wish.balloons, wish.squeeze)


def squeeze_needed(wish: ClosingWish, fill: Fill, count: int) -> float:
    """The squeeze at which ``count`` clusters of ``fill`` close."""
    if wish.closed and wish.balloons == 1 and wish.radius:
        return 1 - touching_singles(wish.radius, count) / fill.diameter
    return squeeze_to_close(wish.length, _gaps(wish, count), wish.balloons, fill.diameter)


def _gaps(wish: ClosingWish, count: int) -> int:
    return count if wish.closed else count - 1


def _check_wanted(wish: ClosingWish) -> None:
    step, fewest = step_of(wish), _fewest(wish)
    if wish.wanted is None or (wish.wanted % step == 0 and wish.wanted >= fewest):
        return
    if wish.wanted < fewest:
        what = f"{wish.wanted} clusters are too few to close: the fewest are {fewest}"
        raise FaultsFound([Fault("--count", what, f"write {fewest} or more")])
    below = max(fewest, wish.wanted // step * step)
    what = f"{wish.wanted} clusters do not close: their count goes in steps of {step}"
    raise FaultsFound([Fault("--count", what, f"write {below} or {below + step}")])


def _check_reach(wish: ClosingWish, rows: tuple[ClosingRow, ...]) -> None:
    """Raise where the best of a fill or the wished count is no closing at all."""
    faults = []
    for fill in wish.fills:
        best = next(row for row in rows if row.fill == fill and row.best)
        if not _in_reach(wish, best.squeeze):
            faults.append(_nothing_closes(wish, best))
    wished = [row for row in rows if row.wished]
    if not faults and wished and not any(_in_reach(wish, row.squeeze) for row in wished):
        faults.append(_wished_too_far(wish, wished[0], rows))
    if faults:
        raise FaultsFound(faults)


def _in_reach(wish: ClosingWish, squeeze: float) -> bool:
    return -_MOST_APART <= squeeze <= _most_pressed(wish)


def _most_pressed(wish: ClosingWish) -> float:
    return max(_MOST_PRESSED, wish.squeeze + _PRESSED_MORE)


def _nothing_closes(wish: ClosingWish, best: ClosingRow) -> Fault:
    size, step = best.fill.words(wish.unit), step_of(wish)
    what = f"no count of clusters filled to {size} closes it: {best.count} {_how_far(wish, best)}"
    if wish.period > 1 and best.squeeze > 0:
        return Fault("--period", f"{what}, as counts go in steps of {step}", "write a shorter one")
    instead = "smaller" if best.squeeze > 0 else "larger"
    return Fault("--fill", what, f"write a {instead} fill, or a {_other(instead)} length to close")


def _other(word: str) -> str:
    return "longer" if word == "smaller" else "shorter"


def _wished_too_far(wish: ClosingWish, row: ClosingRow, rows: tuple[ClosingRow, ...]) -> Fault:
    counts = sorted(one.count for one in rows if not one.wished and _in_reach(wish, one.squeeze))
    step = step_of(wish)
    several = f"{counts[0]} to {counts[-1]}{f' in steps of {step}' if step > 1 else ''}"
    near = several if counts[0] < counts[-1] else f"{counts[0]}"
    what = f"{row.count} clusters filled to {row.fill.words(wish.unit)} {_how_far(wish, row)}"
    exact = format_length(row.exact, wish.unit)
    return Fault("--count", what, f"write {near}, or '--fill \"{exact}\"'")


def _how_far(wish: ClosingWish, row: ClosingRow) -> str:
    if row.squeeze > 0:
        return f"would be pressed by {row.squeeze:.0%}, and {_most_pressed(wish):.0%} is most"
    return f"would leave gaps of {format_length(row.gap, wish.unit)} between them"


def _rows(wish: ClosingWish, fill: Fill) -> Iterator[ClosingRow]:
    best = _best(wish, fill)
    step = step_of(wish)
    near = {count for count in (best - step, best + step) if count >= _fewest(wish)}
    shown = {count for count in near if _in_reach(wish, squeeze_needed(wish, fill, count))}
    for count in sorted({*shown, best, *([wish.wanted] if wish.wanted is not None else [])}):
        try:
            exact = exact_diameter(wish, count)
        except NotASize as wrong:
            raise FaultsFound(
                [Fault("--squeeze", str(wrong), "write a lighter squeeze")]
            ) from wrong
        squeeze = squeeze_needed(wish, fill, count)
        gap = _gap(wish, fill, count) if squeeze < 0 else 0.0
        yield ClosingRow(fill, count, squeeze, exact, gap, count == best, count == wish.wanted)


def _gap(wish: ClosingWish, fill: Fill, count: int) -> float:
    """How far clusters that just touch would have to be drawn apart to fill the length, mm."""
    touching = equal_pitch(wish.balloons, fill.diameter, 0.0)
    return max(0.0, wish.length / _gaps(wish, count) - touching)


def _fewest(wish: ClosingWish) -> int:
    step = step_of(wish)
    least = 3 if wish.closed else 2
    return -(-least // step) * step


def _best(wish: ClosingWish, fill: Fill) -> int:
    """The count whose squeeze comes nearest to the usual one."""
    step, fewest = step_of(wish), _fewest(wish)
    share = equal_pitch(wish.balloons, fill.diameter, wish.squeeze)
    if share <= 0:
        what = f"clusters of {wish.balloons} slip through one another at {wish.squeeze:.0%}"
        raise FaultsFound([Fault("--squeeze", what, "write a lighter squeeze")])
    around = wish.length / share + (0 if wish.closed else 1)
    low = int(around // step) * step
    tried = [count for count in (low - step, low, low + step, low + 2 * step) if count >= fewest]
    tried = tried or [fewest]
    return min(tried, key=lambda n: (abs(squeeze_needed(wish, fill, n) - wish.squeeze), n))


def _says(wish: ClosingWish, rows: tuple[ClosingRow, ...]) -> Iterator[str]:
    if wish.wanted is None:
        return
    row = next(row for row in rows if row.wished)
    table = ClosingTable(wish, rows)
    yield (
        f"\n{row.count} clusters are exact at {wish.squeeze:.0%} when filled to "
        f"{table.exact_words(row)}."
    )
