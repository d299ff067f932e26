"""Foil numerals: a centre-line with a round stroke laid along it, one shape for each character.

The outlines are our own. A width that was measured changes the centre-line only: the stroke keeps
its weight and its round ends, and the whole stays inside its box.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from math import isfinite
from typing import TYPE_CHECKING

import numpy as np

from mockup.errors import MockupError
from mockup.panel.digits import DIGITS, Draw
from mockup.panel.letters import LETTERS
from mockup.panel.pen import Stroke
from mockup.records import dataclass

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

HALF_WIDTH = 0.115
"""Half the stroke as a share of the height."""
KEEPS_WEIGHT = 0.85
"""Narrower than this share of its usual width, a numeral thins so that its gaps stay open."""
_MOST_OF_WIDTH = 0.49
SPACE = 0.30
"""Usual width of a space as a share of the height."""
KNOWN = "0-9, A-Z, & + - ! ? and ."

_DRAWN: dict[str, tuple[float, Draw]] = {**DIGITS, **LETTERS}
_STAND_INS = {"–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "¡": "!", "¿": "?", "…": "."}


class UnknownCharacter(MockupError, ValueError):
    """A character there is no foil for; ``nearest`` is one there is, or empty."""

    def __init__(self, char: str) -> None:
        self.char = char
        self.nearest = _nearest(char)
        shown = f"'{char}'" if char.isprintable() else f"the character U+{ord(char):04X}"
        self.what = f"{shown} is not among the foil numerals and letters"
        self.instead = f"write '{self.nearest}'" if self.nearest else f"use {KNOWN}"
        super().__init__(f"{self.what}; {self.instead}")


class NotANumeral(MockupError, ValueError):
    """A size no numeral can have, or a text with no numeral in it."""


@dataclass(frozen=True)
class Glyph:
    """One character at ``height``: centre-lines in its box [0, width] x [0, height], y up.

    All lengths are in the unit of ``height``. ``half_width`` is half the stroke.
    """

    char: str
    strokes: tuple[Stroke, ...] = field(compare=False, repr=False)
    half_width: float
    width: float
    height: float = 1.0


WELD, _MOST_WELD = 6.0, 0.2
"""Width of the flat weld round a foil, mm, and the most of half a stroke that it takes (common
practice, no source)."""


@dataclass(frozen=True)
class NumeralShape:
    """One numeral placed in the piece: the centre (x, y) of its box, its size, its strokes, mm.

    ``strokes`` are polylines, each (k, 2), of the centre-line in the piece's coordinates.
    """

    char: str
    x: float
    y: float
    width: float
    height: float
    half_width: float
    strokes: tuple[Stroke, ...] = field(compare=False, repr=False)

    @property
    def bulge(self) -> float:
        """How far the filled foil stands out before and behind its weld, mm.

        Two flat bands welded along their edges blow up round: a stroke is about as thick as it is
        wide between its welds (common practice, no source).

        >>> numeral_row("1", 300.0, {}, 0.0)[0].bulge < 300.0 / 8
        True
        """
        return self.half_width - min(WELD, _MOST_WELD * self.half_width)

    def polygon(self) -> Polygon | MultiPolygon:
        """The outline, mm; several parts only where the character has them (``!`` and ``?``).

        >>> round(numeral_row("1", 300.0, {}, 0.0)[0].polygon().bounds[3], 2)
        150.0
        """
        # Here and not above: a list of stock needs the numerals' sizes but no polygons.
        from shapely import MultiLineString

        return MultiLineString(list(self.strokes)).buffer(self.half_width, quad_segs=32)

    def moved(self, dx: float, dy: float) -> NumeralShape:
        """The same numeral moved by (dx, dy) mm."""
        strokes = tuple(stroke + np.array([dx, dy]) for stroke in self.strokes)
        place = (self.x + dx, self.y + dy, self.width, self.height, self.half_width)
        return NumeralShape(self.char, *place, strokes)


def usual_width(char: str, height: float) -> float:
    """The width of a character at ``height`` where none was measured, in the unit of ``height``.

    >>> usual_width("1", 100.0), usual_width("8", 100.0)
    (40.0, 63.0)
    """
    if char == " ":
        return SPACE * height
    return _drawn(char)[0] * height


def glyph(char: str, height: float, width: float | None = None) -> Glyph:
    """The centre-lines of ``char`` at ``height`` and ``width`` (None: its usual width).

    >>> seven = glyph("7", 400.0)
    >>> seven.width, seven.half_width, [stroke.shape for stroke in seven.strokes]
    (240.0, 46.0, [(3, 2)])
    """
    width = usual_width(char, height) if width is None else width
    _require_size(char, height, width)
    half, strokes = _unit_strokes(char, width / height)
    scaled = tuple(stroke * height for stroke in strokes)
    return Glyph(char, scaled, half * height, width, height)


def stroked(char: str, height: float, width: float, half_width: float) -> Glyph:
    """``char`` in its box with a stroke of a weight of one's own, as thin as a row of balloons.

    >>> stroked("I", 7.0, 1.0, 0.5).strokes[0].tolist()
    [[0.5, 0.5], [0.5, 6.5]]
    """
    _require_size(char, height, width)
    half = min(half_width, width / 2, height / 2)
    strokes = _drawn(char)[1](width - 2 * half, height - 2 * half)
    return Glyph(char, tuple(stroke + half for stroke in strokes), half, width, height)


def numeral_row(
    text: str, height: float, widths: Mapping[str, float], gap: float
) -> tuple[NumeralShape, ...]:
    """The characters of ``text`` side by side, ``gap`` mm between them, centred on (0, 0).

    ``widths`` gives the measured width of a character in mm at this height; others have their
    usual one. A space leaves its width free; spaces at either end are dropped.

    >>> [(n.char, n.x) for n in numeral_row("71", 100.0, {"1": 38.0}, 10.0)]
    [('7', -24.0), ('1', 35.0)]
    """
    _require_gap(gap)
    boxes = [_box(char, height, widths) for char in text.strip(" ")]
    left = -(sum(width for _, width in boxes) + gap * (len(boxes) - 1)) / 2
    shapes: list[NumeralShape] = []
    for char, width in boxes:
        if char != " ":
            shapes.append(_placed(glyph(char, height, width), left))
        left += width + gap
    return tuple(shapes)


def unknown_characters(text: str) -> tuple[str, ...]:
    """The characters of ``text`` that there is no foil for, each once, in order.

    >>> unknown_characters("7é a")
    ('é', 'a')
    """
    return tuple(dict.fromkeys(char for char in text if char != " " and char not in _DRAWN))


def _box(char: str, height: float, widths: Mapping[str, float]) -> tuple[str, float]:
    width = widths.get(char, usual_width(char, height))
    _require_size(char, height, width)
    return char, width


def _placed(shape: Glyph, left: float) -> NumeralShape:
    corner = np.array([left, -shape.height / 2])
    strokes = tuple(stroke + corner for stroke in shape.strokes)
    size = (shape.width, shape.height, shape.half_width)
    return NumeralShape(shape.char, left + shape.width / 2, 0.0, *size, strokes)


@lru_cache(maxsize=512)
def _unit_strokes(char: str, ratio: float) -> tuple[float, tuple[Stroke, ...]]:
    """Half the stroke and the centre-lines at height 1 and width ``ratio``."""
    usual, draw = _drawn(char)
    thinned = HALF_WIDTH * min(1.0, ratio / (KEEPS_WEIGHT * usual))
    half = min(thinned, _MOST_OF_WIDTH * ratio)
    strokes = draw(ratio - 2 * half, 1.0 - 2 * half)
    return half, tuple(stroke + half for stroke in strokes)


def _drawn(char: str) -> tuple[float, Draw]:
    if char not in _DRAWN:
        raise UnknownCharacter(char)
    return _DRAWN[char]


def _nearest(char: str) -> str:
    """The known character that ``char`` is a form of: ``é`` and ``e`` are forms of ``E``."""
    plain = unicodedata.normalize("NFKD", char)[:1]
    digit = unicodedata.digit(char, None)
    tried = (_STAND_INS.get(char, ""), plain, plain.upper(), "" if digit is None else str(digit))
    return next((known for known in tried if known in _DRAWN), "")


def _require_size(char: str, height: float, width: float) -> None:
    for name, value in (("height", height), ("width", width)):
        if not (isfinite(value) and value > 0.0):
            raise NotANumeral(f"the {name} of '{char}' must be above zero, not {value:g} mm")


def _require_gap(gap: float) -> None:
    if not isfinite(gap):
        raise NotANumeral(f"the gap between numerals must be a plain number, not {gap:g} mm")
