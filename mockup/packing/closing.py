"""How equal clusters close a whole ring: how many, how hard pressed, or how large."""

from __future__ import annotations

from math import hypot, lcm, pi, sin

from mockup.packing.inflation import NotASize, above_zero
from mockup.packing.nesting import equal_pitch, sideways
from mockup.records import dataclass


@dataclass(frozen=True)
class Closing:
    """``count`` clusters close the ring at ``squeeze``, or at the usual squeeze with ``diameter``.

    A squeeze below zero leaves gaps. ``diameter`` in mm.
    """

    count: int
    squeeze: float
    diameter: float


def squeeze_to_close(length: float, count: int, n: int, diameter: float) -> float:
    """The squeeze at which ``count`` clusters of ``n`` balloons fill ``length``, just so.

    Solves ``count * equal_pitch(n, diameter, s) = length`` for s: with the pitch over d as ``p``
    and the sideways step over d as ``w``, ``s = 1 - sqrt(p^2 + w^2)``. Below zero where they
    leave gaps. ``length`` (of the tube's centre line) and ``diameter`` in mm. Raises
    ``NotASize`` for figures that are not above zero.

    >>> round(squeeze_to_close(40 * equal_pitch(4, 100.0, 0.1), 40, 4, 100.0), 9)
    0.1
    """
    share = above_zero(length, "length") / (_clusters(count) * above_zero(diameter, "diameter"))
    return 1.0 - hypot(share, sideways(n))


def diameter_to_close(length: float, count: int, n: int, squeeze: float) -> float:
    """The diameter, mm, at which ``count`` clusters of ``n`` close ``length`` at ``squeeze``.

    Raises ``NotASize`` where that squeeze lets the clusters slip through one another.

    >>> round(diameter_to_close(4000.0, 50, 1, 0.2), 6)
    100.0
    """
    share = _pitch_share(n, squeeze)
    return above_zero(length, "length") / (_clusters(count) * share)


def closing_options(
    length: float, n: int, diameter: float, *, squeeze: float = 0.1, period: int = 1
) -> tuple[Closing, Closing, Closing]:
    """The count of clusters that closes nearest to the usual squeeze, between its neighbours.

    Clusters of two balloons and more go by even counts, or the half-place turn would not meet
    itself; with a colour pattern that repeats every ``period`` clusters the counts are multiples
    of it too, so the neighbours are N-2 and N+2 or further. ``length`` and ``diameter`` in mm.
    Raises ``NotASize``.

    >>> [(one.count, round(one.squeeze, 3)) for one in closing_options(2354.0, 4, 114.3)]
    [(26, 0.041), (28, 0.087), (30, 0.126)]
    """
    step = lcm(2 if n > 1 else 1, _clusters(period))
    pitch = _pitch_share(n, squeeze) * above_zero(diameter, "diameter")
    fewer = max(2, int(above_zero(length, "length") / pitch // step)) * step
    near = min(
        (fewer, fewer + step),
        key=lambda count: abs(squeeze_to_close(length, count, n, diameter) - squeeze),
    )
    first, middle, last = (
        Closing(
            count,
            squeeze_to_close(length, count, n, diameter),
            diameter_to_close(length, count, n, squeeze),
        )
        for count in (near - step, near, near + step)
    )
    return first, middle, last


def touching_singles(radius: float, count: int) -> float:
    """The diameter at which ``count`` balloons centred on a circle of ``radius`` just touch.

    ``2 R sin(pi/N)``: the edge of a regular N-gon (Euclid). Same unit as ``radius``. Raises
    ``NotASize`` for fewer than two.

    >>> round(touching_singles(100.0, 6), 6)
    100.0
    """
    if count < 2:
        raise NotASize(f"a ring of touching balloons has two or more, not {count}")
    return 2 * above_zero(radius, "radius") * sin(pi / count)


def _clusters(count: int) -> int:
    if count < 1:
        raise NotASize(f"a count of clusters is one or more, not {count}")
    return count


def _pitch_share(n: int, squeeze: float) -> float:
    share = equal_pitch(n, 1.0, squeeze)
    if share <= 0:
        slip = 1.0 - sideways(n)
        raise NotASize(f"clusters of {n} slip through one another from a squeeze of {slip:.2f}")
    return share
