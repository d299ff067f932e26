"""The decorator's own measurements turned into the book's figures, by least squares.

Each law has one unknown and passes through the origin, so that the fit has a closed form:
``y = k x`` gives ``k = sum(x y) / sum(x^2)`` (Legendre's and Gauss's least squares).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from mockup.errors import MockupError
from mockup.packing.nesting import sideways

MOST_OFF = 0.08
"""A measurement further off the fit than this share is a slip of the tape, not a spread."""

MOST_SQUEEZE = 0.40
ONE_STROKE = (20.0, 250.0)
"""Diameters of one stroke, mm: 4 ml to 8 l, from a toy to the largest pump worked by hand."""

MOST_SHRINK = 0.50


class Nonsense(MockupError):
    """Measurements that no pump, build or foil can give; the message says which and why."""


@dataclass(frozen=True)
class Reading:
    """One measurement: what it is called, its ``x`` and ``y`` in the law ``y = k x``."""

    says: str
    x: float
    y: float


@dataclass(frozen=True)
class Off:
    """How far a reading lies off the fit, as a share of what the fit says."""

    reading: Reading
    fitted: float

    @property
    def share(self) -> float:
        """Above 0 where more was measured than the fit says."""
        return self.reading.y / self.fitted - 1


@dataclass(frozen=True)
class Calibration:
    """The factor ``k`` of the law with every reading's distance from it."""

    factor: float
    offs: tuple[Off, ...]

    @property
    def worst(self) -> float:
        """The largest distance, as a share."""
        return max(abs(off.share) for off in self.offs)


def pump_factor(readings: Sequence[tuple[str, float, float]]) -> Calibration:
    """From (words, strokes, diameter in mm): the diameter that one stroke gives.

    The cube-root law ``d = k strokes^(1/3)``. Raises ``Nonsense``.

    >>> readings = [("4", 4.0, 114.3), ("1", 1.0, 72.0)]
    >>> round(pump_factor(readings).factor, 2)
    72.0
    """
    for says, strokes, mm in _positive(readings):
        if not ONE_STROKE[0] <= mm / strokes ** (1 / 3) <= ONE_STROKE[1]:
            raise Nonsense(f"{says}: no pump for balloons moves that much or that little a stroke")
    return _fitted([Reading(says, strokes ** (1 / 3), mm) for says, strokes, mm in readings])


def squeeze_of(readings: Sequence[tuple[str, int, float, float]]) -> Calibration:
    """From (words, balloons in a cluster, diameter, pitch in mm): one less the squeeze.

    The pitch of equal clusters solved for the contact distance, which is ``(1 - s) d``:
    ``sqrt(pitch^2 + (2 rho sin(pi/2n))^2)``. Raises ``Nonsense`` for a reading whose clusters
    would not touch, or would be pressed further than balloons go.

    >>> quads = [("12 quads", 4, 114.3, 0.719 * 114.3)]
    >>> round(1 - squeeze_of(quads).factor, 2)
    0.1
    """
    for says, count, diameter, pitch in readings:
        _positive([(says, diameter, pitch)])
        _squeeze_makes_sense(says, 1 - hypot(pitch / diameter, sideways(count)))
    return _fitted([Reading(says, d, hypot(p, d * sideways(n))) for says, n, d, p in readings])


def _squeeze_makes_sense(says: str, squeeze: float) -> None:
    if squeeze < -1e-3:
        raise Nonsense(
            f"{says}: these clusters would not touch (a squeeze of {squeeze:.0%}); "
            "check their number, what they are filled to and the length"
        )
    if squeeze > MOST_SQUEEZE:
        raise Nonsense(
            f"{says}: that is a squeeze of {squeeze:.0%}, and balloons burst before; "
            "check their number, what they are filled to and the length"
        )


def shrink_of(readings: Sequence[tuple[str, float, float]]) -> Calibration:
    """From (words, flat height, filled height): one less the shrink. Raises ``Nonsense``.

    >>> round(1 - shrink_of([("16in", 406.4, 357.6)]).factor, 2)
    0.12
    """
    for says, flat, filled in _positive(readings):
        if filled > flat:
            raise Nonsense(f"{says}: a foil does not grow when filled; write flat=filled")
        if 1 - filled / flat > MOST_SHRINK:
            raise Nonsense(f"{says}: no foil loses more than half its height; write flat=filled")
    return _fitted([Reading(says, flat, filled) for says, flat, filled in readings])


def _positive(readings: Sequence[tuple[str, float, float]]) -> Sequence[tuple[str, float, float]]:
    for says, one, other in readings:
        if one <= 0 or other <= 0:
            raise Nonsense(f"{says}: nothing can be measured as nothing")
    return readings


def _fitted(readings: Sequence[Reading]) -> Calibration:
    if not readings:
        raise Nonsense("there is no measurement; give one at least")
    factor = sum(r.x * r.y for r in readings) / sum(r.x**2 for r in readings)
    offs = tuple(Off(reading, factor * reading.x) for reading in readings)
    worst = max(offs, key=lambda off: abs(off.share))
    if abs(worst.share) > MOST_OFF:
        raise Nonsense(
            f"{worst.reading.says}: it lies {worst.share:+.0%} off what the others say; "
            "measure it again or leave it out"
        )
    return Calibration(factor, offs)
