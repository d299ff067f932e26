"""The page in Debian's chromium: every control, as a decorator uses it."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, Route, expect

from tests.bench.conftest import Open, Start, Visit


def file_of(visit: Visit) -> Path:
    return visit.bench.served.desk.folder / "ruby.toml"


def given(visit: Visit) -> dict[str, Any]:
    return tomllib.loads(visit.text)


def tab(page: Page, name: str) -> None:
    page.get_by_role("tab", name=name).click()


def test_it_opens_with_the_piece_drawn_and_judged(visit: Visit) -> None:
    page = visit.page
    expect(page.locator("#title")).to_have_text("Ruby turns thirty")
    expect(page.locator("#tally")).to_have_text("1 to look at")  # teal and brass, in grey
    painted = page.evaluate(
        """() => [...document.querySelectorAll('canvas')].map(c => {
            const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
            let n = 0; for (let i = 3; i < d.length; i += 4) if (d[i] > 0) n++; return n; })"""
    )
    assert all(count > 1000 for count in painted[:2])


def test_a_stroke_more_redraws_and_undo_takes_it_back(visit: Visit) -> None:
    page, before = visit.page, visit.text
    page.locator('[data-key="section.0.clusters.1.say"]').click()
    page.locator('[data-key="section.0.clusters.1.strokes"]').fill("2.5")
    visit.until(lambda: given(visit)["section"][0]["clusters"][1]["strokes"] == 2.5)
    assert [line for line in before.splitlines() if "#" in line] == [
        line for line in visit.text.splitlines() if "#" in line
    ]
    expect(page.locator("#file")).to_contain_text("not saved yet")
    page.locator("#undo").click()
    visit.until(lambda: visit.text == before)
    page.locator("#redo").click()
    visit.until(lambda: visit.text != before)
    assert file_of(visit).read_text("utf-8") == before


def test_save_writes_the_text(visit: Visit) -> None:
    visit.page.locator('[data-key="client"]').fill("Ida & Noor")
    visit.page.locator('[data-key="client"]').press("Enter")
    visit.until(lambda: given(visit).get("client") == "Ida & Noor")
    visit.page.keyboard.press("Control+s")
    visit.until(lambda: visit.bench.served.desk.is_saved)
    assert file_of(visit).read_text("utf-8") == visit.text
    expect(visit.page.locator("#file")).to_have_text("ruby.toml, saved")
    assert sorted(each.name for each in file_of(visit).parent.iterdir()) == ["ruby.toml"]


def test_the_text_goes_both_ways_and_a_fault_stands_at_its_line(visit: Visit) -> None:
    page = visit.page
    tab(page, "Text")
    area = page.locator("#toml")
    good = visit.text
    area.fill(good.replace('title = "Ruby turns thirty"', 'title = "Opal"'))
    visit.until(lambda: given(visit)["title"] == "Opal")
    expect(page.locator("#title")).to_have_text("Opal")
    broken = good.replace("strokes = 4", "strokes = 4 balloons", 1)
    line = broken[: broken.index("balloons")].count("\n") + 1
    area.fill(broken)
    visit.until(lambda: bool(visit.bench.served.desk.now.faults))
    expect(page.locator("#faults li").first).to_contain_text(f"Line {line}")
    expect(page.locator(".numbers .wrong")).to_have_text(str(line))
    expect(page.locator("#board")).to_have_class("board stale")
    page.locator("#faults button").first.click()
    assert page.evaluate("document.activeElement.id") == "toml"
    area.fill(good)
    visit.until(lambda: not visit.bench.served.desk.now.faults)
    expect(page.locator("#board")).to_have_class("board")


def test_a_balloon_touched_is_chosen_with_its_twin(visit: Visit) -> None:
    board = visit.page.evaluate("benchBoard.places.clusters.map(c => [c.side, c.twin])")
    side = next(k for k, (name, _) in enumerate(board) if name == "right")
    balloon = visit.page.evaluate(
        """(k) => { const p = benchBoard.places; return p.clusters[k].balloons
            .reduce((a, b) => p.balloons[a][3] > p.balloons[b][3] ? a : b); }""",
        side,
    )
    visit.page.mouse.click(*visit.spot(balloon))
    chosen = visit.page.evaluate("[...benchBoard.chosen]")
    assert sorted(chosen) == sorted([side, board[side][1]])
    expect(visit.page.locator("#said")).to_contain_text("and its twin")


def test_a_colour_taken_paints_a_cluster_and_its_twin(visit: Visit) -> None:
    page = visit.page
    page.get_by_role("button", name="Paint with C").click()
    middle = page.evaluate(
        """() => { const p = benchBoard.places;
            const one = p.clusters.find(c => c.side === 'middle');
            const z = k => p.balloons[k][3];
            return one.balloons.reduce((a, b) => z(a) > z(b) ? a : b); }"""
    )
    page.mouse.click(*visit.spot(middle))
    visit.until(lambda: given(visit)["section"][0]["clusters"][0].get("colours") == "C")
    page.locator("#whole").uncheck()
    page.get_by_role("button", name="Paint with A").click()
    page.mouse.click(*visit.spot(middle))
    visit.until(lambda: len(given(visit)["section"][0]["clusters"][0]["colours"]) == 4)
    letters = given(visit)["section"][0]["clusters"][0]["colours"]
    assert sorted(letters) == ["A", "C", "C", "C"]


def test_rows_are_added_moved_and_removed(visit: Visit) -> None:
    page = visit.page

    def fills() -> list[float]:
        return [row["strokes"] for row in given(visit)["section"][0]["clusters"]]

    first = fills()
    page.get_by_role("button", name="Add a cluster").first.click()
    visit.until(lambda: fills() == [*first, first[-1]])
    page.locator('[data-key="section.0.clusters.grip.0"]').focus()
    page.keyboard.press("ArrowDown")
    lower_grip = [first[1], first[0], *first[2:], first[-1]]
    visit.until(lambda: fills() == lower_grip)
    grip = page.locator('[data-key="section.0.clusters.grip.1"]')
    expect(grip).to_have_count(1)  # two bear the key until the form is drawn anew
    expect(grip).to_be_focused()
    page.locator('[data-key="section.0.clusters.1.say"]').click()
    page.get_by_role("button", name="Remove this row").click()
    visit.until(lambda: fills() == [first[1], *first[2:], first[-1]])


def test_a_row_is_dragged_to_another_place(visit: Visit) -> None:
    page = visit.page
    before = [row["strokes"] for row in given(visit)["section"][0]["clusters"]]
    grips = [page.locator(f'[data-key="section.0.clusters.grip.{k}"]') for k in (0, 2)]
    page.locator(".rows").first.scroll_into_view_if_needed()
    source, target = (one.bounding_box() for one in grips)
    assert source
    assert target
    page.mouse.move(source["x"] + 10, source["y"] + 10)
    page.mouse.down()
    page.mouse.move(source["x"] + 10, target["y"] + 20, steps=5)
    page.mouse.up()
    wished = [*before[1:3], before[0], *before[3:]]
    visit.until(lambda: [r["strokes"] for r in given(visit)["section"][0]["clusters"]] == wished)


def test_the_numerals_are_dragged_and_felt(visit: Visit) -> None:
    page = visit.page
    box = page.evaluate("benchBoard.places.numerals.box")
    scale, left, top = page.evaluate(
        """() => { const b = benchBoard.canvases[0].getBoundingClientRect();
            return [benchBoard.css, b.left, b.top]; }"""
    )
    x, y = left + (box[0] * 0.7 + box[2] * 0.3) * scale, top + (box[1] + box[3]) / 2 * scale
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 90, steps=6)
    expect(page.locator("#board")).to_have_attribute("data-verdict", "clashes")
    expect(page.locator("#said")).to_contain_text("press")
    page.mouse.up()
    visit.until(lambda: "raised" in given(visit)["panel"])
    assert len(visit.bench.served.desk.steps.past) == 1
    tab(page, "Numerals")
    page.get_by_role("button", name="Best fit").click()
    visit.until(lambda: "raised" not in given(visit)["panel"])


def test_a_sections_end_is_dragged_along_the_ring(visit: Visit) -> None:
    page = visit.page
    before = given(visit)["section"][0]["clusters"]
    spots = page.evaluate(
        """() => { const b = benchBoard; const box = b.canvases[0].getBoundingClientRect();
            const of = ([x, y]) => [box.left + x * b.css, box.top + y * b.css];
            const own = b.places.clusters
                .filter(c => c.section === 0 && c.side === 'right' && !c.cap);
            return [of(b.places.sections[0].ends.right), of(own[0].at)]; }"""
    )
    page.mouse.move(*spots[0])
    page.mouse.down()
    page.mouse.move(*spots[1], steps=8)
    visit.until(lambda: len(given(visit)["section"][0]["clusters"]) == 2)
    page.mouse.up()
    assert len(visit.bench.served.desk.steps.past) == 1
    page.locator("#undo").click()
    visit.until(lambda: given(visit)["section"][0]["clusters"] == before)
    page.get_by_role("button", name="One cluster more a side of top").click()
    visit.until(lambda: given(visit)["section"][0]["clusters"][-1].get("times") == 2)


def test_letters_dimensions_and_other_eyes(visit: Visit) -> None:
    page = visit.page

    def shot() -> str:
        visit.quiet()
        return str(page.evaluate("benchBoard.canvases.map(c => c.toDataURL()).join()"))

    seen = [shot()]
    page.locator("#letters").click()
    seen.append(shot())
    page.locator("#dimensions").click()
    seen.append(shot())
    for eye in ("grey", "deutan", "protan", "tritan"):
        page.locator("#sight").select_option(eye)
        seen.append(shot())
    assert len(set(seen)) == len(seen)
    page.locator("#sight").select_option("grey")
    visit.quiet()
    coloured = page.evaluate(
        """() => { const c = benchBoard.canvases[0]; let most = 0;
            const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
            for (let i = 0; i < d.length; i += 4) if (d[i + 3] === 255) {
                const [r, g, b] = d.slice(i, i + 3);
                most = Math.max(most, Math.max(r, g, b) - Math.min(r, g, b)); }
            return most; }"""
    )
    assert coloured <= 3


def test_a_finding_touched_is_shown_on_the_drawing(visit: Visit) -> None:
    tab(visit.page, "Checks")
    finding = visit.page.locator(".finding", has_text="nestle").first
    finding.click()
    expect(finding).to_have_attribute("aria-pressed", "true")
    assert visit.page.locator(".marks .pointed").count() == 2


def test_a_letter_gets_another_colour(visit: Visit) -> None:
    page = visit.page
    tab(page, "Colours")
    page.locator('[data-key="letter.A"]').click()
    page.locator(".patch", has_text="buoy red").click()
    visit.until(lambda: given(visit)["colours"]["A"] == "buoy red")
    page.locator('[data-key="shelf"]').select_option("rose hour")
    page.locator(".patch", has_text="claret").click()
    visit.until(
        lambda: given(visit)["colours"]["A"] == {"colour": "claret", "palette": "rose hour"}
    )
    page.get_by_role("button", name="Add a colour", exact=True).click()
    visit.until(lambda: "D" in given(visit)["colours"])
    page.get_by_role("button", name="Remove colour D").click()
    visit.until(lambda: "D" not in given(visit)["colours"])


def test_a_change_on_disk_is_never_overwritten_unseen(visit: Visit) -> None:
    page = visit.page
    page.locator('[data-key="title"]').fill("Mine")
    page.locator('[data-key="title"]').press("Enter")
    visit.until(lambda: given(visit)["title"] == "Mine")
    theirs = file_of(visit).read_text("utf-8").replace("Ruby turns thirty", "Theirs")
    file_of(visit).write_text(theirs, "utf-8")
    page.locator("#save").click()
    expect(page.locator(".notice")).to_contain_text("changed by another program")
    assert file_of(visit).read_text("utf-8") == theirs
    page.get_by_role("button", name="Write mine over it").click()
    visit.until(lambda: "Mine" in file_of(visit).read_text("utf-8"))


def test_a_change_on_disk_is_taken_up_where_nothing_is_unsaved(visit: Visit) -> None:
    file_of(visit).write_text(visit.text.replace("Ruby turns thirty", "Theirs"), "utf-8")
    expect(visit.page.locator("#title")).to_have_text("Theirs")


def test_two_tabs_on_one_piece(visit: Visit, open_page: Open) -> None:
    other = open_page(visit.bench)
    other.ready()
    other.page.locator('[data-key="title"]').fill("From the other tab")
    other.page.locator('[data-key="title"]').press("Enter")
    expect(visit.page.locator("#title")).to_have_text("From the other tab")


def test_a_stopped_bench_says_so_and_loses_nothing(
    open_page: Open, start: Start, piece: Path
) -> None:
    first = start(piece)
    visit = open_page(first)
    page = visit.ready()
    page.locator('[data-key="title"]').fill("Not saved")
    page.locator('[data-key="title"]').press("Enter")
    visit.until(lambda: given(visit)["title"] == "Not saved")
    text = visit.text
    port = first.port
    first.stop()
    expect(page.locator(".notice")).to_contain_text("has been stopped")
    assert page.locator("#toml").input_value() == text
    again = open_page(start(piece, port=port))
    again.page.get_by_role("button", name="Take it up").click()
    again.until(lambda: again.text == text)
    expect(page.locator(".notice")).to_contain_text("stopped")


def test_the_keyboard_alone_from_a_cluster_to_a_saved_proof(visit: Visit) -> None:
    page = visit.page
    page.locator("#board").focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#said")).to_contain_text("middle cluster")
    page.keyboard.press("c")
    visit.until(lambda: given(visit)["section"][0]["clusters"][0].get("colours") == "C")
    page.keyboard.press("Control+z")
    visit.until(lambda: given(visit)["section"][0]["clusters"][0].get("colours") != "C")
    page.keyboard.press("Control+y")
    visit.until(lambda: given(visit)["section"][0]["clusters"][0].get("colours") == "C")
    page.locator("#proof").focus()
    page.keyboard.press("Enter")
    visit.until((file_of(visit).parent / "ruby-proof.pdf").exists, 20)
    assert visit.bench.served.desk.is_saved
    expect(page.locator(".notice a").first).to_have_text("Open it")
    made = visit.bench.ask("GET", "/made/ruby-proof.pdf")
    assert made.body.startswith(b"%PDF")


def test_numerals_are_painted_anew_only_where_the_eye_could_see_it(visit: Visit) -> None:
    """A tenth of a pixel is left as it is; what adds up to more than a fifth is painted."""
    painted = visit.page.evaluate(
        """() => { const b = benchBoard, drawn = b.size, seen = [];
            const usual = b.paint;
            b.paint = (k) => { if (k === 1) seen.push(k); usual.call(b, k); };
            const told = [0.1, 0.1, 0.25, 0.25, 0.35].map((pixels) => {
                const items = JSON.parse(JSON.stringify(drawn.numerals.items));
                for (const group of items) for (const one of group[3]) one[3] += pixels / b.scale;
                b.show({ ...drawn, numerals: { ...drawn.numerals, items } }, b.places);
                return seen.length; });
            b.paint = usual;
            b.show(drawn, b.places);
            return told; }"""
    )
    assert painted == [0, 0, 1, 1, 1]


def test_the_page_asks_for_its_modules_as_one(visit: Visit) -> None:
    asked = [url.rpartition("/")[2] for url in visit.asked if url.endswith(".js")]
    assert set(asked) == {"all.js"}


def test_a_colour_can_be_opened_before_the_palettes_have_come(visit: Visit) -> None:
    page = visit.page
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route("**/api/palettes", hold)
    page.reload()
    visit.ready()
    tab(page, "Colours")
    page.locator('[data-key="letter.A"]').click()
    expect(page.locator(".choosing")).to_contain_text("palettes are being read")
    expect(page.locator('[data-key="own"]')).to_be_visible()
    visit.until(lambda: len(held) > 0)
    held[0].continue_()
    page.unroute("**/api/palettes")
    page.locator('[data-key="patch.oat"]').click()
    visit.until(lambda: given(visit)["colours"]["A"] == "oat")
    assert visit.errors == []


def test_what_is_being_typed_outlives_a_form_made_anew(visit: Visit) -> None:
    """The form is made anew whenever an answer comes, from another tab too."""
    page = visit.page
    steps = len(visit.bench.served.desk.steps.past)
    page.locator('[data-key="client"]').fill("Ida")
    page.evaluate("document.dispatchEvent(new Event('bench:draw'))")
    page.keyboard.type(" & Noor")
    page.keyboard.press("Enter")
    visit.until(lambda: given(visit).get("client") == "Ida & Noor")
    assert len(visit.bench.served.desk.steps.past) == steps + 1  # not half of it before
    page.locator('[data-key="venue"]').fill("The quay")
    page.evaluate("document.dispatchEvent(new Event('bench:draw'))")
    page.locator("#board").focus()
    visit.until(lambda: given(visit).get("venue") == "The quay")
    visit.quiet()
    expect(page.locator('[data-key="venue"]')).to_have_value("The quay")


def test_a_form_made_anew_keeps_what_is_marked(visit: Visit) -> None:
    page = visit.page
    page.locator('[data-key="client"]').evaluate("one => { one.focus(); one.select(); }")
    page.evaluate("document.dispatchEvent(new Event('bench:draw'))")
    page.keyboard.type("Noor")
    page.keyboard.press("Enter")
    visit.until(lambda: given(visit).get("client") == "Noor")
