"""Tones of one colour: how light or dark each part of a shaded thing is drawn."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

from mockup.colour.tones import tone
from mockup.render.record import Item, Linear, Point, Radial, Stop, Symbol

Recolour = Callable[[str], str]
Ink = Callable[[float], str]
"""The tone of one colour at an amount, as the drawing shows it."""
SHADE = "#17121c"
"""The colour of every shadow: a dark, barely violet grey that sits well on any colour."""


def as_it_is(colour: str) -> str:
    """The recolouring that changes nothing.

    >>> as_it_is("#1f6f74")
    '#1f6f74'
    """
    return colour


def named(kind: str, *content: object) -> str:
    """An id made of ``kind`` and all that the thing holds: same content, same id, on every page.

    >>> named("body", 1, 2) == named("body", 1, 2), named("body", 1, 2) == named("body", 2, 1)
    (True, False)
    """
    return f"{kind}-{hashlib.sha256(repr(content).encode()).hexdigest()[:8]}"


def symbol(kind: str, *items: Item) -> Symbol:
    """A symbol with an id of its own content."""
    return Symbol(named(kind, items), items)


def radial(
    kind: str,
    stops: tuple[Stop, ...],
    centre: Point = (0.5, 0.5),
    r: float = 0.5,
    focus: Point | None = None,
) -> Radial:
    """A radial gradient with an id of its own content; the focus is the centre unless given."""
    (cx, cy), (fx, fy) = centre, focus or centre
    return Radial(named(kind, stops, cx, cy, r, fx, fy), stops, cx, cy, r, fx, fy)


def linear(
    kind: str, stops: tuple[Stop, ...], start: Point, end: Point, on_sheet: bool = False
) -> Linear:
    """A linear gradient with an id of its own content."""
    return Linear(named(kind, stops, start, end, on_sheet), stops, start, end, on_sheet)


def ramp(
    colour: str, tones: tuple[tuple[float, float], ...], recolour: Recolour
) -> tuple[Stop, ...]:
    """Stops of one colour from (offset, amount) pairs."""
    return tuple(Stop(offset, recolour(tone(colour, amount))) for offset, amount in tones)


def veil(
    colour: str, depths: tuple[tuple[float, float], ...], recolour: Recolour
) -> tuple[Stop, ...]:
    """Stops of one colour from (offset, opacity) pairs."""
    shown = recolour(colour)
    return tuple(Stop(offset, shown, opacity) for offset, opacity in depths)
