"""How different two colours look: CIEDE2000.

Source: CIE 142-2001, as laid out by G. Sharma, W. Wu and E.N. Dalal, Color Research & Application
30(1), 2005, 21-30.
"""

from __future__ import annotations

from functools import lru_cache
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from mockup.colour.srgb import Triple, lab

_CHROMA_BEND = 25.0**7


def difference(first: str, second: str) -> float:
    """CIEDE2000 difference of two ``#rrggbb`` colours (about 1 is just seen, under 10 is close).

    >>> difference("#1f6f74", "#1f6f74"), round(difference("#000000", "#ffffff"), 3)
    (0.0, 100.0)
    """
    return ciede2000(lab(first), lab(second))


@lru_cache(maxsize=16384)
def ciede2000(first: Triple, second: Triple) -> float:
    """CIEDE2000 difference of two CIELAB colours (L, a, b), all weights 1.

    >>> round(ciede2000((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425
    """
    light_1, chroma_1, hue_1, light_2, chroma_2, hue_2 = _stretched(first, second)
    turn = _hue_turn(chroma_1 * chroma_2, hue_1, hue_2)
    light = (light_1 + light_2) / 2
    chroma = (chroma_1 + chroma_2) / 2
    hue = _mean_hue(chroma_1 * chroma_2, hue_1, hue_2)
    step_light = (light_2 - light_1) / _weigh_light(light)
    step_chroma = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    step_hue = 2 * sqrt(chroma_1 * chroma_2) * sin(radians(turn / 2)) / _weigh_hue(chroma, hue)
    squares = step_light**2 + step_chroma**2 + step_hue**2
    # Rounding may leave a negative hair where the two colours are the same.
    return sqrt(max(0.0, squares + _blue_twist(chroma, hue) * step_chroma * step_hue))


def _stretched(first: Triple, second: Triple) -> tuple[float, float, float, float, float, float]:
    """Lightness, chroma and hue of both, with a stretched near grey as the formula has it."""
    mean = (hypot(first[1], first[2]) + hypot(second[1], second[2])) / 2
    stretch = 1.5 - 0.5 * _rise(mean)
    return (*_polar(first, stretch), *_polar(second, stretch))


def _polar(colour: Triple, stretch: float) -> Triple:
    a, b = colour[1] * stretch, colour[2]
    return (colour[0], hypot(a, b), degrees(atan2(b, a)) % 360)


def _rise(chroma: float) -> float:
    return sqrt(chroma**7 / (chroma**7 + _CHROMA_BEND))


def _hue_turn(chromas: float, hue_1: float, hue_2: float) -> float:
    turn = hue_2 - hue_1
    if chromas == 0 or abs(turn) <= 180:
        return 0.0 if chromas == 0 else turn
    return turn - 360 if turn > 180 else turn + 360


def _mean_hue(chromas: float, hue_1: float, hue_2: float) -> float:
    total = hue_1 + hue_2
    if chromas == 0:
        return total
    if abs(hue_1 - hue_2) <= 180:
        return total / 2
    return (total + 360) / 2 if total < 360 else (total - 360) / 2


def _weigh_light(light: float) -> float:
    off = (light - 50) ** 2
    return 1 + 0.015 * off / sqrt(20 + off)


def _weigh_hue(chroma: float, hue: float) -> float:
    waves = ((-0.17, 1, -30), (0.24, 2, 0), (0.32, 3, 6), (-0.20, 4, -63))
    swing = 1 + sum(high * cos(radians(times * hue + shift)) for high, times, shift in waves)
    return 1 + 0.015 * chroma * swing


def _blue_twist(chroma: float, hue: float) -> float:
    angle = 60 * exp(-(((hue - 275) / 25) ** 2))
    return -2 * _rise(chroma) * sin(radians(angle))
