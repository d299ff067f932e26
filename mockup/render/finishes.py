"""How each finish of latex is drawn: a body shaded from the upper left, a rim, and what gleams.

Every part is drawn once on a circle of radius 1 and placed as often as the piece has balloons of
that colour and finish; gradients are in units of the box, so that all sizes share them.
"""

from __future__ import annotations

from functools import lru_cache

from mockup.colour.shading import (
    EDGE_TONE,
    RIM_CENTRE,
    RIM_R,
    SHADINGS,
    WHITE,
    Body,
    Gleam,
    between,
    edge_depths,
    rim_depths,
)
from mockup.colour.tones import tone
from mockup.render.record import Circle, Ellipse, Item, Stop, Style, Symbol
from mockup.render.tones import Recolour, radial, ramp, symbol, veil


@lru_cache(maxsize=512)
def body(colour: str, finish: str, recolour: Recolour) -> Symbol:
    """The shaded ball of a colour (``#rrggbb``) in a finish, radius 1 round the origin."""
    look = SHADINGS[finish].body
    stops = _body_stops(colour, look, recolour)
    paint = radial("latex", stops, look.centre, look.r, look.focus)
    return symbol("ball", Circle((0.0, 0.0), 1.0, Style(fill=paint)))


def _body_stops(colour: str, look: Body, recolour: Recolour) -> tuple[Stop, ...]:
    if not look.opacity:
        return ramp(colour, look.tones, recolour)
    offsets = sorted({at for at, _ in look.tones} | {at for at, _ in look.opacity})
    return tuple(
        Stop(at, recolour(tone(colour, between(look.tones, at))), between(look.opacity, at))
        for at in offsets
    )


@lru_cache(maxsize=512)
def skin(colour: str, finish: str, recolour: Recolour) -> Symbol:
    """What lies on the ball: light along its far rim, its edge, and its gleams; radius 1."""
    look = SHADINGS[finish]
    items: list[Item] = [_rim(look.bounce, recolour), _edge(colour, look.edge, recolour)]
    items += [_gleam(gleam, recolour) for gleam in look.gleams]
    return symbol("skin", *items)


def _rim(peak: float, recolour: Recolour) -> Circle:
    """Light thrown back on the lower right: a ring off centre, so that it dies out elsewhere."""
    stops = veil(WHITE, rim_depths(peak), recolour)
    paint = radial("rim", stops, RIM_CENTRE, RIM_R)
    return Circle((0.0, 0.0), 1.0, Style(fill=paint))


def _edge(colour: str, depth: float, recolour: Recolour) -> Circle:
    stops = veil(tone(colour, EDGE_TONE), edge_depths(depth), recolour)
    paint = radial("edge", stops)
    return Circle((0.0, 0.0), 1.0, Style(fill=paint))


def _gleam(gleam: Gleam, recolour: Recolour) -> Ellipse:
    stops = veil(WHITE, gleam.depths, recolour)
    paint = radial("gleam", stops)
    return Ellipse(gleam.at, *gleam.size, Style(fill=paint), gleam.turn)
