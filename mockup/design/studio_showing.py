"""Every figure of the studio book in force, each with where it comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from mockup.design.lines import key_lines
from mockup.design.lists import ListOf
from mockup.design.model import KeyPath
from mockup.design.opening import read_text
from mockup.design.studio_keys import STUDIO, TAKEN
from mockup.design.syntax import parse
from mockup.design.tables import Key, Table
from mockup.design.toml_text import as_toml
from mockup.records import dataclass

USUAL = "usual"
_LONGEST = 60


@dataclass(frozen=True)
class Shown:
    """One figure as a file would write it, and its origin: ``file:line``, or "usual"."""

    name: str
    value: str
    origin: str


@dataclass(frozen=True)
class _Book:
    file: Path | None
    data: Mapping[str, Any]
    lines: Mapping[KeyPath, int]

    def origin(self, path: KeyPath) -> str:
        return f"{self.file}:{self.lines[path]}" if path in self.lines else USUAL

    def one(self, key: Key, path: KeyPath, data: Mapping[str, Any]) -> Shown:
        value = data.get(key.name, key.default)
        written = "-" if value is None else _short(value)
        return Shown(".".join(map(str, path)), written, self.origin(path))


def shown_book(file: Path | None) -> Iterator[Shown]:
    """Every figure in the order of the key list; the usual ones where there is no book."""
    text = read_text(file) if file else ""
    book = _Book(file, parse(text).data or {}, key_lines(text))
    for key in STUDIO.keys:
        if isinstance(key.kind, Table):
            yield from _table(book, key.name, key.kind)
        elif isinstance(key.kind, ListOf) and isinstance(key.kind.item, Table):
            yield from () if key.kind.item is TAKEN else _rows(book, key.name)
        else:
            yield book.one(key, (key.name,), book.data)


def _short(value: object) -> str:
    text = as_toml(value)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def _table(book: _Book, name: str, table: Table) -> Iterator[Shown]:
    written = book.data.get(name)
    data = written if isinstance(written, dict) else {}
    return (book.one(key, (name, key.name), data) for key in table.keys)


def _rows(book: _Book, name: str) -> Iterator[Shown]:
    """A line for each row that the book writes; one that says so where it writes none."""
    written = book.data.get(name)
    rows = written if isinstance(written, list) else []
    if not rows:
        yield Shown(name, "none", USUAL)
    for place, row in enumerate(rows):
        said = ", ".join(f"{key} {_short(value)}" for key, value in row.items())
        yield Shown(f"{name} {place + 1}", said, book.origin((name, place)))
