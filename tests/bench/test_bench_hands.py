"""One sitting from an empty folder to a saved, checked piece and its proof: by mouse, by keyboard.

The bench is started as a decorator starts it, as a process of its own. The bound of two minutes for
the mouse is the project's own promise.
"""

from __future__ import annotations

import subprocess
import sys
import time
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from pypdf import PdfReader

TWO_MINUTES = 120.0
MOST_TABS = 90


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    empty = tmp_path / "pieces"
    empty.mkdir()
    return empty


@pytest.fixture
def address(folder: Path) -> Iterator[str]:
    """``mockup bench`` on an empty folder; where it says that its page is."""
    words = [sys.executable, "-m", "mockup", "bench", ".", "--no-browser"]
    bench = subprocess.Popen(words, cwd=folder, stdout=subprocess.PIPE, text=True)
    try:
        assert bench.stdout is not None
        yield bench.stdout.readline().rsplit(" ", 1)[1].strip()
    finally:
        bench.terminate()
        bench.communicate(timeout=20)


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context(viewport={"width": 1024, "height": 768})
    errors: list[str] = []
    opened = context.new_page()
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    context.close()
    assert errors == []


def touch(page: Page, what: Locator) -> None:
    """A mouse over it, wheeled into view where it is not, and one click: nothing else."""
    what.wait_for()
    for _ in range(40):
        box = what.bounding_box()
        assert box is not None
        across, middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        if 0 < middle < 768:
            break
        page.mouse.move(900, 700)
        page.mouse.wheel(0, 300 if middle > 0 else -300)
        page.wait_for_function("() => new Promise((done) => requestAnimationFrame(() => done(1)))")
    page.mouse.move(across, middle)
    page.mouse.down()
    page.mouse.up()


def until(holds: Callable[[], bool], page: Page, seconds: float = 60.0) -> None:
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end
        page.wait_for_timeout(30)


def drawn(page: Page) -> None:
    page.locator("#work").wait_for()
    expect(page.locator("body[data-busy]")).to_have_count(0, timeout=30_000)
    expect(page.locator("#findings")).to_have_attribute("aria-busy", "false", timeout=30_000)


def test_by_mouse_alone_in_under_two_minutes(
    address: str, folder: Path, page: Page, tmp_path: Path
) -> None:
    began = time.monotonic()
    shots: list[Path] = []

    def shot(name: str) -> None:
        shots.append(tmp_path / f"{len(shots) + 1}-{name}.png")
        page.screenshot(path=shots[-1])

    page.goto(address)
    page.locator(".card").first.wait_for()
    shot("first-visit")
    touch(page, page.locator(".pick", has_text="26 in"))
    touch(page, page.locator(".pick", has_text="rose hour"))
    touch(page, page.get_by_role("button", name="Put it on the bench"))
    drawn(page)
    shot("on-the-bench")
    touch(page, page.get_by_role("button", name="Paint with C"))
    spot = page.evaluate(
        """() => { const b = benchBoard; const box = b.canvases[0].getBoundingClientRect();
            const one = b.places.clusters.find(c => c.side === 'middle');
            const front = one.balloons.reduce((a, k) =>
                b.places.balloons[a][3] > b.places.balloons[k][3] ? a : k);
            const [x, y] = b.places.balloons[front];
            return [box.left + x * b.css, box.top + y * b.css]; }"""
    )
    page.mouse.click(*spot)
    expect(page.locator("#undo")).to_be_enabled()
    drawn(page)
    shot("painted")
    touch(page, page.locator("#undo"))
    expect(page.locator("#redo")).to_be_enabled()
    drawn(page)
    touch(page, page.get_by_role("tab", name="Checks"))
    expect(page.locator(".finding").first).to_be_visible()
    expect(page.locator(".finding.fails")).to_have_count(0)
    shot("checked")
    touch(page, page.get_by_role("button", name="Save", exact=True))
    file = folder / "a-new-piece.toml"
    until(file.exists, page)
    touch(page, page.get_by_role("button", name="Make the proof"))
    until((folder / "a-new-piece-proof.pdf").exists, page)
    expect(page.locator(".notice")).to_contain_text("Wrote a-new-piece-proof.pdf")
    shot("proof")
    assert time.monotonic() - began < TWO_MINUTES
    piece = tomllib.loads(file.read_text("utf-8"))
    assert (piece["frame"]["outside"], piece["palette"]) == ("26in", "rose hour")
    (sheet,) = PdfReader(folder / "a-new-piece-proof.pdf").pages
    assert "A new piece" in sheet.extract_text()
    assert all(one.read_bytes().startswith(b"\x89PNG") for one in shots)
    assert len(shots) == 5
    assert sorted(one.name for one in folder.iterdir()) == [
        "a-new-piece-proof.pdf",
        "a-new-piece.toml",
    ]


def tab_to(page: Page, selector: str) -> None:
    """The Tab key, until the focus is there."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate("(s) => document.activeElement.matches(s)", selector):
            return
    raise AssertionError(f"the Tab key does not come to {selector}")


def test_by_keyboard_alone_from_the_first_visit_to_a_saved_proof(
    address: str, folder: Path, page: Page
) -> None:
    page.goto(address)
    page.locator(".card").first.wait_for()
    tab_to(page, "input[name=title]")
    page.keyboard.type("Opal")
    tab_to(page, "input[name='size ring']")
    page.keyboard.press("ArrowRight")
    tab_to(page, ".questions button[type=submit]")
    page.keyboard.press("Enter")
    drawn(page)
    tab_to(page, "#board")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("b")
    expect(page.locator("#undo")).to_be_enabled()
    tab_to(page, "#tab-shape")
    page.keyboard.press("End")
    expect(page.locator("#tab-papers")).to_be_focused()
    tab_to(page, '[data-key="make.build"]')
    page.keyboard.press("Enter")
    until((folder / "opal-build.pdf").exists, page)
    page.keyboard.press("Control+s")
    until((folder / "opal.toml").exists, page)
    expect(page.locator("#file")).to_have_text("opal.toml, saved")
    drawn(page)
    page.locator("body").press("Shift+Tab")
    tab_to(page, "#proof")
    page.keyboard.press("Enter")
    until((folder / "opal-proof.pdf").exists, page)
    tab_to(page, ".notice a")
    expect(page.locator(".notice a").first).to_have_text("Open it")
    assert tomllib.loads((folder / "opal.toml").read_text("utf-8"))["title"] == "Opal"
