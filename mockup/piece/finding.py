"""The shape of one finding: what was measured, against which limit, and what would mend it."""

from __future__ import annotations

from typing import Literal

from mockup.records import dataclass

Verdict = Literal["holds", "look", "fails"]


@dataclass(frozen=True)
class Finding:
    """One answer about the piece.

    ``measured`` and ``limit`` are plain figures in ``unit`` (None where a figure makes no sense);
    ``says`` is one sentence for a craftsperson; ``remedy`` what to change, empty when it holds.
    ``balloons`` are the indices of the balloons it speaks of.
    """

    name: str
    verdict: Verdict
    measured: float | None
    limit: float | None
    unit: str
    says: str
    remedy: str = ""
    balloons: tuple[int, ...] = ()
