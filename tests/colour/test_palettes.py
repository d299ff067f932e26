"""Palettes: what a palette file may say, all its problems at once, and our own palettes."""

from __future__ import annotations

import tomllib
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.difference import difference
from mockup.colour.palettes import FINISHES, NotAPalette, Palette, palette_from
from mockup.colour.srgb import oklch
from mockup.design import model
from mockup.spelling import plain_form

FOLDER = Path(__file__).parent.parent.parent / "palettes"
FILES = sorted(FOLDER.glob("*.toml"))
GOOD: dict[str, Any] = {
    "name": "plain",
    "says": "A quiet table.",
    "colour": [
        {"name": "oat", "srgb": "#EFE0C1", "finish": "matte"},
        {"name": "brass", "srgb": "#b8893c", "finish": "mirror"},
    ],
}


def ours(path: Path) -> Palette:
    return palette_from(tomllib.loads(path.read_text(encoding="utf-8")))


def problems(mapping: dict[str, Any]) -> list[str]:
    with pytest.raises(NotAPalette) as caught:
        palette_from(mapping)
    assert str(caught.value).splitlines() == [str(each) for each in caught.value.problems]
    return [str(each) for each in caught.value.problems]


def with_row(**changes: object) -> dict[str, Any]:
    return {**GOOD, "colour": [{**GOOD["colour"][0], **changes}, GOOD["colour"][1]]}


def test_a_good_palette_is_read_whole() -> None:
    palette = palette_from(GOOD)
    assert (palette.name, palette.says, palette.names) == (
        "plain",
        "A quiet table.",
        ("oat", "brass"),
    )
    assert palette.colours[0].srgb == "#efe0c1"
    assert palette.find("OAT") == palette.colours[0]
    assert palette.find("oats") is None


def test_the_finishes_are_those_of_the_piece_file() -> None:
    assert FINISHES == model.FINISHES


@pytest.mark.parametrize(
    ("mapping", "said"),
    [
        ({}, "the palette has no name"),
        ({**GOOD, "says": 3}, "the says of the palette is not text"),
        ({**GOOD, "says": "  "}, "the says of the palette is not text"),
        ({**GOOD, "name": "a\nb"}, "signs that do not print"),
        ({**GOOD, "name": "n" * 81}, "81 letters long"),
        ({**GOOD, "colour": "oat"}, "the palette has no colours"),
        ({**GOOD, "colour": []}, "begin each one with [[colour]]"),
        ({**GOOD, "colour": [GOOD["colour"][0]] * 101}, "the palette has 101 colours"),
        ({**GOOD, "colour": [3]}, "colour 1 has no name"),
        ({**GOOD, "colors": []}, "'colors' is not a key of a palette; did you mean 'colour'?"),
        (with_row(srgb="teal"), "the srgb of colour 1: 'teal' is not a colour; write # and six"),
        (with_row(srgb=3), "'3' is not a colour"),
        (with_row(finish="mat"), "'mat', is not known; did you mean 'matte'?"),
        (with_row(finish=["matte"]), "is not known"),
        (with_row(finnish="matte"), "'finnish' is not a key of a palette; did you mean 'finish'?"),
        (with_row(name="Brass "), "has blanks round it"),
        (with_row(name="BRASS"), "colour 2 bears the name of colour 1, 'brass'"),
    ],
)
def test_a_problem_is_said_with_what_to_write(mapping: dict[str, Any], said: str) -> None:
    assert any(said in each for each in problems(mapping)), problems(mapping)


def test_all_problems_come_together_with_their_places() -> None:
    bad = {**with_row(srgb="teal", finish="mat"), "says": ""}
    with pytest.raises(NotAPalette) as caught:
        palette_from(bad)
    assert [each.path for each in caught.value.problems] == [
        ("says",),
        ("colour", 0, "srgb"),
        ("colour", 0, "finish"),
    ]


def test_a_finish_may_be_left_out() -> None:
    row = {"name": "oat", "srgb": "#efe0c1"}
    assert palette_from({**GOOD, "colour": [row]}).colours[0].finish == "matte"


WORDS = st.text("a \n#\0é", max_size=5)
ROWS = st.dictionaries(st.sampled_from(["name", "srgb", "finish", "x"]), WORDS | st.integers())
ANY = st.none() | st.booleans() | st.floats() | WORDS | st.lists(ROWS | WORDS, max_size=3) | ROWS


@given(st.dictionaries(st.sampled_from(["name", "says", "colour", "x"]), ANY))
def test_nothing_read_from_a_file_raises_anything_else(mapping: dict[str, object]) -> None:
    try:
        found: object = palette_from(mapping).colours
    except NotAPalette as fault:
        found = fault.problems
    assert found


def test_there_are_at_least_eight_of_ours() -> None:
    assert len(FILES) >= 8
    assert FOLDER / "harbour.toml" in FILES


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_our_palette(path: Path) -> None:
    palette = ours(path)
    assert path.stem == palette.name.replace(" ", "-")
    assert 8 <= len(palette.colours) <= 12
    assert len({plain_form(name) for name in palette.names}) == len(palette.colours)
    assert palette.says.endswith(".")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_colours_of_one_palette_can_be_told_apart(path: Path) -> None:
    # 10 is the program's own limit for "hard to tell apart" in normal sight.
    pairs = combinations(ours(path).colours, 2)
    near = [(a.name, b.name) for a, b in pairs if difference(a.srgb, b.srgb) < 10]
    assert near == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_colour_is_a_neon_only_a_screen_can_show(path: Path) -> None:
    # Our own rule, no source: printed inks hold well under the chroma 0.26 to 0.31 of sRGB's
    # red, green and blue.
    assert [each.name for each in ours(path).colours if oklch(each.srgb)[1] > 0.21] == []


def test_no_two_palettes_give_one_name_two_colours() -> None:
    seen: dict[str, str] = {}
    for path in FILES:
        for colour in ours(path).colours:
            assert seen.setdefault(colour.name, colour.srgb) == colour.srgb


def test_every_finish_is_suggested_somewhere() -> None:
    assert {each.finish for path in FILES for each in ours(path).colours} == set(FINISHES)


def test_harbour_has_the_colours_of_the_first_sample() -> None:
    harbour = ours(FOLDER / "harbour.toml")
    teal, oat, brass = (harbour.find(name) for name in ("deep teal", "oat", "brass"))
    assert teal is not None
    assert oat is not None
    assert brass is not None
    assert difference(teal.srgb, "#1f6f74") < 2
    assert brass.finish == "mirror"
    assert oklch(oat.srgb)[0] > 0.88
