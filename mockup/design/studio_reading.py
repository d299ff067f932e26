"""A studio book read from its file: every fault with its line, every value with its origin."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import MISSING, fields
from pathlib import Path
from typing import Any, TypeVar

from mockup.design.faults import At, FaultList
from mockup.design.model import KeyPath
from mockup.design.opening import read_text
from mockup.design.studio import (
    Bag,
    Delivery,
    FoilOffer,
    Hire,
    Material,
    Minutes,
    OnHand,
    Pricing,
    Spares,
    Studio,
    StudioPump,
    Taken,
    TakenRow,
    WorkingDay,
)
from mockup.design.studio_keys import (
    CALIBRATED,
    DAY,
    DELIVERY,
    MINUTES,
    PRICE,
    SPARES,
    STUDIO,
)
from mockup.design.studio_tables import Source, read_toml
from mockup.design.tables import Given, Table
from mockup.spelling import plain_form

START = "'mockup studio new' writes one to start from"
Row = TypeVar("Row", StudioPump, Bag, FoilOffer, OnHand, Material, Hire)


def read_studio(path: Path) -> Studio:
    """The studio book at ``path``; raises ``FaultsFound`` with every fault of it."""
    return studio_from_text(read_text(path, START), str(path))


def studio_from_text(text: str, file_name: str) -> Studio:
    """The studio book that a text describes; raises ``FaultsFound`` with every fault.

    >>> studio_from_text('name = "Larkfield"\\n[spares]\\nleast = 2', "studio.toml").spares.least
    2
    """
    return read_toml(text, file_name, STUDIO, _studio)


def _studio(book: Given, source: Source) -> Studio:
    _told_apart(source.faults, book.tables("pump"), "pump", lambda p: plain_form(p.get("name", "")))
    _told_apart(source.faults, book.tables("on_hand"), "row of stock", _stock_key)
    _told_apart(
        source.faults, book.tables("material"), "material", lambda m: plain_form(m.get("name", ""))
    )
    _has_working_hours(source.faults, book.table("day"))
    width, height = book.get("doorway", [812.8, 2032.0])
    calibrated = _filled(book, "calibrated", CALIBRATED)
    return Studio(
        name=book.get("name", ""),
        contact=tuple(book.get("contact", [])),
        terms=book.get("terms", ""),
        currency=book.get("currency", "USD"),
        locale=book.get("locale", "en_US"),
        doorway=(width, height),
        pumps=_rows(book, "pump", StudioPump),
        squeeze=calibrated.get("squeeze", 0.10),
        foil_shrink=calibrated.get("foil_shrink", 0.12),
        bags=_rows(book, "bag", Bag),
        foils=_rows(book, "foil", FoilOffer),
        on_hand=_rows(book, "on_hand", OnHand),
        materials=_rows(book, "material", Material),
        spares=Spares(**_values(_filled(book, "spares", SPARES))),
        minutes=Minutes(**_values(_filled(book, "minutes", MINUTES))),
        pricing=Pricing(**_values(_filled(book, "price", PRICE))),
        hires=_rows(book, "hire", Hire),
        delivery=Delivery(**_values(_filled(book, "delivery", DELIVERY))),
        day=WorkingDay(**_values(_filled(book, "day", DAY))),
        taken=tuple(_taken(one) for one in book.tables("taken")),
        file=source.file,
        origins={path: source.where(path) for path in source.lines},
    )


def _filled(book: Given, key: str, table: Table) -> Given:
    """The table under a key; where the file has none, the same table with all its defaults."""
    found = book.table(key) or table.read({}, At(FaultList(), (key,)))
    return found or Given((key,), {})


def _values(table: Given) -> dict[str, Any]:
    return {key: value for key, value in table.values.items() if value is not None}


def _rows(book: Given, key: str, made: type[Row]) -> tuple[Row, ...]:
    """A row of data for each table that is whole; one that lacks a value is a fault already."""
    needed = {f.name for f in fields(made) if f.default is MISSING}
    rows = ((table, _values(table)) for table in book.tables(key))
    return tuple(made(**v, path=t.path) for t, v in rows if needed <= v.keys())


def _taken(table: Given) -> Taken:
    rows = (TakenRow(**_values(row)) for row in table.tables("rows") if row.get("count", None))
    return Taken(
        title=table.get("title", ""),
        code=table.get("code", ""),
        revision=table.get("revision", 1),
        rows=tuple(rows),
        path=table.path,
    )


def _stock_key(row: Given) -> Hashable:
    return (
        round(row.get("size", 0.0), 1),
        plain_form(row.get("colour", "")),
        row.get("finish", "matte"),
        row.get("numeral", ""),
    )


def _told_apart(
    faults: FaultList, rows: Iterable[Given], what: str, key: Callable[[Given], Hashable]
) -> None:
    """Two rows that mean the same thing: the second one is the fault."""
    seen: dict[Hashable, KeyPath] = {}
    for row in rows:
        if seen.setdefault(key(row), row.path) != row.path:
            faults.add(row.path, f"this {what} stands in the book twice", "keep one of them")


def _has_working_hours(faults: FaultList, day: Given | None) -> None:
    if day is None:
        return
    starts, ends = day.get("starts", None), day.get("ends", None)
    if starts is not None and ends is not None and starts >= ends:
        faults.add(day.at("ends"), "the day ends before it starts", 'write ends = "18:00"')
