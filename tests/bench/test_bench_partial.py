"""Only what an edit changes is painted anew, and the picture is the one painted whole."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.bench.conftest import Open, Start, Visit

SAMPLES = Path(__file__).parents[2] / "samples"

WATCH = """() => {
    const board = window.benchBoard, own = board.paint.bind(board);
    window.painted = [];
    board.paint = (k, box = null) => { painted.push([k, box]); own(k, box); }; }"""
DIFFERS = """() => {
    const board = window.benchBoard, boxes = window.painted.slice();
    const pixels = () => [0, 2].map((k) => {
        const canvas = board.canvases[k];
        const rgba = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
        return rgba.map((v, at) => at % 4 === 3 ? v : v * rgba[at - at % 4 + 3] / 255); });
    const before = pixels();
    board.paint(0);
    board.paint(2);
    const off = pixels().map((data, k) => Array.from(data, (v, at) => Math.abs(v - before[k][at])));
    const every = off.flat();
    const sheet = board.size.width * board.size.height;
    const share = ([x0, y0, x1, y1]) => (x1 - x0) * (y1 - y0) / sheet;
    window.painted = [];
    return {
        most: every.reduce((a, b) => Math.max(a, b), 0),
        many: every.filter((v) => v > 0).length / every.length,
        boxes: boxes.map(([k, box]) => [k, box && share(box)]) }; }"""
EDITS = {
    "another colour": "benchBoard.tell('letter', 1, 0, 'C')",
    "a whole cluster": "benchBoard.tell('letter', 3, -1, 'C')",
    "another fill": """(() => {
        const say = document.querySelector('[data-key="section.0.clusters.0.say"]');
        if (say.getAttribute('aria-expanded') !== 'true') say.click();
        const box = document.querySelector('[data-key="section.0.clusters.0.strokes"]');
        box.value = '2.6';
        box.dispatchEvent(new Event('input')); })()""",
}


Pages = Callable[[str], Visit]


@pytest.fixture
def pages(start: Start, open_page: Open, tmp_path: Path) -> Pages:
    """A sample on a page that notes what it paints."""

    def opened(name: str) -> Visit:
        copy = tmp_path / f"{name}.toml"
        copy.write_bytes((SAMPLES / f"{name}.toml").read_bytes())
        visit = open_page(start(copy))
        visit.ready()
        visit.page.evaluate(WATCH)
        return visit

    return opened


def differs(visit: Visit, edit: str) -> dict[str, Any]:
    """After an edit: the largest difference from the whole picture, and what was painted."""
    before = visit.page.evaluate("performance.getEntriesByName('redrawn').length")
    visit.page.evaluate(edit)
    visit.page.wait_for_function(f"() => performance.getEntriesByName('redrawn').length > {before}")
    visit.quiet()
    found: dict[str, Any] = visit.page.evaluate(DIFFERS)
    return found


def assert_whole(found: dict[str, Any]) -> None:
    """Chromium smooths an outline a little otherwise where the box's edge cuts it: by a few levels
    of 255, in a few pixels. A ball left out is off by a hundred."""
    assert found["most"] <= 16
    assert found["many"] < 0.001


@pytest.mark.parametrize(
    ("name", "edits"),
    [
        ("ruby-thirty", list(EDITS)),
        ("winter-ring", list(EDITS)),
        ("garden-arc", list(EDITS)[:2]),
        ("lamplight-column", list(EDITS)[:2]),
    ],
)
def test_the_picture_is_the_one_painted_whole(pages: Pages, name: str, edits: list[str]) -> None:
    visit = pages(name)
    for edit in edits:
        found = differs(visit, EDITS[edit])
        assert found["boxes"], edit
        assert_whole(found)


def test_a_ball_that_is_left_out_is_seen(pages: Pages) -> None:
    visit = pages("ruby-thirty")
    visit.page.evaluate("window.benchBoard.repaint = () => {}")
    assert differs(visit, EDITS["another colour"])["most"] > 40


def test_a_colour_paints_a_small_part_and_a_fill_its_own_crescent(pages: Pages) -> None:
    visit = pages("ruby-thirty")
    shares = {}
    for what, edit in EDITS.items():
        boxes = differs(visit, edit)["boxes"]
        if what == "another fill":  # the first one parts what was settled as a mirrored pair
            boxes = differs(visit, edit.replace("2.6", "2.65"))["boxes"]
        assert boxes, what
        assert all(box is not None for _, box in boxes), what
        shares[what] = max(box for _, box in boxes)
    assert shares["another colour"] < 0.1
    assert shares["a whole cluster"] < 0.25
    assert shares["another fill"] < 0.5


def test_the_whole_is_painted_where_the_picture_moves(pages: Pages) -> None:
    visit = pages("ruby-thirty")
    found = differs(visit, "document.getElementById('dimensions').click()")
    assert found["most"] == 0
    assert {(k, box) for k, box in found["boxes"]} == {(0, None), (1, None), (2, None)}
