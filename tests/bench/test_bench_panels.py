"""The panels worked out on demand: colourways, options, ideas, buying and papers, on the page."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from tests.bench.conftest import SAMPLES, Open, Start, Visit


def given(visit: Visit) -> dict[str, Any]:
    return tomllib.loads(visit.text)


def tab(page: Page, name: str) -> None:
    page.get_by_role("tab", name=name).click()


def test_a_colourway_is_added_named_coloured_and_taken_out(visit: Visit) -> None:
    page, before = visit.page, visit.text
    tab(page, "Colours")
    page.get_by_role("button", name="Add a colourway").click()
    visit.until(lambda: len(given(visit).get("colourway", [])) == 1)
    assert given(visit)["colourway"][0] == {"name": "B", "colours": given(visit)["colours"]}
    expect(page.locator("#way")).to_have_value("1")
    name = page.locator('[data-key="colourway.0.name"]')
    name.fill("after dark")
    name.press("Enter")
    visit.until(lambda: given(visit)["colourway"][0]["name"] == "after dark")
    expect(page.locator("#way option")).to_have_text(["the first", "after dark"])
    page.locator(".choosing .patch", has_text="buoy red").click()
    visit.until(lambda: given(visit)["colourway"][0]["colours"]["A"] == "buoy red")
    assert given(visit)["colours"]["A"] != "buoy red"
    page.get_by_role("button", name="Add a colour", exact=True).click()
    visit.until(lambda: "D" in given(visit)["colours"])
    assert "D" in given(visit)["colourway"][0]["colours"]
    assert not visit.bench.served.desk.now.faults
    page.get_by_role("button", name="Remove colour D").click()
    visit.until(lambda: "D" not in given(visit)["colourway"][0]["colours"])
    page.get_by_role("button", name="Remove colourway after dark").click()
    visit.until(lambda: "colourway" not in given(visit))
    expect(page.locator("#way")).to_be_hidden()
    assert [line for line in before.splitlines() if "#" in line] == [
        line for line in visit.text.splitlines() if "#" in line
    ]


def test_an_option_is_put_beside_the_piece(visit: Visit) -> None:
    page = visit.page
    tab(page, "Options")
    page.get_by_role("button", name="Put it beside the others").click()  # its name is missing
    page.locator("[name=name]").fill("wide ring")
    page.get_by_role("button", name="Put it beside the others").click()
    expect(page.locator("#options .trouble")).to_contain_text("Say what is other")
    page.locator("[name=outside]").fill("34in")
    page.get_by_role("button", name="Put it beside the others").click()
    visit.until(lambda: len(given(visit).get("option", [])) == 1)
    assert given(visit)["option"] == [{"name": "wide ring", "frame": {"outside": "34in"}}]
    expect(page.locator("#options figcaption strong")).to_have_text(["as it is", "wide ring"])
    expect(page.locator("#options tbody tr").first).to_contain_text("Balloons")
    page.locator("[name=name]").fill("half said")  # what is being typed stays through an edit
    page.locator("#undo").click()
    expect(page.locator("#options figcaption")).to_have_count(0)
    expect(page.locator("[name=name]")).to_have_value("half said")
    page.locator("#redo").click()
    page.get_by_role("button", name="Remove option wide ring").click()
    visit.until(lambda: "option" not in given(visit))


def test_an_idea_is_sought_and_taken(start: Start, open_page: Open, tmp_path: Path) -> None:
    file = tmp_path / "hundred.toml"
    file.write_bytes((SAMPLES / "wishes-hundred.toml").read_bytes())
    visit = open_page(start(file))
    page = visit.ready()
    tab(page, "Ideas")
    page.locator('[data-key="wishes.most_balloons"]').fill("60")
    page.locator('[data-key="wishes.most_balloons"]').press("Enter")
    visit.until(lambda: given(visit)["wishes"]["most_balloons"] == 60)
    page.get_by_role("button", name="Look for ideas").click()
    expect(page.locator(".idea")).to_have_count(3, timeout=60_000)
    before = visit.text
    page.get_by_role("button", name="Take idea 1").click()
    visit.until(lambda: visit.text != before)
    visit.quiet()
    expect(page.locator("#tally")).not_to_have_class("fails")
    page.locator("#undo").click()
    visit.until(lambda: visit.text == before)
    assert visit.errors == []


def test_a_search_shows_how_far_it_is_and_is_stopped(
    start: Start, open_page: Open, tmp_path: Path
) -> None:
    file = tmp_path / "hundred.toml"
    text = (SAMPLES / "wishes-hundred.toml").read_text("utf-8")
    more = "a_side = [1, 7]\nmost_minutes = 60\n"  # a long search
    file.write_text(text.replace("most_balloons = 64\n", more), "utf-8")
    visit = open_page(start(file))
    page = visit.ready()
    tab(page, "Ideas")
    page.get_by_role("button", name="Look for ideas").click()
    expect(page.locator("progress")).to_be_visible()
    page.get_by_role("button", name="Stop").click()
    expect(page.get_by_role("button", name="Look again")).to_be_visible(timeout=60_000)
    assert visit.errors == []


def test_what_to_buy_follows_the_piece(start: Start, open_page: Open, tmp_path: Path) -> None:
    for name in ("alder-table-ring.toml", "studio.toml"):
        (tmp_path / name).write_bytes((SAMPLES / "jobs" / name).read_bytes())
    visit = open_page(start(tmp_path / "alder-table-ring.toml"))
    page = visit.ready()
    tab(page, "Buying")
    expect(page.locator(".cost dd").first).to_contain_text(".", timeout=30_000)
    first = page.locator(".goods .what").first.inner_text()
    page.get_by_role("tab", name="Shape").click()
    page.get_by_role("button", name="One cluster more a side").first.click()
    tab(page, "Buying")
    expect(page.locator(".goods .what").first).not_to_have_text(
        first, use_inner_text=True, timeout=30_000
    )
    page.get_by_role("button", name="Print the list").click()
    expect(page.locator(".notice")).to_contain_text(
        "Wrote alder-table-ring-buy.pdf", timeout=30_000
    )
    assert (tmp_path / "alder-table-ring-buy.pdf").read_bytes().startswith(b"%PDF")
    assert visit.errors == []


def test_the_clients_page_opens_and_nothing_in_it_is_refused(visit: Visit) -> None:
    page = visit.page
    tab(page, "Papers")
    page.get_by_role("button", name="Make the client's page").click()
    link = page.get_by_role("link", name="Open it: ruby-proof.html")
    expect(link).to_be_visible(timeout=30_000)
    said: list[str] = []
    other = page.context.new_page()
    other.on("console", lambda one: said.append(one.text))
    other.goto(f"http://127.0.0.1:{visit.bench.port}/made/ruby-proof.html")
    expect(other.get_by_role("heading", name="Ruby turns thirty").first).to_be_visible()
    assert other.evaluate("getComputedStyle(document.body).fontFamily") != "serif"
    other.close()
    assert said == []
