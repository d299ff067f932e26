"""The canvas shows the drawing that the writers write: judged pixel by pixel by resvg.

Outside judge: resvg, an SVG renderer of its own, over the SVG of the same record.
"""

from __future__ import annotations

import base64
import io
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from playwright.sync_api import Browser

from mockup.bench.canvas import as_json, played
from mockup.bench.looks import Look, ground_of, look_from, options_of, picture
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.record import Circle, Group, Place, Sheet, Style, Text, walk
from mockup.render.record import Path as Drawn
from mockup.render.svg import svg_text
from mockup.render.tones import radial, symbol, veil

SAMPLES = Path(__file__).parent.parent.parent / "samples"
PLAYER = (Path(__file__).parent.parent.parent / "mockup/bench/assets/player.js").read_text("utf-8")
PIXELS = 2.0
PLAY = """async ([parts, width, height, scale]) => {
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * scale); canvas.height = Math.round(height * scale);
    const context = canvas.getContext('2d');
    context.fillStyle = '#ffffff'; context.fillRect(0, 0, canvas.width, canvas.height);
    for (const part of parts) player.play(context, JSON.parse(part), canvas.width / width);
    return canvas.toDataURL('image/png'); }"""


def piece_of(name: str) -> Piece:
    return assemble(design_from_text((SAMPLES / f"{name}.toml").read_text("utf-8"), "x.toml"))


def pixels(png: bytes) -> NDArray[np.float64]:
    from PIL import Image

    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=np.float64)


def by_resvg(sheet: Sheet) -> NDArray[np.float64]:
    import resvg_py

    svg = svg_text(sheet, search_text=False)
    made = resvg_py.svg_to_bytes(svg_string=svg, dpi=96.0, width=round(sheet.width * PIXELS))
    return pixels(bytes(made))


def on_canvas(chromium: Browser, parts: list[str], sheet: Sheet) -> NDArray[np.float64]:
    page = chromium.new_page()
    page.add_script_tag(content=f"{PLAYER}\nwindow.player = {{ play }};", type="module")
    page.wait_for_function("() => window.player")  # an inline module runs when it likes
    url = page.evaluate(PLAY, [parts, sheet.width, sheet.height, PIXELS])
    page.close()
    return pixels(base64.b64decode(url.split(",")[1]))


def blocks(image: NDArray[np.float64], side: int = 8) -> NDArray[np.float64]:
    """Means of blocks of 8 x 8 pixels: what two ways of softening edges agree on."""
    high, wide = (length // side for length in image.shape[:2])
    cut = image[: high * side, : wide * side].reshape(high, side, wide, side, 3)
    means: NDArray[np.float64] = cut.mean(axis=(1, 3))
    return means


def apart(one: NDArray[np.float64], other: NDArray[np.float64]) -> tuple[float, float]:
    """Mean and largest difference of a channel, block by block (0 to 255)."""
    high, wide = (min(a, b) for a, b in zip(one.shape[:2], other.shape[:2], strict=True))
    off = np.abs(blocks(one[:high, :wide]) - blocks(other[:high, :wide]))
    return float(off.mean()), float(off.max())


@pytest.mark.parametrize(
    ("name", "look"),
    [
        ("ruby-thirty", Look()),
        ("garden-arc", Look()),
        ("winter-ring", Look("deutan", letters=True)),
    ],
)
def test_the_canvas_shows_what_the_svg_shows(chromium: Browser, name: str, look: Look) -> None:
    piece = piece_of(name)
    ground = ground_of(piece, look)
    view = front_view(piece, ground.scale, ground.origin, options_of(piece, look))
    sheet = Sheet(ground.width, ground.height, (view,))
    shown = picture(piece, look)
    parts = [as_json(shown[part]) for part in ("back", "numerals", "front")]
    mean, most = apart(on_canvas(chromium, parts, sheet), by_resvg(sheet))
    assert mean < 2.5
    assert most < 40


def test_the_comparison_can_fail(chromium: Browser) -> None:
    """A ball that is missing is seen."""
    piece = piece_of("ruby-thirty")
    ground = ground_of(piece, Look())
    view = front_view(piece, ground.scale, ground.origin, options_of(piece, Look()))
    sheet = Sheet(ground.width, ground.height, (view,))
    front = [item for item in view.items if isinstance(item, Group) and item.kind == "balloon"][-1]
    fewer = tuple(item for item in view.items if item is not front)
    _, most = apart(on_canvas(chromium, [as_json(played(fewer))], sheet), by_resvg(sheet))
    assert most > 80


def test_dimensions_lie_over_and_under() -> None:
    shown = picture(piece_of("ruby-thirty"), Look(dimensions=True))
    assert shown["back"]["items"][0][0] == "g"
    assert as_json(shown["front"]).count('["t"') >= 6


def test_every_item_of_the_view_is_played() -> None:
    piece = piece_of("ruby-thirty")
    shown = picture(piece, Look())
    ground = ground_of(piece, Look())
    view = front_view(piece, ground.scale, ground.origin, options_of(piece, Look()))
    played_items = sum(len(shown[part]["items"]) for part in ("back", "numerals", "front"))
    assert played_items == len(view.items)
    used = {i.symbol.id for i in walk(view.items) if isinstance(i, Place)}
    known = {name for part in ("back", "numerals", "front") for name in shown[part]["symbols"]}
    assert used <= known


def test_symbols_the_page_has_are_not_sent_again() -> None:
    piece = piece_of("ruby-thirty")
    first = picture(piece, Look())
    have = frozenset(first["numerals"]["symbols"])
    again = picture(piece, Look(), have)
    assert again["numerals"]["symbols"] == {}
    assert again["numerals"]["items"] == first["numerals"]["items"]


def test_the_same_piece_is_the_same_data() -> None:
    one, two = (as_json(picture(piece_of("ruby-thirty"), Look(letters=True))) for _ in range(2))
    assert one == two


def test_small_changes_do_not_move_the_picture() -> None:
    text = (SAMPLES / "ruby-thirty.toml").read_text("utf-8")
    grounds = {
        ground_of(assemble(design_from_text(text.replace("strokes = 3 ", new), "x.toml")), Look())
        for new in ("strokes = 3 ", "strokes = 3.1 ", "strokes = 2.9 ")
    }
    assert len(grounds) == 1


def test_what_a_canvas_cannot_paint_is_refused() -> None:
    paint = radial("shade", veil("#000000", ((0.0, 0.5), (1.0, 0.0)), str))
    with pytest.raises(ValueError, match="in its own box"):
        played((Drawn("M0 0L1 1", Style(fill=paint)),))
    with pytest.raises(ValueError, match="JSON compliant"):
        as_json(played((Circle((float("nan"), 0.0), 1.0, Style()),)))


def test_letters_are_outlines_named_once() -> None:
    part = played((Text((0.0, 0.0), "ABBA", 3.5), Text((0.0, 9.0), "BAB", 3.5)))
    assert len(part["glyphs"]) == 2
    ball = symbol("ball", Circle((0.0, 0.0), 1.0, Style(fill="#aa0000")))
    part = played((Place(ball, (0.0, 0.0), 2.0), Place(ball, (5.0, 0.0), 3.0)))
    assert list(part["symbols"]) == [ball.id]


@pytest.mark.parametrize("said", [None, 3, [], {"sight": "x"}, {"way": -1}, {"way": True}])
def test_a_look_that_is_not_understood_is_the_usual_one(said: object) -> None:
    assert look_from(said) == Look()
