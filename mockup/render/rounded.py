"""Rounded things seen from the front: tones stepped so finely from edge to ridge that none shows.

A round bar is drawn as strokes laid over one another, each narrower, lighter or darker, and moved
a little toward the light; so is a foil numeral. Steps under 1/100 of OKLab lightness are not seen
as bands at 600 dpi; steps finer than a printer's dot are not drawn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from mockup.colour.srgb import oklab
from mockup.render.tones import tone

Profile = tuple[tuple[float, float], ...]
TOWARD_LIGHT = (-0.6, -0.8)
"""Unit vector on the sheet toward the light, at the upper left."""
STEP = 0.0095
_DOT = 0.03


@dataclass(frozen=True)
class Step:
    """One stroke of the stack: ``rise`` from 0 at the edge to 1 at the ridge, and its colour."""

    rise: float
    colour: str


@lru_cache(maxsize=128)
def steps(colour: str, profile: Profile, half_width: float) -> tuple[Step, ...]:
    """The strokes from edge to ridge for a tone profile of (rise, amount) over ``half_width`` mm.

    >>> [step.rise for step in steps("#808080", ((0.0, -0.01), (1.0, 0.01)), 5.0)][:2]
    [0.0, 0.5]
    """
    rises = [profile[0][0]]
    for (low, start), (high, end) in pairwise(profile):
        change = abs(oklab(tone(colour, end))[0] - oklab(tone(colour, start))[0])
        finest = max(1, int((high - low) * half_width / _DOT))
        count = min(max(1, math.ceil(change / STEP)), finest)
        rises += [low + (high - low) * k / count for k in range(1, count + 1)]
    kept = rises[:-1] if len(rises) > 1 else rises
    return tuple(Step(rise, tone(colour, at(profile, rise))) for rise in kept)


def at(profile: Profile, rise: float) -> float:
    """The amount of a profile at a rise, straight between its points.

    >>> at(((0.0, -0.4), (1.0, 0.4)), 0.5)
    0.0
    """
    for (low, start), (high, end) in pairwise(profile):
        if rise <= high:
            return start + (end - start) * (rise - low) / (high - low)
    return profile[-1][1]
