"""Strokes of a hand pump and the diameter of the round balloon they fill."""

from __future__ import annotations

from math import cbrt, isfinite

from mockup.errors import MockupError


class NotASize(MockupError, ValueError):
    """A figure that no balloon, cluster or pump can have; the message names it."""


def above_zero(value: float, name: str) -> float:
    """``value`` itself, when it is finite and above zero; else ``NotASize`` naming it.

    >>> above_zero(4.0, "strokes")
    4.0
    """
    if not (isfinite(value) and value > 0):
        raise NotASize(f"{name} must be a finite figure above zero, not {value}")
    return value


def diameter_for_strokes(strokes: float, *, ref_strokes: float, ref_diameter: float) -> float:
    """Diameter (in the unit of ``ref_diameter``) of a balloon filled with ``strokes``.

    Each stroke moves the same volume and the balloon is a sphere, so the diameter goes with the
    cube root of the strokes; one measured pair of strokes and diameter calibrates the pump.
    Raises ``NotASize`` unless all three are finite and above zero.

    >>> round(diameter_for_strokes(2, ref_strokes=4, ref_diameter=4.5), 2)
    3.57
    """
    share = above_zero(strokes, "strokes") / above_zero(ref_strokes, "ref_strokes")
    return above_zero(ref_diameter, "ref_diameter") * cbrt(share)


def strokes_for_diameter(diameter: float, *, ref_strokes: float, ref_diameter: float) -> float:
    """Strokes that fill a balloon to ``diameter``: the cube law read the other way.

    Both diameters are in the same unit. Raises ``NotASize`` unless all are finite and above zero.

    >>> strokes_for_diameter(9.0, ref_strokes=4, ref_diameter=4.5)
    32.0
    """
    share = above_zero(diameter, "diameter") / above_zero(ref_diameter, "ref_diameter")
    return above_zero(ref_strokes, "ref_strokes") * share**3


def fill_share(diameter: float, nominal: float) -> float:
    """What a balloon is filled to, as a share of its nominal (full) diameter.

    Both in the same unit. Under about half a balloon keeps a floppy neck, over about 95 % it turns
    pear-shaped (common practice, no source). Raises ``NotASize`` unless both are above zero.

    >>> fill_share(4.5, 5.0)
    0.9
    """
    return above_zero(diameter, "diameter") / above_zero(nominal, "nominal")
