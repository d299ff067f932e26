"""``mockup suggest`` as it is typed."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


@pytest.fixture
def brief(tmp_path: Path, samples: Path) -> Path:
    file = tmp_path / "brief.toml"
    text = (samples / "wishes-hundred.toml").read_text("utf-8")
    file.write_text(text + "fills = [2, 3, 4]\na_side = [1, 2]\n", "utf-8")
    return file


def test_a_brief_comes_back_as_ranked_designs(run: Run, brief: Path) -> None:
    ran = run("suggest", brief, "--best", "2")
    assert ran.code == 0
    assert ran.out.startswith("1. ")
    assert "\n2. " in ran.out
    assert "before it were refused" in ran.out or "Nothing that may be chosen" in ran.out
    assert "clusters = [{ strokes =" in ran.out


def test_what_it_writes_can_be_put_in_the_file_and_holds(run: Run, brief: Path) -> None:
    best = json.loads(run("suggest", brief, "--json").out)["designs"][0]["sections"][0]
    run_of = ", ".join(f"{{ strokes = {s:g} }}" for s in best["strokes"])
    text = brief.read_text("utf-8")
    built = text.replace("[{ strokes = 3 }, { strokes = 2 }]", f"[{run_of}]")
    cap = best["strokes"][-1] / 2
    brief.write_text(built.replace("{ strokes = 1, ", f"{{ strokes = {cap:g}, "), "utf-8")
    assert run("check", brief).code == 0


def test_the_sheet_is_drawn(run: Run, brief: Path) -> None:
    out = brief.with_name("best.svg")
    assert run("suggest", brief, "-o", out).code == 0
    assert out.read_text("utf-8").startswith("<?xml")


def test_none_fits_ends_with_1_and_the_smallest_ring(run: Run, brief: Path) -> None:
    text = brief.read_text("utf-8").replace('outside = "24in"', 'outside = "22in"')
    brief.write_text(text.replace("fills = [2, 3, 4]", "fills = [3, 4]"), "utf-8")
    ran = run("suggest", brief)
    assert ran.code == 1
    assert ran.out.startswith("None fits. All ")
    assert "ring is the smallest that works" in ran.out


def test_the_smallest_ring_that_works_is_drawn(run: Run, brief: Path) -> None:
    text = brief.read_text("utf-8").replace('outside = "24in"', 'outside = "22in"')
    brief.write_text(text.replace("fills = [2, 3, 4]", "fills = [3, 4]"), "utf-8")
    out = brief.with_name("best.html")
    ran = run("suggest", brief, "-o", out)
    assert (ran.code, ran.err) == (1, f"Wrote {out}.\n")
    assert re.search(r"In a 2[3-9] in ring, ranked by", out.read_text("utf-8"))


def test_a_sheet_of_nothing_is_told(run: Run, brief: Path) -> None:
    text = brief.read_text("utf-8").replace('outside = "24in"', 'outside = "22in"')
    brief.write_text(text.replace("fills = [2, 3, 4]", "fills = [3, 4]"), "utf-8")
    out = brief.with_name("best.pdf")
    ran = run("suggest", brief, "--no-rings", "-o", out)
    assert ran.code == 1
    assert ran.err == "There is no design to draw: best.pdf was not written.\n"
    assert not out.exists()


def test_a_sample_in_which_none_fits_is_told_and_larger_rings_are_sampled(
    run: Run, brief: Path
) -> None:
    """More combinations than are looked at one by one, in a ring that is too small."""
    fills = ", ".join(f"{3 + n / 16:g}" for n in range(14))
    text = brief.read_text("utf-8").replace('outside = "24in"', 'outside = "22in"')
    text = text.replace("fills = [2, 3, 4]\na_side = [1, 2]", f"fills = [{fills}]\na_side = [3, 9]")
    brief.write_text(text.replace("most_balloons = 64", ""), "utf-8")
    ran = run("suggest", brief, "--at-most", "100")
    assert ran.code == 1
    assert "of an even sample were refused (no proof)" in ran.out
    assert "is the smallest that works, tried in whole inches" in ran.out
    assert "of an even sample only: a smaller one may work" in ran.out


def test_wishes_that_contradict_end_in_a_sentence(run: Run, brief: Path) -> None:
    brief.write_text(brief.read_text("utf-8").replace('"1/2in"  ', '"9in"  '), "utf-8")
    ran = run("suggest", brief)
    assert (ran.code, ran.out) == (2, "")
    assert "cannot both hold" in ran.err


def test_a_cost_needs_a_book_that_tells_it(run: Run, brief: Path, samples: Path) -> None:
    asked = brief.read_text("utf-8").replace('rank = "fullness"', 'rank = "cost"')
    brief.write_text(asked, "utf-8")
    book = (samples / "jobs" / "studio.toml").read_text("utf-8")
    brief.with_name("studio.toml").write_text(book, "utf-8")
    ran = run("suggest", brief)
    assert ran.code == 2
    assert "no studio book tells what all of it costs (known: " in ran.err
    bag = '[[bag]]\nsize = "5in"\ncolour = "{}"\nfinish = "{}"\ncount = 25\nprice = 6\n'
    colours = {"pine shade": "gloss", "barley": "matte", "old copper": "mirror"}
    bags = "".join(bag.format(*each) for each in colours.items())
    foil = '[[foil]]\nheight = "13in"\ncolour = "old copper"\nfinish = "mirror"\nprice = 3\n'
    brief.with_name("studio.toml").write_text(f"{bags}{foil}", "utf-8")
    ran = run("suggest", brief)
    assert ran.code == 0, ran.err
    assert "material $" in ran.out


def test_the_sample_proves_that_its_ring_is_too_small(run: Run, samples: Path) -> None:
    """Three 13 in numerals do not go into the 22 in ring with room, and go into the next."""
    ran = run("suggest", samples / "wishes-smallest-ring.toml", "--json")
    assert ran.code == 1
    data = json.loads(ran.out)
    assert data["designs"] == []
    assert data["looked_at"] == data["total"] == sum(data["refused"].values())
    assert data["nearest_misses_by"] > 0
    assert [ring["works"] for ring in data["rings"]] == [False] * (len(data["rings"]) - 1) + [True]
