"""Words set in balloons: placed whole, apart, even, and told from each other."""

from __future__ import annotations

import itertools
from string import ascii_uppercase

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.panel.mosaic import LEAST_ROWS, largest_word, letter_cells


def drawn(text: str, columns: int, rows: int) -> list[str]:
    word = largest_word(text, columns, rows, 1.0, rows)
    assert word is not None
    cells = letter_cells(word, columns, rows, [columns] * rows)
    return ["".join("." if k < 0 else "#" for k in row) for row in cells]


def test_a_letter_stands_as_it_is_written() -> None:
    assert drawn("T", 7, 9) == [
        ".......",
        ".#####.",
        "...#...",
        "...#...",
        "...#...",
        "...#...",
        "...#...",
        "...#...",
        ".......",
    ]


@pytest.mark.parametrize("rows", [9, 12, 16])
def test_letters_and_numerals_are_told_apart(rows: int) -> None:
    known = ascii_uppercase + "0123456789&"
    shapes = {tuple(drawn(char, 24, rows)) for char in known}
    # An O and a 0 are one outline in most lettering.
    assert len(shapes) >= len(known) - 1


@pytest.mark.parametrize("char", "AHIMOTUVWXY8")
@pytest.mark.parametrize(("columns", "rows"), [(15, 9), (17, 12), (20, 17)])
def test_an_even_letter_is_even_to_the_last_balloon(char: str, columns: int, rows: int) -> None:
    word = largest_word(char, columns, rows, 1.0, rows)
    assert word is not None
    wide = columns if (columns - word.columns) % 2 == 0 else columns - 1
    cells = drawn(char, wide, rows)
    assert cells == [row[::-1] for row in cells]


@settings(max_examples=60, deadline=None)
@given(
    st.text(alphabet=ascii_uppercase, min_size=1, max_size=6),
    st.integers(5, 60),
    st.integers(5, 24),
    st.booleans(),
)
def test_a_word_stays_on_the_wall_and_its_letters_apart(
    text: str, columns: int, rows: int, staggered: bool
) -> None:
    word = largest_word(text, columns, rows, 1.0, rows)
    if word is None:
        return
    lengths = [columns - (k % 2 if staggered else 0) for k in range(rows)]
    cells = letter_cells(word, columns, rows, lengths)
    assert [len(row) for row in cells] == lengths
    assert LEAST_ROWS <= word.rows <= rows
    assert word.columns <= columns
    found = {k for row in cells for k in row if k >= 0}
    assert found == set(range(len(text)))
    if not staggered:
        for row in cells:
            beside = itertools.pairwise(row)
            assert all(a == b or a < 0 or b < 0 for a, b in beside)


def test_a_word_that_does_not_go_on_is_none() -> None:
    assert largest_word("MIA", 40, LEAST_ROWS - 1, 1.0, 99) is None
    assert largest_word("MIAMIA", 12, 20, 1.0, 99) is None
