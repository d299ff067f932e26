"""Do the clusters nestle: crossing before settling, swing in settling, closing of a ring."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.piece.finding import Finding, Verdict
from mockup.piece.placed import Cluster, Piece

# How far from the wished squeeze a whole ring may close before a look, and before it fails:
# packed quads sit at 0.65-0.80 d, i.e. about 4-16 % squeeze (common practice, no source).
_CLOSE_LOOK, _CLOSE_FAIL = 0.05, 0.10
_MOST_LEAN = 60.0


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

    End caps are left out: held on one side only, they lean away from it by nature (``end_caps``).
    """
    held = [b.index for b in piece.balloons if _has_a_valley(piece.clusters[b.cluster])]
    if not held:
        return
    swings, limit = piece.nestling.swings_deg, piece.design.limits.swing_deg
    index = max(held, key=lambda i: swings[i])
    most, name = swings[index], piece.balloon_words(index)
    fails = most > limit
    yield Finding(
        "swing",
        "fails" if fails else "holds",
        round(most, 1),
        limit,
        "deg",
        f"Pressed together, the {name} swings {most:.0f} degrees: out of its valley."
        if fails
        else f"Pressed together, the {name} swings most, by {most:.0f} degrees, in its valley.",
        "fill its cluster smaller, or turn it valley in" if fails else "",
        (index,),
    )


def end_caps(piece: Piece) -> Iterator[Finding]:
    """How far the end caps lean away from the clusters they close, degrees.

    Held on one side only, they lean by nature: pairs set front and back by 28 to 47 degrees over
    the crescents tried, in other turns by 53 to 85. Past 60 they stand off the end and show the
    knot that they should hide.
    """
    caps = [i for c in piece.clusters if c.end_cap for i in c.balloons]
    if not caps:
        return
    index = max(caps, key=lambda i: piece.nestling.swings_deg[i])
    most = piece.nestling.swings_deg[index]
    over = most > _MOST_LEAN
    said = "off the end, so that its knot shows" if over else "the most of the end caps"
    yield Finding(
        "end caps",
        "look" if over else "holds",
        round(most, 1),
        _MOST_LEAN,
        "deg",
        f"The {piece.balloon_words(index)} leans {most:.0f} degrees, {said}.",
        "leave out the end cap's 'turn': a pair then stands one in front and one behind"
        if over
        else "",
        (index,),
    )


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


def _has_a_valley(cluster: Cluster) -> bool:
    """Neither an end cap, held on one side only, nor a second ring without a knot of its own.

    On the mesh of a wall nothing swings."""
    return not (cluster.end_cap or cluster.after or cluster.loose or cluster.flat)
