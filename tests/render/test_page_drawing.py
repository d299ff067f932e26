"""One drawing for several colourways, and its curves kept once."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree.ElementTree import Element, SubElement

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svgelements import Path as SvgPath

from mockup.design.ways import ways
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.page.curves import share_curves, shortened
from mockup.render.page.drawing import way_options
from mockup.render.page.switching import ONLY, Turner
from mockup.render.record import Group, Item, Place
from mockup.render.viewpoint import ViewOptions
from tests.render.client_pieces import hundred, sample


def shown(items: tuple[Item, ...], number: int) -> tuple[Item, ...]:
    """What of a turning drawing shows with one colourway."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Group) and item.kind.startswith(f"{ONLY}-"):
            found += shown(item.items, number) if item.kind == f"{ONLY}-{number}" else ()
        elif isinstance(item, Group):
            found.append(replace(item, items=shown(item.items, number), title=""))
        elif isinstance(item, Place) and item.symbol.id.startswith("turn-"):
            (one,) = shown(item.symbol.items, number)
            assert isinstance(one, Place)
            found.append(replace(item, symbol=one.symbol))
        else:
            found.append(item)
    return tuple(found)


@pytest.mark.parametrize("letters", [False, True])
@pytest.mark.parametrize("piece", [sample("market-lanterns"), hundred()], ids=["lanterns", "club"])
def test_each_colourway_shows_its_own_drawing_and_no_more(piece: Piece, letters: bool) -> None:
    options = ViewOptions(letters=letters)
    drawings = [
        front_view(piece, 0.1, (100.0, 100.0), way_options(options, way))
        for way in ways(piece.design)
    ]
    together = Turner().together(drawings)
    for number, drawing in enumerate(drawings, start=1):
        assert shown(together, number) == shown((drawing,), number)


def test_what_is_alike_is_kept_once() -> None:
    piece = sample("juniper-two")
    drawing = front_view(piece, 0.1, (0.0, 0.0))
    assert Turner().together([drawing, drawing]) == (drawing,)


NUMBERS = st.floats(-200, 200).map(lambda n: round(n, 2))
POINTS = st.tuples(NUMBERS, NUMBERS)
STEPS = st.lists(
    st.one_of(
        POINTS.map(lambda p: ("L", p)),
        st.tuples(POINTS, POINTS, POINTS).map(lambda t: ("C", (*t[0], *t[1], *t[2]))),
        st.just(("Z", ())),
        POINTS.map(lambda p: ("M", p)),
    ),
    max_size=12,
)


def data(start: tuple[float, float], steps: list[tuple[str, tuple[float, ...]]]) -> str:
    return "".join(f"{a}{' '.join(map(str, n))}" for a, n in [("M", start), *steps])


@given(POINTS, STEPS)
def test_shortened_curves_end_where_the_long_ones_do(
    start: tuple[float, float], steps: list[tuple[str, tuple[float, ...]]]
) -> None:
    # svgelements reads both, as an independent parser of SVG's path grammar.
    long = data(start, steps)
    one, other = list(SvgPath(long)), list(SvgPath(shortened(long)))
    assert [type(a) for a in one] == [type(b) for b in other]
    for a, b in zip(one, other, strict=True):
        assert a.end is None or abs(complex(*a.end) - complex(*b.end)) < 0.02


def test_arcs_are_left_as_they_are() -> None:
    assert shortened("M0 0A1 1 0 0 1 2 2") == "M0 0A1 1 0 0 1 2 2"


def curve(x: float, y: float, bend: float = 1.0) -> str:
    points = ((x + 3.17 * k, y + bend * k * k) for k in range(12))
    return "M" + " L".join(f"{a:.2f} {b:.2f}" for a, b in points)


def test_moved_copies_of_a_curve_are_kept_once_and_others_by_themselves() -> None:
    root = Element("svg")
    definitions = SubElement(root, "defs")
    for d in (curve(10, 10), curve(12.5, 9.25), curve(0, 0, 1.01), "M0 0L1 1"):
        SubElement(root, "path", {"d": d, "stroke": "#000000"})
    share_curves(root, "", definitions)
    assert [each.attrib["d"] for each in definitions] == [curve(10, 10)]
    uses = root.findall("use")
    assert [(use.get("href"), use.get("x"), use.get("y")) for use in uses] == [
        ("#k1", None, None),
        ("#k1", "2.5", "-0.75"),
    ]
    assert all(use.get("stroke") == "#000000" for use in uses)
    assert len(root.findall("path")) == 2


def test_what_is_written_for_a_foil_is_a_fraction_of_its_strokes() -> None:
    from mockup.render.page.inline import inline
    from mockup.render.record import Sheet
    from mockup.render.svg import svg_text

    view = front_view(sample("ruby-thirty"), 0.2, (150.0, 150.0))
    sheet = Sheet(300.0, 300.0, (view,), background="none")
    parts = inline(sheet)
    whole = svg_text(sheet, search_text=False)
    assert len(parts.definitions) < 0.75 * len(whole)
    assert not re.search(r"xlink|xmlns", parts.definitions)
