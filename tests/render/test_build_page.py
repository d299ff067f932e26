"""The page for a phone: its words, its ticks after a reload, and that it asks for nothing."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

from playwright.sync_api import Browser, Page

from mockup.design.model import ColourUse
from mockup.render.build_page import page_bytes
from mockup.render.listing import Column, Heading, Listing, Part, Picture, Row, Table, Words
from mockup.render.record import Circle, Style

OAT = ColourUse("A", "oat", "#d8c7a5", "matte")


def dot(at: tuple[float, float]) -> tuple[Circle, ...]:
    return (Circle((at[0] + 5, at[1] + 5), 4.0, Style("#b3202c")),)


def listing(client: str = "Invented client", about: str = "Ruby, 1A2B3C4D, revision 1") -> Listing:
    columns = (Column("No.", 1, "end"), Column("Cluster", 5), Column("Turn", 2))
    rows = (
        Row(("", "top", ""), lead=True),
        Row(("1", "quad ABAB", "valley in"), picture=Picture(dot, 10, 10, "a quad")),
        Row(("2", "quad BABA", "point in"), swatch=OAT, tone="alarm"),
    )
    parts: tuple[Part, ...] = (
        Heading("Place", "in order"),
        Words("Mark the tube first.", tone="soft"),
        Picture(dot, 10, 10, "the piece"),
        Table(columns, rows, ticks=True),
    )
    return Listing(
        "Ruby turns thirty",
        "Build sheet",
        parts,
        client=client,
        facts=(("Revision", "1"),),
        banner="CHANGED SINCE APPROVAL",
        about=about,
        sender="Larkfield (invented)",
    )


class Tags(HTMLParser):
    """Every tag with its attributes, and whether each one opened was closed."""

    EMPTY = frozenset({"meta", "input", "img", "br"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))
        if tag not in self.EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_the_page_is_well_formed_and_loads_nothing() -> None:
    page = Tags(page_bytes(listing()).decode())
    assert page.open == []
    assert not [tag for tag, _ in page.found if tag in ("link", "iframe", "form")]
    sources = [attrs.get("src") or "" for _, attrs in page.found if "src" in attrs]
    assert len(sources) == 2
    assert all(source.startswith("data:image/svg+xml") for source in sources)
    assert "default-src 'none'" in str(page.found)


def test_each_row_to_do_has_one_box_of_its_own_name() -> None:
    boxes = [a["id"] for tag, a in Tags(page_bytes(listing()).decode()).found if tag == "input"]
    assert len(boxes) == len(set(boxes)) == 2


def test_what_a_client_is_called_is_text_and_never_markup() -> None:
    nasty = "<script>alert(1)</script> \"&' \x07"
    text = page_bytes(listing(client=nasty, about=nasty)).decode()
    assert text.count("<script>") == 1
    assert "&lt;script&gt;alert(1)" in text
    assert "\x07" not in text
    Tags(text)


def test_a_row_begins_with_its_number_and_what_it_is() -> None:
    text = page_bytes(listing()).decode()
    assert '<b class="main">1 quad ABAB</b>' in text
    assert '<small class="soft">Turn</small> valley in' in text


def test_the_words_are_those_of_the_listing() -> None:
    text = re.sub(r"<[^>]+>", " ", page_bytes(listing()).decode().split("</style>")[1])
    for words in ("CHANGED SINCE APPROVAL", "quad ABAB", "valley in", "Mark the tube first."):
        assert words in text


def _reloaded_until(page: Page, words: str) -> None:
    """A browser writes its storage behind the page's back: a reload can come before it has."""
    for _ in range(20):
        page.reload()
        if page.locator("#count").inner_text() == words:
            return


def test_ticks_survive_a_reload_and_the_page_fits_a_narrow_phone(
    chromium: Browser, tmp_path: Path
) -> None:
    path = tmp_path / "build.html"
    path.write_bytes(page_bytes(listing()))
    context = chromium.new_context(viewport={"width": 360, "height": 700})
    page = context.new_page()
    errors: list[str] = []
    page.on("console", lambda message: errors.append(message.text))
    page.goto(path.as_uri())
    page.locator("input").nth(1).check()
    page.get_by_text("1 of 2 done").wait_for()
    _reloaded_until(page, "1 of 2 done")
    ticked = [page.locator("input").nth(n).is_checked() for n in (0, 1)]
    said = page.locator("#count").inner_text()
    wide = page.evaluate("document.documentElement.scrollWidth")
    context.close()
    assert (ticked, said) == ([False, True], "1 of 2 done")
    assert wide <= 360
    assert errors == []
