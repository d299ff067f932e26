"""Calibrated figures written into the studio book, its comments and order kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mockup.design.studio_reading import studio_from_text
from mockup.lengths import MM_PER, Unit
from mockup.spelling import plain_form
from mockup.stock.book_file import change_book


def write_share(book: Path, key: str, share: float) -> str:
    """Write ``squeeze`` or ``foil_shrink`` into the book; returns it as written."""
    written = f"{share * 100:.1f}%"

    def changed(text: str) -> str:
        import tomlkit

        document = _checked(text, book)
        if "calibrated" not in document:
            document.append("calibrated", tomlkit.table())
        document["calibrated"][key] = written
        return tomlkit.dumps(document)

    change_book(book, changed)
    return written


def write_pump(book: Path, name: str, strokes: float, gives: float, unit: Unit) -> None:
    """Write a pump into the book: over the one of that name, or as a new one.

    ``gives`` is in mm and is written in ``unit``.
    """
    values = {"strokes": _plain(strokes), "gives": f"{gives / MM_PER[unit]:.3f}{unit}"}

    def changed(text: str) -> str:
        import tomlkit

        document = _checked(text, book)
        pumps = document.get("pump", [])
        known = [pump for pump in pumps if plain_form(str(pump["name"])) == plain_form(name)]
        if known:
            known[0].update(values)
        else:
            _append(document, {"name": name, **values})
        return tomlkit.dumps(document)

    change_book(book, changed)


def _checked(text: str, book: Path) -> Any:
    """The book as it can be changed, once it reads without a fault."""
    import tomlkit

    studio_from_text(text, str(book))
    return tomlkit.parse(text)


def _append(document: Any, values: dict[str, Any]) -> None:
    import tomlkit
    from tomlkit.items import AoT

    if "pump" not in document:
        document.append("pump", tomlkit.aot())
    table = tomlkit.table() if isinstance(document["pump"], AoT) else tomlkit.inline_table()
    table.update(values)
    document["pump"].append(table)


def _plain(value: float) -> float | int:
    return int(value) if value == int(value) else value
