"""Options side by side: the piece as it is and each [[option]] of its text, with their figures."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.bench.desk import Desk
from mockup.bench.edits import NotCarriedOut
from mockup.bench.looks import Look, picture
from mockup.design.options import options_from_text
from mockup.piece.assemble import assemble

if TYPE_CHECKING:
    from mockup.render.record import Document
    from mockup.suggest.comparing import Row, Version


def compared(desk: Desk, look: Look) -> dict[str, Any]:
    """Every version with its picture and what fails in it, and the rows of figures.

    Raises ``FaultsFound`` where an option says something wrong.
    """
    from mockup.suggest.comparing import rows

    with desk.lock:
        now, file, folder, version = desk.now, desk.file, desk.folder, desk.version
    if now.faults:
        raise NotCarriedOut("mend the text first: options are drawn of a piece without faults")
    versions = _versions(now.text, file.name if file else "piece.toml", folder)
    plain = look._replace(letters=False, dimensions=False, way=0)
    return {
        "version": version,
        "versions": [_told(each, plain) for each in versions],
        "rows": [_row(each) for each in rows(versions)],
    }


def _versions(text: str, name: str, folder: Path) -> list[Version]:
    from mockup.suggest.comparing import version
    from mockup.worksheets.expense import price_of

    price = price_of(folder)
    return [
        version(one.name, assemble(one.design), price)
        for one in options_from_text(text, name, folder)
    ]


def _told(version: Version, look: Look) -> dict[str, Any]:
    return {
        "name": version.name,
        "failing": [found.name for found in version.findings if found.verdict == "fails"],
        "drawing": picture(version.piece, look),
    }


def _row(row: Row) -> dict[str, Any]:
    return {
        "label": row.label,
        "cells": list(row.cells),
        "best": list(row.best),
        "word": row.best_word,
    }


def versions_document(text: str, file: Path) -> Document:
    """The same as sheets to print."""
    from mockup.render.sheets.compare import Compared, CompareRow, compare_document
    from mockup.suggest.comparing import rows

    versions = _versions(text, file.name, file.parent)
    lines = [
        CompareRow(row.label, row.cells, _marks(row.best, row.best_word)) for row in rows(versions)
    ]
    shown = [Compared(each.name, each.piece, "") for each in versions]
    return compare_document(versions[0].piece.design.title, shown, lines, about="", paper=None)


def _marks(best: Sequence[bool], word: str) -> tuple[str, ...]:
    return tuple(word if each else "" for each in best)
