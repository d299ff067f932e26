"""Where the pages of a listing turn, and how wide its columns of figures are."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from mockup.render.listing import Column, Heading, Listing, Notes, Part, Row, Table, Words
from mockup.render.pdf import pdf_bytes
from mockup.render.record import Document, Text, walk
from mockup.render.sheets.listing_sheet import listing_document
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.paper import PAPERS


def rows(many: int, name: str = "row") -> Table:
    return Table(
        (Column("What", 5), Column("How many", 1, "end")),
        tuple(Row((f"{name} {n}", f"{n}")) for n in range(many)),
        ticks=True,
    )


def pages(*parts: Part, paper: str = "a4") -> list[list[str]]:
    """The texts of each page in the order in which they are set, without head and foot."""
    document = listing_document(Listing("T", "K", parts), PAPERS[paper])
    return [
        [
            item.text
            for item in walk(sheet.items)
            if isinstance(item, Text) and item.role not in ("title", "kind", "foot", "column")
        ]
        for sheet in document.sheets
    ]


def page_of(found: list[list[str]], text: str) -> int:
    return next(number for number, page in enumerate(found) if text in page)


@pytest.mark.parametrize("before", range(20, 48))
def test_what_is_short_is_not_broken_across_pages(before: int) -> None:
    found = pages(rows(before, "long"), Heading("Short"), rows(12, "short"), Words("its words"))
    told = {page_of(found, text) for text in ("Short", "short 0", "short 11", "its words")}
    assert len(told) == 1


@pytest.mark.parametrize("many", range(38, 60))
def test_a_long_table_leaves_three_rows_at_least_on_either_side(many: int) -> None:
    found = pages(Words("first"), Heading("Long"), rows(many))
    for page in found:
        own = [text for text in page if text.startswith("row")]
        assert len(own) >= 3 or page == ["first"], page


@pytest.mark.parametrize("before", range(1, 45, 4))
def test_a_whole_section_and_what_joins_it_share_a_page(before: int) -> None:
    parts = (
        rows(before, "long"),
        Heading("Price", whole=True),
        rows(20, "price"),
        Heading("Terms", joined=True),
        Words("The deposit holds the date."),
        Heading("Acceptance", joined=True),
        Words("I accept."),
    )
    found = pages(*parts)
    assert len({page_of(found, t) for t in ("Price", "price 0", "Terms", "I accept.")}) == 1


def test_a_whole_section_that_no_page_holds_goes_on_over_pages() -> None:
    found = pages(Words("first"), Heading("Price", whole=True), rows(150))
    said = [text for page in found for text in page if text.startswith("row")]
    assert said == [f"row {n}" for n in range(150)]
    assert len(found) > 3


def document_of(*cells: str) -> Document:
    table = Table(
        (Column("", 5), Column("Left", 0.2, "end"), Column("Cost", 0.2, "end")),
        tuple(Row(("clear line", cell, "$12,345.60")) for cell in cells),
    )
    return listing_document(Listing("T", "K", (table,)), PAPERS["letter"])


def test_a_column_of_figures_is_as_wide_as_its_widest() -> None:
    document = document_of("45.8 m", "1,234.5 m")
    texts = [i.text for i in walk(document.sheets[0].items) if isinstance(i, Text)]
    assert "45.8 m" in texts
    assert "1,234.5 m" in texts
    assert overlaps(document.sheets[0]) == []


def test_figures_too_wide_for_any_page_wrap_and_stay_in_their_cells() -> None:
    document = document_of("a figure that is far too long " * 6)
    assert overlaps(document.sheets[0]) == []


def test_cautions_are_printed_under_a_heading_of_their_own() -> None:
    listing = Listing("T", "K", (Words("x"), Notes(("Ask client and venue first.", "Measure."))))
    pdf = PdfReader(BytesIO(pdf_bytes(listing_document(listing, PAPERS["a4"]))))
    text = pdf.pages[0].extract_text()
    assert text.index("Please note") < text.index("Ask client and venue first.")
    assert "Measure." in text
