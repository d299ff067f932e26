"""The SVG writer: true size, one definition a thing, the same bytes, and nothing unclean in it."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import replace
from hashlib import sha256
from pathlib import Path as File
from xml.etree import ElementTree as ET

import pytest

from mockup.render.record import (
    Circle,
    Group,
    Item,
    Line,
    Path,
    Place,
    Radial,
    Sheet,
    Stop,
    Style,
    Symbol,
    Text,
)
from mockup.render.svg import number, svg_text
from tests.render.everything import everything

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
ROOT = File(__file__).parent.parent.parent


def drawn(*items: Item, **options: object) -> ET.Element:
    return ET.fromstring(svg_text(Sheet(100.0, 50.0, items), debug=True, **options))  # type: ignore[arg-type] # the options under test


def glow(*colours: str) -> Radial:
    return Radial("glow", tuple(Stop(k / 2, colour) for k, colour in enumerate(colours)))


def test_svgwrite_finds_nothing_to_object_to() -> None:
    """With debug svgwrite checks each attribute against its table of SVG 1.1."""
    assert svg_text(everything(), debug=True) == svg_text(everything())


def test_size_is_in_mm_and_one_unit_is_one_mm() -> None:
    root = ET.fromstring(svg_text(Sheet(215.9, 279.4, ())))
    assert (root.get("width"), root.get("height")) == ("215.9mm", "279.4mm")
    assert root.get("viewBox") == "0 0 215.9 279.4"


def test_the_file_says_its_title_and_language() -> None:
    root = drawn(title="Ruby <& co>\x07", language="de")
    assert root.findtext(f"{SVG}title") == "Ruby <& co>\ufffd"
    assert root.get("{http://www.w3.org/XML/1998/namespace}lang") == "de"


def test_each_glyph_is_defined_once_and_every_reference_has_its_target() -> None:
    text = svg_text(everything())
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    targets = set(re.findall(r'xlink:href="#([^"]+)"|url\(#([^)]+)\)', text))
    assert {a or b for a, b in targets} <= set(ids)


def test_letters_cost_little_when_used_again() -> None:
    one = len(svg_text(Sheet(100.0, 100.0, (Text((0.0, 9.0), "mississippi", 2.5),))))
    many = tuple(Text((0.0, 9.0), "mississippi", 2.5) for _ in range(101))
    assert (len(svg_text(Sheet(100.0, 100.0, many))) - one) / 100 < 700


def test_words_are_found_under_the_page_and_only_when_asked_for() -> None:
    said = Text((10.0, 10.0), "Zoë <& Łukasz>", 3.5, turn=-90.0)
    sheet = Sheet(100.0, 50.0, (Group((said,), kind="note"),))
    root = ET.fromstring(svg_text(sheet))
    assert [e.text for e in root.iter(f"{SVG}text")] == ["Zoë <& Łukasz>"]
    children = [child.tag for child in root if child.tag != f"{SVG}title"]
    assert children.index(f"{SVG}g") < children.index(f"{SVG}rect")
    assert "<text" not in svg_text(sheet, search_text=False)
    assert "<text" not in svg_text(replace(sheet, background="none"))


def test_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib;from tests.render.everything import everything;"
        "from mockup.render.svg import svg_text;"
        "print(hashlib.sha256(svg_text(everything()).encode()).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONHASHSEED": "7", "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    assert other.stdout.strip() == sha256(svg_text(everything()).encode()).hexdigest()


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (3.0, "3"),
        (-0.0, "0"),
        (1 / 3, "0.333"),
        (-12.3456, "-12.346"),
        (1e-9, "0"),
        (1e6, "1000000"),
    ],
)
def test_numbers_are_short(value: float, written: str) -> None:
    assert str(number(value)) == written


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), float("-inf")])
def test_numbers_that_are_not_finite_are_refused(bad: float) -> None:
    items: list[Item] = [
        Circle((bad, 1.0), 2.0, Style()),
        Circle((1.0, 1.0), bad, Style()),
        Line((0.0, 0.0), (1.0, bad), Style()),
        Circle((1.0, 1.0), 1.0, Style(opacity=bad)),
        Text((bad, 1.0), "A", 3.5),
        Text((1.0, 1.0), "A", 3.5, turn=bad),
        Place(Symbol("s", ()), (1.0, 1.0), bad),
        Path(f"M 0 0 L {bad} 1", Style(fill="#000000")),
    ]
    for item in items:
        with pytest.raises(ValueError, match="finite"):
            drawn(item)


@pytest.mark.parametrize("colour", ["red", "#fff", "#aabbccdd", "rgb(1,2,3)", "url(#x)"])
def test_other_colours_are_refused(colour: str) -> None:
    """CairoSVG and viewers read these differently, mostly as black."""
    with pytest.raises(ValueError, match="colour"):
        drawn(Circle((1.0, 1.0), 1.0, Style(fill=colour)))


def test_one_id_for_two_things_is_refused() -> None:
    first, second = glow("#000000", "#111111"), glow("#000000", "#222222")
    circles = [Circle((1.0, 1.0), 1.0, Style(fill=paint)) for paint in (first, second)]
    with pytest.raises(ValueError, match="two different things"):
        drawn(*circles)
    drawn(circles[0], circles[0], Circle((1.0, 1.0), 1.0, Style(fill=glow("#000000", "#111111"))))
    symbols = [Place(Symbol("dot", (circle,)), (5.0, 5.0)) for circle in circles]
    with pytest.raises(ValueError, match="two different things"):
        drawn(*symbols)
    with pytest.raises(ValueError, match="not an id"):
        drawn(Place(Symbol("a b", ()), (0.0, 0.0)))


def test_groups_bear_kind_name_and_title() -> None:
    dot = Circle((1.0, 1.0), 1.0, Style(fill="#123456"))
    groups = [
        Group((dot,), "balloon", "top 3, right", "the <third>"),
        Group((dot,), "balloon", "top 3. right"),
    ]
    root = drawn(*groups)
    first, second = root.findall(f"{SVG}g[@class='balloon']")
    assert (first.get("id"), second.get("id")) == ("balloon-top-3-right", "balloon-top-3.-right")
    assert first.findtext(f"{SVG}title") == "the <third>"
    again = drawn(groups[0], groups[0]).findall(f"{SVG}g[@class='balloon']")
    assert [group.get("id") for group in again] == ["balloon-top-3-right", "balloon-top-3-right-2"]


def test_a_faded_shape_with_fill_and_stroke_fades_as_one() -> None:
    """SVG 1.1, 14.5: opacity applies to the whole shape once it is drawn."""
    faded = Circle((9.0, 9.0), 5.0, Style("#aa0000", "#00aa00", 2.0, opacity=0.5))
    group = drawn(faded).find(f"{SVG}g[@opacity]")
    assert group is not None
    assert [child.get("opacity") for child in group] == [None]


def test_control_characters_anywhere_still_make_a_file_that_reads() -> None:
    bad = "a\x00\x07\ud800<&>\"'"
    root = drawn(
        Text((1.0, 9.0), bad, 3.5), Group((), "kind " + bad, bad, bad), title=bad, language="en"
    )
    assert root.find(f"{SVG}title") is not None
