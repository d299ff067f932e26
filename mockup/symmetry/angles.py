"""Angles round a knot, in degrees, and which balloons of two clusters stand at the same one."""

from __future__ import annotations

from collections.abc import Sequence

SAME_ANGLE_DEG = 1.0
"""Two balloons within this much of each other round their knots stand on one row."""


def apart_deg(first: float, second: float) -> float:
    """The smaller angle between two directions, 0 to 180 degrees.

    >>> apart_deg(350, 10)
    20.0
    """
    return abs((first - second + 180.0) % 360.0 - 180.0)


def at_same_angle(
    first: Sequence[float], second: Sequence[float], tolerance: float = SAME_ANGLE_DEG
) -> tuple[tuple[int, int], ...]:
    """Pairs (i, j) of balloons of two clusters that stand at the same angle round their knots.

    >>> at_same_angle([45, 135, 225, 315], [135, 225, 315, 405])
    ((0, 3), (1, 0), (2, 1), (3, 2))
    """
    return tuple(
        (i, j)
        for i, one in enumerate(first)
        for j, other in enumerate(second)
        if apart_deg(one, other) <= tolerance
    )


def round_the_knot(phis: Sequence[float]) -> list[int]:
    """The balloons of a cluster in the order they stand round the knot.

    >>> round_the_knot([300, 60, 180])
    [1, 2, 0]
    """
    return sorted(range(len(phis)), key=lambda k: (phis[k] % 360.0, k))


def banks(phis: Sequence[float], phi: float) -> tuple[int, int] | None:
    """The two balloons on either side of the valley at ``phi``, None where a balloon stands there.

    >>> banks([0, 90, 180, 270], 315), banks([0, 90, 180, 270], 90)
    ((3, 0), None)
    """
    if len(phis) < 2 or any(apart_deg(each, phi) <= SAME_ANGLE_DEG for each in phis):
        return None
    before = min(range(len(phis)), key=lambda k: (phi - phis[k]) % 360.0)
    after = min(range(len(phis)), key=lambda k: (phis[k] - phi) % 360.0)
    return before, after
