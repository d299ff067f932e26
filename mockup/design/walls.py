"""Flat walls in a piece file: from their table to the colour of every cell.

The map is made when the file is read, so that a design says all of what it shows: another picture
under the same name is another design, with another proof code.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import cast

from mockup.design.clusters import Filled, Ground, check_fill, filled_of
from mockup.design.frame_spec import WALL_FRAME
from mockup.design.model import FrameSpec, WallKind, WallSpec
from mockup.design.tables import Given
from mockup.design.wall_keys import MOST_BALLOONS, NO_BALLOON
from mockup.design.wall_maps import Asked, base_letters, pictured, worded
from mockup.lengths import format_length
from mockup.packing.meshes import Mesh, fitting

_QUAD_CELLS = 2
_ANOTHER = "take it out, or make it a piece of its own beside the wall"
_STRANGERS = {
    "section": _ANOTHER,
    "garland": _ANOTHER,
    "topper": _ANOTHER,
    "panel": 'take it out, and write letters = "..." in [wall], set in balloons',
}


def wall_of(
    file: Given, frame: FrameSpec, squeeze: float, ground: Ground, folder: Path | None
) -> tuple[WallSpec | None, FrameSpec]:
    """The wall of a file that has one or whose frame is one, and its frame."""
    table, framed = file.table("wall"), file.table("frame")
    faults = ground.faults
    if table is None:
        if not faults.touches(("wall",)):
            instead = 'write [wall] and what it shows, such as pattern = "diamond"'
            faults.add(frame.path, "the frame is a wall, and the file has no [wall]", instead)
        return None, frame
    if framed is None and "frame" not in file.written:
        frame = WALL_FRAME
    if frame.kind != "wall":
        if not faults.touches(frame.path):
            what = f"[wall] needs a frame that is a wall, and this one is of kind '{frame.kind}'"
            faults.add(frame.path, what, 'write kind = "wall" in [frame]')
        return None, frame
    for key, instead in _STRANGERS.items():
        if key in file.written:
            faults.add((key,), f"a wall has no '{key}'", instead)
    return _spec(table, framed.written if framed else frozenset(), frame, (squeeze, ground, folder))


def _spec(
    table: Given,
    written: frozenset[str],
    frame: FrameSpec,
    around: tuple[float, Ground, Path | None],
) -> tuple[WallSpec | None, FrameSpec]:
    """The wall, None after a fault, and its frame: as large as its rows where the file is silent.

    ``written`` are the keys that the frame's table has, ``around`` what holds for the whole file.
    """
    squeeze, ground, folder = around
    nominal: float = table.get("size", ground.size)
    filled: Filled = filled_of(table, nominal, ground)
    check_fill(filled, nominal, ground)
    if not _goes_together(table, ground):
        return None, frame
    mesh = _mesh(table, frame, Mesh(1, 1, filled.diameter, squeeze, _staggered(table)), ground)
    if mesh is None:
        return None, frame
    if "rows" in table.written:
        frame = replace(
            frame,
            width=frame.width if "width" in written else mesh.width,
            height=frame.height if "height" in written else mesh.height,
        )
    spec = WallSpec(
        kind=_kind(table),
        nominal=nominal,
        diameter=filled.diameter,
        strokes=filled.strokes,
        staggered=mesh.staggered,
        rows=(),
        path=table.path,
    )
    return _mapped(spec, mesh, table, ground, folder), frame


def _kind(table: Given) -> WallKind:
    return cast(WallKind, table.get("kind", "single"))


def _staggered(table: Given) -> bool:
    return bool(table.get("mesh", "square") == "staggered")


def _goes_together(table: Given, ground: Ground) -> bool:
    """Keys that need another one, and quads on a mesh that has no place for them."""
    faults, has = ground.faults, table.written
    if not has & {"rows", "letters", "picture", "pattern"}:
        what = "the wall does not say what it shows"
        faults.add(table.at("pattern"), what, 'write pattern = "diamond", letters, picture or rows')
        return False
    needs = {
        "order": ("pattern",), "each": ("pattern",), "high": ("letters",),
        "difference": ("picture",), "colours": ("letters", "picture"),
        "ground": ("letters", "picture"),
    }  # fmt: skip
    for key, others in needs.items():
        if key in has and not has & set(others):
            goes = " or ".join(f"'{other}'" for other in others)
            faults.add(table.at(key), f"'{key}' goes with {goes}", "take it out")
    if _kind(table) == "quad":
        _check_quads(table, ground)
    for key in ("order", "colours", "ground"):
        _check_known(table, key, ground)
    return not faults.touches(table.path)


def _check_quads(table: Given, ground: Ground) -> None:
    if _staggered(table):
        what = "quads lie on a square mesh, two by two"
        ground.faults.add(table.at("mesh"), what, 'take it out, or write kind = "single"')
    if table.get("ground", "") == "none":
        what = "quads are tied whole, so that no place can be left without a balloon"
        ground.faults.add(table.at("ground"), what, 'name a colour, or write kind = "single"')


def _check_known(table: Given, key: str, ground: Ground) -> None:
    written = table.values.get(key)
    letters = written if isinstance(written, str) and written != "none" else ""
    unknown = sorted(set(letters) - ground.known) if ground.known else []
    if unknown:
        what = f"'{unknown[0]}' in '{key}' is not among the colours"
        ground.faults.add(table.at(key), what, f"add {unknown[0]} to [colours]")


def _mesh(table: Given, frame: FrameSpec, alike: Mesh, ground: Ground) -> Mesh | None:
    """The grid of the rows as written, or the one that covers the frame best; as ``alike``."""
    by = _QUAD_CELLS if _kind(table) == "quad" else 1
    written = cast("list[str] | None", table.values.get("rows"))
    if written is not None:
        return _mesh_of_rows(written, alike, by, table, ground)
    if "rows" in table.written:
        return None
    mesh = fitting(
        frame.width,
        frame.height,
        alike.diameter,
        alike.squeeze,
        staggered=alike.staggered,
        by=by,
    )
    if mesh.count > MOST_BALLOONS:
        size = format_length(alike.diameter, ground.unit)
        what = f"a wall of that size takes {mesh.count:,} balloons of {size}"
        instead = f"a wall takes at most {MOST_BALLOONS:,}: larger balloons, or two pieces"
        ground.faults.add(table.path, what, instead)
        return None
    return mesh


def _mesh_of_rows(
    rows: Sequence[str], alike: Mesh, by: int, table: Given, ground: Ground
) -> Mesh | None:
    mesh = replace(alike, columns=len(rows[0]), rows=len(rows))
    for number, (row, length) in enumerate(zip(rows, mesh.lengths, strict=True)):
        what = instead = ""
        if len(row) != length or not row:
            what = f"row {number + 1} has {len(row)} letters, and must have {length}"
            instead = _right_rows(mesh)
        elif unknown := sorted(set(row) - ground.known - {NO_BALLOON}) if ground.known else []:
            what = f"'{unknown[0]}' in row {number + 1} is not among the colours"
            instead = f"add {unknown[0]} to [colours]"
        elif by > 1 and NO_BALLOON in row:
            what = f"row {number + 1} leaves out a balloon, and quads are tied whole"
            instead = 'write a letter there, or kind = "single"'
        if what:
            ground.faults.add((*table.at("rows"), number), what, instead)
            return None
    if mesh.columns % by or mesh.rows % by:
        what = f"{mesh.columns} columns and {mesh.rows} rows do not come out even in quads"
        ground.faults.add(table.at("rows"), what, "write an even number of both")
        return None
    if all(set(row) == {NO_BALLOON} for row in rows):
        ground.faults.add(table.at("rows"), "no row has a balloon", "write a letter for each")
        return None
    return mesh


def _right_rows(mesh: Mesh) -> str:
    if mesh.staggered:
        return "on a staggered mesh every second row has one letter less than the first"
    return "make every row as long as the first"


def _mapped(
    spec: WallSpec, mesh: Mesh, table: Given, ground: Ground, folder: Path | None
) -> WallSpec | None:
    """The wall with the letter of every cell."""
    if "rows" in table.written:
        return replace(spec, rows=tuple(cast("list[str]", table.values["rows"])), shows="rows")
    if not ground.letters:
        return None
    asked = Asked(table, mesh, ground, folder)
    pattern: str = table.get("pattern", "")
    base = replace(spec, rows=base_letters(asked), shows=f"pattern {pattern}")
    if "letters" in table.written:
        return worded(base, asked)
    return pictured(base, asked) if "picture" in table.written else base
