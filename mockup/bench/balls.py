"""Balloons for the page, as bare figures: where they lie, how large, which touch, what they wear.

The page reckons their outlines itself, by the rules of ``render/pressed.py``; what is drawn of a
balloon in the record is a group of kind "ball" named by its number, with its letter in it.
"""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, DTypeLike

from mockup.design.model import ColourUse
from mockup.piece.placed import Piece
from mockup.render.balloons import CLIP, colour_of, lettered
from mockup.render.contact import (
    BENT,
    CREASE_WIDE,
    SEAM_LEAST,
    SEAM_OPACITY,
    SEAM_SHARE,
    STEP,
    STRAIGHT,
    rings,
    shadow,
)
from mockup.render.finishes import body, skin
from mockup.render.hardware import stand_layers
from mockup.render.necks import neck_layers
from mockup.render.record import Group, Item, Symbol
from mockup.render.tones import SHADE, Recolour
from mockup.render.tube import frame_layers
from mockup.render.view import numeral_layers, wall_layers
from mockup.render.viewpoint import BALLOON, Eye, Layer, ViewOptions, in_order


def front_items(piece: Piece, eye: Eye) -> tuple[Item, ...]:
    """What ``front_view`` draws, in its order, with every balloon as its number."""
    return in_order(
        [
            *_metal(piece, eye),
            *wall_layers(piece, eye),
            *neck_layers(piece, eye),
            *_balls(piece, eye),
            *numeral_layers(piece, eye),
        ]
    )


_LAST: list[tuple[object, list[Layer]]] = []


def _metal(piece: Piece, eye: Eye) -> list[Layer]:
    """Stand and frame, which most edits leave as they are: the last ones drawn are kept."""
    options = eye.options
    look = eye.scale, eye.origin, options.recolour, options.shadows
    key = piece.design.frame, piece.design.stand, look
    for kept, layers in tuple(_LAST):
        if kept == key:
            return layers
    layers = [*stand_layers(piece, eye), *frame_layers(piece.frame, eye)]
    _LAST[:] = [(key, layers)]
    return layers


def _balls(piece: Piece, eye: Eye) -> list[Layer]:
    return [
        Layer(one.centre[2], BALLOON, _numbered(k) if not over else Group(over, "ball", str(k)))
        for k, (one, over) in enumerate(zip(piece.balloons, _letters(piece, eye), strict=True))
    ]


@cache
def _numbered(index: int) -> Group:
    return Group((), "ball", str(index))


def _letters(piece: Piece, eye: Eye) -> list[tuple[Item, ...]]:
    if not eye.options.letters or not piece.balloons:
        return [()] * len(piece.balloons)
    centres = np.array([each.centre for each in piece.balloons])
    return lettered(piece, eye, centres, np.array([each.radius for each in piece.balloons]))


def figures(piece: Piece, options: ViewOptions) -> tuple[dict[str, Any], list[Symbol]]:
    """The balls of the piece (mm, as base64 of their bytes) and the symbols they are painted with.

    ``look`` is for each ball its place in ``looks``.
    """
    uses = [colour_of(piece, each.letter, options) for each in piece.balloons]
    places = {id(use): use for use in uses}
    at = {key: place for place, key in enumerate(places)}
    worn = [_worn(use, options.recolour) for use in places.values()]
    first, shades = rings(options.recolour)
    told = {
        "centres": _bytes([each.centre for each in piece.balloons], "<f8"),
        "radii": _bytes([each.radius for each in piece.balloons], "<f8"),
        "pairs": _bytes(piece.nestling.contacts, "<i4"),
        "look": [at[id(use)] for use in uses],
        "looks": [[each.id if each else "" for each in three] for three in worn],
        "crease": _crease(first, shades, options.recolour),
    }
    return told, [*shades, *(each for three in worn for each in three if each)]


def _worn(use: ColourUse, recolour: Recolour) -> tuple[Symbol | None, Symbol, Symbol]:
    colour, finish = use.srgb, use.finish
    under = None if finish == "clear" else shadow(recolour)
    return under, body(colour, finish, recolour), skin(colour, finish, recolour)


def _crease(first: int, shades: tuple[Symbol, ...], recolour: Recolour) -> dict[str, Any]:
    seam = {"share": SEAM_SHARE, "least": SEAM_LEAST, "opacity": SEAM_OPACITY}
    return {
        "clip": CLIP,
        "wide": CREASE_WIDE,
        "bent": BENT,
        "straight": STRAIGHT,
        "step": STEP,
        "first": first,
        "rings": [each.id for each in shades],
        "seam": {**seam, "colour": recolour(SHADE)},
    }


def _bytes(values: ArrayLike, kind: DTypeLike) -> str:
    return b64encode(np.asarray(values, dtype=kind).tobytes()).decode("ascii")
