"""The buy list as a workbook (Office Open XML) whose sums follow when a figure is changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from io import BytesIO
from typing import Any

from mockup.stock.buy_rows import BuyRow

_UNDATED = datetime(2000, 1, 1)
_COLUMNS: tuple[tuple[str, int], ...] = (
    ("What", 16),
    ("Size", 10),
    ("Colour", 18),
    ("Finish", 9),
    ("Filled", 26),
    ("Needed", 9),
    ("Spares", 8),
    ("On hand", 9),
    ("To buy", 8),
    ("Pack holds", 10),
    ("Packs", 7),
    ("Price", 9),
    ("Bought", 8),
    ("Left over", 9),
    ("Cost", 10),
    ("Supplier", 18),
    ("Note", 32),
)
_TOP = 3
"""Rows above the first one of the list: title, a blank one, and the columns' titles."""


@dataclass(frozen=True)
class _Book:
    sheet: Any
    plain: Any
    bold: Any
    money: Any
    total: Any
    alarm: Any


def xlsx_bytes(rows: Sequence[BuyRow], title: str, currency: str, banner: str = "") -> bytes:
    """The workbook. Text is written as such, and never taken for a formula, a number or a link."""
    import xlsxwriter

    out = BytesIO()
    workbook = xlsxwriter.Workbook(out, {"in_memory": True})
    workbook.set_properties({"title": title, "created": _UNDATED})
    book = _opened(workbook)
    _heads(book, title, currency, banner)
    for place, row in enumerate(rows):
        _row(book, rows, place, row)
    _total(book, rows)
    workbook.close()
    return out.getvalue()


def _opened(workbook: Any) -> _Book:
    sheet = workbook.add_worksheet("Buy")
    sheet.freeze_panes(_TOP, 0)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(_TOP - 1)
    return _Book(
        sheet,
        workbook.add_format({"num_format": "0.##"}),
        workbook.add_format({"bold": True, "bottom": 1}),
        workbook.add_format({"num_format": "#,##0.00"}),
        workbook.add_format({"bold": True, "num_format": "#,##0.00", "top": 1}),
        workbook.add_format({"bold": True, "font_color": "#8f1d21"}),
    )


def _heads(book: _Book, title: str, currency: str, banner: str) -> None:
    book.sheet.write_string(0, 0, f"To buy for {title} (prices in {currency})", book.bold)
    if banner:
        book.sheet.write_string(1, 0, banner, book.alarm)
    for column, (name, width) in enumerate(_COLUMNS):
        book.sheet.write_string(_TOP - 1, column, name, book.bold)
        book.sheet.set_column(column, column, width)


def _row(book: _Book, rows: Sequence[BuyRow], place: int, row: BuyRow) -> None:
    line = _TOP + place
    at = line + 1  # as the formulas count
    words = (row.what, row.size, row.colour, row.finish, row.filled)
    for column, text in enumerate(words):
        book.sheet.write_string(line, column, text)
    if row.first:
        _counts(book, rows, place, row)
    book.sheet.write_number(line, 9, float(row.pack), book.plain)
    book.sheet.write_number(line, 10, row.packs, book.plain)
    book.sheet.write_number(line, 11, float(row.price), book.money)
    bought = float(row.pack * row.packs)
    book.sheet.write_formula(line, 12, f"=J{at}*K{at}", book.plain, bought)
    book.sheet.write_formula(line, 14, f"=K{at}*L{at}", book.money, float(row.cost))
    book.sheet.write_string(line, 15, row.supplier)
    book.sheet.write_string(line, 16, row.note, book.alarm)


def _counts(book: _Book, rows: Sequence[BuyRow], place: int, row: BuyRow) -> None:
    """Needed, spare, on the shelf; to buy and left over follow from them."""
    line, at = _TOP + place, _TOP + place + 1
    for column, count in ((5, row.needed), (6, row.spares), (7, row.on_hand)):
        book.sheet.write_number(line, column, float(count), book.plain)
    last = place + 1
    while last < len(rows) and not rows[last].first:
        last += 1
    to_buy = max(Decimal(0), row.needed + row.spares - row.on_hand)
    bought = sum((one.pack * one.packs for one in rows[place:last]), Decimal(0))
    book.sheet.write_formula(line, 8, f"=MAX(0,F{at}+G{at}-H{at})", book.plain, float(to_buy))
    left = f"=MAX(0,SUM(M{at}:M{_TOP + last})-I{at})"
    book.sheet.write_formula(line, 13, left, book.plain, float(max(Decimal(0), bought - to_buy)))


def _total(book: _Book, rows: Sequence[BuyRow]) -> None:
    line, last = _TOP + len(rows), _TOP + len(rows)
    cost = sum((row.cost for row in rows), Decimal(0))
    book.sheet.write_string(line, 0, "Total", book.total)
    formula = f"=SUM(O{_TOP + 1}:O{last})" if rows else "=0"
    book.sheet.write_formula(line, 14, formula, book.total, float(cost))
