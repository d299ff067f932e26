"""Lettering measured in mm: how wide a line is, where it breaks, which height fits.

Heights are those of ISO 3098, that is of a capital letter. Text is composed (NFC) first, so that
an accent written apart finds the glyph that carries it. Lines in scripts that join, stack or run
from right to left are shaped first (``shaping``); all others are set here, pair by pair.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from math import cos, radians, sin
from operator import itemgetter

from mockup.render.fonts import NOTHING, Face, Faces, faces
from mockup.render.record import Text, Weight
from mockup.render.shaping import needs_shaping, shaped, steers

_Placed = tuple[Face, float, tuple[tuple[str, float], ...], float]

HEIGHTS = (10.0, 7.0, 5.0, 3.5, 2.5, 1.8)
"""The lettering heights of ISO 3098 from 10 mm down to the smallest, mm."""

DEPTH = 0.35
"""How far a tail reaches under the base line, as a share of the height."""

_CONTROL = re.compile("[^\t\n\r\x20-\x7e\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_LINE_END = re.compile(r"\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")
_ONE_SPACE = re.compile(rf"{_LINE_END.pattern}|\t")
_BREAKING_SPACE = re.compile("[ \t\r\f\v\u1680\u2000-\u2006\u2008-\u200b\u205f\u3000]+")
_AFTER_HYPHEN = re.compile("(?<=[-/\u2010\u2013\u2014])(?=.)")
_SILENT = re.compile(
    "[\u00ad\u034f\u180b-\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufe00-\ufe0f\ufeff]"
)


@dataclass(frozen=True)
class Run:
    """Glyphs of one face in a row: ``start`` in mm along the line, one font unit is ``scale`` mm.

    ``glyphs`` are names with their x in font units from ``start``; ``rise`` is how far above the
    base line they stand, mm (marks over letters).
    """

    face: Face
    start: float
    scale: float
    glyphs: tuple[tuple[str, float], ...]
    rise: float = 0.0


@dataclass(frozen=True)
class Fitted:
    """Lines of text at the lettering ``height`` (mm) that was found to fit."""

    height: float
    lines: tuple[str, ...]


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """``text`` composed, on one line, with U+FFFD for every control character in it.

    >>> plain("Zoe\\u0308\\x07 and\\nI")
    'Zoë\\ufffd and I'
    """
    composed = unicodedata.normalize("NFC", text)
    return _CONTROL.sub("\ufffd", _ONE_SPACE.sub(" ", composed))


def width(text: str, height: float, weight: Weight = "regular") -> float:
    """Width in mm of one line of ``text`` at a capital height of ``height`` mm.

    >>> width("MOCK-UP", 7.0) == 2 * width("MOCK-UP", 3.5)
    True
    """
    return height * _relative_width(plain(text), faces(weight))


def runs(text: str, height: float, weight: Weight = "regular") -> list[Run]:
    """The glyphs of one line, in runs of one face each, from its left end."""
    placed, _ = _laid_out(plain(text), faces(weight))
    return [
        Run(face, start * height, height / face.cap_height, glyphs, rise * height)
        for face, start, glyphs, rise in placed
    ]


def missing(text: str, weight: Weight = "regular") -> list[str]:
    """The characters no face has, each once, shown and named as Unicode names them.

    >>> missing("ski ⛷ trip")
    ['⛷ (SKIER, U+26F7)']
    """
    known = faces(weight)
    lacking = dict.fromkeys(c for c in _drawn(plain(text)) if known.face_for(c) is None)
    return [f"{c} ({unicodedata.name(c, 'NO NAME')}, U+{ord(c):04X})" for c in lacking]


def wrap(text: str, height: float, width: float, weight: Weight = "regular") -> list[str]:
    """``text`` broken into lines no wider than ``width`` mm; its own line breaks stay.

    A word wider than a line breaks after a hyphen or stroke, and failing that anywhere. A line
    always holds at least one character.

    >>> wrap("three fresh clusters", 3.5, 26.0)
    ['three fresh', 'clusters']
    """
    limit = width / height
    lines: list[str] = []
    for paragraph in _LINE_END.split(text):
        lines += _wrapped(plain(paragraph), limit, faces(weight))
    return lines


def shrink_to(
    text: str,
    width: float,
    heights: tuple[float, ...] = (7.0, 5.0, 3.5, 2.5, 1.8),
    weight: Weight = "regular",
    most_lines: int = 1,
) -> Fitted:
    """``text`` at the largest of ``heights`` at which it takes ``most_lines`` lines or fewer.

    When it takes more even at the smallest, it is wrapped at that one into as many as it needs.

    >>> shrink_to("Ring of pearl and brass", 40.0)
    Fitted(height=2.5, lines=('Ring of pearl and brass',))
    """
    for height in sorted(heights, reverse=True):
        lines = wrap(text, height, width, weight)
        if len(lines) <= most_lines:
            break
    return Fitted(height, tuple(lines))


def left_of_anchor(item: Text) -> float:
    """How far a text reaches to the left of its ``at`` along its own base line, mm."""
    if item.anchor == "start":
        return 0.0
    long = width(item.text, item.height, item.weight)
    return long if item.anchor == "end" else long / 2.0


def bounds(item: Text) -> tuple[float, float, float, float]:
    """Left, top, right and bottom on the sheet (mm, y down) of a text with its tails."""
    long = width(item.text, item.height, item.weight)
    left = -left_of_anchor(item)
    cosine, sine = cos(radians(item.turn)), sin(radians(item.turn))
    corners = [
        (item.at[0] + x * cosine - y * sine, item.at[1] + x * sine + y * cosine)
        for x in (left, left + long)
        for y in (-item.height, DEPTH * item.height)
    ]
    across, down = zip(*corners, strict=True)
    return min(across), min(down), max(across), max(down)


def _drawn(text: str) -> str:
    return _SILENT.sub("", text)


def _to_shape(text: str) -> str:
    """What the shaper gets: joiners and direction marks are silent but tell it something."""
    return "".join(c for c in text if steers(c) or not _SILENT.match(c))


@lru_cache(maxsize=8192)
def _relative_width(text: str, known: Faces) -> float:
    return _laid_out(text, known)[1]


@lru_cache(maxsize=2048)
def _laid_out(text: str, known: Faces) -> tuple[tuple[_Placed, ...], float]:
    """Runs as (face, start, glyphs, rise) and the end of the line, in capital heights.

    A line is measured where it is fitted, painted, and listed as words: it is set out once.
    """
    return _shaped_out(text, known) if needs_shaping(text) else _set_out(text, known)


def _shaped_out(text: str, known: Faces) -> tuple[tuple[_Placed, ...], float]:
    placed: list[_Placed] = []
    end = 0.0
    for stretch in shaped(_to_shape(text), known):
        unit = stretch.face.cap_height
        for rise, glyphs in groupby(stretch.glyphs, key=itemgetter(2)):
            row = tuple((name, x) for name, x, _ in glyphs)
            placed.append((stretch.face, end, row, rise / unit))
        end += stretch.advance / unit
    return tuple(placed), end


def _set_out(text: str, known: Faces) -> tuple[tuple[_Placed, ...], float]:
    """One run for each stretch of one face, its letters drawn together pair by pair."""
    placed: list[_Placed] = []
    end = 0.0
    for face, characters in groupby(_drawn(text), key=known.drawing):
        pen, before = 0.0, ""
        row: list[tuple[str, float]] = []
        for character in characters:
            glyph = face.characters.get(ord(character), NOTHING)
            pen += face.kern(before, glyph) if before else 0.0
            row.append((glyph, pen))
            pen += face.advance(glyph)
            before = glyph
        placed.append((face, end, tuple(row), 0.0))
        end += pen / face.cap_height
    return tuple(placed), end


@lru_cache(maxsize=1024)
def _wrapped(text: str, limit: float, known: Faces) -> tuple[str, ...]:
    lines: list[str] = []
    for word in (word for word in _BREAKING_SPACE.split(text) if word):
        longer = f"{lines[-1]} {word}" if lines else word
        if _relative_width(longer, known) <= limit:
            lines[-1:] = [longer]
        else:
            lines += _broken(word, limit, known)
    return tuple(lines) or ("",)


def _broken(word: str, limit: float, known: Faces) -> list[str]:
    """A word as pieces that each fit: whole, or after hyphens, or between characters."""
    if _relative_width(word, known) <= limit:
        return [word]
    parts = _AFTER_HYPHEN.split(word)
    parts = parts if len(parts) > 1 else list(word)
    pieces = [""]
    for part in parts:
        if not pieces[-1] or _relative_width(pieces[-1] + part, known) <= limit:
            pieces[-1] += part
        else:
            pieces.append(part)
    if len(parts) == len(word):
        return pieces
    return [fine for piece in pieces for fine in _broken(piece, limit, known)]
