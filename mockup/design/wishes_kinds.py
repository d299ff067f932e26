"""The kinds of value that only wishes and the climate have: a fill, and a temperature."""

from __future__ import annotations

import re
from typing import NamedTuple

from mockup.design.faults import At, shown
from mockup.design.kinds import Number, Schema
from mockup.design.measures import LENGTH_PATTERN, Length
from mockup.design.wishes_fills import LEAST_STROKES, MOST_STROKES

NONE, HALF = "none", "half"
_KELVIN_AT_0C = 273.15
_TEMPERATURE = r"\s*([-−]?\d{1,3}(?:\.\d{1,2})?)\s*°?\s*([CFcf])\s*"
_SIZE = Length(12.7, 3048.0, example='"4in"')
_STROKES = Number(LEAST_STROKES, MOST_STROKES)
COLDEST_K, WARMEST_K = 233.15, 333.15


class FillWords(NamedTuple):
    """A fill as strokes (a number), as a size (text with a unit), or one of a few words."""

    words: tuple[str, ...] = ()
    example: str = "3"

    def takes(self, written: object) -> bool:
        """Numbers and strings."""
        return _STROKES.takes(written) or isinstance(written, str)

    def read(self, written: object, at: At) -> tuple[str, float] | str | None:
        """``("strokes", 3.0)``, ``("size", 101.6)`` or the word."""
        if isinstance(written, str) and written in self.words:
            return written
        kind = "strokes" if _STROKES.takes(written) else "size"
        value = (_STROKES if kind == "strokes" else _SIZE).read(written, at)
        return None if value is None else (kind, float(value))

    def schema(self) -> Schema:
        """A number, a length, or a word."""
        words: list[Schema] = [{"enum": list(self.words)}] if self.words else []
        return {"anyOf": [*words, _STROKES.schema(), {"type": "string", "pattern": LENGTH_PATTERN}]}


class Temperature(NamedTuple):
    """A temperature with its scale, such as 21C or 70F, in kelvin."""

    example: str = '"70F"'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> float | None:
        """Kelvin, between -40 and 60 C."""
        found = re.fullmatch(_TEMPERATURE, written) if isinstance(written, str) else None
        if found is None:
            what = f"'{at.key}' is {shown(written)}, and must be a temperature with C or F"
            at.fault(what, 'write "21C" or "70F"')
            return None
        figure = float(found[1].replace("−", "-"))
        celsius = figure if found[2] in "Cc" else (figure - 32) / 1.8
        kelvin = celsius + _KELVIN_AT_0C
        if not COLDEST_K <= kelvin <= WARMEST_K:
            at.fault(f"'{at.key}' is {shown(written)}", "write one from -40C to 60C")
            return None
        return kelvin

    def schema(self) -> Schema:
        """A number with C or F."""
        return {"type": "string", "pattern": r"^\s*[-−]?\d{1,3}(\.\d{1,2})?\s*°?\s*[CFcf]\s*$"}
