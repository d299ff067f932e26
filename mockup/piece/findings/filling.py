"""Are the balloons filled to a size at which they look round and live long?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from mockup.lengths import format_length
from mockup.packing.inflation import fill_share
from mockup.piece.finding import Finding, Verdict
from mockup.piece.placed import Piece


class _Off(NamedTuple):
    """What is said of a fill out of its range, on one side of it."""

    verdict: Verdict
    only: str
    then: str
    bound: str
    instead: str


_OVER = _Off("fails", "", "turns pear-shaped and bursts easily", "at most", "a larger")
_UNDER = _Off("look", "only ", "keeps a floppy neck", "at least", "a smaller")


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
        yield _filled(piece, high, shares[high], most, _OVER)
    elif shares[low] < least:
        yield _filled(piece, low, shares[low], least, _UNDER)
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


def _filled(piece: Piece, index: int, share: float, limit: float, off: _Off) -> Finding:
    """The balloon that is furthest out, and the fill or the size that mends it."""
    balloon = piece.balloons[index]
    return Finding(
        "fill",
        off.verdict,
        round(100 * share, 1),
        round(100 * limit, 1),
        "%",
        f"The {piece.cluster_words(balloon.cluster)} is filled to {off.only}{share:.0%} of its "
        f"nominal size: it {off.then}.",
        f"fill it to {off.bound} {format_length(balloon.nominal * limit, piece.design.unit)}, "
        f"or take {off.instead} nominal size",
        (balloon.index,),
    )
