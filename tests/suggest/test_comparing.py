"""The rows of a comparison: the same figures as everywhere, and the right one called best."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.design.model import Design
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.suggest.comparing import LEAST, MOST, Expense, Row, Version, rows, version

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="module")
def versions() -> list[Version]:
    names = ("ruby-thirty", "trade-reference")
    pieces = [assemble(read_design(SAMPLES / f"{name}.toml")) for name in names]
    prices = iter((Expense(200.0, 30.0, "$30.00"), Expense(150.0, 30.0, "$30.00")))
    return [version(n, p, lambda _: next(prices)) for n, p in zip(names, pieces, strict=True)]


def row(versions: list[Version], label: str) -> Row:
    return next(row for row in rows(versions) if row.label == label)


def test_figures_are_those_of_the_piece(versions: list[Version]) -> None:
    balloons = row(versions, "Balloons")
    assert balloons.cells == tuple(str(len(v.piece.balloons)) for v in versions)
    crossings = row(versions, "Worst crossing").figures
    assert crossings == tuple(v.piece.nestling.crossing for v in versions)
    fits = [v.piece.fit for v in versions]
    largest = row(versions, "Largest numerals, filled").figures
    assert largest == tuple(fit.largest_height for fit in fits if fit)


def test_counts_by_size_and_colour_add_up(versions: list[Version]) -> None:
    for cell, each in zip(row(versions, "Of each").cells, versions, strict=True):
        counts = [int(line.split(" × ")[0]) for line in cell.split("\n")]
        assert sum(counts) == len(each.piece.balloons)


def turned(design: Design, *turns: float) -> Version:
    sections = tuple(
        replace(section, middle=section.middle and replace(section.middle, turn_deg=turn))
        for section, turn in zip(design.sections, turns, strict=True)
    )
    piece = assemble(replace(design, sections=sections))
    return version("turned", piece, lambda _: Expense(1.0))


def test_turns_are_told_where_they_differ(versions: list[Version]) -> None:
    design = versions[0].piece.design
    valley, mixed, point = (turned(design, *two) for two in ((45, 45), (45, 0), (0, 0)))
    assert row([valley, point], "Turned").cells == ("valley in", "point in")
    assert row([valley, mixed], "Turned").cells[1] == "top: valley in\nbottom: point in"
    assert "Turned" not in [row.label for row in rows([valley, valley])]


def test_the_best_is_marked_and_a_tie_is_not(versions: list[Version]) -> None:
    assert row(versions, "Minutes of build").best == (False, True)
    assert row(versions, "Material").best == (False, False)
    assert row(versions, "Overall").best == (False, False)


def test_what_reads_alike_is_equally_good() -> None:
    assert Row("r", ("1", "1", "2"), (1.01, 1.02, 2), "least", LEAST).best == (True, True, False)
    assert Row("r", ("1", "1"), (1.01, 1.02), "least", LEAST).best == (False, False)


def test_equals_share_the_best() -> None:
    assert Row("r", ("1", "1", "2"), (1, 1, 2), "least", LEAST).best == (True, True, False)
    assert Row("r", ("1", "", "2"), (1, None, 2), "most", MOST).best == (False, False, True)


def test_without_a_book_there_is_no_row_of_cost(versions: list[Version]) -> None:
    bare = [replace(each, expense=Expense(10.0)) for each in versions]
    assert "Material" not in [row.label for row in rows(bare)]
