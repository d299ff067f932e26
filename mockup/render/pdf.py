"""The PDF writer: the pages of a document at their true size, as vectors, in one file."""

from __future__ import annotations

from datetime import UTC, datetime
from io import BytesIO
from typing import Any

from mockup.render.fontconfig import packaged_font_is_found
from mockup.render.painting import Painter, cairo
from mockup.render.pdf_catalogue import with_entries, without_repeats
from mockup.render.record import Document, Sheet
from mockup.render.text import plain

POINTS_PER_MM = 72.0 / 25.4
"""PDF counts in points of 1/72 inch."""

UNDATED = datetime(2000, 1, 1, tzinfo=UTC)
"""The date a file bears unless one is given, so that the same drawing is the same bytes."""

CREATOR = "balloon-mockup"


def pdf_bytes(document: Document, *, dated: datetime = UNDATED) -> bytes:
    """``document`` as a PDF file: one page for each sheet, exact in size, words searchable.

    Cairo cuts a page to whole points, so that up to 0.36 mm along its right and lower edge stay
    bare. The viewer is asked to print unscaled and to show the title. Raises ``NoCairo`` where the
    library is missing.
    """
    lib = cairo()
    out = BytesIO()
    first = document.sheets[0]
    surface = lib.PDFSurface(out, *_points(first))
    surface.restrict_to_version(lib.PDF_VERSION_1_4)
    _describe(surface, lib, document, dated)
    painter = Painter(None, {}, lib, real_text=packaged_font_is_found(lib))
    for sheet in document.sheets:
        surface.set_size(*_points(sheet))
        if sheet.name:
            surface.set_page_label(plain(sheet.name))
        painter.context = lib.Context(surface)
        painter.context.scale(POINTS_PER_MM, POINTS_PER_MM)
        painter.sheet(sheet, words=True)
        surface.show_page()
    surface.finish()
    return with_entries(without_repeats(out.getvalue()), document.language)


def _points(sheet: Sheet) -> tuple[float, float]:
    return sheet.width * POINTS_PER_MM, sheet.height * POINTS_PER_MM


def _describe(surface: Any, lib: Any, document: Document, dated: datetime) -> None:
    moment = dated.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    for entry, value in (
        (lib.PDF_METADATA_TITLE, document.title),
        (lib.PDF_METADATA_AUTHOR, document.author),
        (lib.PDF_METADATA_SUBJECT, document.subject),
        (lib.PDF_METADATA_KEYWORDS, ", ".join(document.keywords)),
        (lib.PDF_METADATA_CREATOR, CREATOR),
        (lib.PDF_METADATA_CREATE_DATE, moment),
        (lib.PDF_METADATA_MOD_DATE, moment),
    ):
        if value:
            surface.set_metadata(entry, plain(value))
