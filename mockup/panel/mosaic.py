"""Words set in balloons: our own letters drawn over the cells of a mesh.

A letter's box and its stroke take whole cells, so that upright and level strokes fall on whole
columns and rows; a cell belongs to a letter that covers enough of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import floor

import numpy as np
from numpy.typing import NDArray

from mockup.panel.numerals import stroked, usual_width
from mockup.records import dataclass

Floats = NDArray[np.float64]

LEAST_ROWS = 5
"""Capitals need five rows to be told apart (the 3 x 5 dot matrix, the smallest in use)."""
READS_WELL = 7
"""From seven rows on they read well (the 5 x 7 dot matrix of displays; common practice)."""

# A stroke is about this share of the height, in whole cells.
_STROKE, _GAP = 0.14, 0.14
# A slanting stroke one cell wide covers just under half of the two cells it passes between.
_ENOUGH = 0.44
_FINE = 6
_QUARTER = 0.25
# Widths are rounded rather up: narrow letters close their gaps first.
_UPWARD = 0.6


@dataclass(frozen=True)
class Word:
    """A word laid out in cells: ``rows`` high, each letter's first column and its columns."""

    text: str
    rows: int
    boxes: tuple[tuple[int, int], ...]
    stroke: int

    @property
    def columns(self) -> int:
        """From the first letter's left to the last one's right."""
        return self.boxes[-1][0] + self.boxes[-1][1]


def largest_word(text: str, columns: int, rows: int, share: float, most: int) -> Word | None:
    """The largest word of at most ``most`` rows that leaves a margin of one cell; None for none.

    ``share`` is the height of a row over the width of a column. Where the word alone fills the
    width, it may go from edge to edge.

    >>> word = largest_word("MIA", 21, 9, 1.0, 9)
    >>> word.rows, word.columns
    (7, 15)
    """
    for margin in (1, 0):
        for high in range(min(most, rows - 2 * margin), LEAST_ROWS - 1, -1):
            word = _word(text, high, share, columns)
            if word.columns <= columns - 2 * margin:
                return word
    return None


def _word(text: str, high: int, share: float, columns: int) -> Word:
    """The word at a height of so many rows; left over columns go evenly to both sides."""
    stroke = max(1, round(_STROKE * high))
    gap = max(1, round(_GAP * high))
    widths = [_width(usual_width(char, high * share), stroke) for char in text]
    if len(widths) % 2 == 0 and (columns - sum(widths) - gap * (len(widths) - 1)) % 2:
        # An odd number of gaps, each a cell wider, brings the word to the middle.
        gap += 1
    boxes, left = [], 0
    for width in widths:
        boxes.append((left, width))
        left += width + gap
    return Word(text, high, tuple(boxes), stroke)


def _width(usual: float, stroke: int) -> int:
    """Columns in pairs beside a middle stroke, so that an A or an M has a middle of its own."""
    return stroke + 2 * max(0, floor((usual - stroke) / 2 + _UPWARD))


def letter_cells(word: Word, columns: int, rows: int, lengths: Sequence[int]) -> list[list[int]]:
    """For every cell which letter of the word it belongs to, counted from 0; -1 for the ground.

    ``lengths`` are the cells of each row; a shorter row is moved in by half a cell.

    >>> cells = letter_cells(largest_word("I", 5, 7, 1.0, 7), 5, 7, [5] * 7)
    >>> cells[0], cells[1]
    ([-1, -1, -1, -1, -1], [-1, -1, 0, -1, -1])
    """
    left, foot = float((columns - word.columns) // 2), (rows - word.rows) // 2
    if len(set(lengths)) > 1:
        # Between two rows that lie half a cell apart, a stroke falls on one cell of either.
        left += _QUARTER
    cells = [[-1] * length for length in lengths]
    for number, (char, (x, width)) in enumerate(zip(word.text, word.boxes, strict=True)):
        if char == " ":
            continue
        shape = stroked(char, word.rows, width, word.stroke / 2)
        corner = np.array([left + x, float(foot)])
        strokes = [stroke + corner for stroke in shape.strokes]
        for row, column in _covered(strokes, shape.half_width, columns, rows, lengths):
            cells[row][column] = number
    return cells


def _covered(
    strokes: Sequence[Floats], half: float, columns: int, rows: int, lengths: Sequence[int]
) -> Iterator[tuple[int, int]]:
    """The cells of which strokes of ``half`` their width cover enough; rows from the top."""
    every = np.vstack(strokes)
    (x0, y0), (x1, y1) = every.min(axis=0) - half, every.max(axis=0) + half
    fine = (np.arange(_FINE) + 0.5) / _FINE
    for row in range(max(0, int(rows - y1)), min(rows, int(rows - y0) + 1)):
        inset = (columns - lengths[row]) / 2
        first, last = max(0, int(x0 - inset)), min(lengths[row], int(x1 - inset) + 1)
        if last <= first:
            continue
        x = (np.arange(first, last)[:, None] + inset + fine).ravel()
        y = rows - 1 - row + fine
        points = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
        inside = _near(points, strokes, half).reshape(last - first, _FINE * _FINE)
        for column in np.flatnonzero(inside.mean(axis=1) >= _ENOUGH).tolist():
            yield row, first + int(column)


def _near(points: Floats, strokes: Sequence[Floats], reach: float) -> NDArray[np.bool_]:
    """Whether each point lies on a stroke, square at its ends so that corners are whole cells."""
    near = np.zeros(len(points), dtype=np.bool_)
    for stroke in strokes:
        for (ax, ay), (bx, by) in pairwise(stroke.tolist()):
            off = points - (ax, ay)
            along = np.array([bx - ax, by - ay])
            long = float(np.hypot(*along)) or 1.0
            way = along / long
            s, t = off @ way, off @ np.array([-way[1], way[0]])
            near |= (np.abs(t) <= reach) & (s >= -reach) & (s <= long + reach)
    return near
