"""Booking stock out of the studio book, once for each revision, and putting it back.

The book's own comments and order survive (tomlkit keeps them).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from mockup.design.studio import OnHand, Studio, Taken, TakenRow
from mockup.design.studio_reading import studio_from_text
from mockup.errors import MockupError
from mockup.spelling import plain_form
from mockup.stock.book_file import change_book
from mockup.stock.buying import BuyList, buy_list
from mockup.stock.picking import SIZE_DECIMALS, Picking


class AlreadyTaken(MockupError):
    """The stock of this revision has been booked out before."""


class NothingTaken(MockupError):
    """Nothing of this revision is booked out."""


@dataclass(frozen=True)
class Booking:
    """What a booking is for: the title of a piece or job, its proof code and its revision.

    ``single`` says that it is a piece alone, whose revision its approval log counts.
    """

    title: str
    code: str
    revision: int
    single: bool = False


def take(book: Path, booking: Booking, picking: Picking) -> tuple[TakenRow, ...]:
    """Book what ``picking`` takes from the shelf out of the book; returns the rows taken.

    Raises ``AlreadyTaken`` for a revision that was booked before, and ``CannotWrite``.
    """
    taken: list[tuple[TakenRow, ...]] = []

    def changed(text: str) -> str:
        studio = studio_from_text(text, str(book))
        _refuse_twice(studio, booking)
        rows = tuple(_rows(buy_list(picking, studio)))
        taken.append(rows)
        return _booked(text, studio, booking, rows)

    change_book(book, changed)
    return taken[-1]


def put_back(book: Path, booking: Booking) -> tuple[TakenRow, ...]:
    """Undo the booking of that title and revision; returns the rows put back.

    Raises ``NothingTaken`` where there is none, and ``CannotWrite``.
    """
    returned: list[tuple[TakenRow, ...]] = []

    def changed(text: str) -> str:
        studio = studio_from_text(text, str(book))
        entry = earlier(studio, booking)
        if entry is None:
            raise NothingTaken(
                f"{book}: nothing of '{booking.title}', revision {booking.revision}, is booked out"
            )
        returned.append(entry.rows)
        return _unbooked(text, studio, entry)

    change_book(book, changed)
    return returned[-1]


def earlier(studio: Studio, booking: Booking) -> Taken | None:
    """The booking of the same title and revision that stands in the book, if there is one."""
    wanted = (plain_form(booking.title), booking.revision)
    return next(
        (t for t in studio.taken if (plain_form(t.title), t.revision) == wanted),
        None,
    )


def _refuse_twice(studio: Studio, booking: Booking) -> None:
    entry = earlier(studio, booking)
    if entry is None:
        return
    other = "" if entry.code == booking.code else f", as another design ({entry.code})"
    raise AlreadyTaken(
        f"{studio.file}: '{booking.title}', revision {booking.revision}, is booked out "
        f"already{other}; put it back with --put-back first{_or_next(booking)}"
    )


def _or_next(booking: Booking) -> str:
    """How the next revision comes about, which is booked on its own."""
    if booking.single:
        return (
            " (a piece's own revision rises by itself once a changed design is approved, "
            "or drawn with 'mockup proof --final')"
        )
    return f", or write revision = {booking.revision + 1} into the job file and book that"


def _rows(bought: BuyList) -> Iterable[TakenRow]:
    for line in bought.balloons:
        if line.from_shelf:
            kind = line.need.kind
            yield TakenRow(Decimal(line.from_shelf), kind.size, line.need.name, kind.finish)
    for foil in bought.foils:
        if foil.from_shelf:
            own = foil.need.kind
            count = Decimal(foil.from_shelf)
            yield TakenRow(count, own.height, foil.need.name, own.finish, own.character)
    for material in bought.materials:
        if material.from_shelf:
            yield TakenRow(material.from_shelf, material=material.material.name)


def _booked(text: str, studio: Studio, booking: Booking, rows: tuple[TakenRow, ...]) -> str:
    document = _document(text)
    for row in rows:
        _add(document, studio, row, -row.count)
    _note(document, booking, rows)
    return _text(document)


def _unbooked(text: str, studio: Studio, entry: Taken) -> str:
    document = _document(text)
    for row in entry.rows:
        _add(document, studio, row, row.count)
    del document["taken"][entry.path[-1]]
    if not document["taken"]:
        del document["taken"]
    return _text(document)


def _document(text: str) -> Any:
    import tomlkit

    return tomlkit.parse(text)


def _text(document: Any) -> str:
    import tomlkit

    return tomlkit.dumps(document)


def _add(document: Any, studio: Studio, row: TakenRow, count: Decimal) -> None:
    """Change one figure of the shelf; balloons whose row is gone get a new one."""
    if row.material:
        table, key = "material", "on_hand"
        places = [m.path[-1] for m in studio.materials if _same(m.name, row.material)]
    else:
        table, key = "on_hand", "count"
        places = [own.path[-1] for own in studio.on_hand if _is_row(own, row)]
    if places:
        line = document[table][places[0]]
        line[key] = _plain(Decimal(str(line.get(key, 0))) + count)
    elif not row.material:
        _append(document, table, {**_shelf_row(row), key: _plain(count)})


def _same(one: str, other: str) -> bool:
    return plain_form(one) == plain_form(other)


def _is_row(own: OnHand, row: TakenRow) -> bool:
    return (
        round(own.size, SIZE_DECIMALS) == round(row.size, SIZE_DECIMALS)
        and _same(own.colour, row.colour)
        and own.finish == row.finish
        and own.numeral == row.numeral
    )


def _note(document: Any, booking: Booking, rows: tuple[TakenRow, ...]) -> None:
    written = [_written(row) for row in rows]
    entry = {"title": booking.title, "code": booking.code, "revision": booking.revision}
    _append(document, "taken", {**entry, "rows": written})


def _append(document: Any, table: str, values: dict[str, Any]) -> None:
    import tomlkit
    from tomlkit.items import AoT

    if table not in document:
        document.append(table, tomlkit.aot())
    rows = document[table]
    if isinstance(rows, AoT):
        rows.append(_toml_table(values))
    else:
        rows.append(_inline(values))


def _toml_table(values: dict[str, Any]) -> Any:
    import tomlkit

    table = tomlkit.table()
    for key, value in values.items():
        table.add(key, _list(value) if isinstance(value, list) else value)
    return table


def _list(rows: list[dict[str, Any]]) -> Any:
    import tomlkit

    written = tomlkit.array()
    written.extend(_inline(row) for row in rows)
    return written.multiline(len(rows) > 1)


def _inline(values: dict[str, Any]) -> Any:
    import tomlkit

    table = tomlkit.inline_table()
    table.update(values)
    return table


def _written(row: TakenRow) -> dict[str, Any]:
    if row.material:
        return {"material": row.material, "count": _plain(row.count)}
    return {**_shelf_row(row), "count": _plain(row.count)}


def _shelf_row(row: TakenRow) -> dict[str, Any]:
    size = f"{round(row.size, SIZE_DECIMALS):g}mm"
    own = {"size": size, "colour": row.colour, "finish": row.finish}
    return {**own, "numeral": row.numeral} if row.numeral else own


def _plain(amount: Decimal) -> int | float:
    return int(amount) if amount == int(amount) else float(amount)
