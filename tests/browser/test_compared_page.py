"""The comparison's page in a browser: on a phone and a desk, for those who hear it, and hostile."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.render.page.compared_page import compared_page
from mockup.render.sheets.compare import Compared, CompareRow, NothingToCompare
from tests.browser.conftest import Opened

SAMPLES = Path(__file__).parents[2] / "samples"
ROWS = [
    CompareRow("Balloons", ("64", "20"), ("", "fewest")),
    CompareRow("Of each", ("40 × 5 in ruby\n24 × 5 in oat", "20 × 5 in oat"), ("", "")),
]


def two(name: str = "as drawn", says: str = "Fuller by 2%.") -> list[Compared]:
    pieces = [assemble(read_design(SAMPLES / f"{n}.toml")) for n in ("ruby-thirty", "garden-arc")]
    return [Compared(name, pieces[0], says), Compared("an arc", pieces[1])]


@pytest.mark.parametrize("width", [360, 1440])
def test_an_accessibility_checker_finds_nothing(opened: Opened, width: int) -> None:
    page = opened(compared_page("Two", two(), ROWS, about="Ranked by fullness"), width=width)
    page.evaluate(files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8"))
    found = page.evaluate("axe.run()")
    assert [(each["id"], each["help"]) for each in found["violations"]] == []
    assert len(found["passes"]) > 15
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_pictures_share_one_scale(opened: Opened) -> None:
    versions = two()
    page = opened(compared_page("Two", versions, ROWS), width=1440)
    told = page.evaluate(
        """() => [...document.querySelectorAll('figure svg')].map((one) =>
            one.getBoundingClientRect().width / one.viewBox.baseVal.width)"""
    )
    assert len(told) == 2
    assert told[0] == pytest.approx(told[1], rel=1e-3)
    widths = [one.piece.extent.width / 10 + 4.0 for one in versions]
    boxes = page.evaluate(
        "[...document.querySelectorAll('figure svg')].map((one) => one.viewBox.baseVal.width)"
    )
    assert boxes == pytest.approx(widths, abs=0.01)


def test_the_best_is_marked_in_words_and_the_sentence_is_there(opened: Opened) -> None:
    page = opened(compared_page("Two", two(), ROWS), width=1440)
    assert page.get_by_text("20 (fewest)").count() == 1
    assert page.get_by_text("Fuller by 2%.").count() == 1
    assert page.get_by_text("Natural latex can cause allergic reactions.").count() == 1


def test_names_cannot_run(opened: Opened) -> None:
    hostile = "</figure><script>document.title = 'mine'</script>"
    page = opened(compared_page(hostile, two(hostile, hostile), ROWS, about=hostile))
    assert page.title().startswith("</figure>")
    assert page.locator("script").count() == 0
    assert page.locator("figure").count() == 2


def test_nothing_is_not_compared() -> None:
    with pytest.raises(NothingToCompare):
        compared_page("None", [], [])
