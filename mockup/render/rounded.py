"""Rounded things seen from the front: tones stepped so finely from edge to ridge that none shows.

A round bar is drawn as strokes laid over one another, each narrower, lighter or darker, and moved
a little toward the light; so is a foil numeral. Steps under 1/100 of OKLab lightness are not seen
as bands at 600 dpi; steps finer than a printer's dot are not drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from mockup.colour.srgb import oklab
from mockup.colour.tones import lightness_at, tone

Profile = tuple[tuple[float, float], ...]
TOWARD_LIGHT = (-0.6, -0.8)
"""Unit vector on the sheet toward the light, at the upper left."""
STEP = 0.0095
_DOT, _FINE = 0.03, 2000


@dataclass(frozen=True)
class Step:
    """One stroke of the stack: ``rise`` from 0 at the edge to 1 at the ridge, and its colour."""

    rise: float
    colour: str


@lru_cache(maxsize=128)
def steps(colour: str, profile: Profile, half_width: float) -> tuple[Step, ...]:
    """The strokes from edge to ridge for a tone profile of (rise, amount) over ``half_width`` mm.

    >>> [round(step.rise, 1) for step in steps("#808080", ((0.0, -0.02), (1.0, 0.02)), 5.0)]
    [0.0, 0.4, 0.9]
    """
    own, span = oklab(colour)[0], profile[-1][0] - profile[0][0]
    rises = [profile[0][0] + span * k / _FINE for k in range(_FINE)]
    amounts = [at(profile, rise) for rise in rises]
    lights = [lightness_at(own, amount) for amount in amounts]
    apart = max(1, round(_DOT / (half_width * span) * _FINE))
    kept = [0]
    for k in range(apart, _FINE - 1):
        if k - kept[-1] >= apart and abs(lights[k + 1] - lights[kept[-1]]) > STEP:
            kept.append(k)
    return tuple(Step(rises[k], tone(colour, amounts[k])) for k in kept)


def at(profile: Profile, rise: float) -> float:
    """The amount of a profile at a rise, straight between its points.

    >>> at(((0.0, -0.4), (1.0, 0.4)), 0.5)
    0.0
    """
    for (low, start), (high, end) in pairwise(profile):
        if rise <= high:
            return start + (end - start) * (rise - low) / (high - low)
    return profile[-1][1]
