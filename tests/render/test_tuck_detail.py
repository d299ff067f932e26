"""The detail of how a numeral tucks: true to scale, the fit's own depth, clear on every sheet."""

from __future__ import annotations

from functools import cache
from itertools import product
from math import hypot
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from mockup.design.reading import design_from_text
from mockup.lengths import format_length
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.render.record import Circle, Document, Group, Line, Text, walk
from mockup.render.record import Path as Outline
from mockup.render.sheets import tuck_detail
from mockup.render.sheets.areas import Area
from mockup.render.sheets.deepest_tuck import deepest_tuck
from mockup.render.sheets.free_spots import free_spots
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.proof import Asked, proof_document
from mockup.render.sheets.tuck_detail import untold
from mockup.render.viewpoint import ViewOptions
from tests.render.sheet_pieces import ring

TEXT = (Path(__file__).parents[2] / "samples/juniper-two.toml").read_text("utf-8")
TUCKED = (("20in", "2", "12 1/2in"), ("20in", "2", "13in"), ("60cm", "8", "17in"))
PREFERRED = {f"{a}:1" for a in (1, 2, 5)} | {f"1:{b}" for b in (2, 5, 10)}
"""Those of ISO 5455 that a detail on a sheet of 1:5 to 1:20 can have."""


@cache
def tucking(outside: str, numeral: str, height: str) -> Piece:
    text = TEXT.replace('"20in"', f'"{outside}"').replace('"2"', f'"{numeral}"')
    piece = assemble(design_from_text(text.replace('"12 3/4in"', f'"{height}"'), "two.toml"))
    assert piece.fit is not None
    assert piece.fit.verdict == "tucks"
    return piece


def proof(piece: Piece, **asked: object) -> Document:
    wished = Asked(**asked)  # type: ignore[arg-type]  # one test's keywords at a time
    return proof_document(piece, find_all(piece), code="1A2B3C4D", asked=wished)


def of_kind(document: Document, kind: str) -> list[Group]:
    every = (item for sheet in document.sheets for item in walk(sheet.items))
    return [item for item in every if isinstance(item, Group) and item.kind == kind]


def words(group: Group) -> dict[str, str]:
    return {item.role: item.text for item in walk(group.items) if isinstance(item, Text)}


def factor(scale: str) -> float:
    ours, theirs = scale.split(":")
    return float(ours) / float(theirs)


@pytest.mark.parametrize("named", TUCKED)
def test_the_depth_is_the_fits_own_and_drawn_at_the_scale_it_states(
    named: tuple[str, str, str],
) -> None:
    piece = tucking(*named)
    assert piece.fit is not None
    deepest = max(touch.depth for touch in piece.fit.touches)
    detail = of_kind(proof(piece), "detail")[0]
    scale = words(detail)["detail"].removeprefix("X, ")
    assert scale in PREFERRED
    assert words(detail)["detail depth"] == f"tucks {format_length(deepest, piece.design.unit)}"
    dimension = next(g for g in walk(detail.items) if isinstance(g, Group) and g.kind == "depth")
    one, other = [item for item in dimension.items if isinstance(item, Line)][:2]
    apart = hypot(one.end[0] - other.end[0], one.end[1] - other.end[1])
    assert apart == pytest.approx(deepest * factor(scale), abs=1e-6)


def test_the_deepest_of_several_is_shown_where_the_two_edges_lie() -> None:
    """The hidden edge lies on the balloon's radius, ``depth`` inside its edge."""
    piece = tucking("20in", "2", "13in")
    tuck = deepest_tuck(piece)
    assert piece.fit is not None
    assert tuck is not None
    touch = max(piece.fit.touches, key=lambda each: each.depth)
    x, y, _ = piece.balloons[touch.balloon].centre
    radius = piece.balloons[touch.balloon].radius
    assert hypot(tuck.edge[0] - x, tuck.edge[1] - y) == pytest.approx(radius)
    assert hypot(tuck.tip[0] - x, tuck.tip[1] - y) == pytest.approx(radius - touch.depth)
    shape = piece.fit.numerals[touch.numeral]
    assert tuck.tip == pytest.approx(touch.at, abs=1e-9)
    assert shape.polygon().distance(Point(x, y)) == pytest.approx(radius - touch.depth, abs=0.05)


def test_the_hidden_edge_is_dashed_and_lies_behind_balloons_in_front() -> None:
    piece = tucking("20in", "2", "13in")
    hidden = of_kind(proof(piece), "hidden edge")
    assert len(hidden) == 1
    (edge,) = hidden[0].items
    assert isinstance(edge, Outline)
    assert edge.style.dash is not None
    field = of_kind(proof(piece), "field")[0]
    rim = field.items[-1]
    assert isinstance(rim, Circle)
    points = np.array(
        [[float(n) for n in pair.split()] for pair in edge.d.replace("M", "L").split("L")[1:]]
    )
    away = np.hypot(*(points - np.array(rim.centre)).T)
    assert away.max() <= rim.r + 0.01


@pytest.mark.parametrize(
    ("paper", "named"), list(zip(("a4", "letter", "a3", "tabloid"), TUCKED * 2, strict=False))
)
def test_the_detail_finds_room_on_every_paper_and_keeps_clear(
    named: tuple[str, str, str], paper: str
) -> None:
    piece = tucking(*named)
    for landscape, letters in ((True, True), (False, False), (False, True)):
        options = ViewOptions(letters=letters)
        made = proof(piece, paper=paper, landscape=landscape, units="both", view=options)
        assert [overlaps(sheet) for sheet in made.sheets] == [[]] * len(made.sheets)
        details, marks = of_kind(made, "detail"), of_kind(made, "detail mark")
        assert len(details) == len(marks) == 1


def test_the_detail_is_named_as_no_colour_is() -> None:
    text = TEXT.replace('C = "fern"', 'X = "fern"').replace('"C"', '"X"')
    piece = assemble(design_from_text(text, "two.toml"))
    detail = of_kind(proof(piece), "detail")[0]
    assert words(detail)["detail"].startswith("Y, ")
    assert of_kind(proof(piece), "detail mark")[0].name == "Y"


def test_a_numeral_that_clears_everything_has_no_detail() -> None:
    made = proof(ring())
    assert not of_kind(made, "detail")
    assert not of_kind(made, "detail mark")


def test_the_same_piece_gives_the_same_detail() -> None:
    piece = tucking("20in", "2", "12 1/2in")
    assert proof(piece) == proof(piece)


def test_where_no_detail_finds_room_the_sheet_says_so_in_a_note(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    piece = tucking("20in", "2", "13in")
    monkeypatch.setattr(tuck_detail, "_found", lambda *_: iter(()))
    made = proof(piece)
    (note,) = of_kind(made, "tuck note")
    assert "has no room to enlarge it" in " ".join(
        i.text for i in walk(note.items) if isinstance(i, Text)
    )
    assert untold(made.sheets, piece, "in") == ""


def test_where_not_even_the_note_finds_room_it_is_told_beside_the_sheets(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    piece = tucking("20in", "2", "13in")
    monkeypatch.setattr(tuck_detail, "nearest_spots", lambda *_: iter(()))
    made = proof(piece)
    assert not of_kind(made, "detail")
    assert not of_kind(made, "tuck note")
    tuck = deepest_tuck(piece)
    assert tuck is not None
    said = untold(made.sheets, piece, "in")
    assert said.startswith(
        f"A numeral tucks {format_length(tuck.depth, 'in')} behind a balloon, and"
    )


def test_what_is_drawn_or_does_not_tuck_leaves_nothing_untold() -> None:
    piece = tucking("20in", "2", "13in")
    assert untold(proof(piece).sheets, piece, "in") == ""
    assert untold(proof(ring()).sheets, ring(), "in") == ""


boxes = st.builds(
    Area, st.floats(-20, 90), st.floats(-20, 70), st.floats(0.5, 50), st.floats(0.5, 50)
)


@given(st.lists(boxes, max_size=6), st.tuples(st.floats(1, 60), st.floats(1, 50)), st.floats(0, 6))
def test_a_free_spot_is_free_and_none_is_told_only_where_none_is(
    taken: list[Area], size: tuple[float, float], white: float
) -> None:
    """Against trying every place of the grid one by one."""
    room = Area(0.0, 0.0, 100.0, 80.0)
    spot = free_spots(room, taken, white).spot(size, (50.0, 40.0))
    grown = [each.inset(-white) for each in taken]

    def free(x: float, y: float) -> bool:
        box = Area(x, y, *size)
        return room.holds(box, 1e-9) and not any(box.meets(each) for each in grown)

    if spot is not None:
        assert free(*spot)
        return
    whole = Area(0, 0, np.ceil(size[0]) + 1, np.ceil(size[1]) + 1)
    tried = product(range(0, 101, 2), range(0, 81, 2))
    for x, y in tried:
        box = whole.moved(x - 0.5, y - 0.5)
        inside = room.holds(box) and not any(box.inset(-1).meets(each) for each in grown)
        assert not inside
