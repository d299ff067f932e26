"""A person or a table beside the front view: as tall as in the room, on the piece's own floor."""

from __future__ import annotations

import re
from dataclasses import replace
from math import sqrt

import pytest

from mockup.colour.views import shown_as
from mockup.piece.placed import Piece
from mockup.render.page.drawing import page_drawing
from mockup.render.person import person_outline
from mockup.render.record import Document, Group, Item, Line, Path, Rect, walk
from mockup.render.sheets.proof import Asked
from mockup.render.sheets.scale_figure import ScaleFigure
from mockup.render.viewpoint import ViewOptions
from tests.render.sheet_pieces import SAMPLES, arc, groups, proof, ring, said, sample, texts

BOTH: list[ScaleFigure] = ["person", "table"]
NUMBER = re.compile(r"-?\d+\.?\d*")


def drawn(document: Document) -> Group:
    found = list(groups(document.sheets[0].items, "scale figure"))
    assert len(found) == 1
    return found[0]


def upright(items: tuple[Item, ...]) -> tuple[float, float]:
    """Highest and lowest y of a figure on the sheet: its end points and the top of its head."""
    ys: list[float] = []
    for item in items:
        if isinstance(item, Rect):
            ys += [item.y, item.y + item.height]
        if isinstance(item, Path):
            ys += outline_ys(item.d)
    return min(ys), max(ys)


def outline_ys(d: str) -> list[float]:
    """Ends and ways of path data's commands; of an arc its top, r + sqrt(r^2 - h^2) over its end.

    A cubic is Bernstein's sum, at 20 places.
    """
    ys: list[float] = []
    x = 0.0
    for letter, rest in re.findall(r"([MLCA])([^MLCAZ]*)", d):
        figures = [float(n) for n in NUMBER.findall(rest)]
        if letter == "A":
            r, half = figures[0], abs(figures[-2] - x) / 2
            ys.append(figures[-1] - r - sqrt(max(r * r - half * half, 0.0)))
        if letter == "C":
            a, b, c, e = ys[-1], *figures[1::2]
            for t in (k / 20 for k in range(20)):
                u = 1 - t
                ys.append(u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * e)
        x = figures[-2]
        ys.append(figures[-1])
    return ys


def scale(document: Document) -> int:
    return int(document.extra["scale"].removeprefix("1:"))


@pytest.mark.parametrize("paper", ["a4", "a3", "tabloid"])
def test_the_person_is_170_cm_tall_at_the_scale_of_the_sheet(paper: str) -> None:
    document = proof(ring(), asked=Asked(paper=paper, figure="person"))
    top, foot = upright(drawn(document).items)
    assert (foot - top) * scale(document) == pytest.approx(1700.0, rel=0.001)


@pytest.mark.parametrize(
    ("piece", "tall", "says"), [(ring(), 762.0, "30 in"), (arc(), 750.0, "75")]
)
def test_the_table_is_30_in_or_75_cm_high(piece: Piece, tall: float, says: str) -> None:
    """Common practice, no source."""
    document = proof(piece, asked=Asked(figure="table"))
    top, foot = upright(drawn(document).items)
    assert (foot - top) * scale(document) == pytest.approx(tall, rel=1e-6)
    label = [text.text for text in texts(document.sheets[0]) if text.role == "scale figure"]
    assert label[0] == "table"
    assert label[1].startswith(says)


@pytest.mark.parametrize("figure", BOTH)
def test_figure_and_piece_stand_on_one_floor(figure: ScaleFigure) -> None:
    document = proof(ring(), asked=Asked(figure=figure))
    sheet = document.sheets[0]
    _, foot = upright(drawn(document).items)
    height = next(g for g in groups(sheet.items, "dimension") if "overall height" in g.name)
    line = next(item for item in height.items if isinstance(item, Line))
    assert foot == pytest.approx(max(line.start[1], line.end[1]), abs=0.01)
    level = [i for i in walk(sheet.items) if isinstance(i, Line) and i.start[1] == i.end[1]]
    assert any(abs(line.start[1] - foot) < 0.01 and line.start[0] < 60 for line in level)


@pytest.mark.parametrize("figure", BOTH)
@pytest.mark.parametrize("name", ["kestrel-wall", "fairground-arch", "juniper-two"])
def test_every_frame_takes_a_figure(name: str, figure: ScaleFigure) -> None:
    piece = sample(next(path for path in SAMPLES if path.stem == name))
    document = proof(piece, asked=Asked(figure=figure, views=("front", "side"), units="both"))
    assert figure in said(document.sheets[0])
    assert len([g for s in document.sheets for g in groups(s.items, "scale figure")]) == 1


def test_sheet_and_scale_count_the_figures_size() -> None:
    """A ring that A4 shows at 1:10 alone has no room there beside a person of 1.70 m."""
    alone = proof(ring(), asked=Asked(paper="a4", landscape=True))
    beside = proof(ring(), asked=Asked(paper="a4", landscape=True, figure="person"))
    assert scale(beside) > scale(alone)


def test_without_one_the_sheet_is_the_same() -> None:
    assert proof(ring(), asked=Asked(figure=None)) == proof(ring())
    assert not list(groups(proof(ring()).sheets[0].items, "scale figure"))


def test_a_grey_proof_has_a_grey_figure() -> None:
    view = ViewOptions(letters=True, recolour=shown_as("grey"))
    shape = drawn(proof(ring(), asked=Asked(figure="person", view=view))).items[0]
    assert isinstance(shape, Path)
    fill = shape.style.fill
    assert isinstance(fill, str)
    assert fill[1:3] == fill[3:5] == fill[5:7]


def test_the_page_has_room_for_it() -> None:
    piece = replace(ring(), design=replace(ring().design, unit="cm"))
    alone = page_drawing(piece, [[]], scale=10)
    beside = page_drawing(piece, [[]], scale=10, figure="table")
    assert beside.width > alone.width + 110
    assert "table" in beside.parts.groups["drawing"]
    assert "table" not in alone.parts.groups["drawing"]


def test_the_person_stands_with_soles_on_the_floor_and_reaches_its_height() -> None:
    ys = outline_ys(person_outline((0.0, 0.0), 1700.0))
    assert max(ys) == pytest.approx(0.0, abs=0.01)
    assert min(ys) == pytest.approx(-1700.0, abs=0.01)
