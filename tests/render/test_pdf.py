"""The PDF writer: true sizes measured back, words found, vectors only, the same bytes."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path as File
from typing import Any

import pytest
from pypdf import PdfReader
from pypdf.generic import BooleanObject, ContentStream

from mockup.render.fontconfig import settle_packaged_font
from mockup.render.painting import cairo
from mockup.render.pdf import POINTS_PER_MM, pdf_bytes
from mockup.render.pdf_catalogue import with_entries, without_repeats
from mockup.render.record import Circle, Document, Line, Place, Sheet, Style, Symbol, Text
from tests.render.everything import document, everything

ROOT = File(__file__).parent.parent.parent

ISO_216 = {
    "A0": (841, 1189), "A1": (594, 841), "A2": (420, 594), "A3": (297, 420), "A4": (210, 297),
    "A5": (148, 210), "A6": (105, 148),
}  # fmt: skip
"""Trimmed sizes of the main series, mm: ISO 216:2007, table 1."""

ANSI = {"A": (215.9, 279.4), "B": (279.4, 431.8)}
"""8 1/2 x 11 and 11 x 17 inches in mm: ANSI/ASME Y14.1, sizes A and B."""


def one_page(*items: Any, size: tuple[float, float] = (297.0, 210.0)) -> Document:
    return Document((Sheet(*size, items),), title="Test")


def read(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf), strict=True)


def entries(found: Any) -> Any:
    """A dictionary of the file, as such."""
    return found.get_object()


def catalogue(pdf: bytes) -> Any:
    return entries(read(pdf).trailer["/Root"])


@pytest.fixture(scope="module")
def whole() -> bytes:
    return pdf_bytes(document())


@pytest.mark.parametrize("size", [*ISO_216.values(), *ANSI.values()], ids=[*ISO_216, *ANSI])
def test_page_sizes_measure_as_the_standards_say(size: tuple[float, float]) -> None:
    box = read(pdf_bytes(one_page(size=size))).pages[0].mediabox
    measured = float(box.width) / POINTS_PER_MM, float(box.height) / POINTS_PER_MM
    assert measured == pytest.approx(size, abs=0.01)


def test_a_100_mm_line_measures_100_mm() -> None:
    level = Line((20.0, 30.0), (120.0, 30.0), Style(stroke="#000000"))
    slanted = Line((20.0, 40.0), (80.0, 120.0), Style(stroke="#000000"))
    measured = line_lengths(pdf_bytes(one_page(level, slanted)))
    assert measured == pytest.approx([100.0, 100.0], abs=0.02)


def line_lengths(pdf: bytes) -> list[float]:
    """Lengths in mm of the lines stroked on the first page, read from its content."""
    page = read(pdf).pages[0]
    found, scale, stack, pen = [], 1.0, [], (0.0, 0.0)
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        numbers = [float(value) for value in operands if isinstance(value, int | float)]
        if operator == b"q":
            stack.append(scale)
        elif operator == b"Q":
            scale = stack.pop()
        elif operator == b"cm":
            scale *= (numbers[0] ** 2 + numbers[1] ** 2) ** 0.5
        elif operator == b"m":
            pen = numbers[0], numbers[1]
        elif operator == b"l":
            long = ((numbers[0] - pen[0]) ** 2 + (numbers[1] - pen[1]) ** 2) ** 0.5
            found.append(long * scale / POINTS_PER_MM)
    return found


def test_pages_keep_their_own_size_and_label(whole: bytes) -> None:
    reader = read(whole)
    sizes = [(page.mediabox.width, page.mediabox.height) for page in reader.pages]
    assert [round(float(w) / POINTS_PER_MM) for w, _ in sizes] == [200, 297]
    assert reader.page_labels == ["Everything", "Second"]


def test_the_file_describes_itself(whole: bytes) -> None:
    found = read(whole).metadata
    assert found is not None
    assert (found.title, found.author) == ("Ring for Zoë <& Łukasz>", "Invented Balloons")
    assert (found.subject, found.keywords) == ("Colour proof", "proof, ring")
    assert found.creator == "balloon-mockup"
    assert found.creation_date == found.modification_date == datetime(2000, 1, 1, tzinfo=UTC)


def test_viewers_are_asked_not_to_scale(whole: bytes) -> None:
    """ISO 32000-1, table 150 (PrintScaling) and 7.7.2 (Lang)."""
    found = catalogue(whole)
    assert found["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert found["/ViewerPreferences"]["/DisplayDocTitle"] == BooleanObject(True)
    assert found["/Lang"] == "en-GB"


def test_the_same_input_is_the_same_bytes(whole: bytes) -> None:
    assert pdf_bytes(document()) == whole
    dated = pdf_bytes(document(), dated=datetime(2031, 5, 17, 9, 30, tzinfo=UTC))
    found = read(dated).metadata
    assert found is not None
    assert found.creation_date == datetime(2031, 5, 17, 9, 30, tzinfo=UTC)


def test_the_same_bytes_on_a_machine_without_fonts(whole: bytes, tmp_path: File) -> None:
    """A process that finds neither a fontconfig set-up nor a home folder with fonts."""
    code = (
        "import sys; from mockup.render.pdf import pdf_bytes;"
        "from tests.render.everything import document;"
        "sys.stdout.buffer.write(pdf_bytes(document()))"
    )
    bare = {
        "FONTCONFIG_FILE": str(tmp_path / "none.conf"),
        "HOME": str(tmp_path),
        "PYTHONPATH": str(ROOT),
        "PYTHONHASHSEED": "3",
    }
    ran = subprocess.run(
        [sys.executable, "-c", code], env=bare, capture_output=True, check=True, cwd=tmp_path
    )
    assert ran.stdout == whole


def test_settling_the_font_leaves_the_environment_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    for before in (None, "/etc/own.conf"):
        monkeypatch.delenv("FONTCONFIG_FILE", raising=False)
        if before:
            monkeypatch.setenv("FONTCONFIG_FILE", before)
        settle_packaged_font.__wrapped__(cairo())
        assert os.environ.get("FONTCONFIG_FILE") == before


def test_words_are_found_by_a_search(whole: bytes) -> None:
    text = " ".join(page.extract_text() for page in read(whole).pages)
    assert text.count("Zoë & Łukasz — “Peña”") == 2
    for word in ("AWAY", "Ωδή", "среду", "Zoë has no"):
        assert word in text


def test_the_font_of_the_words_is_the_packaged_one_and_inside(whole: bytes) -> None:
    fonts = [
        font.get_object()
        for page in read(whole).pages
        for font in entries(page["/Resources"])["/Font"].values()
    ]
    names = {str(font["/BaseFont"]).partition("+")[2] for font in fonts}
    assert names <= {"SourceSansPro-Regular", "SourceSansPro-Bold"}
    assert "SourceSansPro-Bold" in names
    described = [font.get("/DescendantFonts", [font])[0].get_object() for font in fonts]
    assert all("/FontFile3" in font["/FontDescriptor"] for font in described)


def test_pages_share_one_embedded_font() -> None:
    page = Sheet(100.0, 50.0, (Text((10.0, 20.0), "Same words", 3.5),))
    one = pdf_bytes(Document((page,), "t"))
    four = pdf_bytes(Document((page,) * 4, "t"))
    assert four.count(b"/FontFile3") == one.count(b"/FontFile3") == 1


def test_everything_is_vectors(whole: bytes) -> None:
    assert not re.search(rb"/Subtype\s*/Image", whole)
    assert all(not page.images for page in read(whole).pages)


def test_a_symbol_is_stored_once_however_often_it_stands() -> None:
    dot = Symbol("dot", (Circle((0.0, 0.0), 1.0, Style(fill="#aa2200")),))
    few, many = (
        pdf_bytes(one_page(*(Place(dot, (5.0 + k, 20.0), 2.0 + k / 50) for k in range(count))))
        for count in (2, 200)
    )
    assert (len(many) - len(few)) / 198 < 80
    assert many.count(b"/Subtype /Form") == few.count(b"/Subtype /Form")


def test_one_symbol_name_for_two_is_refused() -> None:
    dots = [Symbol("dot", (Circle((0.0, 0.0), r, Style(fill="#aa2200")),)) for r in (1.0, 2.0)]
    with pytest.raises(ValueError, match="two different symbols"):
        pdf_bytes(one_page(*(Place(dot, (9.0, 9.0)) for dot in dots)))


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(whole: bytes, tmp_path: File) -> None:
    file = tmp_path / "whole.pdf"
    file.write_bytes(whole)
    checked = subprocess.run(["qpdf", "--check", file], capture_output=True, text=True, check=False)
    assert (checked.returncode, checked.stderr) == (0, "")


def test_repeated_names_become_blanks_of_the_same_length() -> None:
    once, twice = b"/XObject << /x5 5 0 R >>", b"/XObject << /x5 5 0 R /x5 5 0 R >>"
    assert without_repeats(twice) == b"/XObject << /x5 5 0 R" + b" " * 11 + b">>"
    assert without_repeats(once) == once


def test_a_language_that_is_none_is_said_to_be_undetermined() -> None:
    """BCP 47 (RFC 5646) keeps the tag und for that."""
    odd = replace(one_page(), language=") /Bad (")
    assert catalogue(pdf_bytes(odd))["/Lang"] == "und"


def test_a_file_without_a_plain_table_is_refused() -> None:
    with pytest.raises(ValueError, match="cross reference"):
        with_entries(b"%PDF-1.7\nnothing here", "en")


def test_control_characters_and_an_empty_title_are_written() -> None:
    odd = Document((everything(),), title="", author="A\x00B\ud800")
    found = read(pdf_bytes(odd)).metadata
    assert found is not None
    assert found.author == "A\ufffdB\ufffd"


def test_letters_of_the_packaged_font_are_text_where_they_are_seen() -> None:
    """Twice the words are not twice the outlines, and no word is there a second time, hidden."""
    line = Text((20.0, 20.0), "Zoë Łuk, Жук 30 ½", 5.0)
    more = tuple(replace(line, at=(20.0, 20.0 + 6 * row)) for row in range(40))
    few, many = (
        pdf_bytes(Document((Sheet(210.0, 297.0, items),), title="Words"))
        for items in ((line,), more)
    )
    assert len(many) - len(few) < 40 * 120
    text = PdfReader(BytesIO(few)).pages[0].extract_text()
    assert text.count("Zoë Łuk, Жук 30 ½") == 1
