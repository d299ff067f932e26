"""Tapers: how the clusters of a section grow smaller from its middle outward.

"even" keeps one size, "gentle" and "strong" come down to a share of the middle's diameter, and
"from 4 1/2in to 3in in 4" names both ends and how many clusters there are, the middle one counted.
Between the ends the diameters fall in equal steps, each then taken to the nearest fill in use.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from mockup.design.faults import At, shown
from mockup.design.kinds import Schema
from mockup.design.model import Pump
from mockup.design.wishes_fills import Fill, stroked, strokes_near
from mockup.lengths import NotALength, Unit, parse_length
from mockup.spelling import did_you_mean

SHARES: dict[str, float] = {"even": 1.0, "gentle": 0.85, "strong": 0.65}
"""The outermost diameter of each named taper as a share of the middle's."""
SAYS: dict[str, str] = {
    "even": "one size throughout",
    "gentle": "down to 85 % of the middle's size",
    "strong": "down to 65 % of the middle's size",
}
A_SIDE = 3
"""Clusters a side where a section names a taper and not how many."""
MOST_A_SIDE = 200

_WORDS = r"\s*from\s+(.{1,30}?)\s+to\s+(.{1,30}?)\s+in\s+(\d{1,4})\s*"
_FORM = '"even", "gentle", "strong" or "from 4 1/2in to 3in in 4"'
_STEP_STROKES = 0.5
_STEP_MM: dict[Unit, float] = {"in": 25.4 / 8, "cm": 5.0}


class Taper(NamedTuple):
    """A taper by its name, or from ``first`` to ``last`` (mm) in ``clusters`` clusters."""

    name: str
    first: float = 0.0
    last: float = 0.0
    clusters: int = 0


def taper_from_words(text: str) -> Taper | None:
    """The taper that the words name; None where they name none.

    >>> taper_from_words("gentle")
    Taper(name='gentle', first=0.0, last=0.0, clusters=0)
    >>> taper_from_words("from 4in to 3in in 4")
    Taper(name='from 4in to 3in in 4', first=101.6, last=76.2, clusters=4)
    >>> taper_from_words("from 4in to 0in in 4") is None
    True
    """
    if text in SHARES:
        return Taper(text)
    found = re.fullmatch(_WORDS, text)
    if found is None:
        return None
    try:
        first, last = parse_length(found[1]), parse_length(found[2])
    except NotALength:
        return None
    clusters = int(found[3])
    if not (first > 0 and last > 0 and 1 <= clusters <= MOST_A_SIDE):
        return None
    return Taper(text.strip(), first, last, clusters)


def tapered(taper: Taper, middle: Fill, outward: int, pump: Pump, unit: Unit) -> tuple[Fill, ...]:
    """The fills from the middle outward, ``outward`` clusters beyond the first one.

    ``middle`` is the first fill of a named taper; one that names its sizes has its own, and its
    own count. A taper told in strokes keeps to half strokes, one in sizes to eighths of an inch or
    half centimetres; the ends stay as they were said.

    >>> [f.strokes for f in tapered(Taper("strong"), Fill(114.3, 4.0), 3, Pump(), "in")]
    [4.0, 3.0, 2.0, 1.0]
    >>> words = taper_from_words("from 4 1/2in to 3in in 4")
    >>> [f.words("in") for f in tapered(words, Fill(0.0), 0, Pump(), "in")]
    ['4 1/2 in', '4 in', '3 1/2 in', '3 in']
    """
    if taper.clusters:
        curve = equal_steps(taper.first, taper.last, taper.clusters - 1)
        return tuple(Fill(_on_grid(d, _STEP_MM[unit], curve)) for d in curve)
    curve = equal_steps(middle.diameter, SHARES[taper.name] * middle.diameter, outward)
    if middle.strokes is None:
        return (middle, *(Fill(_on_grid(d, _STEP_MM[unit], ())) for d in curve[1:]))
    return (middle, *(_nearest_strokes(d, middle.strokes, pump) for d in curve[1:]))


def equal_steps(first: float, last: float, steps: int) -> tuple[float, ...]:
    """Diameters from ``first`` to ``last`` in equal steps.

    >>> equal_steps(100.0, 70.0, 3)
    (100.0, 90.0, 80.0, 70.0)
    """
    if steps < 1:
        return (first,)
    return tuple(first + (last - first) * step / steps for step in range(steps + 1))


def _on_grid(diameter: float, step: float, kept: tuple[float, ...]) -> float:
    if kept and diameter in (kept[0], kept[-1]):
        return diameter
    return max(1, round(diameter / step)) * step


def _nearest_strokes(diameter: float, most: float, pump: Pump) -> Fill:
    halves = max(1, round(strokes_near(diameter, pump) / _STEP_STROKES))
    return stroked(min(halves * _STEP_STROKES, most), pump)


class TaperWords(NamedTuple):
    """The kind of value that names a taper in a piece file."""

    example: str = '"gentle"'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> Taper | None:
        """The taper, or a fault with the right forms."""
        taper = taper_from_words(written) if isinstance(written, str) else None
        if taper is None:
            near = isinstance(written, str) and " " not in written.strip()
            hint = did_you_mean(str(written), SHARES) if near else f"write {_FORM}"
            at.fault(f"'{at.key}' is {shown(written)}, which is no taper", hint)
        return taper

    def schema(self) -> Schema:
        """One of the names, or the form with both ends."""
        ends = {"type": "string", "pattern": r"^\s*from\s+.+\s+to\s+.+\s+in\s+\d{1,4}\s*$"}
        return {"anyOf": [{"type": "string", "enum": list(SHARES)}, ends]}
