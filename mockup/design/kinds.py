"""The kinds of value a piece file holds: each reads one, and says it to editors as JSON Schema.

They are named tuples because every command loads them: a frozen dataclass takes ten times as long.

A kind returns None for what it refuses, after noting the fault.
"""

from __future__ import annotations

import re
from math import isnan
from typing import Any, Protocol

from mockup.design.faults import At, shown
from mockup.records import dataclass
from mockup.spelling import did_you_mean

Schema = dict[str, Any]


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


@dataclass(frozen=True)
class Text:
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


@dataclass(frozen=True)
class Choice:
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


@dataclass(frozen=True)
class YesNo:
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


@dataclass(frozen=True)
class Number:
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


@dataclass(frozen=True)
class Matching:
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
        meant = shown(written) if isinstance(written, int) else ""
        right = re.fullmatch(self.form, meant, re.ASCII) and not isinstance(at.path[-1], int)
        hint = f'write {at.key} = "{meant}"' if right else None
        at.fault(f"'{at.key}' is {shown(written)}, and must be {self.says}", hint)
        return None

    def schema(self) -> Schema:
        """A string with its pattern."""
        return {"type": "string", "pattern": f"^(?:{self.form})$", "maxLength": self.most}
