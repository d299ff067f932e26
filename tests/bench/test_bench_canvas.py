"""The canvas shows the drawing that the writers write: judged pixel by pixel by resvg.

Outside judge: resvg, an SVG renderer of its own, over the SVG of the same record.
"""

from __future__ import annotations

import base64
import io
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from playwright.sync_api import Browser, Route
from shapely import Polygon
from svgpathtools import parse_path

from mockup.bench.canvas import as_json, played
from mockup.bench.looks import Look, ground_of, look_from, options_of, picture
from mockup.design.reading import design_from_text, read_design
from mockup.packing.neighbours import touching_pairs
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.outline import outline
from mockup.render.pressed import Cut, bows, cuts_of
from mockup.render.record import Circle, Place, Sheet, Style, Text, walk
from mockup.render.record import Path as Drawn
from mockup.render.svg import svg_text
from mockup.render.tones import radial, symbol, veil

SAMPLES = Path(__file__).parent.parent.parent / "samples"
ASSETS = Path(__file__).parent.parent.parent / "mockup/bench/assets"
PIXELS = 2.0
PLAY = """async ([drawing, width, height, scale]) => {
    const { playAll } = await import('/player.js');
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * scale); canvas.height = Math.round(height * scale);
    const context = canvas.getContext('2d');
    context.fillStyle = '#ffffff'; context.fillRect(0, 0, canvas.width, canvas.height);
    playAll(context, JSON.parse(drawing), canvas.width / width);
    return canvas.toDataURL('image/png'); }"""


def piece_of(name: str) -> Piece:
    return assemble(read_design(SAMPLES / f"{name}.toml"))


def pixels(png: bytes) -> NDArray[np.float64]:
    from PIL import Image

    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=np.float64)


def by_resvg(sheet: Sheet) -> NDArray[np.float64]:
    import resvg_py

    svg = svg_text(sheet, search_text=False)
    made = resvg_py.svg_to_bytes(svg_string=svg, dpi=96.0, width=round(sheet.width * PIXELS))
    return pixels(bytes(made))


def evaluated(chromium: Browser, script: str, told: object) -> Any:
    """What a script says that may import the page's own modules."""

    def serve(route: Route) -> None:
        name = route.request.url.split("/")[-1]
        kind = "text/javascript" if name else "text/html"
        route.fulfill(body=(ASSETS / name).read_text("utf-8") if name else "", content_type=kind)

    page = chromium.new_page()
    page.route("http://bench.test/**", serve)
    page.goto("http://bench.test/")
    said = page.evaluate(script, told)
    page.close()
    return said


def on_canvas(chromium: Browser, drawing: object, sheet: Sheet) -> NDArray[np.float64]:
    url = evaluated(chromium, PLAY, [as_json(drawing), sheet.width, sheet.height, PIXELS])
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
    mean, most = apart(on_canvas(chromium, picture(piece, look), sheet), by_resvg(sheet))
    assert mean < 2.5
    assert most < 40


def test_the_comparison_can_fail(chromium: Browser) -> None:
    """A ball that is missing is seen."""
    piece = piece_of("ruby-thirty")
    ground = ground_of(piece, Look())
    view = front_view(piece, ground.scale, ground.origin, options_of(piece, Look()))
    sheet = Sheet(ground.width, ground.height, (view,))
    drawing = picture(piece, Look())
    fewer = drawing["front"]["items"]
    del fewer[max(at for at, item in enumerate(fewer) if item[0] == "b")]
    _, most = apart(on_canvas(chromium, drawing, sheet), by_resvg(sheet))
    assert most > 80


def test_dimensions_lie_over_and_under() -> None:
    shown = picture(piece_of("ruby-thirty"), Look(dimensions=True))
    assert shown["back"]["items"][0][0] == "g"
    assert as_json(shown["front"]).count('["t"') >= 6


@pytest.mark.parametrize("name", ["ruby-thirty", "lugger-wall"])
def test_every_item_of_the_view_is_played(name: str) -> None:
    piece = piece_of(name)
    shown = picture(piece, Look())
    ground = ground_of(piece, Look())
    view = front_view(piece, ground.scale, ground.origin, options_of(piece, Look()))
    played_items = sum(len(shown[part]["items"]) for part in ("back", "numerals", "front"))
    assert played_items == len(view.items)
    used = {i.symbol.id for i in walk(view.items) if isinstance(i, Place)}
    parts = ("back", "numerals", "front", "balls")
    assert used <= {name for part in parts for name in shown[part]["symbols"]}


BOWS = """async (drawings) => {
    const { Balls, bowsOf } = await import('/balls.js');
    const told = ({ cut, start, end }) => [cut.nx, cut.ny, cut.nz, cut.depth, start, end];
    return drawings.map((each) => new Balls(JSON.parse(each)).cuts
        .map((cuts) => bowsOf(cuts).map(told))); }"""


def test_the_page_finds_the_arcs_of_the_proof(chromium: Browser) -> None:
    """Of every balloon of the samples of every kind of frame."""
    names = (
        "ruby-thirty",
        "garden-arc",
        "linden-heart",
        "lugger-wall",
        "wren-garland",
        "winter-ring",
    )
    pieces = [piece_of(name) for name in names]
    told = evaluated(chromium, BOWS, [as_json(picture(each, Look())) for each in pieces])
    for piece, found in zip(pieces, told, strict=True):
        ours = [
            [(*bow.cut.normal, bow.cut.depth, bow.start, bow.end) for bow in bows(cuts)]
            for cuts in cuts_in(piece)
        ]
        assert [len(each) for each in found] == [len(each) for each in ours], piece.design.title
        for theirs, own in zip(found, ours, strict=True):
            assert np.allclose(sorted(theirs), sorted(own), rtol=0, atol=1e-9)


def cuts_in(piece: Piece) -> list[list[Cut]]:
    centres = np.array([each.centre for each in piece.balloons]).reshape(-1, 3)
    radii = np.array([each.radius for each in piece.balloons])
    return cuts_of(centres, radii, touching_pairs(centres, radii, 0.0))


PATHS = """async (drawing) => {
    const { Balls, bowsOf, loopsOf, outline } = await import('/balls.js');
    const balls = new Balls(JSON.parse(drawing));
    class Pen {  // notes the points that a canvas would go through
        points = [];
        moveTo(x, y) { this.points.push([x, y]); }
        lineTo(x, y) { this.points.push([x, y]); }
        closePath() {}
        ellipse(x, y, a, b, turn, start, end, back) {
            if (back ? end > start : end < start) throw new Error('an arc runs the wrong way');
            for (let k = 0; k <= 240; k += 1) {
                const t = start + (end - start) * k / 240;
                const [u, v] = [a * Math.cos(t), b * Math.sin(t)];
                const [c, s] = [Math.cos(turn), Math.sin(turn)];
                this.points.push([x + u * c - v * s, y + u * s + v * c]);
            }
        }
    }
    const points = (ball, loop) =>
        outline(new Pen(), [loop], balls.at(ball), balls.radii[ball] * balls.scale).points;
    return balls.cuts.map((cuts, ball) =>
        loopsOf(bowsOf(cuts)).map((loop) => points(ball, loop))); }"""


def test_the_page_draws_the_outlines_of_the_proof(chromium: Browser) -> None:
    """Outside judge: svgpathtools walks the proof's arcs, shapely lays the shapes on each other."""
    piece = piece_of("ruby-thirty")
    ground = ground_of(piece, Look())
    told = evaluated(chromium, PATHS, as_json(picture(piece, Look())))
    pressed = 0
    for one, cuts, loops in zip(piece.balloons, cuts_in(piece), told, strict=True):
        at, radius = ground.at(*one.centre[:2]), one.radius * ground.scale
        proof = Polygon(walked(outline(bows(cuts), at, radius)))
        page = Polygon([point for loop in loops for point in loop])
        assert len(loops) == 1
        assert shapely.hausdorff_distance(proof.exterior, page.exterior) < 0.02  # sheet mm
        assert turn(proof) == turn(page) == -1  # anticlockwise to the eye, y down
        pressed += len(bows(cuts)) > 1
    assert pressed > 10


def turn(shape: Polygon) -> float:
    """1 where x turns toward y along the outline, -1 where it turns away."""
    (x, y), (u, v) = (shape.exterior.coords.xy, np.roll(shape.exterior.coords.xy, -1, axis=1))
    return float(np.sign(np.sum(np.multiply(x, v) - np.multiply(u, y))))


def walked(data: str) -> list[tuple[float, float]]:
    """Points along path data."""
    (loop,) = parse_path(data).continuous_subpaths()
    points = (part.point(t) for part in loop if part.length() for t in np.linspace(0, 1, 120))
    return [(point.real, point.imag) for point in points]


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
