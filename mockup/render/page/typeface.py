"""The packaged font inside a page: only the letters that the page uses, so that it looks the same
on every machine and asks for nothing from outside."""

from __future__ import annotations

from base64 import b64encode
from functools import lru_cache
from io import BytesIO

from mockup.render.fonts import packaged_face
from mockup.render.record import Weight

FAMILY = "Sheet"
"""What the page calls its font."""

_WEIGHTS: tuple[tuple[Weight, int], ...] = (("regular", 400), ("bold", 700))


def typeface_css(text: str) -> str:
    """Font-face rules for every character of ``text`` that the packaged font has."""
    characters = "".join(sorted(set(text)))
    return "".join(_rule(weight, number, characters) for weight, number in _WEIGHTS)


@lru_cache(maxsize=16)
def _rule(weight: Weight, number: int, characters: str) -> str:
    data = b64encode(_subset(weight, characters)).decode()
    return (
        f"@font-face{{font-family:{FAMILY};font-weight:{number};"
        f"src:url(data:font/woff;base64,{data})format('woff')}}\n"
    )


def _subset(weight: Weight, characters: str) -> bytes:
    """The font with the glyphs for ``characters`` alone, as WOFF (no compressor but zlib's)."""
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    options = Options()
    options.layout_features = ["kern", "mark", "mkmk"]
    options.hinting = options.notdef_outline = False
    font = TTFont(packaged_face(weight).path, recalcTimestamp=False)
    subsetter = Subsetter(options)
    subsetter.populate(text=characters)
    subsetter.subset(font)
    font.flavor = "woff"
    out = BytesIO()
    font.save(out)
    return out.getvalue()
