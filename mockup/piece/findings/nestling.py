"""Do the clusters nestle: crossing before settling, swing in settling, closing of a ring."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.piece.finding import Finding
from mockup.piece.placed import Piece

# How far from the wished squeeze a whole ring may close before a look, and before it fails:
# packed quads sit at 0.65-0.80 d, i.e. about 4-16 % squeeze (common practice, no source).
_CLOSE_LOOK, _CLOSE_FAIL = 0.05, 0.10


def nestle(piece: Piece) -> Iterator[Finding]:
    """The worst crossing of the placed clusters, as a share of the smaller balloon."""
    if not piece.balloons:
        return
    worst, limit = piece.nestling.crossing, piece.design.limits.crossing
    pair = piece.nestling.crossing_pair
    where = f" ({piece.cluster_words(piece.balloons[pair[0]].cluster)})" if pair else ""
    fails = worst > limit
    yield Finding(
        "nestle",
        "fails" if fails else "holds",
        round(100 * worst, 1),
        round(100 * limit, 1),
        "%",
        f"The clusters {'crowd each other' if fails else 'nestle'}: at worst two balloons cross "
        f"by {worst:.0%} of the smaller one{where}; {limit:.0%} is the most.",
        "fill that section smaller, or take a larger frame" if fails else "",
        pair or (),
    )


def swing(piece: Piece) -> Iterator[Finding]:
    """The largest swing of a balloon about its knot while the piece settles, degrees."""
    index = piece.nestling.swing_balloon
    if index is None:
        return
    most, limit = piece.nestling.swing_deg, piece.design.limits.swing_deg
    fails = most > limit
    yield Finding(
        "swing",
        "fails" if fails else "holds",
        round(most, 1),
        limit,
        "deg",
        f"Pressed together, the {piece.balloon_words(index)} swings most, by {most:.0f} degrees"
        + (
            ": it is pushed out of its valley."
            if fails
            else f"; up to {limit:.0f} it stays in its valley."
        ),
        "fill its cluster smaller, or turn it valley in" if fails else "",
        (index,),
    )


def closing(piece: Piece) -> Iterator[Finding]:
    """How hard a whole ring is pressed to close with its count of clusters."""
    wish = piece.design.limits.squeeze
    for whole in piece.wholes:
        off = abs(whole.squeeze - wish)
        tight = whole.squeeze > wish
        verdict = "fails" if off > _CLOSE_FAIL else "look" if off > _CLOSE_LOOK else "holds"
        yield Finding(
            "closing",
            verdict,
            round(100 * whole.squeeze, 1),
            round(100 * wish, 1),
            "%",
            f"{whole.count} clusters close the ring at a squeeze of {whole.squeeze:.0%} "
            f"(usual {wish:.0%}).",
            f"take {'two fewer' if tight else 'two more'} clusters, or fill them "
            f"{'smaller' if tight else 'larger'}"
            if verdict != "holds"
            else "",
        )
