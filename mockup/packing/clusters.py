"""One cluster: equal balloons tied at one knot, evenly round the frame.

``N`` is the frame's outward normal in its plane and ``B`` points to the viewer; a place round the
knot is an angle ``phi`` in degrees from ``N`` toward ``B``: 0 outer, 90 front, 180 inner, 270 back.
"""

from __future__ import annotations

from math import floor, pi, sin

import numpy as np
from numpy.typing import NDArray

from mockup.packing.inflation import NotASize, above_zero

Floats = NDArray[np.float64]

POINT_IN = "point in"
VALLEY_IN = "valley in"

_WORDS = (
    "outer", "outer front", "front", "inner front", "inner", "inner back", "back", "outer back",
)  # fmt: skip
_EIGHTH = 45.0
# A place that sits on the border of two words must not fall either way by rounding noise.
_HAIR = 1e-9


def balloon_count(count: int) -> int:
    """``count`` itself when a cluster can have that many balloons; else ``NotASize``.

    >>> balloon_count(4)
    4
    """
    if count != int(count) or count < 1:
        raise NotASize(f"a cluster has one balloon or more, not {count}")
    return int(count)


def knot_radius(count: int, diameter: float) -> float:
    """Distance from the knot to each centre, in the unit of ``diameter``.

    Half the diameter for one and two balloons; from three on the circumradius
    ``d / (2 sin(pi/n))`` of a regular n-gon with edge d (Euclid), so that neighbours just touch.
    Raises ``NotASize`` for a count below one or a diameter that is not above zero.

    >>> knot_radius(2, 100.0), round(knot_radius(4, 100.0), 3)
    (50.0, 70.711)
    """
    above_zero(diameter, "diameter")
    if balloon_count(count) <= 2:
        return diameter / 2
    return diameter / (2 * sin(pi / count))


def places(count: int, turn_deg: float) -> list[float]:
    """The angle of each balloon round the knot, degrees in [0, 360), the first at ``turn_deg``.

    >>> places(4, 45.0)
    [45.0, 135.0, 225.0, 315.0]
    """
    return [(turn_deg + 360.0 * k / count) % 360.0 for k in range(balloon_count(count))]


def offsets(count: int, diameter: float, turn_deg: float) -> Floats:
    """Centres relative to the knot as (N, B) coordinates, shape (count, 2), unit of ``diameter``.

    >>> offsets(2, 100.0, 0.0).round(6).tolist()
    [[50.0, 0.0], [-50.0, 0.0]]
    """
    phi = np.radians(places(count, turn_deg))
    return knot_radius(count, diameter) * np.column_stack([np.cos(phi), np.sin(phi)])


def place_word(phi_deg: float, count: int) -> str:
    """The place round the knot in words, by eighths of the round: "outer", "inner front", "back".

    Up to eight balloons evenly round a knot each get a word of their own; ``NotASize`` for more.

    >>> place_word(90.0, 4), place_word(135.0, 4)
    ('front', 'inner front')
    """
    if balloon_count(count) > len(_WORDS):
        raise NotASize(f"words tell at most eight balloons of a cluster apart, not {count}")
    return _WORDS[floor(phi_deg / _EIGHTH + 0.5 + _HAIR) % len(_WORDS)]


def turn_for(word: str, count: int) -> float:
    """The turn, degrees in [0, 360/count), that a word asks of a cluster.

    "point in": one balloon points straight in (at 180). "valley in": straight in lies midway
    between two balloons, so that a flat foil slips between them. ``NotASize`` for other words.

    >>> turn_for("point in", 4), turn_for("valley in", 4), turn_for("valley in", 3)
    (0.0, 45.0, 0.0)
    """
    share = 360.0 / balloon_count(count)
    if word == POINT_IN:
        return 180.0 % share
    if word == VALLEY_IN:
        return (180.0 - share / 2) % share
    raise NotASize(f"'{word}' is not a turn; write '{VALLEY_IN}' or '{POINT_IN}'")


def upright_word(word: str) -> str:
    """A place round an upright pole, whose normal points to the left: the same, as it is seen.

    >>> upright_word("outer front"), upright_word("inner"), upright_word("back")
    ('left front', 'right', 'back')
    """
    return word.replace("outer", "left").replace("inner", "right")
