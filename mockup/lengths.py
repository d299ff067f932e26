"""Lengths as a decorator writes them, read into millimetres and written back.

Nothing else in the program reads or prints a length: one unit inside, conversion at the edge.
"""

from __future__ import annotations

import re
from itertools import pairwise
from math import isfinite
from typing import Literal

from mockup.errors import MockupError, printable

Unit = Literal["in", "cm"]

MM_PER: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
"""Millimetres in one of each unit (the international inch is 25.4 mm exactly)."""

RIGHT_FORMS = "write a number and a unit, such as 13in, 4 1/2in, 2ft 6in, 33cm or 330mm"

_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_UNIT_WORDS = {
    '"': "in", "”": "in", "″": "in", "inch": "in", "inches": "in", "in": "in",
    "'": "ft", "’": "ft", "′": "ft", "foot": "ft", "feet": "ft", "ft": "ft",
    "mm": "mm", "cm": "cm", "m": "m",
}  # fmt: skip
_AFTER_NONE = frozenset("0123456789/.").union(_VULGAR)  # what no vulgar fraction is followed by
_FRACTION_PARTS = 8
_AN_EIGHTH = 0.04
"""Closer than this to a whole eighth (0.13 mm), a length is told as one."""
_FINEST = {"in": 25.4 / _FRACTION_PARTS, "cm": 1.0}
_NOTHING = 1e-6
_DIGITS = "[0-9]{1,9}"
_FRACTION = "[0-9]{1,4}/[0-9]{1,4}"
_NUMBER = rf"(?:{_DIGITS}\s+{_FRACTION}|{_FRACTION}|{_DIGITS}(?:\.{_DIGITS})?|\.{_DIGITS})(?![0-9])"
_PART = re.compile(rf"\s*({_NUMBER})\s*([a-z]+|[\"'”″’′])?\s*")


class NotALength(MockupError, ValueError):
    """Text that is not a length; the message says what is wrong and shows the right form."""

    def __init__(self, text: str, what: str, instead: str = RIGHT_FORMS) -> None:
        self.what = f"'{printable(text)}' {what}"
        self.instead = instead
        super().__init__(f"{self.what}; {instead}")


def parse_length(text: str) -> float:
    """Millimetres of a length such as ``13in``, ``4 1/2in``, ``4.5"``, ``2ft 6in``, ``33cm``.

    Raises ``NotALength`` for no unit, a decimal comma, a sign, a second unit that is not inches
    after feet, or anything else.

    >>> parse_length("4 1/2in")
    114.3
    >>> round(parse_length("2ft 6in"), 3)
    762.0
    """
    parts = _parts(text)
    if len(parts) == 1 or [unit for _, unit in parts] == ["ft", "in"]:
        # Twelve inches are 304.8 mm, and not a hair less by binary fractions.
        return round(sum(figure * MM_PER[unit] for figure, unit in parts), 9)
    raise NotALength(text, "has two units that do not go together")


def unit_of(text: str) -> Unit:
    """The unit to answer in to someone who wrote ``text``: inches for inches or feet, else cm.

    >>> unit_of("4 1/2in"), unit_of('12 quads of 4" took 3ft'), unit_of("330mm")
    ('in', 'in', 'cm')
    """
    words = re.findall(r"[a-z]+|[\"'”″’′]", text.lower())
    return "in" if any(_UNIT_WORDS.get(word) in ("in", "ft") for word in words) else "cm"


def _parts(text: str) -> list[tuple[float, str]]:
    lowered = text.strip().lower()
    _refuse_early(text, lowered)
    for mark, plain in _VULGAR.items():
        lowered = re.sub(rf"(?<=[0-9]){mark}", f" {plain}", lowered).replace(mark, plain)
    parts: list[tuple[float, str]] = []
    at = 0
    while at < len(lowered):
        found = _PART.match(lowered, at)
        if found is None:
            raise NotALength(text, "is not a length")
        parts.append((_number(text, found[1]), _unit(text, found[2])))
        at = found.end()
    return parts


def _refuse_early(text: str, lowered: str) -> None:
    if not lowered:
        raise NotALength(text, "is empty")
    if len(lowered) > 40:
        raise NotALength(text, "is too long for a length")
    if "," in lowered:
        raise NotALength(text, "has a comma", "use a point for decimals, such as 3.5cm")
    if lowered.startswith(("-", "−")):
        raise NotALength(text, "is below zero", "write a length above zero, such as 13in")
    if any(mark in _VULGAR and after in _AFTER_NONE for mark, after in pairwise(lowered)):
        raise NotALength(text, "is not a length")


def _number(text: str, written: str) -> float:
    total = 0.0
    for piece in written.split():
        top, _, bottom = piece.partition("/")
        if bottom and not float(bottom):
            raise NotALength(text, "divides by zero")
        total += float(top) / float(bottom) if bottom else float(top)
    return total


def _unit(text: str, word: str | None) -> str:
    if word is None:
        raise NotALength(text, "has no unit")
    if word not in _UNIT_WORDS:
        raise NotALength(text, f"has the unit '{printable(word)}', which is not known here")
    return _UNIT_WORDS[word]


def format_length(mm: float, unit: Unit, *, with_unit: bool = True) -> str:
    """A length in the user's unit: inches in eighths, centimetres to one decimal.

    >>> format_length(114.3, "in"), format_length(330.2, "cm")
    ('4 1/2 in', '33.0 cm')
    """
    if not isfinite(mm):
        raise ValueError(f"a length to print must be finite, not {mm}")
    figure = _inches(mm) if unit == "in" else f"{round(mm / 10, 1) + 0.0:.1f}"
    return f"{figure} {unit}" if with_unit else figure


def format_spare(mm: float, unit: Unit) -> str:
    """A length that is to spare or lacks: a hair of it is not told as nothing.

    >>> format_spare(0.8, "in"), format_spare(0.3, "cm"), format_spare(0.0, "in")
    ('less than 1/8 in', 'less than 0.1 cm', '0 in')
    """
    told = format_length(abs(mm), unit)
    if told == format_length(0.0, unit) and abs(mm) > _NOTHING:
        return f"less than {format_length(_FINEST[unit], unit)}"
    return told


def written_length(mm: float, unit: Unit) -> str:
    """A length as it stands in a piece file: as ``format_length``, its unit set close.

    >>> written_length(114.3, "in"), written_length(330.2, "cm")
    ('4 1/2in', '33.0cm')
    """
    return f"{format_length(mm, unit, with_unit=False)}{unit}"


def format_true(mm: float, unit: Unit) -> str:
    """A length that something is cut or held to: in eighths only where it is one, else decimals.

    Told of the length to a tenth of a millimetre, to two places of inches or centimetres.

    >>> format_true(72.0, "in"), format_true(114.3, "in"), format_true(72.0, "cm")
    ('2.83 in', '4 1/2 in', '7.2 cm')
    """
    if not isfinite(mm):
        raise ValueError(f"a length to print must be finite, not {mm}")
    mm = round(mm, 1)
    if unit == "cm":
        return f"{mm / 10:.2f}".removesuffix("0") + " cm"
    eighths = mm / MM_PER["in"] * _FRACTION_PARTS
    if abs(eighths - round(eighths)) <= _AN_EIGHTH:
        return format_length(mm, unit)
    return f"{mm / MM_PER['in']:.2f} in"


_LARGE = {"in": 10 * MM_PER["ft"], "cm": 3 * MM_PER["m"]}
"""From so much on, mm, people speak of feet and metres."""


def format_room(mm: float, unit: Unit) -> str:
    """A length of a room or a stage: as ``format_length``, large ones in feet or metres.

    >>> format_room(9144.0, "in"), format_room(3200.4, "in"), format_room(812.8, "in")
    ('30 ft', '10 ft 6 in', '32 in')
    >>> format_room(7470.0, "cm")
    '7.47 m'
    """
    if not isfinite(mm) or abs(mm) < _LARGE[unit]:
        return format_length(mm, unit)
    if unit == "cm":
        return f"{mm / MM_PER['m']:.2f} m"
    eighths = round(abs(mm) / MM_PER["in"] * _FRACTION_PARTS)
    feet, over = divmod(eighths, 12 * _FRACTION_PARTS)
    rest = format_length(over / _FRACTION_PARTS * MM_PER["in"], "in")
    return f"{'-' if mm < 0 else ''}{feet} ft{f' {rest}' if over else ''}"


def _inches(mm: float) -> str:
    eighths = round(abs(mm) / 25.4 * _FRACTION_PARTS)
    sign = "-" if mm < 0 and eighths else ""
    whole, top = divmod(eighths, _FRACTION_PARTS)
    if not top:
        return f"{sign}{whole}"
    bottom = _FRACTION_PARTS
    while top % 2 == 0:
        top, bottom = top // 2, bottom // 2
    return f"{sign}{whole} {top}/{bottom}" if whole else f"{sign}{top}/{bottom}"
