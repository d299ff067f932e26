"""Every sheet of an order, made without the command line, says what the command writes."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from mockup.cli.main import mockup
from mockup.render.routes import make_pdf
from mockup.stock.order import Order
from mockup.worksheets.documents import (
    Unpriced,
    build_document,
    build_page,
    buy_document,
    cost_document,
    gauge_document,
    quote_document,
)
from mockup.worksheets.opening import paper_for, read_order

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
ISSUED = date(2027, 1, 10)


@pytest.fixture(scope="module")
def ring() -> Order:
    return read_order(JOBS / "alder-table-ring.toml")


def made(command: str, out: Path, *more: object) -> bytes:
    words = [command, JOBS / "alder-table-ring.toml", "-o", out, *more]
    done = CliRunner().invoke(mockup, [str(word) for word in words])
    assert done.exit_code == 0, (done.output, done.exception)
    return out.read_bytes()


def test_the_sheets_are_the_commands_own(ring: Order, tmp_path: Path) -> None:
    paper = paper_for(ring)
    pdf, own = tmp_path / "out.pdf", tmp_path / "own.pdf"
    assert made("buy", pdf) == make_pdf(buy_document(ring, paper)).data
    assert made("gauge", pdf) == make_pdf(gauge_document(ring, paper)).data
    assert made("build", pdf) == make_pdf(build_document(ring, paper)).data
    assert made("build", tmp_path / "out.html") == build_page(ring)
    quoted = made("quote", pdf, "--internal", own, "--date", ISSUED.isoformat())
    assert quoted == make_pdf(quote_document(ring, ISSUED, paper)).data
    assert own.read_bytes() == make_pdf(cost_document(ring, ISSUED, paper)).data


def test_no_quote_is_made_of_what_has_no_price(tmp_path: Path) -> None:
    book = tmp_path / "studio.toml"
    book.write_text('[[bag]]\nsize = "5in"\ncolour = "moss"\ncount = 50\nprice = 7\n', "utf-8")
    order = read_order(JOBS / "alder-table-ring.toml", book)
    with pytest.raises(Unpriced, match="No price in the studio book"):
        quote_document(order, ISSUED, paper_for(order))


def test_the_page_of_a_whole_piece_fits_a_phone_and_keeps_its_ticks(
    ring: Order, chromium: Browser, tmp_path: Path
) -> None:
    """360 CSS px is the width of a small phone."""
    path = tmp_path / "build.html"
    path.write_bytes(build_page(ring))
    context = chromium.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(path.as_uri())
    boxes = page.locator("input").count()
    page.get_by_label("quad ABAB").first.check()
    page.get_by_text(f"1 of {boxes} done").wait_for()
    page.reload()
    page.get_by_text(f"1 of {boxes} done").wait_for()
    ticked = page.get_by_label("quad ABAB").first.is_checked()
    wide = page.evaluate("document.documentElement.scrollWidth")
    said = page.locator("body").inner_text()
    context.close()
    assert ticked
    assert wide <= 360
    assert boxes > 40
    assert "fix 0: toward" in said
    assert "4 and 0: 1/2 in apart" in said
