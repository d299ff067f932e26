"""Do the clusters nestle: crossing before settling, swing in settling, closing of a ring."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.piece.finding import Finding, Verdict
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
    """The largest swing of a balloon about its knot while the piece settles, degrees.

    An end cap is held on one side only and may lean away from it: past the limit it asks for a
    look, where a balloon between two clusters has been pushed out of its valley and fails.
    """
    swings = piece.nestling.swings_deg
    for caps in (False, True):
        held = [b.index for b in piece.balloons if piece.clusters[b.cluster].end_cap == caps]
        if held:
            yield from _swing_of(piece, max(held, key=lambda i: swings[i]), caps=caps)


def _swing_of(piece: Piece, index: int, *, caps: bool) -> Iterator[Finding]:
    most, limit = piece.nestling.swings_deg[index], piece.design.limits.swing_deg
    over = most > limit
    if caps and not over:
        return
    name = piece.balloon_words(index)
    if caps:
        said = f"The {name} leans {most:.0f} degrees away from the cluster beside it."
    elif over:
        said = f"Pressed together, the {name} swings {most:.0f} degrees: out of its valley."
    else:
        said = f"Pressed together, the {name} swings most, by {most:.0f} degrees, in its valley."
    yield Finding(
        "end caps" if caps else "swing",
        "holds" if not over else "look" if caps else "fails",
        round(most, 1),
        limit,
        "deg",
        said,
        _swing_remedy(caps=caps) if over else "",
        (index,),
    )


def _swing_remedy(*, caps: bool) -> str:
    if caps:
        return "set the end pair one in front and one behind ('turn = 90'), or fill it smaller"
    return "fill its cluster smaller, or turn it valley in"


def closing(piece: Piece) -> Iterator[Finding]:
    """How hard a whole ring is pressed to close with its count of clusters."""
    wish = piece.design.limits.squeeze
    for whole in piece.wholes:
        off = abs(whole.squeeze - wish)
        tight = whole.squeeze > wish
        verdict: Verdict = (
            "fails" if off > _CLOSE_FAIL else "look" if off > _CLOSE_LOOK else "holds"
        )
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
