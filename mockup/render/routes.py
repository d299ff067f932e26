"""Which way an output is made: by cairo, or without it where the library is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from mockup.render.fallback import PDF_DPI, picture_pdf_bytes, resvg_png_bytes
from mockup.render.painting import NoCairo
from mockup.render.pdf import UNDATED, pdf_bytes
from mockup.render.png import DPI, png_bytes
from mockup.render.record import Document, Sheet

PICTURE_NOTE = (
    "The cairo library is not installed, so the picture was drawn by resvg; it looks the same."
)
PDF_NOTE = (
    "The cairo library is not installed, so each page of the PDF is one picture of "
    f"{PDF_DPI:g} dpi drawn by resvg: it prints at true size, but its words cannot be searched "
    "and it turns soft when zoomed in far."
)


@dataclass(frozen=True)
class Made:
    """A file's bytes, and one sentence for the user when they were made another way."""

    data: bytes
    note: str = ""


def make_pdf(document: Document, *, dated: datetime = UNDATED) -> Made:
    """``document`` as a PDF by the best way this machine has."""
    return _made(
        lambda: pdf_bytes(document, dated=dated),
        lambda: picture_pdf_bytes(document, dated=dated),
        PDF_NOTE,
    )


def make_png(sheet: Sheet, dpi: float = DPI) -> Made:
    """``sheet`` as a PNG by the best way this machine has."""
    return _made(lambda: png_bytes(sheet, dpi), lambda: resvg_png_bytes(sheet, dpi), PICTURE_NOTE)


def _made(best: Callable[[], bytes], other: Callable[[], bytes], note: str) -> Made:
    try:
        return Made(best())
    except NoCairo:
        return Made(other(), note)
