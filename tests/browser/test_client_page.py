"""The client's page in a browser: by mouse, by keyboard, without scripts, and on paper."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from importlib.resources import files
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page
from pypdf import PdfReader

from mockup.colour.views import shown_as
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.render.page.page_asked import PageAsked
from mockup.render.viewpoint import ViewOptions
from tests.browser.conftest import Opened
from tests.render.client_pieces import HOSTILE, LETTER, page_of, sample, usual_page

WIDTHS = (360, 768, 1000, 1440)
MM = 96 / 25.4
"""CSS pixels in a mm (CSS Values and Units, 5.2)."""


@cache
def in_grey() -> str:
    view = ViewOptions(letters=True, recolour=shown_as("grey"))
    asked = PageAsked(10, LETTER, studio=HOSTILE, seen="Shown in grey.", view=view)
    return page_of(sample("juniper-two"), asked=asked)


def few_balloons(draft: bool = False) -> str:
    """A page with everything on it and little in its drawing, which a checker walks through."""
    design = sample("market-lanterns").design
    sections = tuple(
        replace(s, right=(), left=(), end_left=None, end_right=None) for s in design.sections
    )
    piece = assemble(replace(design, sections=sections, panel=None))
    fails = [Finding("nestle", "fails", None, None, "", "They crowd.", "Take one out")]
    return page_of(piece, fails if draft else None)


PAGES: dict[str, Callable[[], str]] = {
    "two colourways": few_balloons,
    "a draft": lambda: few_balloons(draft=True),
    "in grey": in_grey,
}


@pytest.mark.parametrize(
    ("name", "width"),
    [("two colourways", 360), ("two colourways", 1440), ("a draft", 768), ("in grey", 768)],
)
def test_an_accessibility_checker_finds_nothing(opened: Opened, name: str, width: int) -> None:
    # axe-core with all its rules: WCAG 2.0 to 2.2, levels A and AA, and its best practices.
    page = opened(PAGES[name](), width=width)
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8"))
    found = page.evaluate("axe.run()")
    assert [(each["id"], each["help"]) for each in found["violations"]] == []
    assert len(found["passes"]) > 20


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_sticks_out_of_a_phone_a_tablet_or_a_desk(opened: Opened, width: int) -> None:
    page = opened(usual_page("market-lanterns"), width=width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate("[...document.fonts].every(face => face.status == 'loaded')")


def shares_of(page: Page, *colours: tuple[int, int, int]) -> list[float]:
    """The share of the drawing's pixels near each colour."""
    picture = Image.open(BytesIO(page.locator(".pane svg").screenshot())).convert("RGB")
    pixels = np.asarray(picture).astype(np.int16)
    return [float((np.abs(pixels - colour) < 24).all(axis=2).mean()) for colour in colours]


BROKEN = """() => [...document.querySelectorAll('.name')]
    .filter(cell => cell.checkVisibility()).flatMap(cell => {
  const told = [], walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) for (const word of walker.currentNode.data.matchAll(/[^\\s-]+/g)) {
    const range = document.createRange();
    range.setStart(walker.currentNode, word.index);
    range.setEnd(walker.currentNode, word.index + word[0].length);
    const lines = new Set([...range.getClientRects()].map(box => Math.round(box.top)));
    told.push([word[0], lines.size]);
  }
  return told;
})"""
"""On how many lines each word of the colour key lies; a hyphen is a place to break at."""


@pytest.mark.parametrize("name", ["market-lanterns", "kestrel-wall", "juniper-two"])
def test_no_word_of_the_colour_key_is_broken(opened: Opened, name: str) -> None:
    page = opened(usual_page(name))
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        lines = page.evaluate(BROKEN)
        assert len(lines) > 6
        assert [word for word, count in lines if count > 1] == [], width


def with_a_long_name(name: str) -> str:
    """The page of a piece whose first colour has this name."""
    piece = sample("juniper-two")
    letter, colour = next(iter(piece.design.colours.items()))
    colours = {**piece.design.colours, letter: replace(colour, name=name)}
    return page_of(replace(piece, design=replace(piece.design, colours=colours)))


def test_a_word_longer_than_its_line_breaks_rather_than_sticks_out(opened: Opened) -> None:
    word = "donaudampfschifffahrtsgesellschaftsgruen"
    page = opened(with_a_long_name(word))
    inside = "all => all.every(t => t.scrollWidth <= t.parentElement.clientWidth)"
    for width, broken in zip(WIDTHS, (True, False, True, True), strict=True):
        page.set_viewport_size({"width": width, "height": 900})
        lines = {each for each, count in page.evaluate(BROKEN) if count > 1}
        assert lines == ({word} if broken else set()), width
        assert page.locator("table").evaluate_all(inside), width
        assert page.evaluate("document.documentElement.scrollWidth") <= width


RED, PLUM = (216, 48, 60), (119, 56, 142)


def test_colourways_switch_without_scripts(opened: Opened) -> None:
    page = opened(usual_page("market-lanterns"), scripts=False)
    red, plum = shares_of(page, RED, PLUM)
    assert red > 0.004 > plum
    assert page.get_by_text("pepper red").is_visible()
    assert page.get_by_role("link", name="Approve colourway A", exact=True).is_visible()
    page.get_by_text("after dark", exact=True).first.click()
    red, plum = shares_of(page, RED, PLUM)
    assert plum > 0.004 > red
    assert not page.get_by_text("pepper red").is_visible()
    assert page.get_by_text("plum fizz").is_visible()
    assert page.get_by_role("link", name="Approve colourway after dark").is_visible()
    assert not page.get_by_role("link", name="Approve colourway A", exact=True).is_visible()


def test_everything_works_by_keyboard(opened: Opened) -> None:
    page = opened(usual_page("market-lanterns"), scripts=False)
    page.keyboard.press("Tab")
    assert page.get_by_role("link", name="Skip to the approval").evaluate(
        "e => e.matches(':focus')"
    )
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    assert page.get_by_role("radio", name="after dark").is_checked()
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    assert page.get_by_role("radio", name="2 ×").is_checked()
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert not page.get_by_role("checkbox", name="Dimensions").is_checked()
    page.keyboard.press("Tab")
    assert page.get_by_role("region", name="Drawing", exact=True).evaluate(
        "e => e.matches(':focus')"
    )
    page.keyboard.press("ArrowDown")
    moved = page.locator(".pane")
    for _ in range(50):
        if moved.evaluate("e => e.scrollTop") > 0:
            break
        page.wait_for_timeout(20)
    assert moved.evaluate("e => e.scrollTop") > 0
    page.keyboard.press("Tab")
    assert page.get_by_role("link", name="Approve").evaluate_all(
        "all => all.filter(e => e.matches(':focus')).map(e => e.textContent)"
    ) == ["Approve colourway after dark"]


def test_dimensions_come_and_go(opened: Opened) -> None:
    page = opened(usual_page("ruby-thirty"))
    lines = page.locator(".pane svg .dimensions").first
    assert lines.evaluate("e => getComputedStyle(e).visibility") == "visible"
    page.get_by_text("Dimensions", exact=True).click()
    assert lines.evaluate("e => getComputedStyle(e).visibility") == "hidden"


def test_the_drawing_grows_twice_and_four_times(opened: Opened) -> None:
    page = opened(usual_page("ruby-thirty"), width=360)

    def wide() -> float:
        box = page.locator(".pane svg").bounding_box()
        assert box is not None
        return box["width"]

    fit = wide()
    for name, times in (("2 ×", 2), ("4 ×", 4)):
        page.get_by_text(name).click()
        assert wide() == pytest.approx(times * fit, rel=0.05)
        assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_hostile_words_do_nothing_in_a_browser(opened: Opened) -> None:
    page = opened(in_grey())
    assert page.locator("script").count() == 0
    assert page.get_by_text("alert(1)").first.is_visible()


def dark_runs(picture: Image.Image) -> set[int]:
    """The lengths, in pixels, of all level dark lines of a grey picture."""
    dark = np.pad(np.asarray(picture) < 140, ((0, 0), (1, 1)))
    change = np.diff(dark.astype(np.int8), axis=1)
    starts, ends = np.nonzero(change == 1), np.nonzero(change == -1)
    return set((ends[1] - starts[1]).tolist())


@pytest.mark.skipif(not shutil.which("pdftoppm"), reason="pdftoppm is not installed.")
def test_it_prints_at_true_scale(opened: Opened, tmp_path: Path) -> None:
    page = opened(few_balloons())
    page.get_by_text("4 ×").click()
    printed = page.pdf(prefer_css_page_size=True)
    first = PdfReader(BytesIO(printed)).pages[0].mediabox
    # ANSI/ASME Y14.1 size A: 8 1/2 x 11 in, in points of 1/72 in.
    assert (float(first.width), float(first.height)) == pytest.approx((612, 792), abs=0.5)
    (tmp_path / "page.pdf").write_bytes(printed)
    subprocess.run(
        ["pdftoppm", "-r", "254", "-gray", "-f", "1", "-l", "1", "page.pdf", "page"],
        cwd=tmp_path, check=True,
    )  # fmt: skip
    (picture,) = tmp_path.glob("page*.pgm")
    runs = dark_runs(Image.open(picture))
    # Ten pixels to the mm: 30 in at 1:10, and the scale bar of 2 in.
    for length in (762, 508):
        assert any(abs(run - length) <= 4 for run in runs), length


def test_on_paper_the_switches_are_gone_and_the_scale_bar_is_there(opened: Opened) -> None:
    page = opened(usual_page("market-lanterns"))
    page.get_by_text("2 ×").click()
    page.emulate_media(media="print")
    assert not page.locator(".switches").is_visible()
    assert page.locator("svg.bar").is_visible()
    shown = page.locator(".pane svg")
    width = float((shown.get_attribute("viewBox") or "").split()[2])
    box = shown.bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(width * MM, abs=0.5)
