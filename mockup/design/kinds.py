"""The kinds of value a piece file holds: each reads one, and says it to editors as JSON Schema.

They are named tuples because every command loads them: a frozen dataclass takes ten times as long.

A kind returns None for what it refuses, after noting the fault; all lengths come out in mm, all
angles in degrees, all shares as fractions of one.
"""

from __future__ import annotations

import re
from datetime import date, datetime
from math import isnan
from typing import Any, NamedTuple, Protocol

from mockup.design.clock import CLOCK, clock_degrees
from mockup.design.faults import At, shown
from mockup.lengths import NotALength, format_length, parse_length
from mockup.spelling import did_you_mean

Schema = dict[str, Any]

_NUMBER = r"(\d+ +\d+/\d+|\d+/\d+|\d*\.?\d+|(\d+ *)?[½¼¾⅛⅜⅝⅞⅓⅔])"
_UNITS = r"(in|inch|inches|ft|foot|feet|mm|cm|m|IN|FT|MM|CM|M|[\"'”″’′])"
LENGTH_PATTERN = rf"^\s*-?{_NUMBER}\s*{_UNITS}(\s*{_NUMBER}\s*{_UNITS})?\s*$"
SHARE = re.compile(r"\s*(\d{1,6}(?:\.\d{1,9})?)\s*%\s*", re.ASCII)


class Kind(Protocol):
    """One kind of value."""

    @property
    def example(self) -> str:
        """A right value as it is written in TOML."""

    def takes(self, written: object) -> bool:
        """Whether a value of this type can be meant for this kind."""

    def read(self, written: object, at: At) -> object:
        """The value inside the program, or None after a fault."""

    def schema(self) -> Schema:
        """The kind in JSON Schema, draft 2020-12."""


class Text(NamedTuple):
    """Words for people: no control characters, at most ``most`` characters."""

    most: int = 200
    may_be_empty: bool = True
    several_lines: bool = False
    example: str = '"..."'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> str | None:
        """The text without the blanks at its ends."""
        if not isinstance(written, str):
            at.fault(f"'{at.key}' is {shown(written)}, and must be text in quotes")
            return None
        text = written.strip()
        unfit = _unprinted(text, self.several_lines)
        if unfit:
            at.fault(f"'{at.key}' holds {_character(unfit)}", "take that character out")
        elif not text and not self.may_be_empty:
            at.fault(f"'{at.key}' is empty")
        elif len(text) > self.most:
            at.fault(f"'{at.key}' is {len(text):,} characters long", f"write at most {self.most:,}")
        else:
            return text
        return None

    def schema(self) -> Schema:
        """A string with its most characters."""
        least = {} if self.may_be_empty else {"minLength": 1}
        return {"type": "string", **least, "maxLength": self.most}


def _unprinted(text: str, several_lines: bool) -> str | None:
    """The first character that XML 1.0 cannot carry, a C1 control, or an end of line too many."""
    if text.isprintable():
        return None
    welcome = "\t\n\r" if several_lines else ""
    return next((c for c in text if c not in welcome and _is_control(ord(c))), None)


def _is_control(code: int) -> bool:
    c0_or_c1 = code < 0x20 or 0x7F <= code <= 0x9F
    return c0_or_c1 or 0xD800 <= code <= 0xDFFF or code in (0xFFFE, 0xFFFF)


def _character(one: str) -> str:
    names = {"\n": "a line break", "\t": "a tab", "\r": "a line break"}
    return names.get(one, f"the control character U+{ord(one):04X}, which cannot be printed")


class Choice(NamedTuple):
    """One of a few words."""

    words: tuple[str, ...]

    @property
    def example(self) -> str:
        """The first word."""
        return f'"{self.words[0]}"'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> str | None:
        """The word itself; an unknown one offers the nearest."""
        if isinstance(written, str) and written in self.words:
            return written
        hint = did_you_mean(written, self.words) if isinstance(written, str) else at.right_form()
        at.fault(f"'{at.key}' cannot be {shown(written)}", hint)
        return None

    def schema(self) -> Schema:
        """An enumeration."""
        return {"type": "string", "enum": list(self.words)}


class YesNo(NamedTuple):
    """true or false."""

    example: str = "true"

    def takes(self, written: object) -> bool:
        """Only true and false."""
        return isinstance(written, bool)

    def read(self, written: object, at: At) -> bool | None:
        """The flag."""
        if isinstance(written, bool):
            return written
        at.fault(
            f"'{at.key}' is {shown(written)}, and must be true or false",
            f"write {at.key} = true, without quotes",
        )
        return None

    def schema(self) -> Schema:
        """A boolean."""
        return {"type": "boolean"}


class Number(NamedTuple):
    """A plain number between two bounds; ``whole`` for one without a fraction."""

    least: float
    most: float
    whole: bool = False
    even: bool = False
    example: str = "3"

    def takes(self, written: object) -> bool:
        """Integers and floats."""
        return isinstance(written, int | float) and not isinstance(written, bool)

    def read(self, written: object, at: At) -> float | None:
        """The number as an int where it is whole, otherwise as a float."""
        if not isinstance(written, int | float) or isinstance(written, bool):
            at.fault(f"'{at.key}' is {shown(written)}, and must be a number without quotes")
        elif isinstance(written, float) and isnan(written):
            at.fault(f"'{at.key}' is not a number (nan)")
        elif not self.least <= written <= self.most:
            at.fault(f"'{at.key}' is {shown(written)}", self._bounds())
        elif self.whole and written != int(written):
            at.fault(f"'{at.key}' is {shown(written)}", "write a whole number")
        elif self.even and written % 2:
            at.fault(f"'{at.key}' is {shown(written)}, and must be even")
        else:
            return int(written) if self.whole else float(written)
        return None

    def _bounds(self) -> str:
        return f"write a number from {shown(self.least)} to {shown(self.most)}"

    def schema(self) -> Schema:
        """A number or an integer with its bounds."""
        bounds: Schema = {"minimum": self.least, "maximum": self.most}
        if self.even:
            bounds["multipleOf"] = 2
        return {"type": "integer" if self.whole else "number", **bounds}


class Length(NamedTuple):
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
    return format_length(mm, "in").replace(" in", "in") if whole else f"{mm:g}mm"


class Share(NamedTuple):
    """A share written in per cent, as a fraction of one between two bounds."""

    least: float
    most: float
    example: str = '"10%"'

    def takes(self, written: object) -> bool:
        """Any string; a bare number is taken too, to say what it lacks."""
        return isinstance(written, str) or Number(0, 0).takes(written)

    def read(self, written: object, at: At) -> float | None:
        """The fraction."""
        found = SHARE.fullmatch(written) if isinstance(written, str) else None
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


class Clock(NamedTuple):
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


class Day(NamedTuple):
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


class Turn(NamedTuple):
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


class Matching(NamedTuple):
    """Text of one form: letters of colours, numerals, an sRGB colour."""

    form: str
    says: str
    example: str
    most: int = 40

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> str | None:
        """The text itself."""
        if isinstance(written, str) and re.fullmatch(self.form, written, re.ASCII):
            if len(written) <= self.most:
                return written
            at.fault(f"'{at.key}' is {len(written):,} characters long", f"at most {self.most}")
            return None
        at.fault(f"'{at.key}' is {shown(written)}, and must be {self.says}")
        return None

    def schema(self) -> Schema:
        """A string with its pattern."""
        return {"type": "string", "pattern": f"^(?:{self.form})$", "maxLength": self.most}
