"""Which balloons are hard to tell apart, by other eyes and in a grey print.

Eyes compare the colours themselves, which are those of the latex. A grey print has only lightness,
and there each balloon is as light as it is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import hypot, sqrt
from typing import NamedTuple

from mockup.colour.difference import ciede2000
from mockup.colour.drawn import drawn
from mockup.colour.sight import SIGHTS, Sight, seen_as
from mockup.colour.srgb import lab


class Latex(NamedTuple):
    """What a balloon is made of: its colour (``#rrggbb``) and its finish."""

    srgb: str
    finish: str


class HardToTell(NamedTuple):
    """Two letters that differ in one sight by less than is ``needed`` there (both CIEDE2000)."""

    first: str
    second: str
    sight: Sight
    difference: float
    needed: float


def apart(first: Latex, second: Latex, sight: Sight) -> float:
    """How different two balloons look in a sight (CIEDE2000); in grey, the mean tones drawn.

    >>> round(apart(Latex("#1f6f74", "gloss"), Latex("#b8893c", "mirror"), "grey"), 1)
    11.4
    """
    if sight == "grey":
        return _greys_apart(drawn(*first).light, drawn(*second).light)
    return ciede2000(lab(seen_as(first.srgb, sight)), lab(seen_as(second.srgb, sight)))


def shades(first: Latex, second: Latex) -> float:
    """How far the shades drawn on two balloons range in a grey print (CIEDE2000).

    It is the difference of two greys that lie as far apart as those shades deviate from their
    means (root mean square over both), midway between the means. Mean tones that are nearer to each
    other than that are lost among the shades.

    >>> round(shades(Latex("#1f6f74", "gloss"), Latex("#b8893c", "mirror")), 1)
    15.1
    """
    a, b = drawn(*first), drawn(*second)
    middle, half = (a.light + b.light) / 2, hypot(a.spread, b.spread) / sqrt(8)
    return _greys_apart(middle - half, middle + half)


def _greys_apart(first: float, second: float) -> float:
    return ciede2000((first, 0.0, 0.0), (second, 0.0, 0.0))


def hard_to_tell(balloons: Mapping[str, Latex], limit: float) -> list[HardToTell]:
    """Every pair of letters that is alike in a sight, the closest first.

    Alike is under ``limit`` (CIEDE2000); in grey also under the range of the pair's ``shades``.

    >>> grey, black = Latex("#b0b0b0", "matte"), Latex("#000000", "matte")
    >>> hard_to_tell({"A": grey, "B": Latex("#b4b4b4", "matte"), "C": black}, 10)[0][:3]
    ('A', 'B', 'normal')
    """
    found = [close for sight in SIGHTS for close in _close_in(balloons, sight, limit)]
    return sorted(found, key=lambda each: (round(each.difference, 6), SIGHTS.index(each.sight)))


def _close_in(balloons: Mapping[str, Latex], sight: Sight, limit: float) -> list[HardToTell]:
    pairs = [
        HardToTell(a, b, sight, apart(x, y, sight), _needed(x, y, sight, limit))
        for (a, x), (b, y) in combinations(sorted(balloons.items()), 2)
    ]
    return [pair for pair in pairs if pair.difference < pair.needed]


def _needed(first: Latex, second: Latex, sight: Sight, limit: float) -> float:
    """A limit of 0 asks for nothing, in grey neither."""
    return max(limit, shades(first, second)) if sight == "grey" and limit else limit
