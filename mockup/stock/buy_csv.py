"""The buy list as CSV (RFC 4180) that spreadsheets open without a surprise."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from decimal import Decimal
from io import StringIO

from mockup.stock.buy_rows import BuyRow

TITLES = (
    *("What", "Size", "Colour", "Finish", "Filled", "Needed", "Spares", "On hand"),
    *("To buy", "Pack holds", "Packs", "Price", "Cost", "Currency", "Supplier", "Note"),
)
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(rows: Iterable[BuyRow], currency: str) -> bytes:
    """UTF-8 with its mark and CRLF line ends; text that would start a formula gets an apostrophe.

    Sizes carry their unit, so that none is taken for a date.
    """
    out = StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(TITLES)
    for row in rows:
        writer.writerow([_safe(cell) for cell in _cells(row, currency)])
    return out.getvalue().encode("utf-8-sig")


def _cells(row: BuyRow, currency: str) -> tuple[str, ...]:
    to_buy = max(Decimal(0), row.needed + row.spares - row.on_hand)
    counts = (row.needed, row.spares, row.on_hand, to_buy) if row.first else ()
    return (
        *(row.what, row.size, row.colour, row.finish, row.filled),
        *((plain(count) for count in counts) if counts else ("", "", "", "")),
        *(plain(row.pack), str(row.packs), plain(row.price), plain(row.cost)),
        *(currency, row.supplier, row.note),
    )


def plain(amount: Decimal) -> str:
    """A number without an exponent or trailing zeros.

    >>> plain(Decimal("50.40")), plain(Decimal("1E+2"))
    ('50.4', '100')
    """
    text = f"{amount:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _safe(cell: str) -> str:
    return f"'{cell}" if cell.startswith(_STARTS_A_FORMULA) else cell
