"""The price: a worked example by hand, laws, and that no cost reaches the client."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from mockup.cli.main import mockup
from mockup.design.job import Job
from mockup.design.job_reading import read_job
from mockup.design.studio import Pricing, Studio
from mockup.design.studio_reading import read_studio
from mockup.render.listing import Row, Table, Words
from mockup.stock.money import in_coins, money
from mockup.stock.order import Order, order
from mockup.stock.quoting import ClientQuote, priced, quote
from mockup.worksheets.quote_sheet import client_listing, internal_listing

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
ISSUED = date(2027, 1, 10)


@pytest.fixture(scope="module")
def alder() -> Order:
    return order(read_job(JOBS / "alder-weekend.toml"), read_studio(JOBS / "studio.toml"))


def with_pricing(own: Order, pricing: Pricing) -> Order:
    return replace(own, studio=replace(own.studio, pricing=pricing))


def test_the_sample_job_worked_by_hand(alder: Order) -> None:
    """Every figure below was added up by hand from samples/jobs/studio.toml.

    Balloons (counts from the layout): 240 + 20 spare in three bags of 100, 144 + 12 in three of 50
    and one of 12, 38 + 4 twice in two of 25; foils 24 x 1.80; glue 1 x 4.50; line 1 x 2.90; 13
    weights x 6; cloths 1 x 4. Labour at 32.00 an hour, each task rounded. Mark-up 35 %. Hire 13 x
    12; delivery 25 + 12 x 0.90, one way. Tax 8.25 %, deposit 30 %.
    """
    quoted = quote(alder, ISSUED)
    materials = sum(
        map(Decimal, ("35.70", "23.65", "15.80", "16.40", "43.20", "4.50", "2.90", "78", "4"))
    )
    minutes = {
        "prepare": Decimal(20),
        "inflate": Decimal("0.5") * 460,
        "tie": Decimal("0.75") * 139,
        "place": Decimal("1.5") * 139,
        "numeral": Decimal(6) * 24,
        "finish": Decimal(15) * 13,
        "load": Decimal(10) * 13,
        "drive": Decimal(40) * 2,  # there and back
        "set_up": Decimal(15) * 13,
        "take_down": Decimal(10) * 13,
    }
    cent = Decimal("0.01")
    labour = [(m * 32 / 60).quantize(cent, ROUND_HALF_UP) for m in minutes.values()]
    work = ((materials + sum(labour)) * Decimal("1.35")).quantize(cent, ROUND_HALF_UP)
    net = work + 13 * 12 + 25 + Decimal("10.80")
    tax = (net * Decimal("0.0825")).quantize(cent, ROUND_HALF_UP)
    assert quoted.materials == materials == Decimal("224.15")
    assert [line.cost for line in quoted.labour] == labour
    assert quoted.work == work
    assert (quoted.client.net, quoted.client.tax) == (net, tax)
    assert quoted.client.total == net + tax == Decimal("1655.00")
    assert quoted.client.deposit == Decimal("496.50")
    assert quoted.client.balance == Decimal("1158.50")
    assert quoted.client.valid_until == date(2027, 1, 31)


def test_the_page_adds_up_line_by_line(alder: Order) -> None:
    client = quote(alder, ISSUED).client
    assert sum(line.amount for line in client.lines) == client.net
    assert client.net + client.tax == client.total == client.deposit + client.balance


SHARES = st.decimals(0, Decimal("0.9"), places=3)
COSTS = st.decimals(0, 100_000, places=2)


@given(COSTS, SHARES)
def test_a_margin_is_what_is_left_of_the_price(cost: Decimal, margin: Decimal) -> None:
    price = priced(cost, Pricing(margin=margin))
    assert abs((price - cost) - price * margin) < Decimal("1e-12")


@given(COSTS, SHARES)
def test_a_mark_up_never_prices_below_cost(cost: Decimal, markup: Decimal) -> None:
    assert priced(cost, Pricing(markup=markup)) == cost + cost * markup >= cost


@pytest.mark.parametrize(
    ("amount", "currency", "rounded"),
    [
        ("2.345", "USD", "2.35"),
        ("2.5", "JPY", "3"),
        ("1.0005", "KWD", "1.001"),
        ("0.004", "EUR", "0"),
    ],
)
def test_rounding_is_to_the_currencys_smallest_coin_half_up(
    amount: str, currency: str, rounded: str
) -> None:
    """ISO 4217 minor units: 2 for USD and EUR, none for JPY, 3 for KWD."""
    assert in_coins(Decimal(amount), currency) == Decimal(rounded)


def test_money_is_written_as_the_locale_writes_it() -> None:
    """CLDR: German groups with a point and sets the sign after; Indian English groups by lakh."""
    assert money(Decimal("123456.7"), "EUR", "de_DE") == "123.456,70\xa0€"
    assert money(Decimal("123456.7"), "INR", "en_IN") == "₹1,23,456.70"


def test_the_shelf_does_not_change_the_price(alder: Order) -> None:
    bare = replace(alder, studio=replace(alder.studio, on_hand=()))
    assert quote(bare, ISSUED).client == quote(alder, ISSUED).client


def words(parts: object) -> str:
    said: list[str] = []
    for part in parts if isinstance(parts, tuple) else ():
        if isinstance(part, Words):
            said.append(part.text)
        elif isinstance(part, Table):
            said += [" ".join(row.cells) for row in part.rows if isinstance(row, Row)]
    return "\n".join(said)


def test_the_clients_quote_holds_no_cost_and_the_internal_page_says_what_it_is(
    alder: Order,
) -> None:
    quoted = quote(alder, ISSUED)
    client = words(client_listing(alder, quoted.client, ISSUED).parts)
    own = internal_listing(alder, quoted, ISSUED)
    secret = [quoted.cost, quoted.materials, quoted.labour_cost, quoted.gain]
    secret += [line.cost for line in quoted.labour]
    secret += [line.cost for line in quoted.bought.balloons]
    figures = {money(amount, "USD", "en_US") for amount in secret}
    public = {line.amount for line in quoted.client.lines}
    assert not {figure for figure in figures if figure in client}
    assert not public & set(secret)
    for word in ("ost and margin", "mark-up", "an hour", "35%", "market hall"):
        assert word not in client
    assert all(figure in words(own.parts) for figure in figures)
    assert "Not for the client" in own.banner


def test_no_field_of_the_clients_data_is_a_cost() -> None:
    names = {field.name for field in fields(ClientQuote)}
    assert names == {"lines", "net", "tax", "total", "deposit", "valid_until"}


def test_a_colour_without_a_price_stops_the_clients_quote_and_not_the_internal_page(
    tmp_path: Path,
) -> None:
    book = tmp_path / "studio.toml"
    book.write_text('[[bag]]\nsize = "5in"\ncolour = "moss"\ncount = 50\nprice = 7\n', "utf-8")
    paths = ["-o", tmp_path / "q.pdf", "--internal", tmp_path / "i.pdf", "--book", book]
    done = CliRunner().invoke(mockup, ["quote", str(JOBS / "alder-arch.toml"), *map(str, paths)])
    assert "no quote for the client" in str(done.exception)
    assert "ivory husk, matte" in str(done.exception)
    assert not (tmp_path / "q.pdf").exists()
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "i.pdf").pages)
    assert "left out here" in text
    assert "NOT FOR THE CLIENT" in text.upper()


def test_the_command_writes_two_files_that_never_mix(tmp_path: Path) -> None:
    job, out, own = JOBS / "alder-weekend.toml", tmp_path / "q.pdf", tmp_path / "i.pdf"
    words = ["quote", job, "-o", out, "--internal", own, "--date", "2027-01-10"]
    done = CliRunner().invoke(mockup, [str(word) for word in words])
    assert done.exit_code == 0, done.output
    assert "$1,655.00" in done.output
    texts = ["".join(p.extract_text() for p in PdfReader(path).pages) for path in (out, own)]
    assert all("$1,655.00" in text for text in texts)
    assert ["$224.15" in text for text in texts] == [False, True]
    assert "January 31, 2027" in texts[0]


def test_an_empty_book_prices_nothing_and_fails_nothing(alder: Order) -> None:
    own = replace(alder, studio=Studio(), job=replace(alder.job, distance=Decimal(0)))
    quoted = quote(own, ISSUED)
    assert quoted.client.total == quoted.margin == Decimal(0)
    assert len(quoted.unpriced) == 6
    assert isinstance(own.job, Job)
