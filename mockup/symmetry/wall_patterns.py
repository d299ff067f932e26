"""The colours that a pattern gives each balloon of a flat wall, row by row from the top.

In plain words, counted in balloons:

- *alternate*: each balloon another colour than the one beside it and the one above.
- *bands*: level bands, each ``each`` rows high.
- *stripes*: upright stripes, each ``each`` columns wide.
- *slant*: bands that move on by one balloon a row, ``each`` balloons wide.
- *blocks*: squares of ``each`` balloons a side, like a chequered board.
- *diamond*: nested diamonds round the middle, each ``each`` balloons wide.
- *gradual*: from the first colour at the top to the last at the foot, mixed more and more.

On a staggered mesh, where a row is moved by half a balloon, columns are counted by halves, so that
stripes stay upright and diamonds stay even.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

# Places that lie on a border between two colours must not fall either way by rounding.
_HAIR = 1e-9


class Cell(NamedTuple):
    """A cell by its row from the top, its number in the row, and its column, which may be half."""

    row: int
    number: int
    column: float


class Grid(NamedTuple):
    """What a pattern needs to know: the order of colours, its ``each``, and the grid's measures."""

    letters: str
    each: int
    rows: int
    columns: int
    staggered: bool

    def letter(self, place: int) -> str:
        """The colour at a place of the order, which goes round."""
        return self.letters[place % len(self.letters)]


def wall_letters(
    pattern: str, lengths: Sequence[int], letters: str, each: int = 1
) -> tuple[str, ...]:
    """The letters of every row of a wall whose rows have ``lengths`` cells.

    >>> wall_letters("alternate", [3, 3], "AB")
    ('ABA', 'BAB')
    >>> wall_letters("stripes", [3, 2, 3], "ABC")
    ('ABC', 'AB', 'ABC')
    """
    columns = max(lengths)
    grid = Grid(letters, each, len(lengths), columns, len(set(lengths)) > 1)
    if pattern == "gradual":
        return _gradual(lengths, letters)
    rule = _RULES[pattern]
    return tuple(
        "".join(
            rule(Cell(row, number, number + (columns - length) / 2), grid)
            for number in range(length)
        )
        for row, length in enumerate(lengths)
    )


def _alternate(cell: Cell, grid: Grid) -> str:
    # On a staggered mesh three colours keep apart all round; two can only take turns in a row.
    step = 2 * (cell.row % 2) if grid.staggered else cell.row
    return grid.letter(cell.number + step)


def _bands(cell: Cell, grid: Grid) -> str:
    return grid.letter(cell.row // grid.each)


def _stripes(cell: Cell, grid: Grid) -> str:
    return grid.letter(int(cell.column + _HAIR) // grid.each)


def _slant(cell: Cell, grid: Grid) -> str:
    along = cell.column + (cell.row / 2 if grid.staggered else cell.row)
    return grid.letter(int(along + _HAIR) // grid.each)


def _blocks(cell: Cell, grid: Grid) -> str:
    return grid.letter(int(cell.column + _HAIR) // grid.each + cell.row // grid.each)


def _diamond(cell: Cell, grid: Grid) -> str:
    across = abs(cell.column - (grid.columns - 1) / 2)
    down = abs(cell.row - (grid.rows - 1) / 2)
    far = across + (down / 2 if grid.staggered else down)
    return grid.letter(int(far + _HAIR) // grid.each)


def _gradual(lengths: Sequence[int], letters: str) -> tuple[str, ...]:
    """Row by row a larger share of the next colour, to the nearest balloon."""
    last, found = max(1, len(lengths) - 1), []
    for row, length in enumerate(lengths):
        place = row / last * (len(letters) - 1)
        low = min(int(place + _HAIR), len(letters) - 1)
        later = int((place - low) * length + 0.5)
        found.append(_strewn(letters[low], letters[min(low + 1, len(letters) - 1)], later, length))
    return tuple(found)


def _strewn(one: str, other: str, later: int, length: int) -> str:
    """``later`` balloons of the other colour strewn evenly over a row.

    >>> _strewn("A", "B", 3, 6), _strewn("A", "B", 1, 5)
    ('ABABAB', 'AABAA')
    """
    places = {int((k + 0.5) * length / later) for k in range(later)} if later else set()
    return "".join(other if k in places else one for k in range(length))


_RULES: dict[str, Callable[[Cell, Grid], str]] = {
    "alternate": _alternate,
    "bands": _bands,
    "stripes": _stripes,
    "slant": _slant,
    "blocks": _blocks,
    "diamond": _diamond,
}
WALL_PATTERNS = (*_RULES, "gradual")
"""The patterns of a wall by their words."""
