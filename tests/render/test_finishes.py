"""Finishes of latex: true to their colour, visible on paper, alike in two painters, and shared."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from mockup.colour.difference import ciede2000
from mockup.colour.shading import SHADINGS
from mockup.colour.srgb import grey, lab, oklab, parse_hex, to_hex
from mockup.colour.tones import tone
from mockup.design.model import FINISHES as NAMES
from mockup.design.model import ColourUse
from mockup.render.balloons import shaded_ball
from mockup.render.contact import crease_shade, shadow
from mockup.render.fallback import resvg_png_bytes
from mockup.render.finishes import body, skin
from mockup.render.pressed import cut
from mockup.render.record import Circle, Group, Item, Place, Radial, Sheet, walk
from mockup.render.tones import as_it_is, named

COLOURS = ["#ffffff", "#f4c9c6", "#d2232a", "#1f2d5c", "#1a1a1c", "#c9a24b", "#9fd8c4", "#116a6e"]


def gradients(items: tuple[Item, ...]) -> list[Radial]:
    found = []
    for item in walk(items):
        style = getattr(item, "style", None)
        if style and isinstance(style.fill, Radial):
            found.append(style.fill)
    return found


@cache
def picture(colour: str, finish: str) -> NDArray[np.float64]:
    """A ball of 20 mm on white paper by resvg, 24 px to its radius."""
    ball = shaded_ball((15.0, 15.0), 10.0, ColourUse("A", "x", colour, finish))  # type: ignore[arg-type]  # parametrized by every finish there is
    data = resvg_png_bytes(Sheet(30.0, 30.0, (ball,)), 60.96)
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(float)


def test_every_finish_of_a_design_can_be_drawn() -> None:
    assert set(SHADINGS) == set(NAMES)


@pytest.mark.parametrize("finish", ["matte", "gloss", "pearl"])
@pytest.mark.parametrize("colour", COLOURS)
def test_a_ball_shows_its_flat_colour(colour: str, finish: str) -> None:
    """A good part of the ball is near its swatch: CIEDE2000 under 5 (CIE 142-2001)."""
    pixels = picture(colour, finish)
    y, x = np.mgrid[: pixels.shape[0], : pixels.shape[1]]
    middle = pixels.shape[0] / 2 - 0.5
    inside = pixels[np.hypot(x - middle, y - middle) < 22][::9]
    wanted = lab(colour)
    near = [ciede2000(lab(to_hex((r, g, b))), wanted) < 5 for r, g, b in inside.tolist()]
    assert np.mean(near) > 0.12


@pytest.mark.parametrize("finish", NAMES)
@pytest.mark.parametrize("colour", ["#ffffff", "#e8dcc0"])
def test_pale_balls_stand_out_from_the_paper(colour: str, finish: str) -> None:
    """Along a line down through the middle, the rim is clearly darker than white paper."""
    column = picture(colour, finish)[:, 36]
    assert column[:6].min() > 245
    assert column[8:20].min() < 225
    assert column[54:66].min() < 215


@pytest.mark.parametrize("finish", ["matte", "gloss", "pearl", "mirror"])
@pytest.mark.parametrize("colour", COLOURS[1:])
def test_light_comes_from_the_upper_left(colour: str, finish: str) -> None:
    pixels = picture(colour, finish).mean(axis=2)
    upper, lower = pixels[24:34, 24:34].mean(), pixels[44:50, 44:50].mean()
    assert upper > lower


@pytest.mark.parametrize("finish", NAMES)
def test_stops_rise_and_stay_in_range(finish: str) -> None:
    for colour in COLOURS:
        items = body(colour, finish, as_it_is).items + skin(colour, finish, as_it_is).items
        for gradient in gradients(items):
            offsets = [stop.offset for stop in gradient.stops]
            assert offsets == sorted(set(offsets))
            assert 0 <= offsets[0] <= offsets[-1] <= 1
            assert all(0 <= stop.opacity <= 1 for stop in gradient.stops)


def test_clear_lets_what_is_behind_through_and_throws_no_shade() -> None:
    (ball,) = gradients(body("#9fd8c4", "clear", as_it_is).items)
    assert max(stop.opacity for stop in ball.stops) < 0.9
    clear, gloss = (
        len(shaded_ball((0.0, 0.0), 1.0, ColourUse("A", "x", "#9fd8c4", finish)).items)
        for finish in ("clear", "gloss")
    )
    assert (clear, gloss) == (2, 3)


def test_symbols_are_shared_by_colour_and_finish() -> None:
    assert body("#116a6e", "gloss", as_it_is) is body("#116a6e", "gloss", as_it_is)
    ids = {body(c, f, as_it_is).id for c in COLOURS for f in NAMES}
    assert len(ids) == len(COLOURS) * len(NAMES)
    assert body("#116a6e", "gloss", grey).id != body("#116a6e", "gloss", as_it_is).id


@pytest.mark.parametrize("colour", COLOURS)
def test_a_tone_keeps_hue_and_moves_lightness_by_its_share(colour: str) -> None:
    lightness = oklab(colour)[0]
    lit, dim = oklab(tone(colour, 0.4))[0], oklab(tone(colour, -0.4))[0]
    assert lit == pytest.approx(lightness + 0.4 * (1 - lightness), abs=0.01)
    assert 0.55 * lightness < dim < 0.75 * lightness
    assert parse_hex(tone(colour, 1.0)) == (255, 255, 255)
    assert parse_hex(tone(colour, -1.0))[0] < 120


def test_grey_balls_are_grey() -> None:
    for symbol in (body("#d2232a", "mirror", grey), skin("#d2232a", "mirror", grey), shadow(grey)):
        for gradient in gradients(symbol.items):
            assert all(len(set(parse_hex(stop.colour))) == 1 for stop in gradient.stops)


def test_a_crease_is_shaded_by_few_gradients_on_its_own_side() -> None:
    ids = set()
    for deg in range(0, 90, 3):
        rise = np.sin(np.radians(deg))
        normal = (float(np.cos(np.radians(deg))), 0.0, float(rise))
        if normal[0] <= 0.5:
            continue
        placed = crease_shade(cut(normal, 0.5), (0.0, 0.0), 10.0, as_it_is)
        ids.add(placed.symbol.id)
        assert placed.scale >= 20.0
        # The ring's left edge lies on the middle of the crease, its far side off the balloon.
        assert placed.at[0] - placed.scale < 0 < placed.at[0]
        assert placed.at[0] + placed.scale > 10.0
    assert len(ids) < 12


def test_a_ball_by_itself_is_one_group() -> None:
    ball = shaded_ball((5.0, 5.0), 2.0, ColourUse("A", "x", "#116a6e", "pearl"))
    assert isinstance(ball, Group)
    assert all(isinstance(item, Place) and item.scale == 2.0 for item in ball.items)
    (disc,) = body("#116a6e", "pearl", as_it_is).items
    assert isinstance(disc, Circle)
    assert named("a", 1) != named("b", 1)
