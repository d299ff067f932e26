"""Can the colours be told apart, by every eye and in grey?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.colour.sight import hard_to_tell
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece

_SIGHTS = {
    "normal": "",
    "deutan": " to a client who sees greens weakly",
    "protan": " to a client who sees reds weakly",
    "tritan": " to a client who sees blues weakly",
    "grey": " in a grey print",
}


def colours_told_apart(piece: Piece) -> Iterator[Finding]:
    """Pairs of the design's colours under the least difference (CIEDE2000), in each sight.

    Alike in normal sight fails; alike only to other eyes or in grey asks for a look, as letters on
    the balloons answer it.
    """
    used = sorted({b.letter for b in piece.balloons})
    colours = {letter: piece.design.colours[letter] for letter in used}
    if len(colours) < 2:
        return
    limit = piece.design.limits.colour_difference
    alike = hard_to_tell({k: c.srgb for k, c in colours.items()}, limit)
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
    normal = [pair for pair in alike if pair[2] == "normal"]
    worst = min(normal or alike, key=lambda pair: pair[3])
    names = f"{colours[worst[0]].name} ({worst[0]}) and {colours[worst[1]].name} ({worst[1]})"
    others = len({pair[:2] for pair in alike}) - 1
    more = f" ({others} more {'pair' if others == 1 else 'pairs'} likewise)" if others else ""
    yield Finding(
        "colours told apart",
        "fails" if normal else "look",
        round(worst[3], 1),
        limit,
        "dE00",
        f"{names} look alike{_SIGHTS[worst[2]]}{more}.",
        "take a lighter or darker colour for one of them"
        if normal
        else "send the proof with letters on the balloons",
    )
