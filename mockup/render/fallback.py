"""PNG and PDF where the cairo library is missing, from Python wheels alone.

The SVG is drawn by resvg. A PDF then holds each page as one picture at its true size.
"""

from __future__ import annotations

from datetime import UTC, datetime
from io import BytesIO

from mockup.render.pdf import CREATOR, POINTS_PER_MM, UNDATED
from mockup.render.png import DPI, chunks, pixels, with_resolution
from mockup.render.record import Document, Sheet
from mockup.render.svg import svg_text
from mockup.render.text import plain

PDF_DPI = 300.0
"""Pixels to the inch of the pictures in a PDF made this way."""


def resvg_png_bytes(sheet: Sheet, dpi: float = DPI) -> bytes:
    """``sheet`` as a PNG of ``dpi`` pixels to the inch, drawn by resvg from the SVG."""
    import resvg_py

    wide, high = pixels(sheet, dpi)
    text = svg_text(sheet, search_text=False)
    drawn = resvg_py.svg_to_bytes(
        text,
        dpi=dpi,
        width=wide,
        height=high,
        background=None if sheet.background == "none" else sheet.background,
        skip_system_fonts=True,
    )
    return with_resolution(bytes(drawn), dpi)


def picture_pdf_bytes(
    document: Document, *, dated: datetime = UNDATED, dpi: float = PDF_DPI
) -> bytes:
    """``document`` as a PDF whose pages are exact in size and hold one picture each."""
    objects = [
        f"<< /Type /Catalog /Pages 2 0 R /Lang ({document.language}) /ViewerPreferences "
        "<< /PrintScaling /None /DisplayDocTitle true >> >>".encode("ascii", "replace"),
        b"<< /Type /Pages /Count %d /Kids [%s] >>"
        % (
            len(document.sheets),
            b" ".join(b"%d 0 R" % (4 + 3 * k) for k in range(len(document.sheets))),
        ),
        _information(document, dated),
    ]
    for sheet in document.sheets:
        objects += _page(sheet, dpi, number=len(objects) + 1)
    return _file(objects)


def _information(document: Document, dated: datetime) -> bytes:
    moment = dated.astimezone(UTC).strftime("D:%Y%m%d%H%M%SZ")
    entries = {
        "Title": document.title,
        "Author": document.author,
        "Subject": document.subject,
        "Keywords": ", ".join(document.keywords),
        "Creator": CREATOR,
        "CreationDate": moment,
        "ModDate": moment,
    }
    said = (f"/{key} {_string(value)}" for key, value in entries.items() if value)
    return f"<< {' '.join(said)} >>".encode("ascii")


def _string(text: str) -> str:
    """A PDF text string (ISO 32000-1, 7.9.2.2), as hexadecimal of UTF-16."""
    return f"<feff{plain(text).encode('utf-16-be').hex()}>"


def _page(sheet: Sheet, dpi: float, number: int) -> list[bytes]:
    """The page, what it paints and its picture, as objects from ``number`` on."""
    wide, high = sheet.width * POINTS_PER_MM, sheet.height * POINTS_PER_MM
    paint = b"q %.6f 0 0 %.6f 0 0 cm /p Do Q" % (wide, high)
    page = (
        b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %.6f %.6f] /Contents %d 0 R "
        b"/Resources << /XObject << /p %d 0 R >> >> >>" % (wide, high, number + 1, number + 2)
    )
    return [page, _stream(b"", paint), _picture(sheet, dpi)]


def _picture(sheet: Sheet, dpi: float) -> bytes:
    """The page's pixels: a PNG's own compressed rows, which PDF reads as they are (7.4.4.4)."""
    from PIL import Image

    wide, high = pixels(sheet, dpi)
    out = BytesIO()
    Image.open(BytesIO(resvg_png_bytes(sheet, dpi))).convert("RGB").save(out, "PNG")
    rows = b"".join(chunk[8:-4] for kind, chunk in chunks(out.getvalue()) if kind == b"IDAT")
    return _stream(
        b"/Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace /DeviceRGB "
        b"/BitsPerComponent 8 /Filter /FlateDecode "
        b"/DecodeParms << /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns %d >>"
        % (wide, high, wide),
        rows,
    )


def _stream(entries: bytes, data: bytes) -> bytes:
    return b"<< %s /Length %d >>\nstream\n%s\nendstream" % (entries, len(data), data)


def _file(objects: list[bytes]) -> bytes:
    """Objects 1, 2, 3 ... as a whole file: 1 is the catalogue, 3 the information."""
    out = bytearray(b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n")
    places = []
    for number, body in enumerate(objects, start=1):
        places.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
    out += b"".join(b"%010d 00000 n \n" % place for place in places)
    out += b"trailer\n<< /Size %d /Root 1 0 R /Info 3 0 R >>\n" % (len(objects) + 1)
    return bytes(out + b"startxref\n%d\n%%%%EOF\n" % table)
