"""What the tool has to say about a piece: each finding is computed once and shown everywhere."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from mockup.piece.finding import Finding
from mockup.piece.findings.bends import bends, crosses_itself
from mockup.piece.findings.climate import climate
from mockup.piece.findings.colours import colours_told_apart
from mockup.piece.findings.cover import bare_frame, daylight
from mockup.piece.findings.filling import fill
from mockup.piece.findings.garlands import (
    garland_balance,
    garland_colours,
    garland_counts,
    garland_cover,
)
from mockup.piece.findings.mirror import alternation, left_right, top_bottom
from mockup.piece.findings.nestling import closing, end_caps, nestle, swing
from mockup.piece.findings.numerals import numerals_fit
from mockup.piece.findings.patterns import patterns
from mockup.piece.findings.size import doorway, off_the_floor
from mockup.piece.placed import Piece

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
    patterns,
    garland_cover,
    garland_colours,
    garland_balance,
    garland_counts,
    numerals_fit,
    fill,
    climate,
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
