"""The words of an elevation: its pieces by their marks, what was checked, and what to note."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from mockup.lengths import Unit, format_room
from mockup.piece.elevation.standing import Elevation, Standing
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.record import Circle, Item, Point, Style
from mockup.render.sheets.answers import Answer
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.blocks import Blocks, Words
from mockup.render.sheets.cautions import cautions_for
from mockup.render.sheets.columns import Beside, Stack, Under, Way
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import INK, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering

BESIDE: tuple[Way, ...] = (
    Beside((Stack(("pieces", "answers"), ("cautions",)),)),
    Beside((Stack(("pieces", "answers")),), "cautions in three"),
    Beside((Stack(("pieces", "answers")), Stack(("cautions",))), wide=25.0, grid=2),
)
UNDER: tuple[Way, ...] = (
    Under(((1, Stack(("pieces",))), (1, Stack(("answers",))), (1, Stack(("cautions",))))),
    Under(((2, Stack(("pieces", "cautions in two"))), (1, Stack(("answers",))))),
)
_APPROVED = "Each piece is approved on a proof of its own; this sheet shows them together."
_WAYS = "Clear widths are measured up to head height. Local fire and access codes decide."
_MARK = 0.95
"""Radius of a mark, in heights of the body lettering."""


@dataclass(frozen=True)
class Row:
    """One row of the job as it is listed."""

    mark: int
    says: str
    beneath: tuple[str, ...]


class ElevationBlocks(Blocks):
    """The blocks of a sheet that lists pieces instead of colours."""

    def __init__(self, lettering: Lettering, words: Words, rows: tuple[Row, ...]) -> None:
        super().__init__(lettering, words)
        self._builders["pieces"] = partial(pieces_block, lettering=lettering, rows=rows)


def rows_of(elevation: Elevation, codes: dict[int, str]) -> tuple[Row, ...]:
    """How each row of the job is listed; ``codes`` are the proof codes by the row's number."""
    return tuple(_row(elevation, row, codes[row[0].row]) for row in elevation.rows)


def _row(elevation: Elevation, row: Sequence[Standing], code: str) -> Row:
    piece, unit = row[0].piece, elevation.unit
    many = f"{len(row)} × " if len(row) > 1 else ""
    size = " × ".join(format_room(mm, unit) for mm in (piece.extent.width, piece.extent.height))
    middle = (row[0].at[0] + row[-1].at[0]) / 2
    places = [f"middle {_from_the_middle(middle, unit)}"]
    if len(row) > 1:
        places = [f"{format_room(row[1].at[0] - row[0].at[0], unit)} apart", *places]
    return Row(
        row[0].row,
        f"{many}{piece.design.title}",
        (f"{size}, proof {code}", ", ".join(places)),
    )


def _from_the_middle(x: float, unit: Unit) -> str:
    if abs(x) < 0.5:
        return "on the centre line"
    far = format_room(abs(x), unit)
    return f"{far} {'right' if x > 0 else 'left'} of the centre line"


def pieces_block(at: Point, width: float, lettering: Lettering, rows: Sequence[Row]) -> Block:
    """A row for each row of the job, led by its mark on the drawing."""
    top = heading(at, width, lettering, "Pieces")
    unit = lettering.body
    indent = 3.4 * unit
    bold = Hand(unit, "bold", role="key").level([r.says for r in rows], width - indent, 2)
    quiet = Hand(lettering.small, colour=SOFT, role="key")
    items: list[Item] = [*top.items]
    y = at[1] + top.height
    for row in rows:
        lines = bold.wrapped(row.says, width - indent)
        head, tall = bold.set(lines, (at[0] + indent, y))
        base = y + tall + 0.25 * unit
        under = [line for says in row.beneath for line in quiet.wrapped(says, width - indent)]
        words, more = quiet.set(under, (at[0] + indent, base))
        height = base + more + 0.7 * unit - y
        mark = mark_items((at[0] + _MARK * unit, y + 0.75 * unit), unit, row.mark)
        items.append(cell("piece", Area(at[0], y, width, height), (*mark, *head, *words)))
        y += height
    return Block(tuple(items), y - at[1])


def mark_items(at: Point, unit: float, number: int) -> tuple[Item, ...]:
    """A row's number in a ring, by which drawing and list are read together."""
    ring = Circle(at, mark_radius(unit), Style("#ffffff", INK, 1.4 * THIN))
    hand = Hand(0.8 * unit if number < 10 else 0.66 * unit, "bold", role="mark")
    return (ring, hand.at((at[0], at[1] + hand.height / 2), str(number), "middle"))


def mark_radius(unit: float) -> float:
    """The radius of a mark beside lettering of that height, mm."""
    return _MARK * unit


def elevation_answers(findings: Sequence[Finding]) -> tuple[Answer, ...]:
    """Each finding in a few words."""
    return tuple(Answer(f.verdict, _said(f)) for f in findings)


_SAID = {
    ("stand apart", "holds"): "Pieces keep clear of each other",
    ("stand apart", "fails"): "Pieces run into each other",
    ("way through", "holds"): "A clear way is left",
    ("way through", "look"): "No clear way is left",
}


def _said(finding: Finding) -> str:
    name, verdict = finding.name, finding.verdict
    if name.startswith("on the "):
        what = {"holds": "All stands", "look": "A piece hangs beyond", "fails": "A piece is off"}
        return f"{what[verdict]} {name if verdict == 'holds' else name.removeprefix('on ')}"
    if name.endswith(" left open"):
        way = name.removesuffix(" left open")
        return f"{'Clear' if verdict == 'holds' else 'Too narrow'} at the {way}"
    return _SAID.get((name, verdict), f"{name}: {verdict}")


def elevation_cautions(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Every caution that one of the pieces calls for, the sheet's own first."""
    first, *others = cautions_for(*pieces)
    return (first, _APPROVED, _WAYS, *others)
