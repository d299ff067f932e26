"""Frames joined from legs, and the clocks they are read by."""

from __future__ import annotations

from abc import ABC, abstractmethod
from bisect import bisect_right
from functools import cached_property
from itertools import accumulate
from math import atan2, degrees
from typing import ClassVar

import numpy as np

from mockup.packing.hoops import IN_FRONT, INSIDE
from mockup.packing.inscribed import largest_disc
from mockup.packing.legs import Leg
from mockup.packing.paths import Floats, NotAFrame, Point, stations, wrapped

_LOOKS = 720
_OPENING_STEPS = 400


class Joined(ABC):
    """A frame whose centre line is made of legs, each going on where the one before ends."""

    tube: float
    kind: ClassVar[str]
    closed: ClassVar[bool] = False

    @abstractmethod
    def _legs(self) -> tuple[Leg, ...]:
        """The legs in the order of the arc length."""

    @cached_property
    def parts(self) -> tuple[Leg, ...]:
        """The legs that have a length, in the order of the arc length."""
        return tuple(leg for leg in self._legs() if leg.length > 1e-9)

    @cached_property
    def ends(self) -> tuple[float, ...]:
        """The arc length at the end of each leg, mm."""
        return tuple(accumulate(leg.length for leg in self.parts))

    @property
    def length(self) -> float:
        """Length of the centre line, mm."""
        return self.ends[-1]

    def _leg(self, s: float) -> tuple[Leg, float]:
        s = s % self.length if self.closed else s
        index = min(bisect_right(self.ends, s), len(self.parts) - 1)
        return self.parts[index], s - (self.ends[index - 1] if index else 0.0)

    def at(self, s: float) -> Point:
        """The point of the centre line at ``s``, mm; past an end, where it would go on."""
        leg, rest = self._leg(s)
        return leg.at(rest)

    def normal(self, s: float) -> Point:
        """The unit normal at ``s`` on the left of the way: outward where it runs clockwise."""
        leg, rest = self._leg(s)
        x, y = leg.heading(rest)
        return -y, x

    def bend(self, s: float) -> float:
        """The curvature at ``s``, 1/mm: above zero where it turns clockwise."""
        leg, rest = self._leg(s)
        return leg.bend(rest)

    def sample(self, step: float) -> Floats:
        """The centre line (k, 2) from end to end."""
        s = stations(self.length, step)
        starts = (0.0, *self.ends[:-1])
        part = np.clip(np.searchsorted(starts, s, side="right") - 1, 0, len(starts) - 1)
        line = [leg.points(s[part == k] - starts[k]) for k, leg in enumerate(self.parts)]
        return np.vstack(line)

    def opening(self, place: str) -> tuple[float, float, float] | None:
        """The largest disc inside, to the tube's outer edge ("in front") or its inner edge.

        An open frame is closed by the straight line between its ends.
        """
        if place not in (IN_FRONT, INSIDE):
            raise NotAFrame(f"a panel sits '{IN_FRONT}' or '{INSIDE}', not '{place}'")
        if self.inside is None:
            return None
        x, y, radius = self.inside
        room = radius + (self.tube / 2 if place == IN_FRONT else -self.tube / 2)
        return (x, y, room) if room > 0 else None

    @cached_property
    def inside(self) -> tuple[float, float, float] | None:
        """The largest disc (cx, cy, radius) that the centre line encloses, mm."""
        return largest_disc(self.sample(self.length / _OPENING_STEPS))


class LaidClock(Joined):
    """A frame without a clock of its own: the clock is laid along it evenly.

    12 o'clock is its middle, 3 o'clock a quarter of the length further on, the ends are at 6.
    """

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle laid along the frame, mm."""
        return self.length * (0.5 + wrapped(deg) / 360.0)

    def deg_at(self, s: float) -> float:
        """The clock angle laid along the frame at ``s``, degrees in [0, 360)."""
        return (s / self.length - 0.5) * 360.0 % 360.0


class RayClock(Joined):
    """A frame seen from a middle from which every ray meets it once: it has a clock face."""

    @property
    def middle(self) -> Point:
        """The middle of the clock face, mm."""
        return 0.0, 0.0

    def deg_at(self, s: float) -> float:
        """The clock angle at ``s``, degrees in [0, 360)."""
        x, y = self.at(s)
        return degrees(atan2(x - self.middle[0], y - self.middle[1])) % 360.0

    @cached_property
    def _face(self) -> tuple[Floats, Floats]:
        """Arc lengths and their clock angles, unwrapped so that they grow."""
        step = self.length / _LOOKS
        s = stations(self.length, step)
        x, y = (self.sample(step) - np.array(self.middle)).T
        angles = np.unwrap(np.arctan2(x, y))
        return s, np.degrees(angles)

    def s_at_deg(self, deg: float) -> float:
        """The arc length at a clock angle, mm; off an open frame's ends, past them."""
        s, angles = self._face
        first, last = float(angles[0]), float(angles[-1])
        centre = (first + last) / 2
        wanted = centre + wrapped(deg - centre)
        if self.closed:
            wanted = first + (deg - first) % 360.0
        if wanted < first or wanted > last:
            past = wanted - (first if wanted < first else last)
            rate = self.length / (last - first)
            return (0.0 if wanted < first else self.length) + past * rate
        return self._found(wanted, float(np.interp(wanted, angles, s)))

    def _found(self, wanted: float, guess: float) -> float:
        """The arc length at an angle near a first guess, by bisection."""
        step = self.length / _LOOKS
        low, high = guess - step, guess + step
        for _ in range(44):
            mid = (low + high) / 2
            low, high = (mid, high) if wrapped(self.deg_at(mid) - wanted) < 0 else (low, mid)
        near = (low + high) / 2
        # What is a whole mark on the frame is not to miss it by a rounding.
        return round(near, 9) % self.length if self.closed else round(near, 9)
