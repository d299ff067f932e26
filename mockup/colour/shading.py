"""How each finish of latex is shaded: a body lit from the upper left, a rim, and what gleams.

All on a ball of radius 1, x right and y down; gradients run from a focus in units of the ball's
box, 0 to 1 both ways.
"""

from __future__ import annotations

from itertools import pairwise

from mockup.records import dataclass

Pairs = tuple[tuple[float, float], ...]
Point = tuple[float, float]

WHITE = "#ffffff"
"""The colour of every light on the skin."""
RIM_CENTRE, RIM_R = (0.452, 0.438), 0.585
"""Where the light lies that comes back along the far rim, in the box: it dies out elsewhere."""
EDGE_TONE = -0.82


@dataclass(frozen=True)
class Body:
    """A shaded ball: centre, radius and focus of the gradient in the box, tones, and opacities."""

    centre: tuple[float, float]
    r: float
    focus: tuple[float, float]
    tones: Pairs
    opacity: Pairs = ()


@dataclass(frozen=True)
class Gleam:
    """A soft light on the skin: place and half axes in radii, turn in degrees, opacities."""

    at: tuple[float, float]
    size: tuple[float, float]
    turn: float
    depths: Pairs


@dataclass(frozen=True)
class Shading:
    """A finish: body, the light that comes back along the lower right rim, edge, gleams."""

    body: Body
    bounce: float
    edge: float
    gleams: tuple[Gleam, ...]


def between(pairs: Pairs, at: float) -> float:
    """The value of (offset, value) pairs at an offset, straight between them, the last beyond.

    >>> between(((0.0, 1.0), (0.5, 0.0)), 0.25), between(((0.0, 1.0), (0.5, 0.0)), 2.0)
    (0.5, 0.0)
    """
    for (a, low), (b, high) in pairwise(pairs):
        if a <= at <= b:
            return low + (high - low) * (at - a) / (b - a)
    return pairs[-1][1]


def rim_depths(peak: float) -> Pairs:
    """How strongly the far rim is lit, along the radius of its light.

    >>> rim_depths(0.2)[2]
    (0.965, 0.2)
    """
    return ((0.86, 0.0), (0.925, 0.5 * peak), (0.965, peak), (1.0, 0.25 * peak))


def edge_depths(depth: float) -> Pairs:
    """How strongly the edge darkens, along the ball's own radius.

    >>> edge_depths(0.4)[2]
    (0.985, 0.4)
    """
    return ((0.9, 0.0), (0.955, 0.28 * depth), (0.985, depth), (1.0, 1.15 * depth))


def _soft(peak: float) -> Pairs:
    return ((0.0, peak), (0.3, 0.86 * peak), (0.6, 0.45 * peak), (0.82, 0.12 * peak), (1.0, 0.0))


def _crisp(peak: float) -> Pairs:
    return ((0.0, peak), (0.55, 0.94 * peak), (0.78, 0.6 * peak), (0.92, 0.16 * peak), (1.0, 0.0))


SHADINGS: dict[str, Shading] = {
    "matte": Shading(
        Body(
            (0.42, 0.38),
            0.68,
            (0.35, 0.29),
            ((0.0, 0.26), (0.2, 0.16), (0.45, 0.0), (0.7, -0.13), (0.88, -0.27), (1.0, -0.38)),
        ),
        0.10,
        0.30,
        (Gleam((-0.32, -0.40), (0.40, 0.30), -40, _soft(0.16)),),
    ),
    "gloss": Shading(
        Body(
            (0.42, 0.38),
            0.68,
            (0.35, 0.28),
            (
                (0.0, 0.34),
                (0.16, 0.17),
                (0.38, 0.02),
                (0.58, -0.12),
                (0.78, -0.32),
                (0.92, -0.50),
                (1.0, -0.56),
            ),
        ),
        0.32,
        0.36,
        (
            Gleam((-0.36, -0.44), (0.42, 0.28), -40, _soft(0.30)),
            Gleam((-0.42, -0.49), (0.26, 0.11), -40, _crisp(1.0)),
            Gleam((0.45, 0.58), (0.30, 0.10), -38, _soft(0.26)),
        ),
    ),
    "pearl": Shading(
        Body(
            (0.42, 0.39),
            0.67,
            (0.345, 0.28),
            (
                (0.0, 0.60),
                (0.12, 0.47),
                (0.28, 0.22),
                (0.48, 0.02),
                (0.68, -0.17),
                (0.84, -0.32),
                (1.0, -0.40),
            ),
        ),
        0.34,
        0.30,
        (
            Gleam((-0.33, -0.42), (0.38, 0.26), -40, _soft(0.42)),
            Gleam((-0.36, -0.45), (0.11, 0.066), -40, _soft(0.95)),
        ),
    ),
    "mirror": Shading(
        Body(
            (0.41, 0.36),
            0.72,
            (0.33, 0.25),
            (
                (0.0, 0.84),
                (0.12, 0.60),
                (0.26, 0.24),
                (0.38, 0.0),
                (0.50, -0.24),
                (0.60, -0.43),
                (0.68, -0.48),
                (0.755, -0.36),
                (0.83, 0.0),
                (0.89, 0.40),
                (0.935, 0.46),
                (0.97, 0.10),
                (1.0, -0.25),
            ),
        ),
        0.12,
        0.40,
        (
            Gleam((-0.36, -0.46), (0.24, 0.11), -38, _crisp(0.95)),
            Gleam((0.36, 0.66), (0.20, 0.05), -30, _soft(0.55)),
        ),
    ),
    "clear": Shading(
        Body(
            (0.46, 0.44),
            0.57,
            (0.40, 0.36),
            ((0.0, 0.45), (0.4, 0.25), (0.75, 0.0), (0.92, -0.28), (1.0, -0.42)),
            ((0.0, 0.22), (0.5, 0.32), (0.8, 0.52), (0.93, 0.74), (1.0, 0.84)),
        ),
        0.40,
        0.34,
        (
            Gleam((-0.40, -0.47), (0.22, 0.10), -40, _crisp(0.9)),
            Gleam((0.42, 0.52), (0.30, 0.13), -40, _soft(0.50)),
        ),
    ),
}
