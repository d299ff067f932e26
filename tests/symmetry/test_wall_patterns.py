"""Patterns on a wall, by what neighbours must do and not by their formulas."""

from __future__ import annotations

import itertools

import pytest

from mockup.design.wall_keys import WALL, WALL_PATTERN_WORDS
from mockup.symmetry.wall_patterns import WALL_PATTERNS, wall_letters

SQUARE = [11] * 9
STAGGERED = [11, 10] * 4 + [11]


def test_the_piece_file_knows_every_pattern() -> None:
    assert WALL_PATTERNS == WALL_PATTERN_WORDS
    assert WALL.by_name["pattern"].kind.schema()["enum"] == list(WALL_PATTERNS)


@pytest.mark.parametrize("pattern", WALL_PATTERNS)
@pytest.mark.parametrize("lengths", [SQUARE, STAGGERED, [1], [2, 1], [1, 1, 1]])
@pytest.mark.parametrize(("letters", "each"), [("A", 1), ("AB", 2), ("ABC", 3)])
def test_every_cell_has_a_letter_of_the_order(
    pattern: str, lengths: list[int], letters: str, each: int
) -> None:
    rows = wall_letters(pattern, lengths, letters, each)
    assert [len(row) for row in rows] == lengths
    assert set("".join(rows)) <= set(letters)


@pytest.mark.parametrize("letters", ["AB", "ABC"])
def test_on_a_square_mesh_no_neighbours_are_alike(letters: str) -> None:
    rows = wall_letters("alternate", SQUARE, letters)
    assert all(a != b for row in rows for a, b in itertools.pairwise(row))
    assert all(a != b for one, two in itertools.pairwise(rows)
               for a, b in zip(one, two, strict=True))  # fmt: skip


def test_on_a_staggered_mesh_three_colours_keep_apart_all_round() -> None:
    """Three colours are needed and enough on the triangular lattice."""
    rows = wall_letters("alternate", STAGGERED, "ABC")
    for number, row in enumerate(rows):
        assert all(a != b for a, b in itertools.pairwise(row))
        if number % 2:
            for k, letter in enumerate(row):
                for other in (rows[number - 1], rows[number + 1]):
                    assert letter not in other[k : k + 2]


def test_bands_are_level_and_stripes_upright() -> None:
    bands = wall_letters("bands", SQUARE, "ABC", 2)
    assert [set(row) for row in bands[:6]] == [{"A"}, {"A"}, {"B"}, {"B"}, {"C"}, {"C"}]
    stripes = wall_letters("stripes", SQUARE, "AB", 3)
    assert set(stripes) == {"AAABBBAAABB"}


@pytest.mark.parametrize("lengths", [SQUARE, STAGGERED])
def test_diamonds_mirror_both_ways(lengths: list[int]) -> None:
    rows = wall_letters("diamond", lengths, "ABC", 2)
    assert list(rows) == [row[::-1] for row in rows]
    assert rows == rows[::-1]
    assert rows[4][5] == "A"


def test_a_gradual_change_goes_on_and_never_back() -> None:
    rows = wall_letters("gradual", SQUARE, "ABC")
    assert set(rows[0]) == {"A"}
    assert set(rows[-1]) == {"C"}
    place = [sum("ABC".index(letter) for letter in row) / len(row) for row in rows]
    assert place == sorted(place)
    assert max(b - a for a, b in itertools.pairwise(place)) <= 2 / 8 + 1 / 11


def test_blocks_are_chequered() -> None:
    rows = wall_letters("blocks", [6] * 6, "AB", 2)
    assert rows[:4] == ("AABBAA", "AABBAA", "BBAABB", "BBAABB")
