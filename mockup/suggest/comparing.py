"""Versions of a piece side by side: the same figures of each, and which is best in what."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from mockup.design.clusters import turn_words
from mockup.lengths import Unit, format_length
from mockup.packing.meshes import covered_share
from mockup.piece.cover import daylight_share
from mockup.piece.finding import Finding
from mockup.piece.findings import failing, find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import FOIL, visible_shares

LEAST, MOST = "least", "most"


@dataclass(frozen=True)
class Expense:
    """What a version takes: minutes of build, and the material's cost.

    ``cost`` is None where no studio book tells what all of it costs; ``cost_words`` is as much of
    it as is known, as money is written.
    """

    minutes: float
    cost: float | None = None
    cost_words: str = ""


Price = Callable[[Piece], Expense]
"""Prices a piece; the command line gives it, as the studio book is no business of this room."""


@dataclass(frozen=True)
class Version:
    """One version of a piece with everything that is compared."""

    name: str
    piece: Piece
    findings: tuple[Finding, ...]
    shares: dict[str, float]
    expense: Expense


@dataclass(frozen=True)
class Row:
    """One line of the comparison: a cell a version, and what the best of them is called.

    ``figures`` are what the cells are judged by (None: not judged, or there is none there).
    """

    label: str
    cells: tuple[str, ...]
    figures: tuple[float | None, ...] = ()
    best_word: str = ""
    rule: str = ""

    @property
    def best(self) -> tuple[bool, ...]:
        """Which cells are the best of the row, as they read; none where all read alike."""
        known = [figure for figure in self.figures if figure is not None]
        if not self.rule or len(known) < 2 or len(set(self.cells)) < 2:
            return tuple(False for _ in self.cells)
        best = min(known) if self.rule == LEAST else max(known)
        said = {cell for cell, f in zip(self.cells, self.figures, strict=True) if f == best}
        return tuple(
            f is not None and cell in said for cell, f in zip(self.cells, self.figures, strict=True)
        )


def version(name: str, piece: Piece, price: Price) -> Version:
    """A piece with its findings, its colours' shares and its expense."""
    return Version(name, piece, find_all(piece), visible_shares(piece), price(piece))


def rows(versions: Sequence[Version]) -> tuple[Row, ...]:
    """Every line of the comparison; one that no version has anything to say in is left out."""
    unit = versions[0].piece.design.unit
    every = [
        *_counts(versions, unit),
        *_opening(versions, unit),
        *_judged(versions),
        *_looks(versions, unit),
        *_expenses(versions),
    ]
    return tuple(row for row in every if any(cell for cell in row.cells))


def _row(
    label: str, figures: Sequence[float | None], say: Callable[[float], str], rule: str, word: str
) -> Row:
    cells = tuple("" if each is None else say(each) for each in figures)
    return Row(label, cells, tuple(figures), word, rule)


def _counts(versions: Sequence[Version], unit: Unit) -> Iterator[Row]:
    pieces = [each.piece for each in versions]
    yield _row("Balloons", [len(p.balloons) for p in pieces], _whole, LEAST, "fewest")
    yield Row("Of each", tuple(_kinds(piece, unit) for piece in pieces))
    yield _row("Clusters", [len(p.clusters) for p in pieces], _whole, LEAST, "fewest")
    turns = tuple(_turns(piece) for piece in pieces)
    if len(set(turns)) > 1:
        yield Row("Turned", turns)


def _whole(figure: float) -> str:
    return f"{figure:,.0f}"


def _turns(piece: Piece) -> str:
    """How the sections are turned: said once where all are alike."""
    said = {
        section.name: turn_words(spec.turn_deg, spec.kind)
        for section in piece.design.sections
        for spec in (section.middle, *section.right[:1])
        if spec and spec.turn_deg is not None
    }
    if len(set(said.values())) < 2:
        return "".join(list(said.values())[:1])
    return "\n".join(f"{name}: {words}" for name, words in said.items())


def _kinds(piece: Piece, unit: Unit) -> str:
    counted = Counter((b.nominal, b.letter) for b in piece.balloons)
    return "\n".join(
        f"{count} × {format_length(size, unit)} {piece.design.colours[letter].name}"
        for (size, letter), count in sorted(counted.items())
    )


def _opening(versions: Sequence[Version], unit: Unit) -> Iterator[Row]:
    def length(mm: float) -> str:
        return format_length(mm, unit)

    openings = [each.piece.opening for each in versions]
    fits = [each.piece.fit for each in versions]
    widths = [o.width if o else None for o in openings]
    yield _row("Window width", widths, length, MOST, "widest")
    heights = [o.height if o else None for o in openings]
    yield _row("Window height", heights, length, MOST, "highest")
    largest = [f.largest_height if f else None for f in fits]
    yield _row("Largest numerals, filled", largest, length, MOST, "largest")
    room = [f.room if f else None for f in fits]
    yield _row("Room round these", room, length, MOST, "most")


def _judged(versions: Sequence[Version]) -> Iterator[Row]:
    def share(figure: float) -> str:
        return f"{figure:.1%}"

    crossings = [each.piece.nestling.crossing for each in versions]
    yield _row("Worst crossing", crossings, share, LEAST, "least")
    yield _row("Daylight", [_daylight(each) for each in versions], share, LEAST, "least")
    fails = [failing(each.findings) for each in versions]
    cells = tuple(", ".join(dict.fromkeys(f.name for f in own)) or "none" for own in fails)
    yield Row("Checks that fail", cells, tuple(float(len(own)) for own in fails), "fewest", LEAST)


def _daylight(version: Version) -> float:
    piece = version.piece
    if piece.design.wall is not None:
        squeeze = piece.design.limits.squeeze
        return 1.0 - covered_share(squeeze, staggered=piece.design.wall.staggered)
    names = [section.name for section in piece.design.sections]
    shares = (daylight_share(b for b in piece.balloons if b.section == name) for name in names)
    return max(shares, default=0.0)


def _looks(versions: Sequence[Version], unit: Unit) -> Iterator[Row]:
    cells = tuple(
        " x ".join(format_length(mm, unit) for mm in (box.width, box.height, box.depth))
        for box in (each.piece.extent for each in versions)
    )
    yield Row("Overall", cells)
    yield Row("Colours seen", tuple(_shares(each) for each in versions))


def _shares(version: Version) -> str:
    colours = version.piece.design.colours
    by_share = sorted(version.shares.items(), key=lambda one: (-one[1], one[0]))
    return "\n".join(
        f"{share:.0%} {'numerals' if key == FOIL else colours[key].name}" for key, share in by_share
    )


def _expenses(versions: Sequence[Version]) -> Iterator[Row]:
    expenses = [each.expense for each in versions]
    yield _row("Minutes of build", [e.minutes for e in expenses], _whole, LEAST, "quickest")
    costs = tuple(e.cost for e in expenses)
    yield Row("Material", tuple(e.cost_words for e in expenses), costs, "cheapest", LEAST)
