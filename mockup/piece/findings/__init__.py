"""What the tool has to say about a piece: each finding is computed once and shown everywhere."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from mockup.piece.finding import Finding
from mockup.piece.findings.bends import bends, crosses_itself
from mockup.piece.findings.colours import colours_told_apart
from mockup.piece.findings.cover import bare_frame, daylight
from mockup.piece.findings.filling import fill
from mockup.piece.findings.mirror import alternation, left_right, top_bottom
from mockup.piece.findings.nestling import closing, end_caps, nestle, swing
from mockup.piece.findings.numerals import numerals_fit
from mockup.piece.findings.size import doorway, off_the_floor
from mockup.piece.placed import Piece

# What few pieces have is judged by modules that only those pieces import: every check starts
# sooner for it.


def of_patterns(piece: Piece) -> Iterator[Finding]:
    """Each section that asks for another pattern than alternation."""
    if any(section.pattern not in ("alternate", "any") for section in piece.design.sections):
        from mockup.piece.findings.patterns import patterns

        yield from patterns(piece)


def of_garlands(piece: Piece) -> Iterator[Finding]:
    """Cover, colours, balance and counts of each garland."""
    if piece.design.garlands:
        from mockup.piece.findings import garlands

        yield from garlands.garland_cover(piece)
        yield from garlands.garland_colours(piece)
        yield from garlands.garland_balance(piece)
        yield from garlands.garland_counts(piece)


def of_climate(piece: Piece) -> Iterator[Finding]:
    """Growth and shrinkage, where the file tells of warmth or altitude."""
    if piece.design.climate is not None:
        from mockup.piece.findings.climate import climate

        yield from climate(piece)


def of_walls(piece: Piece) -> Iterator[Finding]:
    """The grid, the edges, the face, the word or picture and the mirrors of a wall."""
    if piece.design.wall is not None:
        from mockup.piece.findings.walls import wall_findings

        yield from wall_findings(piece, piece.design.wall)


JUDGES: tuple[Callable[[Piece], Iterator[Finding]], ...] = (
    nestle,
    swing,
    end_caps,
    closing,
    bends,
    crosses_itself,
    daylight,
    bare_frame,
    left_right,
    top_bottom,
    alternation,
    of_patterns,
    of_garlands,
    of_walls,
    numerals_fit,
    fill,
    of_climate,
    colours_told_apart,
    doorway,
    off_the_floor,
)
"""Every judge in the order in which its findings are shown; a new one is added here."""


def find_all(piece: Piece) -> tuple[Finding, ...]:
    """All findings of a piece, in the order of ``JUDGES``; one that does not apply yields none."""
    return tuple(finding for judge in JUDGES for finding in judge(piece))


def failing(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Those that fail."""
    return tuple(finding for finding in findings if finding.verdict == "fails")
