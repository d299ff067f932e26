"""A studio book to start from: every key with its words, its usual figure and a right example."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.lists import ListOf
from mockup.design.studio_keys import STUDIO, TAKEN
from mockup.design.tables import Key, Table
from mockup.design.toml_text import as_toml

_HEAD = """\
# Your studio book: your own figures, for every piece in this folder and below.
# A line that begins with # holds nothing yet: take the # away and write your own figure.
# 'mockup studio show' tells which book is in force and where each figure comes from.
"""


def starter_book() -> str:
    """A commented studio book that holds the usual figures.

    >>> "# At least so many of each colour.\\nleast = 1" in starter_book()
    True
    """
    return "\n".join([_HEAD, *_plain_keys(), *_tables()]) + "\n"


def _plain_keys() -> Iterator[str]:
    for key in STUDIO.keys:
        if not isinstance(key.kind, Table) and not _is_rows(key):
            yield from _key_lines(key)


def _is_rows(key: Key) -> bool:
    return isinstance(key.kind, ListOf) and isinstance(key.kind.item, Table)


def _tables() -> Iterator[str]:
    for key in STUDIO.keys:
        if isinstance(key.kind, Table):
            yield f"\n# {key.words}\n[{key.name}]"
            for own in key.kind.keys:
                yield from _key_lines(own)
        elif isinstance(key.kind, ListOf) and isinstance(key.kind.item, Table):
            yield from _block(key.name, key.words, key.kind.item)


def _block(name: str, words: str, table: Table) -> Iterator[str]:
    """A row of a list as an example; none for the bookings, which the program writes itself."""
    if table is TAKEN:
        return
    yield f"\n# {words} One block like this for each.\n# [[{name}]]"
    yield from _example_lines(table)


def _key_lines(key: Key) -> Iterator[str]:
    """Its words, then the usual figure; an example behind # where there is none."""
    yield f"# {key.words}"
    if key.default is None:
        yield f"# {key.name} = {key.right_value()}"
    else:
        yield f"{key.name} = {as_toml(key.default)}"


def _example_lines(table: Table) -> Iterator[str]:
    for key in table.keys:
        must = "" if key.required or key.default is not None else " (may be left out)"
        yield f"# {key.name} = {key.right_value()}  # {key.words}{must}"
