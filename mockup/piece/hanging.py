"""How the numerals hang in the window that the eye sees: their room on each side, and how far off
its middle."""

from __future__ import annotations

from typing import NamedTuple

from mockup.lengths import Unit, format_length
from mockup.panel.fit import Fit
from mockup.piece.placed import Piece

NOTICED = 25.4 / 16
"""What is less, mm, prints as nothing in eighths of an inch."""


class Hanging(NamedTuple):
    """The row's room to the window's ends, mm, on the lines that its width and height are told on.

    Below 0 where a balloon in front hides so much of the row.
    """

    left: float
    right: float
    below: float
    above: float

    @property
    def aside(self) -> float:
        """How far the row's middle lies right of the window's, mm.

        >>> Hanging(30.0, 10.0, 5.0, 5.0).aside
        10.0
        """
        return (self.left - self.right) / 2

    @property
    def up(self) -> float:
        """How far the row's middle lies above the window's, mm."""
        return (self.below - self.above) / 2


def hanging(piece: Piece) -> Hanging | None:
    """How the numerals hang in the window; None without numerals or without a window."""
    fit, seen = piece.fit, piece.opening
    if fit is None or not fit.numerals or seen is None or not seen.width:
        return None
    left, low, right, high = numerals_box(fit)
    (west, east), (foot, top) = seen.across, seen.up
    return Hanging(left - west, east - right, low - foot, top - high)


def numerals_box(fit: Fit) -> tuple[float, float, float, float]:
    """Left, low, right and high of the row of numerals, piece mm."""
    shapes = fit.numerals
    return (
        min(s.x - s.width / 2 for s in shapes),
        min(s.y - s.height / 2 for s in shapes),
        max(s.x + s.width / 2 for s in shapes),
        max(s.y + s.height / 2 for s in shapes),
    )


def off_middle(hangs: Hanging, unit: Unit) -> str:
    """How far off the window's middle, in words; empty where nobody would measure it.

    >>> off_middle(Hanging(0.0, 203.2, 12.7, 0.0), "in")
    '4 in left of and 1/4 in above the middle of the window'
    """
    ways = [
        *_way(hangs.aside, unit, "right of", "left of"),
        *_way(hangs.up, unit, "above", "below"),
    ]
    return f"{' and '.join(ways)} the middle of the window" if ways else ""


def _way(mm: float, unit: Unit, more: str, less: str) -> list[str]:
    if abs(mm) < NOTICED:
        return []
    return [f"{format_length(abs(mm), unit)} {more if mm > 0 else less}"]
