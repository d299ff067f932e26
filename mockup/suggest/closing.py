"""The table of counts that close a ring or fill a stretch, with the fill that makes each exact."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import lcm
from typing import Any

from mockup.design.wishes_closing import ClosingWish
from mockup.design.wishes_fills import Fill, strokes_near
from mockup.errors import Fault, FaultsFound
from mockup.lengths import format_length
from mockup.packing.closing import diameter_to_close, squeeze_to_close, touching_singles
from mockup.packing.inflation import NotASize
from mockup.packing.nesting import equal_pitch


@dataclass(frozen=True)
class ClosingRow:
    """``count`` clusters of ``fill`` close at ``squeeze`` (below 0: with gaps).

    ``exact`` is the diameter, mm, at which that count closes at the usual squeeze.
    """

    fill: Fill
    count: int
    squeeze: float
    exact: float
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
        if not self.wish.closed:
            return "A stretch takes any count."
        if step == 1:
            return "Singles close with any count."
        why = "so that the half-place turn meets itself"
        colours = " and the colours too" if step > 2 else ""
        return f"Counts go in steps of {step}, {why}{colours}."

    def exact_words(self, row: ClosingRow) -> str:
        """The exact fill as a size and as strokes of the pump."""
        size = format_length(row.exact, self.wish.unit)
        return f"{size} ({strokes_near(row.exact, self.wish.pump):g} strokes)"

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

    Raises ``FaultsFound`` where a count cannot be (odd where the turn must meet itself).
    """
    _check_wanted(wish)
    rows = tuple(row for fill in wish.fills for row in _rows(wish, fill))
    return ClosingTable(wish, rows, tuple(_says(wish, rows)))


def step_of(wish: ClosingWish) -> int:
    """In which steps counts go: even for clusters that turn, a multiple of the colours' period.

    An open stretch takes any count, as nothing has to meet itself.
    """
    return lcm(2 if wish.balloons > 1 else 1, wish.period) if wish.closed else 1


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
    step = step_of(wish)
    if wish.wanted is None or wish.wanted % step == 0:
        return
    below = max(step, wish.wanted // step * step)
    what = f"{wish.wanted} clusters do not close: their count goes in steps of {step}"
    raise FaultsFound([Fault("--count", what, f"write {below} or {below + step}")])


def _rows(wish: ClosingWish, fill: Fill) -> Iterator[ClosingRow]:
    best = _best(wish, fill)
    step = step_of(wish)
    counts = {count for count in (best - step, best, best + step) if count >= _fewest(wish)}
    if wish.wanted is not None:
        counts.add(wish.wanted)
    for count in sorted(counts):
        try:
            exact = exact_diameter(wish, count)
        except NotASize as wrong:
            raise FaultsFound(
                [Fault("--squeeze", str(wrong), "write a lighter squeeze")]
            ) from wrong
        squeeze = squeeze_needed(wish, fill, count)
        yield ClosingRow(fill, count, squeeze, exact, count == best, count == wish.wanted)


def _fewest(wish: ClosingWish) -> int:
    step = step_of(wish)
    return max(step, -(-3 // step) * step) if wish.closed else 2


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
