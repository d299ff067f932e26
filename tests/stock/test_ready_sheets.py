"""Every sheet of an order, made without the command line, says what the command writes."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

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
