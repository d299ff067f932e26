"""Do the balloons go round the frame's bends, and does the frame cross itself?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.clock import clock_words
from mockup.lengths import format_length
from mockup.piece.bends import Bend, tightest_bend
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece

# Rings, arcs and poles are bent alike all along: how clusters nestle on them says it all. Of a
# wall only the mesh bears balloons.
_EVEN = ("ring", "arc", "pole", "wall")
_WITH_A_CLOCK = ("square", "hexagon", "heart", "arch")


def bends(piece: Piece) -> Iterator[Finding]:
    """The bend at which the clusters crowd most, and the largest fill that works there."""
    if piece.design.frame.kind in _EVEN or not piece.clusters:
        return
    bend = tightest_bend(piece)
    if bend is None:
        return
    unit, limit = piece.design.unit, piece.design.limits.crossing
    fails = bend.crossing > limit
    size = format_length(piece.clusters[bend.cluster].diameter, unit)
    works = format_length(bend.largest, unit)
    yield Finding(
        "bends",
        "fails" if fails else "holds",
        round(100 * bend.crossing, 1),
        round(100 * limit, 1),
        "%",
        f"{_bend_words(piece, bend)} is {'too tight for' if fails else 'wide enough for'} balloons "
        f"of {size}: clusters cross there by {bend.crossing:.0%}.",
        f"fill them to {works} at most round it, or bend the frame wider" if fails else "",
        piece.clusters[bend.cluster].balloons,
    )


def _bend_words(piece: Piece, bend: Bend) -> str:
    unit = piece.design.unit
    if piece.design.frame.kind in _WITH_A_CLOCK:
        where = f"toward {clock_words(piece.frame.deg_at(bend.s))} on the clock"
    else:
        where = f"{format_length(bend.s, unit)} along the frame"
    what = f"bend of radius {format_length(bend.radius, unit)}" if bend.radius else "corner"
    return f"The {what} {where}"


def crosses_itself(piece: Piece) -> Iterator[Finding]:
    """A drawn path may cross itself; the client and the builder should know."""
    if piece.design.frame.kind != "path":
        return
    import shapely  # a ring never crosses itself

    line = piece.frame.sample(max(5.0, piece.frame.length / 2000))
    simple = bool(shapely.LineString(line).is_simple)
    yield Finding(
        "path",
        "holds" if simple else "look",
        None,
        None,
        "",
        "The path does not cross itself." if simple else "The path crosses itself.",
        "" if simple else "carry one stretch before the other where they meet, or bend it clear",
    )
