"""Listings on paper: pages turn, heads repeat, and no label leaves its box."""

from __future__ import annotations

import pytest

from mockup.design.model import ColourUse
from mockup.render.listing import Column, Heading, Listing, Picture, Row, Table, Words
from mockup.render.record import Circle, Document, Group, Rect, Style, Text, walk
from mockup.render.sheets.listing_sheet import listing_document
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.paper import PAPERS

OAT = ColourUse("A", "oat", "#d8c7a5", "matte")
COLUMNS = (Column("What", 5), Column("How many", 2, "end"))


def dot(at: tuple[float, float]) -> tuple[Circle, ...]:
    return (Circle((at[0] + 5, at[1] + 5), 4.0, Style("#b3202c")),)


def listing(rows: int, name: str = "deep teal, matte", banner: str = "") -> Listing:
    table = Table(
        COLUMNS,
        (
            Row(("Hole 4 1/8 in", ""), lead=True),
            *(Row((f"{name} {n}", f"{n:,}"), swatch=OAT) for n in range(rows)),
        ),
        ticks=True,
    )
    parts = (
        Heading("Fill", "in order"),
        Words("Fill a little over."),
        table,
        Picture(dot, 10, 10, ""),
    )
    facts = (("Proof code", "1A2B3C4D"), ("Revision", "2"), ("Venue", name), ("Pieces", "13"))
    return Listing(
        "Ruby turns thirty",
        "Build sheet",
        parts,
        "Invented",
        facts,
        banner,
        "1A2B3C4D",
        "Larkfield",
    )


def texts(document: Document, role: str = "") -> list[list[str]]:
    return [
        [i.text for i in walk(s.items) if isinstance(i, Text) and (not role or i.role == role)]
        for s in document.sheets
    ]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("rows", [0, 3, 200])
@pytest.mark.parametrize(
    "name", ["oat", "a colour with a name that is far too long for its column"]
)
def test_no_label_meets_another_or_leaves_its_box(paper: str, rows: int, name: str) -> None:
    document = listing_document(listing(rows, name, "CHANGED SINCE APPROVAL " * 3), PAPERS[paper])
    for sheet in document.sheets:
        assert overlaps(sheet) == []


def test_every_row_stands_on_some_page_once_and_in_order() -> None:
    pages = texts(listing_document(listing(120), PAPERS["a4"]), "row")
    said = [text for page in pages for text in page if text.startswith("deep teal")]
    assert said == [f"deep teal, matte {n}" for n in range(120)]


def test_a_table_that_goes_on_names_its_columns_again() -> None:
    pages = texts(listing_document(listing(120), PAPERS["a4"]), "column")
    assert len(pages) > 2
    assert all(page == ["What", "How many"] for page in pages[:-1])


def test_a_heading_never_stands_alone_at_the_foot() -> None:
    for rows in range(25, 60):
        two = Listing("T", "K", (*listing(rows).parts, *listing(3).parts))
        for sheet in listing_document(two, PAPERS["a4"]).sheets:
            roles = [i.role for i in walk(sheet.items) if isinstance(i, Text)]
            flowing = [role for role in roles if role != "foot"]
            assert flowing[-1] not in ("heading", "column")


def test_the_banner_stands_at_the_top_of_every_page() -> None:
    pages = texts(listing_document(listing(120, banner="CHANGED"), PAPERS["a4"]), "banner")
    assert pages == [["CHANGED"]] * len(pages)


def test_each_page_is_numbered_and_names_what_it_is_about() -> None:
    pages = texts(listing_document(listing(120), PAPERS["a4"]), "foot")
    assert [page[1] for page in pages] == [
        f"Page {n} of {len(pages)}" for n in range(1, len(pages) + 1)
    ]
    assert all("1A2B3C4D" in page[0] for page in pages)


def test_rows_to_do_have_a_box_and_leads_have_none() -> None:
    document = listing_document(listing(5), PAPERS["a4"])
    cells = [i for s in document.sheets for i in walk(s.items) if isinstance(i, Group)]
    boxes = [
        r for c in cells if c.name == "row" for r in c.items if isinstance(r, Rect) and r.corner
    ]
    assert len(boxes) == 5
