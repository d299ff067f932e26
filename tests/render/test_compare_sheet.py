"""The comparison sheet: one scale, pictures in a row, nothing that collides."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.render.record import Group, Sheet, Text, walk
from mockup.render.sheets.compare import (
    Compared,
    CompareRow,
    NothingToCompare,
    compare_document,
)
from mockup.render.sheets.overlaps import PICTURE, overlaps

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="module")
def compared() -> list[Compared]:
    names = ("ruby-thirty", "trade-reference", "garden-arc")
    return [Compared(n, assemble(read_design(SAMPLES / f"{n}.toml"))) for n in names]


def rows(count: int) -> list[CompareRow]:
    marks = ("fewest", *[""] * (count - 1))
    return [CompareRow("Balloons", tuple(str(n) for n in range(count)), marks)]


def texts(sheet: Sheet) -> list[str]:
    return [item.text for item in walk(sheet.items) if isinstance(item, Text)]


def test_the_pictures_share_a_scale_and_a_sheet(compared: list[Compared]) -> None:
    document = compare_document("Three", compared, rows(3))
    (sheet,) = document.sheets
    pictures = [i for i in walk(sheet.items) if isinstance(i, Group) and i.kind == PICTURE]
    assert len(pictures) == 3
    assert sum("at scale 1:" in text for text in texts(sheet)) == 1
    assert overlaps(sheet) == []


def test_the_best_is_marked_in_words(compared: list[Compared]) -> None:
    (sheet,) = compare_document("Three", compared, rows(3)).sheets
    assert "0 (fewest)" in texts(sheet)


def test_more_than_five_go_on_with_another_sheet(compared: list[Compared]) -> None:
    seven = [*compared[:2], *compared[:2], *compared[:2], compared[0]]
    document = compare_document("Seven", seven, rows(7), paper="A3")
    assert len(document.sheets) == 2
    assert all(overlaps(sheet) == [] for sheet in document.sheets)


def test_nothing_is_not_compared() -> None:
    with pytest.raises(NothingToCompare):
        compare_document("None", [], [])
