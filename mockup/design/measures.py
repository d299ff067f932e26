"""The kinds of value that measure: lengths, shares, clock positions, days and turns.

All lengths come out in mm, all angles in degrees, all shares as fractions of one.
"""

from __future__ import annotations

import re
from datetime import date, datetime

from mockup.design.clock import CLOCK, clock_degrees
from mockup.design.faults import At, shown
from mockup.design.kinds import Choice, Number, Schema
from mockup.lengths import NotALength, parse_length, written_length
from mockup.records import dataclass

_NUMBER = r"(\d+ +\d+/\d+|\d+/\d+|\d*\.?\d+|(\d+ *)?[½¼¾⅛⅜⅝⅞⅓⅔])"
_UNITS = r"(in|inch|inches|ft|foot|feet|mm|cm|m|IN|FT|MM|CM|M|[\"'”″’′])"
LENGTH_PATTERN = rf"^\s*-?{_NUMBER}\s*{_UNITS}(\s*{_NUMBER}\s*{_UNITS})?\s*$"
SHARE = r"\s*([0-9]{1,6}(?:\.[0-9]{1,9})?)\s*%\s*"


@dataclass(frozen=True)
class Length:
    """A length with its unit, between two bounds in mm; ``signed`` allows one below zero."""

    least: float
    most: float
    signed: bool = False
    example: str = '"5in"'

    def takes(self, written: object) -> bool:
        """Any string; a bare number is taken too, to say what it lacks."""
        return isinstance(written, str) or Number(0, 0).takes(written)

    def read(self, written: object, at: At) -> float | None:
        """Millimetres."""
        if not isinstance(written, str):
            what = f"'{at.key}' is {shown(written)}, and {_lacks_unit(written)}"
            at.fault(what, _with_unit(written, at))
            return None
        sign, bare = self._sign(written)
        try:
            mm = sign * parse_length(bare)
        except NotALength as trouble:
            at.fault(f"'{at.key}': {trouble.what}", _with_unit(written, at) or trouble.instead)
            return None
        if not self.least <= mm <= self.most:
            at.fault(f"'{at.key}' is {shown(written)}", self._bounds())
            return None
        return mm

    def _sign(self, written: str) -> tuple[int, str]:
        text = written.strip()
        below = self.signed and text.startswith(("-", "−"))
        return (-1, text[1:]) if below else (1, written)

    def _bounds(self) -> str:
        least, most = (_round_length(mm) for mm in (self.least, self.most))
        return f"write a length from {least} to {most}"

    def schema(self) -> Schema:
        """A string of a number and a unit; the bounds are told in words."""
        return {"type": "string", "pattern": LENGTH_PATTERN}


def _lacks_unit(written: object) -> str:
    number = isinstance(written, int | float) and not isinstance(written, bool)
    return "has no unit" if number else "must be a length in quotes"


def _with_unit(written: object, at: At) -> str | None:
    """The same figure as it should be written, where only its unit is missing."""
    figure = shown(written).strip("'")
    if isinstance(written, bool) or not re.fullmatch(r"[0-9][0-9./ ]{0,12}", figure):
        return None
    right = f'"{figure}in" or "{figure}cm"'
    return f"write {right}" if isinstance(at.path[-1], int) else f"write {at.key} = {right}"


def _round_length(mm: float) -> str:
    feet = mm / 304.8
    if feet >= 4 and abs(feet - round(feet)) < 1e-6:
        return f"{round(feet)}ft"
    eighths = mm / 25.4 * 8
    whole = abs(eighths - round(eighths)) < 1e-6
    return written_length(mm, "in") if whole else f"{mm:g}mm"


@dataclass(frozen=True)
class Share:
    """A share written in per cent, as a fraction of one between two bounds."""

    least: float
    most: float
    example: str = '"10%"'

    def takes(self, written: object) -> bool:
        """Any string; a bare number is taken too, to say what it lacks."""
        return isinstance(written, str) or Number(0, 0).takes(written)

    def read(self, written: object, at: At) -> float | None:
        """The fraction."""
        found = re.fullmatch(SHARE, written) if isinstance(written, str) else None
        if found is None:
            at.fault(f"'{at.key}' is {shown(written)}, and must be a share in per cent")
            return None
        share = float(found[1]) / 100
        if not self.least <= share <= self.most:
            at.fault(
                f"'{at.key}' is {shown(written)}",
                f"write a share from {self.least * 100:.6g}% to {self.most * 100:.6g}%",
            )
            return None
        return share

    def schema(self) -> Schema:
        """A string with a per cent sign."""
        return {"type": "string", "pattern": r"^\s*\d{1,6}(\.\d{1,9})?\s*%\s*$"}


@dataclass(frozen=True)
class Clock:
    """A clock position on the frame, in degrees clockwise from 12."""

    example: str = '"10:30"'

    def takes(self, written: object) -> bool:
        """Strings and integers."""
        return isinstance(written, str | int) and not isinstance(written, bool)

    def read(self, written: object, at: At) -> float | None:
        """Degrees from 0 up to 360."""
        hour = isinstance(written, int) and self.takes(written) and 1 <= written <= 12
        text = str(written) if hour or isinstance(written, str) else ""
        degrees = clock_degrees(text) if len(text) <= 40 else None
        if degrees is None:
            at.fault(f"'{at.key}' is {shown(written)}, which is no position on a clock face")
        return degrees

    def schema(self) -> Schema:
        """A string such as 10:30, or a whole hour."""
        return {
            "anyOf": [
                {"type": "string", "pattern": rf"^\s*({CLOCK.pattern})\s*$"},
                {"type": "integer", "minimum": 1, "maximum": 12},
            ]
        }


@dataclass(frozen=True)
class Day:
    """The day of the event."""

    example: str = "2027-03-14"

    def takes(self, written: object) -> bool:
        """Dates and strings."""
        return isinstance(written, date | str)

    def read(self, written: object, at: At) -> date | None:
        """The date."""
        if isinstance(written, date) and not isinstance(written, datetime):
            return written
        try:
            if isinstance(written, str) and len(written) == 10:
                return date.fromisoformat(written)
        except ValueError:
            pass  # told below, like every other text that is no date
        at.fault(f"'{at.key}' is {shown(written)}, and must be a date: year, month, day")
        return None

    def schema(self) -> Schema:
        """A full date of RFC 3339."""
        return {"type": "string", "format": "date"}


@dataclass(frozen=True)
class Turn:
    """How a cluster sits on the frame: "valley in", "point in", or an angle in degrees."""

    words: tuple[str, ...] = ("valley in", "point in")
    example: str = '"valley in"'

    def takes(self, written: object) -> bool:
        """Strings and numbers."""
        return isinstance(written, str) or Number(0, 0).takes(written)

    def read(self, written: object, at: At) -> str | float | None:
        """The word, or degrees."""
        if isinstance(written, str):
            return Choice(self.words).read(written, at)
        return Number(-360, 360).read(written, at)

    def schema(self) -> Schema:
        """One of the words, or an angle."""
        return {"anyOf": [Choice(self.words).schema(), Number(-360, 360).schema()]}
