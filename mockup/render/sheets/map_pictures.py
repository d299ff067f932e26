"""The colour map of a wall as a helper follows it: a cell a balloon, numbered rows and columns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from mockup.design.model import ColourUse, WallSpec
from mockup.render.letters import ink
from mockup.render.listing import Picture
from mockup.render.record import Circle, Item, Line, Point, Style, Text
from mockup.render.sheets.inks import HAIR, INK, SOFT, THIN

MOST_ACROSS, MOST_DOWN = 30, 30
"""How many columns and rows one part of the map holds."""

_CELL = 5.6
_LETTER, _NUMBER = 2.5, 1.8
_MARGIN = 7.0
_EVERY = 5
_EMPTY = Style("none", HAIR, THIN, dash=(0.5, 0.5))
_FIFTH = Style(stroke=SOFT, stroke_width=0.13)

Span = tuple[int, int]
"""From which row or column to before which one, from 0."""


def map_picture(
    wall: WallSpec, colours: Mapping[str, ColourUse], rows: Span, columns: Span
) -> Picture:
    """The map's cells of those rows and columns; numbers on all four sides, as in a crossword."""
    wide = (columns[1] - columns[0]) * _CELL + 2 * _MARGIN
    tall = (rows[1] - rows[0]) * _CELL + 2 * _MARGIN
    says = f"Colour map, rows {rows[0] + 1} to {rows[1]}, columns {columns[0] + 1} to {columns[1]}"
    return Picture(partial(_map, wall, colours, rows, columns), wide, tall, says)


def _map(
    wall: WallSpec, colours: Mapping[str, ColourUse], rows: Span, columns: Span, corner: Point
) -> tuple[Item, ...]:
    grid = (corner[0] + _MARGIN, corner[1] + _MARGIN)
    items: list[Item] = [*_numbers(rows, columns, grid), *_fifths(rows, columns, grid)]
    for row in range(*rows):
        letters = wall.rows[row]
        inset = (len(wall.rows[0]) - len(letters)) * _CELL / 2
        for column in range(columns[0], min(columns[1], len(letters))):
            x = grid[0] + (column - columns[0] + 0.5) * _CELL + inset
            y = grid[1] + (row - rows[0] + 0.5) * _CELL
            items += _cell(letters[column], colours, (x, y))
    return tuple(items)


def _cell(letter: str, colours: Mapping[str, ColourUse], at: Point) -> Iterator[Item]:
    radius = 0.47 * _CELL
    if letter not in colours:
        yield Circle(at, radius, _EMPTY)
        return
    srgb = colours[letter].srgb
    yield Circle(at, radius, Style(srgb, HAIR, THIN))
    foot = (at[0], at[1] + _LETTER / 2)
    yield Text(foot, letter, _LETTER, "middle", "bold", ink(srgb), role="letter", ground=srgb)


def _numbers(rows: Span, columns: Span, grid: Point) -> Iterator[Item]:
    """The number of every row at both sides and of every column above and below."""
    right = grid[0] + (columns[1] - columns[0]) * _CELL
    foot = grid[1] + (rows[1] - rows[0]) * _CELL
    for column in range(*columns):
        x = grid[0] + (column - columns[0] + 0.5) * _CELL
        for y in (grid[1] - 1.6, foot + 1.6 + _NUMBER):
            yield _number(column + 1, (x, y), "middle")
    for row in range(*rows):
        y = grid[1] + (row - rows[0] + 0.5) * _CELL + _NUMBER / 2
        yield _number(row + 1, (grid[0] - 1.4, y), "end")
        yield _number(row + 1, (right + 1.4, y), "start")


def _number(number: int, at: Point, anchor: str) -> Text:
    fifth = number % _EVERY == 0
    weight, colour = ("bold", INK) if fifth else ("regular", SOFT)
    return Text(at, f"{number}", _NUMBER, anchor, weight, colour, role="number")  # type: ignore[arg-type]  # one of the anchors and weights


def _fifths(rows: Span, columns: Span, grid: Point) -> Iterator[Item]:
    """Thin lines after every fifth row and column, so that an eye keeps its place."""
    right = grid[0] + (columns[1] - columns[0]) * _CELL
    foot = grid[1] + (rows[1] - rows[0]) * _CELL
    for column in range(*columns):
        if (column + 1) % _EVERY == 0 and column + 1 < columns[1]:
            x = grid[0] + (column - columns[0] + 1) * _CELL
            yield Line((x, grid[1]), (x, foot), _FIFTH)
    for row in range(*rows):
        if (row + 1) % _EVERY == 0 and row + 1 < rows[1]:
            y = grid[1] + (row - rows[0] + 1) * _CELL
            yield Line((grid[0], y), (right, y), _FIFTH)
