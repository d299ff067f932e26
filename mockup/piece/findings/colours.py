"""Can the colours be told apart, by every eye and in grey?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.colour.alike import HardToTell, Latex, hard_to_tell
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece

IN_GREY = " in a grey print"
"""What a finding says of colours that only a grey print brings together."""
_SIGHTS = {
    "normal": "",
    "deutan": " to a client who sees greens weakly",
    "protan": " to a client who sees reds weakly",
    "tritan": " to a client who sees blues weakly",
    "grey": IN_GREY,
}


def colours_told_apart(piece: Piece) -> Iterator[Finding]:
    """Pairs of the design's colours under the least difference (CIEDE2000), in each sight.

    Alike in normal sight fails; alike only to other eyes or in grey asks for a look, as letters on
    the balloons answer it. In grey it is the tones that are drawn which are compared.
    """
    used = sorted({b.letter for b in piece.balloons})
    colours = {letter: piece.design.colours[letter] for letter in used}
    if len(colours) < 2:
        return
    limit = piece.design.limits.colour_difference
    alike = hard_to_tell({k: Latex(c.srgb, c.finish) for k, c in colours.items()}, limit)
    if not alike:
        yield Finding(
            "colours told apart",
            "holds",
            None,
            limit,
            "dE00",
            f"The {len(colours)} colours are told apart by every eye, and in grey.",
        )
        return
    normal = [pair for pair in alike if pair.sight == "normal"]
    worst = min(normal or alike, key=lambda pair: pair.difference)
    names = " and ".join(f"{colours[x].name} ({x})" for x in (worst.first, worst.second))
    yield Finding(
        "colours told apart",
        "fails" if normal else "look",
        round(worst.difference, 1),
        round(worst.needed, 1),
        "dE00",
        f"{names} look alike{_SIGHTS[worst.sight]}{_among_shades(worst, limit)}{_others(alike)}.",
        "take a lighter or darker colour for one of them"
        if normal
        else "send the proof with letters on the balloons",
    )


def _among_shades(pair: HardToTell, limit: float) -> str:
    """Why tones that are no closer than the limit are lost all the same."""
    return "" if pair.difference < limit else ", where their shading is stronger than what differs"


def _others(alike: Sequence[HardToTell]) -> str:
    others = len({pair[:2] for pair in alike}) - 1
    return f" ({others} more {'pair' if others == 1 else 'pairs'} likewise)" if others else ""
