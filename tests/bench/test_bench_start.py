"""The first visit: from an empty folder to a saved, checked piece and its proof, by mouse only."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from playwright.sync_api import expect

from mockup.bench.beginnings import answered, frame_list, palette_list, sample_list, sample_text
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.findings import failing, find_all
from tests.bench.conftest import Open, Start


def test_three_answers_make_a_piece_and_its_proof(
    start: Start, open_page: Open, tmp_path: Path
) -> None:
    bench = start(None, tmp_path)
    visit = open_page(bench, (1024, 768))
    page = visit.page
    page.locator(".card").first.wait_for()
    page.locator(".pick", has_text="26 in").click()
    page.locator(".pick", has_text="rose hour").click()
    page.get_by_role("button", name="Put it on the bench").click()
    visit.ready()
    page.get_by_role("button", name="Save", exact=True).click()
    file = tmp_path / "a-new-piece.toml"
    visit.until(file.exists)
    written = tomllib.loads(file.read_text("utf-8"))
    assert (written["frame"]["outside"], written["palette"]) == ("26in", "rose hour")
    page.get_by_role("tab", name="Checks").click()
    expect(page.locator(".finding.fails")).to_have_count(0)
    page.get_by_role("button", name="Make the proof").click()
    visit.until((tmp_path / "a-new-piece-proof.pdf").exists, 30)
    assert visit.errors == []


def test_a_sample_is_taken_up_under_its_own_name(
    start: Start, open_page: Open, tmp_path: Path
) -> None:
    (tmp_path / "winter-ring.toml").write_text("# mine", "utf-8")
    visit = open_page(start(None, tmp_path))
    visit.page.locator(".card", has_text="The winter ring").click()
    visit.ready()
    visit.page.locator("#save").click()
    visit.until((tmp_path / "winter-ring-2.toml").exists)
    assert (tmp_path / "winter-ring.toml").read_text("utf-8") == "# mine"


def test_a_wrong_answer_is_told_on_the_page(start: Start, open_page: Open, tmp_path: Path) -> None:
    visit = open_page(start(None, tmp_path))
    page = visit.page
    page.locator(".card").first.wait_for()
    page.locator("input[name=own]").fill("75")
    page.get_by_role("button", name="Put it on the bench").click()
    expect(page.locator(".trouble")).to_contain_text("unit")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("ring", ["20in", "24in", "26in", "30in", "36in", "75cm"])
@pytest.mark.parametrize("numerals", ["", "7", "30", "100"])
def test_every_answer_ends_in_a_valid_piece(ring: str, numerals: str) -> None:
    unit = "cm" if ring.endswith("cm") else "in"
    answers = {"size": ring, "numerals": numerals, "palette": "harbour", "unit": unit}
    name, text = answered(answers, None)
    design = design_from_text(text, name)
    assert name == "a-new-piece.toml"
    assert (design.panel.text if design.panel else "") == numerals
    assert design.unit == unit


@pytest.mark.parametrize("frame", [one["name"] for one in frame_list()])
@pytest.mark.parametrize("palette", ["harbour", "rose hour"])
def test_every_frame_offered_begins_a_valid_piece(frame: str, palette: str) -> None:
    size = next(one["sizes"][0] for one in frame_list() if one["name"] == frame)
    answers = {"frame": frame, "size": size, "numerals": "7", "palette": palette}
    name, text = answered(answers, None)
    design = design_from_text(text, name)
    assert design.frame.kind == {"column": "pole", "garland": "ring"}.get(frame, frame)
    assert (design.panel is not None) == (frame in ("ring", "garland"))


def test_another_frame_is_begun_with_the_mouse(
    start: Start, open_page: Open, tmp_path: Path
) -> None:
    visit = open_page(start(None, tmp_path))
    page = visit.page
    page.locator(".card").first.wait_for()
    page.locator(".pick", has_text="column").click()
    expect(page.locator("input[name=numerals]")).to_be_hidden()
    page.locator(".pick:visible", has_text="7 ft").click()
    page.get_by_role("button", name="Put it on the bench").click()
    visit.ready()
    page.locator("#save").click()
    file = tmp_path / "a-new-piece.toml"
    visit.until(file.exists)
    assert tomllib.loads(file.read_text("utf-8"))["frame"]["height"] == "7ft"
    assert visit.errors == []


def test_a_palette_of_two_colours_begins_a_piece_of_three_letters(tmp_path: Path) -> None:
    own = 'name = "two"\nsays = "Ash and ink."\n'
    own += '[[colour]]\nname = "ash"\nsrgb = "#b0b0a8"\nfinish = "matte"\n'
    own += '[[colour]]\nname = "ink"\nsrgb = "#202830"\nfinish = "matte"\n'
    (tmp_path / "two.palette.toml").write_text(own, "utf-8")
    text = answered({"size": "30in", "numerals": "7", "palette": "two"}, tmp_path)[1]
    assert set(tomllib.loads(text)["colours"].values()) == {"ash", "ink"}


@pytest.mark.parametrize("palette", [one["name"] for one in palette_list(None)])
def test_every_palette_starts_a_piece_whose_numerals_fit(palette: str) -> None:
    answers = {"title": "Zoë", "size": "30in", "numerals": "30", "palette": palette}
    design = design_from_text(answered(answers, None)[1], "x.toml")
    assert list(design.colours) == ["A", "B", "C"]
    assert "numerals fit" not in {each.name for each in failing(find_all(assemble(design)))}


@pytest.mark.parametrize(
    "wrong", [{"size": "30"}, {"palette": "nothing"}, {"numerals": "é"}, {"frame": "tent"}]
)
def test_a_wrong_answer_is_a_fault(wrong: dict[str, str]) -> None:
    right = {"title": "Ruby", "size": "30in", "numerals": "30", "palette": "harbour"}
    with pytest.raises(FaultsFound):
        answered({**right, **wrong}, None)


def test_every_sample_offered_is_one() -> None:
    """One whose wall is taken from a picture beside it would be lost in another folder."""
    names = {one["name"] for one in sample_list()}
    assert {"ruby-thirty", "winter-ring"} <= names
    assert "lugger-wall" not in names
    for one in sample_list():
        assert design_from_text(sample_text(one["name"]), "x.toml").title == one["title"]
