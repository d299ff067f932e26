"""Lines in scripts whose letters join, stack or run from right to left, shaped by HarfBuzz.

Most lines need none of this and never come here. A line that does is cut into stretches of one
direction, one face and one word; each is shaped by itself, and they are set from left to right.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import Any

from mockup.render.bidirectional import levels
from mockup.render.fonts import NOTHING, Face, Faces

# Hebrew and Arabic with their neighbours; the scripts of India and of South-east Asia, whose marks
# stack; and the presentation forms of Hebrew and Arabic.
_NEEDS = re.compile(
    "[\u0590-\u109f\u135d-\u135f\u1700-\u18af\u1900-\u1cff\u200f\ua800-\uaaff\uabc0-\uabff"
    "\ufb1d-\ufdff\ufe70-\ufefe\U00010800-\U00011fff\U0001e800-\U0001efff]"
)
_STEERS_ONLY = frozenset("\u200e\u200f")
_STEERS = frozenset("\u200c\u200d") | _STEERS_ONLY
_MARKS = ("Mn", "Me", "Mc")


@dataclass(frozen=True)
class Shaped:
    """Glyphs of one face, font units from the start of the line's stretch: name, x and rise."""

    face: Face
    glyphs: tuple[tuple[str, float, float], ...]
    advance: float


def needs_shaping(text: str) -> bool:
    """Whether a line holds letters that join, stack or run from right to left.

    >>> needs_shaping("Zoë Łuk"), needs_shaping("ליאת")
    (False, True)
    """
    return _NEEDS.search(text) is not None


def steers(character: str) -> bool:
    """Whether a silent character tells letters to join or to part, or which way they run."""
    return character in _STEERS


def shaped(text: str, known: Faces) -> list[Shaped]:
    """The stretches of a line from left to right."""
    return [_shaped(stretch) for stretch in _in_order(_stretches(text, known))]


@dataclass(frozen=True)
class _Stretch:
    """A run of characters of one level, face and word; ``face`` is None where no face has it."""

    text: str
    level: int
    face: Face


def _stretches(text: str, known: Faces) -> Iterator[_Stretch]:
    at = 0
    marked = zip(text, levels(text), _faces_of(text, known), strict=True)
    for (level, face, _), run in groupby(marked, key=lambda one: (one[1], one[2], one[0] == " ")):
        length = len(list(run))
        yield _Stretch(text[at : at + length], level, face)
        at += length


def _faces_of(text: str, known: Faces) -> list[Face]:
    """The face of each character; a mark stays with its letter where that face has it."""
    found: list[Face] = []
    for character in text:
        before = found[-1] if found else known.last
        follows = steers(character) or (
            unicodedata.category(character) in _MARKS and ord(character) in before.characters
        )
        found.append(before if follows else known.face_for(character) or known.last)
    return found


def _in_order(stretches: Iterator[_Stretch]) -> list[_Stretch]:
    """Stretches from left to right: rule L2 of UAX #9 on whole stretches."""
    order = list(stretches)
    highest = max((each.level for each in order), default=0)
    for level in range(highest, 0, -1):
        at = 0
        for high, run in groupby(list(order), key=lambda each: each.level >= level):
            members = list(run)
            if high:
                order[at : at + len(members)] = members[::-1]
            at += len(members)
    return order


def _shaped(stretch: _Stretch) -> Shaped:
    import uharfbuzz

    buffer = uharfbuzz.Buffer()
    buffer.add_str("".join(c for c in stretch.text if c not in _STEERS_ONLY))
    buffer.flags = uharfbuzz.BufferFlags.REMOVE_DEFAULT_IGNORABLES
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if stretch.level % 2 else "ltr"
    uharfbuzz.shape(_font(stretch.face), buffer)
    glyphs: list[tuple[str, float, float]] = []
    pen = 0.0
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        name = stretch.face.glyph_name(info.codepoint) if info.codepoint else NOTHING
        glyphs.append((name, pen + place.x_offset, float(place.y_offset)))
        pen += place.x_advance
    return Shaped(stretch.face, tuple(glyphs), pen)


@cache
def _font(face: Face) -> Any:
    """HarfBuzz's reading of a face, in the face's own units."""
    import uharfbuzz

    return uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob(face.path.read_bytes()), 0))
