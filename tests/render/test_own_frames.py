"""Balloons of the client's page in frames of their own: the same picture in far fewer bytes.

The picture is judged by CairoSVG, which is not ours: it paints the drawing of a page with its
balloons as they lie on the sheet, and in their own frames.
"""

from __future__ import annotations

import io
from functools import cache

import cairosvg
import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from mockup.colour.views import shown_as
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.page.inline import Inline, inline
from mockup.render.page.own_frames import moved
from mockup.render.record import Sheet
from mockup.render.viewpoint import ViewOptions
from tests.render.client_pieces import SAMPLES, page_of, sample

GREY = ViewOptions(letters=True, recolour=shown_as("grey"))


@cache
def small_wall() -> Piece:
    text = (SAMPLES / "kestrel-wall.toml").read_text("utf-8")
    text = text.replace('"10ft"', '"3ft"').replace('"6ft"', '"3ft"').replace("MIRA", "I")
    return assemble(design_from_text(text, "small.toml"))


def sheet_of(piece: Piece, options: ViewOptions) -> Sheet:
    view = front_view(piece, 1 / 20, (100.0, 80.0), options)
    return Sheet(200.0, 130.0, (view,), background="none")


def together(parts: Inline) -> str:
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        'width="200mm" height="130mm" viewBox="0 0 200 130" fill="none">'
        f"<defs>{parts.definitions}</defs>{''.join(parts.groups.values())}</svg>"
    ).replace(" href=", " xlink:href=")


def painted(svg: str) -> NDArray[np.int_]:
    data = cairosvg.svg2png(bytestring=svg.encode(), dpi=96, background_color="#ffffff")
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(int)


@pytest.mark.parametrize(
    ("piece", "options"),
    [
        (small_wall(), ViewOptions()),
        (small_wall(), GREY),
        (sample("ruby-thirty"), ViewOptions()),
        (sample("alder-half-ring"), GREY),
    ],
    ids=["wall", "wall in grey", "ring", "half ring in grey"],
)
def test_the_picture_is_the_same(
    piece: Piece, options: ViewOptions, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet = sheet_of(piece, options)
    framed = together(inline(sheet))
    monkeypatch.setattr("mockup.render.page.inline.own_frames", lambda *_: None)
    plain = together(inline(sheet))
    assert len(framed) < 0.95 * len(plain)
    one, other = painted(framed), painted(plain)
    assert one.shape == other.shape
    assert one.min() < 100
    assert (np.abs(one - other).max(axis=2) > 24).mean() < 0.0002


def test_a_wall_says_once_how_its_balloons_are_cut() -> None:
    """590 balloons: as many placings, and few drawings."""
    parts = inline(sheet_of(sample("kestrel-wall"), ViewOptions()))
    (group,) = parts.groups.values()
    assert group.count('class="balloon"') == 590
    assert parts.definitions.count("<clipPath") < 120
    assert len(page_of(sample("kestrel-wall")).encode()) < 200_000


def test_every_clip_and_placing_that_is_named_is_there_once() -> None:
    parts = inline(sheet_of(sample("alder-half-ring"), GREY))
    text = together(parts)
    named = [part.split(")")[0] for part in text.split("url(#")[1:]]
    named += [part.split('"')[0] for part in text.split('href="#')[1:]]
    ids = [part.split('"')[0] for part in text.split(' id="')[1:]]
    assert set(named) <= set(ids)
    assert len(ids) == len(set(ids))
    clips = [part.split('"')[0] for part in text.split('<clipPath id="')[1:]]
    assert set(clips) <= set(named)


def test_path_data_in_a_balloons_frame_are_the_same_shape() -> None:
    data = "M43.715 25.825A2.857 2.857 0 0 0 43.301 25.825L41.144 27.071L40.937 29.921Z"
    x, y, r = 43.508, 28.676, 2.8575
    own = moved(data, (x, y, r))
    assert own == "M.0724-.9977a.9998 .9998 0 0 0-.1448 0l-.7549 .436l-.0724 .9974Z"
    ends = np.cumsum([[0.0724, -0.9977], [-0.1448, 0], [-0.7549, 0.436], [-0.0724, 0.9974]], axis=0)
    corners = [[43.715, 25.825], [43.301, 25.825], [41.144, 27.071], [40.937, 29.921]]
    assert ends * r + (x, y) == pytest.approx(np.array(corners), abs=0.0005)
