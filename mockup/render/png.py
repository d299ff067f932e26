"""The PNG writer: one sheet as a picture of a given resolution, which the file states."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

from mockup.errors import MockupError
from mockup.render.painting import Painter, cairo
from mockup.render.record import Sheet

DPI = 150.0
"""Pixels to the inch of a picture unless told otherwise."""

MOST_PIXELS = 200_000_000
"""A picture above this many pixels is refused (it would take about a gigabyte)."""

_LONGEST_SIDE = 32_767
_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_HEADER_ENDS = 33
_MM_PER_INCH = 25.4


class TooManyPixels(MockupError):
    """A picture larger than this program draws."""


def png_bytes(sheet: Sheet, dpi: float = DPI) -> bytes:
    """``sheet`` as a PNG of ``dpi`` pixels to the inch, drawn by cairo.

    Raises ``NoCairo`` where the library is missing and ``TooManyPixels`` for a size out of reach.
    """
    wide, high = pixels(sheet, dpi)
    lib = cairo()
    kind = lib.FORMAT_ARGB32 if sheet.background == "none" else lib.FORMAT_RGB24
    surface = lib.ImageSurface(kind, wide, high)
    context = lib.Context(surface)
    context.scale(dpi / _MM_PER_INCH, dpi / _MM_PER_INCH)
    Painter(context, lib=lib).sheet(sheet, words=False)
    out = BytesIO()
    surface.write_to_png(out)
    return with_resolution(out.getvalue(), dpi)


def pixels(sheet: Sheet, dpi: float) -> tuple[int, int]:
    """Width and height of ``sheet`` in pixels, at least 1 each.

    >>> pixels(Sheet(210.0, 297.0, ()), 150.0)
    (1240, 1754)
    """
    wide, high = (max(1, round(mm / _MM_PER_INCH * dpi)) for mm in (sheet.width, sheet.height))
    if wide * high > MOST_PIXELS or max(wide, high) > _LONGEST_SIDE:
        raise TooManyPixels(
            f"{wide} x {high} pixels are too many for one picture; "
            f"ask for fewer than {dpi:g} dpi, or for a PDF"
        )
    return wide, high


def with_resolution(png: bytes, dpi: float) -> bytes:
    """``png`` with its resolution stated (chunk pHYs, PNG 11.3.5.3, in pixels to the metre)."""
    if not png.startswith(_SIGNATURE):
        raise ValueError("not a PNG file")
    metre = round(dpi / _MM_PER_INCH * 1000)
    kept = b"".join(chunk for kind, chunk in chunks(png) if kind != b"pHYs")
    header = _HEADER_ENDS - len(_SIGNATURE)
    return (
        _SIGNATURE
        + kept[:header]
        + _chunk(b"pHYs", struct.pack(">IIB", metre, metre, 1))
        + kept[header:]
    )


def chunks(png: bytes) -> list[tuple[bytes, bytes]]:
    """Each chunk of a PNG in order: its kind, and the whole of it."""
    found, at = [], len(_SIGNATURE)
    while at + 12 <= len(png):
        end = at + 12 + int.from_bytes(png[at : at + 4], "big")
        found.append((png[at + 4 : at + 8], png[at:end]))
        at = end
    return found


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
