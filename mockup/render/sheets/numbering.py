"""Sheets that go out together bear their numbers of all, in the title block of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from mockup.render.record import Group, Item, Sheet, Text


def numbered(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Each sheet with "1 of 3", "2 of 3" ... for its number in the title block."""
    return tuple(_numbered(each, n, len(sheets)) for n, each in enumerate(sheets, start=1))


def _numbered(sheet: Sheet, number: int, count: int) -> Sheet:
    return replace(sheet, items=tuple(_renumber(sheet.items, f"{number} of {count}", within=False)))


def _renumber(items: tuple[Item, ...], says: str, *, within: bool) -> Iterator[Item]:
    for item in items:
        if isinstance(item, Group):
            inside = within or (item.kind, item.name) == ("cell", "Sheet")
            touched = inside or item.kind == "title block"
            yield (
                replace(item, items=tuple(_renumber(item.items, says, within=inside)))
                if touched
                else item
            )
        elif within and isinstance(item, Text) and item.role == "field":
            yield replace(item, text=says)
        else:
            yield item
