"""Balloons for the page, each drawn once for as long as nothing moves.

A change of colour leaves every outline where it is: only the balls in other colours are made anew.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from mockup.design.model import ColourUse
from mockup.packing.neighbours import touching_pairs
from mockup.piece.placed import Balloon, Piece
from mockup.render.balloons import ball, balloon_layers, colour_of
from mockup.render.hardware import stand_layers
from mockup.render.necks import neck_layers
from mockup.render.pressed import Bow, bows, cuts_of
from mockup.render.record import Group, Item
from mockup.render.tube import frame_layers
from mockup.render.view import numeral_layers
from mockup.render.viewpoint import BALLOON, Eye, Layer, in_order

_MOST_KEPT = 4000


@dataclass
class Still:
    """Balloons that have not moved: the outline of each, and the balls drawn so far."""

    shown: tuple[tuple[Bow, ...], ...]
    drawn: dict[object, Group] = field(default_factory=dict)

    def ball(self, index: int, one: Balloon, colour: ColourUse, eye: Eye) -> Group:
        """One ball as ``front_view`` draws it, without its words."""
        options = eye.options
        look = (colour.srgb, colour.finish, options.recolour, eye.scale, eye.origin)
        key = (index, *look)
        if key not in self.drawn:
            if len(self.drawn) >= _MOST_KEPT:
                self.drawn.clear()
            at = eye.at(one.centre[0], one.centre[1])
            items = ball(colour, at, one.radius * eye.scale, self.shown[index], options)
            self.drawn[key] = Group(items, "balloon")
        return self.drawn[key]


@lru_cache(maxsize=4)
def _still(centres: bytes, radii: bytes) -> Still:
    xyz = np.frombuffer(centres).reshape(-1, 3)
    own = np.frombuffer(radii)
    cuts = cuts_of(xyz, own, touching_pairs(xyz, own, 0.0))
    return Still(tuple(tuple(bows(each)) for each in cuts))


def front_items(piece: Piece, eye: Eye) -> tuple[Item, ...]:
    """What ``front_view`` draws, in its order; balls that have not changed are the same objects."""
    layers = [
        *stand_layers(piece, eye),
        *frame_layers(piece.frame, eye),
        *neck_layers(piece, eye),
        *(balloon_layers(piece, eye) if eye.options.letters else _balls(piece, eye)),
        *numeral_layers(piece, eye),
    ]
    return in_order(layers)


def _balls(piece: Piece, eye: Eye) -> list[Layer]:
    if not piece.balloons:
        return []
    centres = np.array([each.centre for each in piece.balloons])
    radii = np.array([each.radius for each in piece.balloons])
    still = _still(centres.tobytes(), radii.tobytes())
    return [
        Layer(each.centre[2], BALLOON, still.ball(k, each, colour, eye))
        for k, each in enumerate(piece.balloons)
        if still.shown[k]
        for colour in (colour_of(piece, each.letter, eye.options),)
    ]
