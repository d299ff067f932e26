"""The colour map of a wall from a pattern, a word or a picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from mockup.design.clusters import Ground
from mockup.design.model import FarCell, WallSpec
from mockup.design.tables import Given
from mockup.design.wall_keys import NO_BALLOON
from mockup.packing.meshes import Mesh

Rows = tuple[str, ...]


class Asked(NamedTuple):
    """What a map is made from: the wall's table, its mesh, and what holds for the whole file."""

    table: Given
    mesh: Mesh
    ground: Ground
    folder: Path | None


def base_letters(asked: Asked) -> Rows:
    """What lies under a word or a picture: a pattern, one colour, or nothing."""
    table, lengths = asked.table, asked.mesh.lengths
    if "pattern" in table.written:
        from mockup.symmetry.wall_patterns import wall_letters  # only a pattern needs it

        order: str = table.get("order", "") or "".join(asked.ground.letters)
        each = int(table.get("each", 1))
        return wall_letters(table.get("pattern", "bands"), lengths, order, each)
    letter: str = table.get("ground", asked.ground.letters[0])
    return tuple((NO_BALLOON if letter == "none" else letter) * length for length in lengths)


def worded(base: WallSpec, asked: Asked) -> WallSpec | None:
    """The base with a word over it, as large as goes on it or as high as it is asked for."""
    from mockup.panel.mosaic import LEAST_ROWS, largest_word, letter_cells

    table, mesh = asked.table, asked.mesh
    text: str = table.get("letters", "")
    most = _most_rows(asked)
    word = largest_word(text, mesh.columns, mesh.rows, mesh.row_pitch / mesh.pitch, most)
    if word is None:
        what = f"'{text}' does not go on {mesh.columns} x {mesh.rows} balloons"
        instead = (
            f"letters need {LEAST_ROWS} rows: smaller balloons, a larger wall or fewer letters"
        )
        asked.ground.faults.add(table.at("letters"), what, instead)
        return None
    colours = _word_colours(base, asked)
    inks = _inks(text, colours)
    cells = letter_cells(word, mesh.columns, mesh.rows, mesh.lengths)
    rows = tuple(
        "".join(inks[k] if k >= 0 else under for k, under in zip(own, row, strict=True))
        for own, row in zip(cells, base.rows, strict=True)
    )
    return replace(base, rows=rows, shows=f"letters {text}", word_rows=word.rows)


def _most_rows(asked: Asked) -> int:
    high: float | None = asked.table.get("high", None)
    return asked.mesh.rows if high is None else max(1, round(high / asked.mesh.row_pitch))


def _word_colours(base: WallSpec, asked: Asked) -> str:
    """The colours of the letters: as written, or the first that the ground does not have."""
    written: str = asked.table.get("colours", "")
    under = set("".join(base.rows))
    free = [letter for letter in asked.ground.letters if letter not in under]
    return written or (free[0] if free else asked.ground.letters[-1])


def _inks(text: str, colours: str) -> list[str]:
    """The colour of every character of a text, dealt to those that are no blanks."""
    inks, dealt = [], 0
    for char in text:
        inks.append(colours[dealt % len(colours)])
        dealt += char != " "
    return inks


def pictured(base: WallSpec, asked: Asked) -> WallSpec | None:
    """The base with a picture over it, whole, as large as goes on it, in its middle."""
    from mockup.colour.mosaics import mean_colours, nearest_letter
    from mockup.design.pictures import pixels_in

    table, faults = asked.table, asked.ground.faults
    name: str = table.get("picture", "")
    pixels = pixels_in(name, asked.folder, table.at("picture"), faults)
    wanted: str = table.get("colours", "") or "".join(asked.ground.letters)
    shown = asked.ground.shown
    # A letter whose colour is at fault has none to be compared with; that is told by itself.
    letters = {letter: shown[letter] for letter in dict.fromkeys(wanted) if letter in shown}
    if pixels is None or not letters:
        return None
    seen = mean_colours(pixels, _boxes(asked.mesh, pixels.shape[1], pixels.shape[0]))
    rows = [list(row) for row in base.rows]
    limit, far = float(table.get("difference", 10)), []
    for (row, column, _, _), cell in zip(asked.mesh.cells(), seen, strict=True):
        if cell.colour:
            near = nearest_letter(cell.colour, letters)
            rows[row][column] = near.letter
            if near.away > limit:
                far.append(FarCell(row + 1, column + 1, cell.colour, near.letter, near.away))
    if all(letter == NO_BALLOON for row in rows for letter in row):
        what = f"the picture '{name}' is clear all over, so that no balloon is left"
        faults.add(table.at("picture"), what, "save it with a picture in it, or name a ground")
        return None
    furthest = max(far, key=lambda one: one.away, default=None)
    return replace(
        base,
        rows=tuple("".join(row) for row in rows),
        shows=f"picture {name}",
        difference=limit,
        far=len(far),
        furthest=furthest,
    )


def _boxes(mesh: Mesh, wide: int, high: int) -> Sequence[tuple[float, float, float, float]]:
    """Each cell's oblong in pixels; a pixel of a picture as large as the grid is one cell."""
    scale = max(wide / (mesh.columns * mesh.pitch), high / (mesh.rows * mesh.row_pitch))
    half, tall = mesh.pitch * scale / 2, mesh.row_pitch * scale / 2
    middles = ((wide / 2 + x * scale, high / 2 - y * scale) for _, _, x, y in mesh.cells())
    return [(x - half, y - tall, x + half, y + tall) for x, y in middles]


def counts(rows: Sequence[str]) -> dict[str, int]:
    """How many cells each letter has, the letters in order.

    >>> counts(("AB.", "BBB"))
    {'A': 1, 'B': 4}
    """
    every = "".join(rows)
    return {letter: every.count(letter) for letter in sorted(set(every) - {NO_BALLOON})}


def mirrored(rows: Sequence[str], which: str) -> list[tuple[int, int]]:
    """The cells (row and column from 0) that differ from their mirror, left/right or top/bottom.

    >>> mirrored(["AAB"], "left/right"), mirrored(["A", "A"], "top/bottom")
    ([(0, 0), (0, 2)], [])
    """
    other = [row[::-1] for row in rows] if which == "left/right" else list(rows)[::-1]
    # A row that is met by a longer or a shorter one lies half a balloon off it.
    return [
        (r, c)
        for r, (row, twin) in enumerate(zip(rows, other, strict=True))
        for c, letter in enumerate(row)
        if len(row) != len(twin) or letter != twin[c]
    ]


def runs(row: str) -> list[tuple[str, int]]:
    """A row as a helper reads it out: each colour and how many of it follow each other.

    >>> runs("AAB.A")
    [('A', 2), ('B', 1), ('.', 1), ('A', 1)]
    """
    found: list[tuple[str, int]] = []
    for letter in row:
        if found and found[-1][0] == letter:
            found[-1] = (letter, found[-1][1] + 1)
        else:
            found.append((letter, 1))
    return found
