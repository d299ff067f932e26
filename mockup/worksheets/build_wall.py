"""A wall of the build in words: its mesh to tie to, and its colour map to follow row by row."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.model import WallSpec
from mockup.design.wall_maps import runs
from mockup.lengths import format_length
from mockup.piece.extent import floor
from mockup.piece.placed import Piece
from mockup.piece.wall import mesh_of
from mockup.render.listing import Column, Heading, Part, Row, Table, Words
from mockup.render.sheets.map_pictures import MOST_ACROSS, MOST_DOWN, map_picture

_KEPT_IN_ORDER = 12
"""A row in more runs than this is written letter by letter: it is read faster so."""


def wall_parts(piece: Piece, wall: WallSpec) -> Iterator[Part]:
    """How to tie the wall, its map in parts that a page holds, and every row to be ticked."""
    title = piece.design.title
    yield Heading(f"{title}: tie to the mesh", f"{wall.shows}")
    yield Words(_tying(piece, wall))
    parts = list(_parts(wall))
    for number, (top, left) in enumerate(parts, start=1):
        down = min(top + MOST_DOWN, len(wall.rows))
        across = min(left + MOST_ACROSS, len(wall.rows[0]))
        where = f"rows {top + 1} to {down}, columns {left + 1} to {across}"
        many = f"part {number} of {len(parts)}, " if len(parts) > 1 else ""
        yield Heading(f"{title}: colour map", f"{many}{where}, seen from the front")
        yield map_picture(wall, piece.design.colours, (top, down), (left, across))
    yield Heading(f"{title}: row by row", "from the left, seen from the front")
    yield _rows(piece, wall)


def _tying(piece: Piece, wall: WallSpec) -> str:
    mesh, unit = mesh_of(piece.design, wall), piece.design.unit
    along, down = (format_length(mm, unit) for mm in (mesh.pitch, mesh.row_pitch))
    legend = ", ".join(
        f"{letter} {use.name}"
        for letter, use in piece.design.colours.items()
        if any(letter in row for row in wall.rows)
    )
    if wall.kind == "quad":
        both = format_length(2 * mesh.pitch, unit)
        how = (
            f"Tie quads, one for each two columns and two rows, to knots {both} apart, and turn "
            "each so that its colours lie as in the map: upper left first, then round by the clock."
        )
    else:
        moved = " Every second row is moved by half a balloon." if wall.staggered else ""
        how = f"Tie a balloon to every knot: columns {along} apart, rows {down} apart.{moved}"
    first = format_length(mesh.height / 2 - mesh.diameter / 2 - _ground(piece), unit)
    return (
        f"{how} The middles of row 1, the top one, lie {first} above the floor; the middle column "
        f"is the middle of the frame. Begin at the foot, where the wall carries nothing yet, and "
        f"tick each row. Colours: {legend}. A dot is a place without a balloon."
    )


def _ground(piece: Piece) -> float:
    return floor(piece.frame, piece.design.stand)


def _parts(wall: WallSpec) -> Iterator[tuple[int, int]]:
    """The first row and column, from 0, of every part of the map."""
    for top in range(0, len(wall.rows), MOST_DOWN):
        for left in range(0, len(wall.rows[0]), MOST_ACROSS):
            yield top, left


def _rows(piece: Piece, wall: WallSpec) -> Table:
    """Every row with its height and its colours, the lowest first: as it is built."""
    mesh, unit = mesh_of(piece.design, wall), piece.design.unit
    rows = []
    for number in range(len(wall.rows) - 1, -1, -1):
        row = wall.rows[number]
        high = format_length(float(mesh.row(number)[0][1]) - _ground(piece), unit)
        count = len(row) - row.count(".")
        rows.append(Row((f"{number + 1}", high, row_words(row), f"{count:,}")))
    columns = (
        Column("Row", 0.8, "end"),
        Column("Above the floor", 1.8, "end"),
        Column("Colours from the left", 9),
        Column("Balloons", 1.2, "end"),
    )
    return Table(columns, tuple(rows), ticks=True)


def row_words(row: str) -> str:
    """A row as it is read out: runs where they are few, else its letters in fives.

    >>> row_words("AAABBA"), row_words("ABABABABABABAB")
    ('3 A, 2 B, 1 A', 'ABABA BABAB ABAB')
    """
    found = runs(row)
    if len(found) > _KEPT_IN_ORDER:
        return " ".join(row[at : at + 5] for at in range(0, len(row), 5))
    return ", ".join(
        f"{count} {letter if letter != '.' else 'left out'}" for letter, count in found
    )
