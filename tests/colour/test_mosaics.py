"""Pictures in balloons: means against a plain count of pixels, the nearest against all."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from mockup.colour.difference import difference
from mockup.colour.mosaics import mean_colours, nearest_letter
from mockup.colour.srgb import from_linear, to_linear

pictures = arrays(np.uint8, st.tuples(st.integers(1, 9), st.integers(1, 9), st.just(4)))


@settings(max_examples=40, deadline=None)
@given(pictures, st.data())
def test_a_box_of_whole_pixels_is_their_mean_in_linear_light(
    picture: np.ndarray[tuple[int, ...], np.dtype[np.uint8]], data: st.DataObject
) -> None:
    high, wide = picture.shape[:2]
    x0, y0 = data.draw(st.integers(0, wide - 1)), data.draw(st.integers(0, high - 1))
    x1, y1 = data.draw(st.integers(x0 + 1, wide)), data.draw(st.integers(y0 + 1, high))
    (seen,) = mean_colours(picture, [(x0, y0, x1, y1)])
    inked, light = 0.0, np.zeros(3)
    for red, green, blue, alpha in picture[y0:y1, x0:x1].reshape(-1, 4).tolist():
        inked += alpha / 255
        light += alpha / 255 * np.array(to_linear(f"#{red:02x}{green:02x}{blue:02x}"))
    if abs(inked / ((x1 - x0) * (y1 - y0)) - 0.5) < 1e-9:
        return  # just half clear: either answer is right
    if inked < 0.5 * (x1 - x0) * (y1 - y0):
        assert seen.colour == ""
        return
    plain = from_linear(tuple(light / inked))
    channels = zip(bytes.fromhex(seen.colour[1:]), bytes.fromhex(plain[1:]), strict=True)
    assert all(abs(a - b) <= 1 for a, b in channels)


def test_half_black_and_half_white_is_the_grey_of_half_the_light() -> None:
    """sRGB by IEC 61966-2-1: half the light of white is encoded as 188, not as 128."""
    halves = np.array([[[0, 0, 0, 255], [255, 255, 255, 255]]], dtype=np.uint8)
    assert next(mean_colours(halves, [(0, 0, 2, 1)])).colour == "#bcbcbc"
    assert next(mean_colours(halves, [(0.5, 0, 1.5, 1)])).colour == "#bcbcbc"


def test_what_lies_off_the_picture_or_is_clear_is_seen_through() -> None:
    red = np.array([[[255, 0, 0, 255], [255, 0, 0, 0]]], dtype=np.uint8)
    boxes = [(0, 0, 1, 1), (1, 0, 2, 1), (-3, 0, 0, 1), (-0.4, 0, 0.6, 1), (-0.6, 0, 0.4, 1)]
    assert [seen.colour for seen in mean_colours(red, boxes)] == ["#ff0000", "", "", "#ff0000", ""]


hexes = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06x}")


@settings(max_examples=60, deadline=None)
@given(hexes, st.lists(hexes, min_size=1, max_size=8))
def test_no_other_letter_is_nearer(colour: str, palette: list[str]) -> None:
    """CIEDE2000 itself is held against the published pairs in ``test_difference``."""
    letters = dict(zip("ABCDEFGH", palette, strict=False))
    near = nearest_letter(colour, letters)
    every = [difference(colour, each) for each in palette]
    assert near.away == min(every)
    assert near.letter == "ABCDEFGH"[every.index(min(every))]


@pytest.mark.parametrize("colour", ["#1f6f74", "#efe0c4", "#000000"])
def test_a_colour_of_the_palette_is_its_own_letter(colour: str) -> None:
    letters = {"A": "#1f6f74", "B": "#efe0c4", "C": "#000000"}
    assert nearest_letter(colour, letters).away == 0.0
    assert letters[nearest_letter(colour, letters).letter] == colour
