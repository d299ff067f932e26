"""The packaged font made known to cairo where fonts are found by fontconfig (Linux).

Cairo's own text (the words under a page that a search finds) takes its font from fontconfig. A
private configuration of one folder makes that the packaged font on every machine, also on one
that has no fonts. It is in force only while cairo first asks for a font; fontconfig then holds it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from xml.sax.saxutils import escape

from mockup.render.fonts import packaged_face, packaged_files
from mockup.render.record import Weight

_SETTING = "FONTCONFIG_FILE"
_WEIGHTS: tuple[Weight, ...] = ("regular", "bold")
_TRIED = "Hagx0½ÅŁØσЖ–"
"""Letters of every kind that the packaged font has, far apart in its file."""


@cache
def settle_packaged_font(cairo: Any) -> None:
    """Have this process find the packaged font; ``cairo`` is the binding that will draw."""
    with TemporaryDirectory() as folder, _configured(Path(folder)):
        context = cairo.Context(cairo.ImageSurface(cairo.FORMAT_ARGB32, 1, 1))
        context.select_font_face(packaged_face().family)
        context.text_extents("A")


@cache
def packaged_font_is_found(cairo: Any) -> bool:
    """Whether this process's cairo letters with the packaged files themselves, glyph by glyph.

    So it is where fonts are found by fontconfig; elsewhere another font may answer to the name.
    """
    settle_packaged_font(cairo)
    return all(_is_found(cairo, weight) for weight in _WEIGHTS)


def _is_found(cairo: Any, weight: Weight) -> bool:
    face = packaged_face(weight)
    context = cairo.Context(cairo.ImageSurface(cairo.FORMAT_ARGB32, 1, 1))
    heavy = cairo.FONT_WEIGHT_BOLD if weight == "bold" else cairo.FONT_WEIGHT_NORMAL
    context.select_font_face(face.family, cairo.FONT_SLANT_NORMAL, heavy)
    found = context.get_scaled_font().text_to_glyphs(0, 0, _TRIED, with_clusters=False)
    wanted = [face.glyph_number(face.characters[ord(c)]) for c in _TRIED]
    return [number for number, _, _ in found] == wanted


def configuration(fonts: tuple[Path, ...], cache_folder: Path) -> str:
    """A fontconfig file that knows ``fonts`` and nothing else."""
    folders = "".join(f"<dir>{escape(str(f))}</dir>" for f in sorted({f.parent for f in fonts}))
    files = "".join(f"<glob>{escape(str(font))}</glob>" for font in fonts)
    return (
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>'
        f"{folders}<selectfont><acceptfont>{files}</acceptfont>"
        "<rejectfont><glob>*</glob></rejectfont></selectfont>"
        f"<cachedir>{escape(str(cache_folder))}</cachedir>"
        "<config><rescan><int>0</int></rescan></config></fontconfig>"
    )


@contextmanager
def _configured(folder: Path) -> Iterator[None]:
    file = folder / "fonts.conf"
    file.write_text(configuration(packaged_files(), folder), encoding="utf-8")
    before = os.environ.get(_SETTING)
    os.environ[_SETTING] = str(file)
    try:
        yield
    finally:
        os.environ.pop(_SETTING)
        if before is not None:
            os.environ[_SETTING] = before
