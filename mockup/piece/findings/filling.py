"""Are the balloons filled to a size at which they look round and live long?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.lengths import format_length
from mockup.packing.inflation import fill_share
from mockup.piece.finding import Finding
from mockup.piece.placed import Balloon, Piece


def fill(piece: Piece) -> Iterator[Finding]:
    """The fill furthest out of the range in which a balloon stays round.

    Under about half its nominal size a balloon keeps a floppy neck; over about 95 % it turns
    pear-shaped and bursts easily (common practice, no source; ``limits.fill``).
    """
    if not piece.balloons:
        return
    least, most = piece.design.limits.fill_least, piece.design.limits.fill_most
    shares = {b.index: fill_share(b.diameter, b.nominal) for b in piece.balloons}
    low = min(shares, key=lambda i: shares[i])
    high = max(shares, key=lambda i: shares[i])
    if shares[high] > most:
        yield _over(piece, piece.balloons[high], shares[high])
    elif shares[low] < least:
        yield _under(piece, piece.balloons[low], shares[low])
    else:
        yield Finding(
            "fill",
            "holds",
            round(100 * shares[high], 1),
            round(100 * most, 1),
            "%",
            f"Every balloon is filled to {_from_to(shares[low], shares[high])} of its nominal "
            "size, where it stays round.",
        )


def _from_to(low: float, high: float) -> str:
    """``86%``, or ``from 70% to 86%`` where they read differently.

    >>> _from_to(0.861, 0.858), _from_to(0.7, 0.86)
    ('86%', 'from 70% to 86%')
    """
    least, most = f"{low:.0%}", f"{high:.0%}"
    return most if least == most else f"from {least} to {most}"


def _over(piece: Piece, balloon: Balloon, share: float) -> Finding:
    most = piece.design.limits.fill_most
    return Finding(
        "fill",
        "fails",
        round(100 * share, 1),
        round(100 * most, 1),
        "%",
        f"The {piece.cluster_words(balloon.cluster)} is filled to {share:.0%} of its nominal "
        "size: it turns pear-shaped and bursts easily.",
        f"fill it to at most {format_length(balloon.nominal * most, piece.design.unit)}, "
        "or take a larger nominal size",
        (balloon.index,),
    )


def _under(piece: Piece, balloon: Balloon, share: float) -> Finding:
    least = piece.design.limits.fill_least
    return Finding(
        "fill",
        "look",
        round(100 * share, 1),
        round(100 * least, 1),
        "%",
        f"The {piece.cluster_words(balloon.cluster)} is filled to only {share:.0%} of its nominal "
        "size: it keeps a floppy neck.",
        f"fill it to at least {format_length(balloon.nominal * least, piece.design.unit)}, "
        "or take a smaller nominal size",
        (balloon.index,),
    )
