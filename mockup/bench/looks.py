"""How the piece is looked at: with letters and dimensions or without, in which colours, by whom."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache, partial
from math import ceil
from typing import Any, NamedTuple, cast

from mockup.bench.balls import figures, front_items
from mockup.bench.canvas import played, with_symbols
from mockup.colour.sight import SIGHTS, Sight, seen_as
from mockup.piece.placed import Piece
from mockup.render.record import Group, Item, Point
from mockup.render.tones import Recolour, as_it_is
from mockup.render.viewpoint import FRONT, Eye, ViewOptions

_SHEET = 220.0
_STEP = 50.8
_LETTERING = (3.5, 2.5)
"""Figures and names of dimensions, mm of lettering after ISO 3098: read on a screen."""


class Look(NamedTuple):
    """What one tab of the page wants to see; ``way`` is a colourway's number, from 1."""

    sight: Sight = "normal"
    letters: bool = False
    dimensions: bool = False
    way: int = 0


def look_from(said: object) -> Look:
    """The look a call asks for; what is not understood stays usual.

    >>> look_from({"sight": "grey", "letters": True, "way": "x"})
    Look(sight='grey', letters=True, dimensions=False, way=0)
    """
    if not isinstance(said, Mapping):
        return Look()
    sight, way = said.get("sight"), said.get("way")
    return Look(
        cast(Sight, sight) if sight in SIGHTS else "normal",
        said.get("letters") is True,
        said.get("dimensions") is True,
        way if isinstance(way, int) and not isinstance(way, bool) and way > 0 else 0,
    )


class Ground(NamedTuple):
    """The sheet a piece is shown on: its size, sheet mm to a mm, and where the ring's centre is."""

    width: float
    height: float
    scale: float
    origin: Point

    def at(self, x: float, y: float) -> Point:
        """The sheet point of a point of the piece."""
        return self.origin[0] + x * self.scale, self.origin[1] - y * self.scale


def ground_of(piece: Piece, look: Look) -> Ground:
    """A sheet with room round the piece. Its size goes in steps, so that small changes of the piece
    do not move the picture."""
    box = piece.extent
    half = _stepped(max(box.x[1], -box.x[0]))
    top, foot = _stepped(box.y[1]), -_stepped(-box.y[0])
    scale = _SHEET / max(2 * half, top - foot)
    edge = 34.0 if look.dimensions else 5.0
    origin = (edge + half * scale, edge + top * scale)
    width, height = 2 * (edge + half * scale), 2 * edge + (top - foot) * scale
    return Ground(width, height, scale, origin)


def _stepped(mm: float) -> float:
    return ceil(mm / _STEP + 0.25) * _STEP


def _seen(sight: Sight, colour: str) -> str:
    return seen_as(colour, sight)


_RECOLOURS: dict[Sight, Recolour] = {
    sight: as_it_is if sight == "normal" else lru_cache(4096)(partial(_seen, sight))
    for sight in SIGHTS
}


def options_of(piece: Piece, look: Look) -> ViewOptions:
    """The colours and letters of a look."""
    ways = piece.design.colourways
    way = ways[look.way - 1] if 0 < look.way <= len(ways) else None
    return ViewOptions(
        letters=look.letters,
        colours=way.colours if way else None,
        foil=way.foil if way else None,
        recolour=_RECOLOURS[look.sight],
    )


def picture(piece: Piece, look: Look, have: frozenset[str] = frozenset()) -> dict[str, Any]:
    """The drawing: its ``balls``, and from the back ``back``, ``numerals`` and ``front``.

    ``have`` names the numerals' symbols that the page holds already; they are large.
    """
    ground = ground_of(piece, look)
    options = options_of(piece, look)
    items = front_items(piece, Eye(FRONT, ground.scale, ground.origin, options))
    first = next((k for k, item in enumerate(items) if _is_numeral(item)), len(items))
    last = next((k for k, item in enumerate(items[first:], first) if not _is_numeral(item)), None)
    front = items[last:] if last is not None else ()
    behind, over = _dimensions(piece, ground) if look.dimensions else ((), ())
    parts = {
        "back": played((*behind, *items[:first])),
        "numerals": played(items[first:last]),
        "front": played((*front, *over)),
    }
    symbols = parts["numerals"]["symbols"]
    for name in [name for name in symbols if name in have]:
        del symbols[name]
    return {
        "width": round(ground.width, 3),
        "height": round(ground.height, 3),
        "scale": ground.scale,
        "origin": [round(v, 3) for v in ground.origin],
        "balls": with_symbols(*figures(piece, options)),
        **parts,
    }


def _is_numeral(item: Item) -> bool:
    return isinstance(item, Group) and item.kind == "numeral"


def _dimensions(piece: Piece, ground: Ground) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    from mockup.render.dimensions import Heights, dimensioned
    from mockup.render.sheets.measures import Printed, front_spans, measured

    measures = measured(front_spans(piece), ground.at, Printed(piece.design.unit, "own"))
    box = piece.extent
    left, top = ground.at(box.x[0], box.y[1])
    right, bottom = ground.at(box.x[1], box.y[0])
    drawn = dimensioned(measures, (left, top, right, bottom), Heights(*_LETTERING))
    return (drawn.behind,), (drawn.over,)
