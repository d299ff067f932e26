"""The comparison sheet: one scale, pictures in a row, nothing that collides."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.render.record import Group, Rect, Sheet, Text, walk
from mockup.render.sheets.cautions import cautions_for
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


def test_every_taper_is_drawn_with_its_section_and_its_end(compared: list[Compared]) -> None:
    (sheet,) = compare_document("Three", compared, rows(3)).sheets
    said = [text for text in texts(sheet) if text.endswith(" in") and ": " in text]
    assert "top and bottom: 4 1/2, 4 1/4, 4 1/8, 3 7/8, end 3 in" in said
    drawn = [i for i in walk(sheet.items) if isinstance(i, Group) and i.kind == "taper"]
    assert len(drawn) == len(said)


def test_crescents_that_differ_have_a_taper_each(compared: list[Compared]) -> None:
    piece = compared[0].piece
    top, bottom = piece.design.sections
    shorter = replace(bottom, right=bottom.right[:1], left=bottom.left[:1])
    unlike = assemble(replace(piece.design, sections=(top, shorter)))
    (sheet,) = compare_document("Unlike", [Compared("one", unlike)], rows(1)).sheets
    said = [text for text in texts(sheet) if text.startswith(("top:", "bottom:"))]
    assert said == ["top: 4 1/2, 4 1/4, 4 1/8, 3 7/8, end 3 in", "bottom: 4 1/2, 4 1/4, end 3 in"]


def test_the_sheet_carries_its_scale_bar_rulers_and_cautions(compared: list[Compared]) -> None:
    (sheet,) = compare_document("Three", compared, rows(3)).sheets
    groups = [i for i in walk(sheet.items) if isinstance(i, Group)]
    (bar,) = [g for g in groups if g.kind == "scale bar"]
    parts = [r for r in walk((bar,)) if isinstance(r, Rect)]
    long = max(r.x + r.width for r in parts) - min(r.x for r in parts)
    scale = next(int(t.split("1:")[1]) for t in texts(sheet) if "at scale 1:" in t)
    told = next(t for t in texts(sheet) if "must measure 2 in" in t)
    assert float(told.split(" in")[0]) * 25.4 / scale == pytest.approx(long)
    assert sum(g.kind == "check ruler" for g in groups) == 2
    whole = " ".join(texts(sheet))
    for piece in (each.piece for each in compared):
        for caution in cautions_for(piece):
            assert all(word in whole for word in caution.split())


def test_the_cautions_are_those_of_what_is_compared(compared: list[Compared]) -> None:
    """Foil is told of where there is some (the arc has no numerals), and once for all."""
    bare = [replace(compared[2], piece=assemble(replace(compared[2].piece.design, panel=None)))]
    for versions, count in ((bare, 0), (compared, 1)):
        (sheet,) = compare_document("Foil", versions, rows(len(versions))).sheets
        assert sum(text.startswith("Foil conducts") for text in texts(sheet)) == count
