"""The packaged font inside a page: only the letters that the page uses, so that it looks the same
on every machine and asks for nothing from outside."""

from __future__ import annotations

from base64 import b64encode
from functools import lru_cache
from io import BytesIO

from mockup.render.fonts import NOTHING, Face, packaged_face
from mockup.render.record import Weight

FAMILY = "Sheet"
"""What the page calls its font."""

_WEIGHTS: tuple[tuple[Weight, int], ...] = (("regular", 400), ("bold", 700))
_ASCENT, _DESCENT = 984, -273
"""Room over and under the base line in thousandths of an em, as the packaged font states it."""


def typeface_css(text: str) -> str:
    """Font-face rules for every character of ``text`` that the packaged font has."""
    characters = "".join(sorted(set(text)))
    return "".join(_rule(weight, number, characters) for weight, number in _WEIGHTS)


@lru_cache(maxsize=16)
def _rule(weight: Weight, number: int, characters: str) -> str:
    data = b64encode(_small_font(packaged_face(weight), characters)).decode()
    return (
        f"@font-face{{font-family:{FAMILY};font-weight:{number};"
        f"src:url(data:font/woff;base64,{data})format('woff')}}\n"
    )


def _small_font(face: Face, characters: str) -> bytes:
    """A font of the face's glyphs for ``characters`` alone, as WOFF (with zlib's compression).

    Built anew from outlines: cutting the whole font down takes ten times as long.
    """
    from fontTools.fontBuilder import FontBuilder

    known = {ord(c): face.characters[ord(c)] for c in characters if ord(c) in face.characters}
    glyphs = [NOTHING, *sorted(set(known.values()) - {NOTHING})]
    builder = FontBuilder(int(face.units_per_em), isTTF=False)
    builder.setupGlyphOrder(glyphs)
    builder.setupCharacterMap(known)
    strings = {glyph: face.char_string(glyph) for glyph in glyphs}
    builder.setupCFF(FAMILY, {"FullName": FAMILY}, strings, {})
    builder.setupHorizontalMetrics({glyph: (round(face.advance(glyph)), 0) for glyph in glyphs})
    builder.setupHorizontalHeader(ascent=_ASCENT, descent=_DESCENT)
    builder.setupNameTable({"familyName": FAMILY, "styleName": "Regular"})
    builder.setupOS2(
        sTypoAscender=_ASCENT,
        sTypoDescender=_DESCENT,
        usWinAscent=_ASCENT,
        usWinDescent=-_DESCENT,
        sCapHeight=round(face.cap_height),
    )
    builder.setupPost()
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.font.recalcTimestamp = False
    builder.font.flavor = "woff"
    out = BytesIO()
    builder.save(out)
    return out.getvalue()
