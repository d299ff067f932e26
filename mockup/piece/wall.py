"""A flat wall on its mesh: every single or quad where it is tied, row by row from the top."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from mockup.design.model import ClusterSpec, Design, SectionSpec, WallSpec
from mockup.design.wall_keys import NO_BALLOON
from mockup.design.wall_maps import runs
from mockup.lengths import format_length
from mockup.packing.meshes import Mesh
from mockup.packing.nesting import ClusterShape
from mockup.piece.extent import floor
from mockup.piece.placed import Piece
from mockup.piece.tying import Tied

QUAD_PLACES = ("upper left", "upper right", "lower right", "lower left")
"""Where the balloons of a quad on a wall lie, in the order in which they are tied round."""

Spot = tuple[float, float, float]


class Laid(NamedTuple):
    """Where a cluster is tied to the mesh, and where its balloons lie, mm."""

    knot: Spot
    spots: tuple[Spot, ...]


_ROUND = ((-1, 1), (1, 1), (1, -1), (-1, -1))


def mesh_of(design: Design, wall: WallSpec) -> Mesh:
    """The grid that the wall's rows lie on."""
    columns, rows = len(wall.rows[0]), len(wall.rows)
    return Mesh(columns, rows, wall.diameter, design.limits.squeeze, wall.staggered)


def tie_wall(design: Design) -> Iterator[Tied]:
    """Every cluster of the design's wall, if it has one."""
    wall = design.wall
    if wall is None:
        return
    mesh = mesh_of(design, wall)
    yield from _quads(wall, mesh) if wall.kind == "quad" else _singles(wall, mesh)


def _singles(wall: WallSpec, mesh: Mesh) -> Iterator[Tied]:
    """A balloon before each knot of the mesh."""
    for number, row in enumerate(wall.rows):
        section = _row_section(wall, number)
        for column, (letter, (x, y)) in enumerate(
            zip(row, mesh.row(number).tolist(), strict=True), start=1
        ):
            if letter != NO_BALLOON:
                spot = (x, y, wall.diameter / 2)
                yield _tied(wall, section, column, letter, Laid((x, y, 0.0), (spot,)))


def _quads(wall: WallSpec, mesh: Mesh) -> Iterator[Tied]:
    """Four balloons flat on the mesh round each knot, two by two."""
    half, deep = mesh.pitch / 2, wall.diameter / 2
    for number in range(0, len(wall.rows), 2):
        section = _row_section(wall, number // 2)
        upper, lower = wall.rows[number], wall.rows[number + 1]
        middles = (mesh.row(number) + mesh.row(number + 1)) / 2
        for column in range(0, len(upper), 2):
            x, y = ((middles[column] + middles[column + 1]) / 2).tolist()
            letters = upper[column : column + 2] + lower[column : column + 2][::-1]
            spots = tuple((x + a * half, y + b * half, deep) for a, b in _ROUND)
            yield _tied(wall, section, column // 2 + 1, letters, Laid((x, y, 0.0), spots))


def row_lines(piece: Piece, wall: WallSpec) -> Iterator[str]:
    """The wall row by row from the top, to be read out: how high it lies and its colours."""
    mesh, unit = mesh_of(piece.design, wall), piece.design.unit
    yield (
        f"{piece.design.title}: {mesh.columns} columns and {mesh.rows} rows, "
        f"{format_length(mesh.pitch, unit)} from column to column and "
        f"{format_length(mesh.row_pitch, unit)} from row to row; rows from the top, from the left"
    )
    ground = floor(piece.frame, piece.design.stand)
    for number, row in enumerate(wall.rows):
        high = format_length(float(mesh.row(number)[0][1]) - ground, unit)
        indent = " " if wall.staggered and number % 2 else ""
        said = "  ".join(f"{count} {letter}" for letter, count in runs(row))
        yield f"row {number + 1:>3}  {high:>10} up  {indent}{row}  {said}"


def _row_section(wall: WallSpec, number: int) -> SectionSpec:
    return SectionSpec(f"row {number + 1}", 0.0, None, (), (), pattern="any", path=wall.path)


def _tied(wall: WallSpec, section: SectionSpec, column: int, letters: str, laid: Laid) -> Tied:
    spec = ClusterSpec(
        wall.kind, wall.nominal, wall.diameter, wall.strokes, letters, path=wall.path
    )
    return Tied(
        section,
        spec,
        column,
        "middle",
        False,
        0.0,
        laid.knot[0],
        ClusterShape(len(laid.spots), wall.diameter),
        toward=(0.0, 1.0),
        spots=laid.spots,
        ties=(laid.knot,) * len(laid.spots),
        knot=laid.knot,
    )
