"""The page for those who do not use a mouse or do not see it: axe-core finds nothing to mend.

Outside judge: axe-core (Deque, MPL-2.0), its rules for WCAG 2.0 to 2.2 A and AA and best practice.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.bench.conftest import Open, Start, Visit

axe = pytest.importorskip(
    "axe_playwright_python", reason="axe-core comes with the dev dependency axe-playwright-python"
)


TABS = ("Shape", "Colours", "Numerals", "Text", "Checks", "Options", "Ideas", "Buying", "Papers")
LEAST = 44


@pytest.fixture(scope="module")
def rules() -> str:
    """The source of axe-core."""
    (source,) = (
        each for each in _walk(files("axe_playwright_python")) if each.name == "axe.min.js"
    )
    return str(source.read_text("utf-8"))


def _walk(folder: Any) -> Any:
    for each in folder.iterdir():
        yield from _walk(each) if each.is_dir() else (each,)


def judged(page: Page, rules: str) -> list[str]:
    """Every violation: its rule and where."""
    page.evaluate(rules)
    found = page.evaluate("axe.run(document).then((told) => told.violations)")
    return [
        f"{v['id']}: {n['html'][:120]} {n['failureSummary'][:160]}"
        for v in found
        for n in v["nodes"]
    ]


def test_axe_sees_what_is_wrong(visit: Visit, rules: str) -> None:
    """The judge can fail: a button without a name."""
    visit.page.evaluate("document.querySelector('.bar').append(document.createElement('button'))")
    assert any(each.startswith("button-name") for each in judged(visit.page, rules))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_tab_is_in_order(visit: Visit, rules: str, scheme: Any) -> None:
    visit.page.emulate_media(color_scheme=scheme)
    visit.page.get_by_role("tab", name="Colours").click()
    visit.page.get_by_role("button", name="Add a colourway").click()
    visit.quiet()
    for name in TABS:
        visit.page.get_by_role("tab", name=name).click()
        for opener in (".say", ".letter"):
            found = visit.page.locator(f"{opener}:visible")
            if found.count():
                found.first.click()
        visit.quiet()
        assert judged(visit.page, rules) == [], name


def test_the_first_visit_is_in_order(
    start: Start, open_page: Open, tmp_path: Path, rules: str
) -> None:
    visit = open_page(start(None, tmp_path))
    visit.page.locator(".card").first.wait_for()
    assert judged(visit.page, rules) == []


def test_a_fault_and_a_notice_are_in_order(visit: Visit, rules: str) -> None:
    visit.page.get_by_role("tab", name="Text").click()
    visit.page.locator("#toml").fill(visit.text.replace("30in", "30"))
    visit.until(lambda: bool(visit.bench.served.desk.now.faults))
    visit.page.evaluate("document.querySelector('#undo').click()")
    visit.quiet()
    assert judged(visit.page, rules) == []


def test_options_and_ideas_and_papers_are_in_order(visit: Visit, rules: str) -> None:
    page = visit.page
    page.get_by_role("tab", name="Options").click()
    page.locator("[name=name]").fill("wide")
    page.locator("[name=outside]").fill("34in")
    page.get_by_role("button", name="Put it beside the others").click()
    expect(page.locator("#options figcaption")).to_have_count(2, timeout=20_000)
    assert judged(page, rules) == []
    page.get_by_role("tab", name="Ideas").click()
    page.get_by_role("button", name="Look for ideas").click()
    expect(page.get_by_role("button", name="Look again")).to_be_visible(timeout=60_000)
    assert judged(page, rules) == []
    page.get_by_role("tab", name="Papers").click()
    page.get_by_role("button", name="Make the sizing gauge").click()
    expect(page.get_by_role("link", name="Open it: ruby-gauge.pdf")).to_be_visible(timeout=30_000)
    assert judged(page, rules) == []


@pytest.mark.parametrize("width", [360, 1024, 1920])
def test_targets_are_large_and_nothing_is_cut_off(visit: Visit, width: int) -> None:
    """WCAG 2.2, 2.5.5 (AAA): 44 by 44 px for what is touched; 1.4.10: no sideways scrolling.

    Words within a sentence are exempt there; a tick is touched by its label.
    """
    page = visit.page
    page.set_viewport_size({"width": width, "height": 800})
    for name in TABS:
        page.get_by_role("tab", name=name).click()
        visit.quiet()
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
        small = page.evaluate(
            """(least) => [...document.querySelectorAll('button, a[href], select, input, textarea')]
                .map(e => e.type === 'checkbox' || e.type === 'radio' ? e.closest('label') : e)
                .filter(e => e.checkVisibility() && !e.classList.contains('skip'))
                .filter(e => { const b = e.getBoundingClientRect();
                    return b.height < least - 0.5 || b.width < least - 0.5; })
                .map(e => e.outerHTML.slice(0, 120))""",
            LEAST,
        )
        assert small == [], name
