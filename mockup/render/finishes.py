"""How each finish of latex is drawn: a body shaded from the upper left, a rim, and what gleams.

Every part is drawn once on a circle of radius 1 and placed as often as the piece has balloons of
that colour and finish; gradients are in units of the box, so that all sizes share them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from mockup.render.record import Circle, Ellipse, Item, Stop, Style, Symbol
from mockup.render.tones import Recolour, radial, ramp, symbol, tone, veil

Pairs = tuple[tuple[float, float], ...]
_WHITE = "#ffffff"


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
class Finish:
    """One finish: body, the light that comes back along the lower right rim, edge, gleams."""

    body: Body
    bounce: float
    edge: float
    gleams: tuple[Gleam, ...]


def _soft(peak: float) -> Pairs:
    return ((0.0, peak), (0.3, 0.86 * peak), (0.6, 0.45 * peak), (0.82, 0.12 * peak), (1.0, 0.0))


def _crisp(peak: float) -> Pairs:
    return ((0.0, peak), (0.55, 0.94 * peak), (0.78, 0.6 * peak), (0.92, 0.16 * peak), (1.0, 0.0))


FINISHES: dict[str, Finish] = {
    "matte": Finish(
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
    "gloss": Finish(
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
    "pearl": Finish(
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
    "mirror": Finish(
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
    "clear": Finish(
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


@lru_cache(maxsize=512)
def body(colour: str, finish: str, recolour: Recolour) -> Symbol:
    """The shaded ball of a colour (``#rrggbb``) in a finish, radius 1 round the origin."""
    look = FINISHES[finish].body
    stops = _body_stops(colour, look, recolour)
    paint = radial("latex", stops, look.centre, look.r, look.focus)
    return symbol("ball", Circle((0.0, 0.0), 1.0, Style(fill=paint)))


def _body_stops(colour: str, look: Body, recolour: Recolour) -> tuple[Stop, ...]:
    if not look.opacity:
        return ramp(colour, look.tones, recolour)
    offsets = sorted({at for at, _ in look.tones} | {at for at, _ in look.opacity})
    return tuple(
        Stop(at, recolour(tone(colour, _between(look.tones, at))), _between(look.opacity, at))
        for at in offsets
    )


def _between(pairs: Pairs, at: float) -> float:
    for (a, low), (b, high) in pairwise(pairs):
        if a <= at <= b:
            return low + (high - low) * (at - a) / (b - a)
    return pairs[-1][1]


@lru_cache(maxsize=512)
def skin(colour: str, finish: str, recolour: Recolour) -> Symbol:
    """What lies on the ball: light along its far rim, its edge, and its gleams; radius 1."""
    look = FINISHES[finish]
    items: list[Item] = [_rim(look.bounce, recolour), _edge(colour, look.edge, recolour)]
    items += [_gleam(gleam, recolour) for gleam in look.gleams]
    return symbol("skin", *items)


def _rim(peak: float, recolour: Recolour) -> Circle:
    """Light thrown back on the lower right: a ring off centre, so that it dies out elsewhere."""
    depths = ((0.86, 0.0), (0.925, 0.5 * peak), (0.965, peak), (1.0, 0.25 * peak))
    stops = veil(_WHITE, depths, recolour)
    paint = radial("rim", stops, (0.452, 0.438), 0.585)
    return Circle((0.0, 0.0), 1.0, Style(fill=paint))


def _edge(colour: str, depth: float, recolour: Recolour) -> Circle:
    depths = ((0.9, 0.0), (0.955, 0.28 * depth), (0.985, depth), (1.0, 1.15 * depth))
    stops = veil(tone(colour, -0.82), depths, recolour)
    paint = radial("edge", stops)
    return Circle((0.0, 0.0), 1.0, Style(fill=paint))


def _gleam(gleam: Gleam, recolour: Recolour) -> Ellipse:
    stops = veil(_WHITE, gleam.depths, recolour)
    paint = radial("gleam", stops)
    return Ellipse(gleam.at, *gleam.size, Style(fill=paint), gleam.turn)
