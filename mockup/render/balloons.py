"""Balloons, each cut to what shows past those behind it and shaded where it presses on them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mockup.design.model import ColourUse
from mockup.packing.neighbours import touching_pairs
from mockup.piece.placed import Balloon, Piece
from mockup.render.contact import crease_line, crease_shade, shadow
from mockup.render.finishes import body, skin
from mockup.render.letters import clear_spots, letter
from mockup.render.outline import outlines
from mockup.render.pressed import HORIZON, Bow, bows, cuts_of
from mockup.render.record import Group, Item, Place, Point
from mockup.render.tones import Recolour, as_it_is
from mockup.render.viewpoint import BALLOON, Eye, Floats, Layer, ViewOptions

CLIP = 1.03
"""How wide of the silhouette a clip swings, so that edges are softened once and not twice."""


def balloon_layers(piece: Piece, eye: Eye) -> list[Layer]:
    """One layer for each balloon that shows, at the depth of its centre."""
    if not piece.balloons:
        return []
    centres = eye.turned([each.centre for each in piece.balloons])
    radii = np.array([each.radius for each in piece.balloons])
    outlines = map(bows, cuts_of(centres, radii, touching_pairs(centres, radii, 0.0)))
    names = lettered(piece, eye, centres, radii)
    drawn = zip(piece.balloons, centres[:, 2].tolist(), outlines, names, strict=True)
    return [
        Layer(depth, BALLOON, _balloon(piece, each, eye, shown, name))
        for each, depth, shown, name in drawn
        if shown
    ]


def colour_of(piece: Piece, letter_: str, options: ViewOptions) -> ColourUse:
    """What a letter stands for: the colourway's colour, or else the design's."""
    return (options.colours or piece.design.colours)[letter_]


def shaded_ball(
    at: Point, radius: float, colour: ColourUse, recolour: Recolour = as_it_is
) -> Group:
    """One ball of a colour by itself, as the key shows it, sheet mm."""
    under = [] if colour.finish == "clear" else [Place(shadow(recolour), at, radius)]
    ball = Place(body(colour.srgb, colour.finish, recolour), at, radius)
    return Group((*under, ball, Place(skin(colour.srgb, colour.finish, recolour), at, radius)))


def _balloon(
    piece: Piece, balloon: Balloon, eye: Eye, shown: Sequence[Bow], name: tuple[Item, ...]
) -> Group:
    colour = colour_of(piece, balloon.letter, eye.options)
    a, b, _ = eye.turned(balloon.centre)[0].tolist()
    items = ball(colour, eye.at(a, b), balloon.radius * eye.scale, shown, eye.options)
    title = f"{piece.balloon_words(balloon.index)}, {colour.name}"
    return Group(items + name, "balloon", balloon.id, title)


def ball(
    colour: ColourUse, at: Point, radius: float, shown: Sequence[Bow], options: ViewOptions
) -> tuple[Item, ...]:
    """Shade under it, then the ball cut to what shows of it, and the lines of its creases.

    ``at`` and ``radius`` in sheet mm, ``shown`` its outline as ``bows`` gives it.
    """
    recolour = options.recolour
    cast = options.shadows and colour.finish != "clear"
    under = [Place(shadow(recolour), at, radius)] if cast else []
    ball = Place(body(colour.srgb, colour.finish, recolour), at, radius)
    over = Place(skin(colour.srgb, colour.finish, recolour), at, radius)
    pressed = [bow for bow in shown if bow.cut.other != HORIZON]
    if not pressed:
        return (*under, ball, over)
    shades = tuple(crease_shade(bow.cut, at, radius, recolour) for bow in pressed)
    close, wide = outlines(shown, at, radius, (1.0, CLIP))
    dark = Group(shades if options.shadows else (), clip=close)
    cut_out = Group((ball, dark, over), clip=wide)
    return (*under, cut_out, *(crease_line(bow, at, radius, recolour) for bow in pressed))


def lettered(piece: Piece, eye: Eye, centres: Floats, radii: Floats) -> list[tuple[Item, ...]]:
    """What is written on each balloon; nothing unless letters are wanted."""
    if not eye.options.letters:
        return [()] * len(radii)
    spots, room = clear_spots(centres, radii)
    return [
        letter(
            each.letter,
            eye.recolour(colour_of(piece, each.letter, eye.options).srgb),
            eye.at(*spot),
            free * eye.scale,
            each.radius * eye.scale,
        )
        for each, spot, free in zip(piece.balloons, spots.tolist(), room.tolist(), strict=True)
    ]
