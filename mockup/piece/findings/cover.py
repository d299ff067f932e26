"""How well a section covers: daylight through it, and frame that shows between its balloons."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from mockup.piece.cover import bare_share, daylight_share
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.records import dataclass


def daylight(piece: Piece) -> Iterator[Finding]:
    """The section with the largest share of holes through it, seen from the front."""

    def share(section: str) -> float:
        return daylight_share(b for b in piece.balloons if b.section == section)

    yield from _worst(
        piece,
        share,
        _Said(
            "daylight",
            "of the {section} section is daylight between its balloons",
            "fill its clusters larger, or press them closer",
        ),
        piece.design.limits.daylight,
    )


def bare_frame(piece: Piece) -> Iterator[Finding]:
    """The section with the largest share of its stretch of frame left bare."""
    yield from _worst(
        piece,
        lambda section: bare_share(piece, section),
        _Said(
            "bare frame",
            "of the frame shows inside the {section} section",
            "turn its clusters valley in, or fill them larger",
        ),
        piece.design.limits.bare_frame,
    )


@dataclass(frozen=True)
class _Said:
    name: str
    says: str
    remedy: str


def _worst(
    piece: Piece, share: Callable[[str], float], said: _Said, limit: float
) -> Iterator[Finding]:
    shares = {s.name: share(s.name) for s in piece.design.sections}
    if not shares:
        return
    section = max(shares, key=lambda each: shares[each])
    over = shares[section] > limit
    told = said.says.format(section=section)
    yield Finding(
        said.name,
        "look" if over else "holds",
        round(100 * shares[section], 1),
        round(100 * limit, 1),
        "%",
        f"At most {shares[section]:.0%} {told}; {limit:.0%} is the usual limit.",
        said.remedy if over else "",
    )
