"""The buy list as CSV and as a workbook, opened by second libraries."""

from __future__ import annotations

import csv
import re
import shutil
import subprocess
from decimal import Decimal
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from openpyxl import load_workbook

from mockup.design.studio import Bag, Material, OnHand, Studio
from mockup.stock.buy_csv import csv_bytes
from mockup.stock.buy_rows import BuyRow, buy_rows
from mockup.stock.buy_xlsx import xlsx_bytes
from mockup.stock.buying import BuyList, buy_list
from mockup.stock.picking import Counts, Fill, Kind, Need, Picking

NASTY = '=HYPERLINK("http://example.org")'


def bought() -> BuyList:
    def need(colour: str, count: int) -> Need:
        kind = Kind.of(127.0, colour, "matte")
        return Need(kind, colour, "#d8c7a5", count, 0, (Fill(104.14, count),))

    def bag(count: int, price: str, supplier: str = "") -> Bag:
        return Bag(127.0, "oat", "matte", count, Decimal(price), supplier)

    studio = Studio(
        bags=(bag(50, "6.80"), bag(100, "11.90"), bag(12, "2.35", NASTY)),
        on_hand=(OnHand(127.0, "oat", "matte", 31),),
        materials=(
            Material("line", "cluster", Decimal("0.4"), "m", Decimal(50), Decimal("2.90")),
            Material("weights", "piece", Decimal(1), price=Decimal(6), on_hand=Decimal(9)),
        ),
    )
    needs = (need("oat", 130), need(NASTY, 3))
    return buy_list(Picking(needs, counts=Counts(pieces=4, clusters=126)), studio)


ROWS = list(buy_rows(bought(), "in"))


def evaluated(sheet: Any) -> dict[str, float]:
    """Every formula worked out here, from the figures alone: products, MAX and SUM."""
    figures: dict[str, float] = {}

    def value(name: str) -> float:
        cell = sheet[name].value
        if isinstance(cell, str) and cell.startswith("="):
            figures[name] = figure(cell[1:])
            return figures[name]
        return float(cell or 0) if not isinstance(cell, str) else 0.0

    def summed(found: re.Match[str]) -> str:
        column, first, last = found[1], int(found[2]), int(found[3])
        return str(sum(value(f"{column}{row}") for row in range(first, last + 1)))

    def figure(formula: str) -> float:
        text = re.sub(r"SUM\((\w)(\d+):\w(\d+)\)", summed, formula)
        text = re.sub(r"\b([A-Z])(\d+)\b", lambda found: str(value(found[0])), text)
        top = re.fullmatch(r"MAX\(0,(.*)\)", text)
        terms = re.split(r"(?=[+-])", top[1] if top else text)
        total = 0.0
        for term in terms:
            product = 1.0
            for part in term.lstrip("+").split("*"):
                product *= float(part)
            total += product
        return max(0.0, total) if top else total

    for row in sheet.iter_rows():
        for cell in row:
            if cell.data_type == "f":
                value(cell.coordinate)
    return figures


def test_the_workbooks_formulas_give_the_lists_own_totals() -> None:
    data = xlsx_bytes(ROWS, "Ruby", "USD")
    sheet = load_workbook(BytesIO(data)).active
    figures = evaluated(sheet)
    stored = load_workbook(BytesIO(data), data_only=True).active
    assert figures
    for name, figure in figures.items():
        assert figure == pytest.approx(stored[name].value), name
    total = f"O{4 + len(ROWS)}"
    assert figures[total] == pytest.approx(float(bought().cost))


def test_what_is_to_buy_and_left_over_follows_in_the_workbook() -> None:
    sheet = load_workbook(BytesIO(xlsx_bytes(ROWS, "Ruby", "USD"))).active
    figures = evaluated(sheet)
    oat = next(n for n, row in enumerate(ROWS) if row.colour == "oat") + 4
    assert figures[f"I{oat}"] == 110
    assert figures[f"N{oat}"] == 2


def test_no_text_of_the_users_becomes_a_formula_or_a_link() -> None:
    sheet = load_workbook(BytesIO(xlsx_bytes(ROWS, NASTY, "USD", NASTY))).active
    texts = [c for row in sheet.iter_rows() for c in row if NASTY in str(c.value)]
    assert len(texts) >= 3
    assert {cell.data_type for cell in texts} == {"s"}
    assert all(cell.hyperlink is None for cell in texts)


def test_the_workbook_is_the_same_bytes_for_the_same_list() -> None:
    assert xlsx_bytes(ROWS, "Ruby", "USD") == xlsx_bytes(ROWS, "Ruby", "USD")


def read_csv(data: bytes) -> list[dict[str, str]]:
    assert data.startswith(b"\xef\xbb\xbf")
    return list(csv.DictReader(StringIO(data.decode("utf-8-sig"), newline="")))


def test_the_csv_holds_the_list_and_no_formula() -> None:
    data = csv_bytes(ROWS, "USD")
    rows = read_csv(data)
    assert data.count(b"\r\n") == data.count(b"\n") == len(ROWS) + 1
    assert sum(Decimal(row["Cost"]) for row in rows) == bought().cost
    cells = [cell for row in rows for cell in row.values()]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    assert f"'{NASTY}" in cells
    assert rows[0]["Size"] == "5 in"


def test_a_colour_that_no_bag_sells_stands_in_both() -> None:
    rows = [row for row in ROWS if row.note]
    assert [(row.colour, int(row.needed), row.packs) for row in rows] == [(NASTY, 3, 0)]
    assert "to find" in read_csv(csv_bytes(rows, "USD"))[0]["Note"]


def test_an_empty_list_is_a_workbook_too() -> None:
    rows: list[BuyRow] = []
    assert load_workbook(BytesIO(xlsx_bytes(rows, "Ruby", "USD"))).active["A4"].value == "Total"


@pytest.mark.skipif(
    shutil.which("soffice") is None,
    reason="no soffice (Debian: libreoffice-calc) here: only our own reckoner tries the formulas",
)
def test_libreoffice_works_the_formulas_out_to_the_same_totals(tmp_path: Path) -> None:
    """LibreOffice Calc (Debian) as an independent judge: the stored results are taken out first."""
    book = tmp_path / "buy.xlsx"
    with ZipFile(BytesIO(xlsx_bytes(ROWS, "Ruby", "USD"))) as own, ZipFile(book, "w") as bare:
        for name in own.namelist():
            text = own.read(name).decode()
            bare.writestr(name, re.sub(r"(</f>)<v>[^<]*</v>", r"\1", text))
    home = f"-env:UserInstallation=file://{tmp_path}/home"
    subprocess.run(
        ["soffice", home, "--headless", "--convert-to", "csv", "--outdir", tmp_path, book],
        check=True,
        capture_output=True,
        timeout=120,
    )
    rows = list(csv.reader(StringIO((tmp_path / "buy.csv").read_text(encoding="utf-8"))))
    total = next(row for row in rows if row[0] == "Total")
    assert Decimal(total[14].replace(",", "")) == bought().cost
    oat = next(row for row in rows if row[2] == "oat")
    assert (oat[8], oat[13]) == ("110", "2")
