"""A finger on a tablet of ten inches: what it taps and what it drags on the drawing."""

from __future__ import annotations

import tomllib

import pytest
from playwright.sync_api import expect

from mockup.piece.placed import Piece
from tests.bench.conftest import Open, Running, Visit

TABLET = (1024, 768)


@pytest.fixture
def tablet(open_page: Open, bench: Running) -> Visit:
    visit: Visit = open_page(bench, TABLET, touch=True)
    visit.ready()
    return visit


def piece_on(visit: Visit) -> Piece:
    piece = visit.bench.served.desk.now.piece
    assert piece is not None
    return piece


def dragged(visit: Visit, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A finger put down, moved in ten steps and lifted, as the browser's own protocol tells it."""
    finger = visit.context.new_cdp_session(visit.page)

    def tell(kind: str, *points: tuple[float, float]) -> None:
        touches = [{"x": x, "y": y} for x, y in points]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": touches})

    tell("touchStart", start)
    for step in range(1, 11):
        share = step / 10
        tell(
            "touchMove",
            (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])),
        )
    tell("touchEnd")


def numerals_of(visit: Visit) -> tuple[float, float]:
    """A spot on the numerals, off every balloon."""
    x, y = visit.page.evaluate(
        """() => { const b = benchBoard, r = b.canvases[0].getBoundingClientRect();
            const [x0, y0, x1, y1] = b.places.numerals.box;
            return [r.left + (x0 * 0.7 + x1 * 0.3) * b.css, r.top + (y0 + y1) / 2 * b.css]; }"""
    )
    return float(x), float(y)


def test_a_tapped_balloon_chooses_its_cluster_and_its_twin(tablet: Visit) -> None:
    tablet.page.touchscreen.tap(*tablet.spot(20))
    expect(tablet.page.locator("#said")).to_contain_text("cluster")
    assert tablet.page.evaluate("benchBoard.chosen.size") in (1, 2)


def test_a_tap_paints_where_a_colour_is_taken(tablet: Visit) -> None:
    before = tablet.text
    tablet.page.locator('[data-key="brush.C"]').tap()
    tablet.page.touchscreen.tap(*tablet.spot(20))
    tablet.until(lambda: tablet.text != before)
    piece = piece_on(tablet)
    assert set(piece.clusters[piece.balloons[20].cluster].letters) == {"C"}


def test_a_finger_drags_the_numerals_and_not_the_page(tablet: Visit) -> None:
    x, y = numerals_of(tablet)
    dragged(tablet, (x, y), (x, y - 40))
    tablet.until(lambda: "raised" in tomllib.loads(tablet.text)["panel"])
    assert not tomllib.loads(tablet.text)["panel"]["raised"].startswith("-")
    assert tablet.page.evaluate("window.scrollY") == 0
    assert len(tablet.bench.served.desk.steps.past) == 1


def test_a_finger_drags_the_end_of_a_section(tablet: Visit) -> None:
    count = len(piece_on(tablet).balloons)
    x, y, nx, ny = tablet.page.evaluate(
        """() => { const b = benchBoard, r = b.canvases[0].getBoundingClientRect();
            const [x, y] = b.places.sections[0].ends.right;
            const own = b.places.clusters.filter((one) => one.section === 0 && !one.cap);
            const right = own.filter((one) => one.side !== "left");
            const [u, v] = right.sort((p, q) => p.step - q.step).at(-2).at;
            const on = (across, down) => [r.left + across * b.css, r.top + down * b.css];
            return [...on(x, y), ...on(u, v)]; }"""
    )
    dragged(tablet, (x, y), (nx, ny))
    tablet.until(lambda: len(piece_on(tablet).balloons) < count)


def test_two_tabs_that_make_one_paper_at_once_both_have_it(open_page: Open, bench: Running) -> None:
    one, other = open_page(bench), open_page(bench)
    for visit in (one, other):
        visit.ready()
    for visit in (one, other):
        visit.page.evaluate("document.getElementById('proof').click()")
    for visit in (one, other):
        expect(visit.page.locator("#notices")).to_contain_text("Wrote ruby-proof.pdf")
    folder = bench.served.desk.folder
    made = (folder / "ruby-proof.pdf").read_bytes()
    assert made.startswith(b"%PDF-")
    assert made.rstrip().endswith(b"%%EOF")
    assert sorted(each.name for each in folder.iterdir()) == ["ruby-proof.pdf", "ruby.toml"]
