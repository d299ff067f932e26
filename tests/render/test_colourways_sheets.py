"""Proofs with colourways: a page of each, and one page with all of them side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest

from mockup.colour.sight import Sight
from mockup.colour.views import shown_as
from mockup.design.model import Colourway
from mockup.piece.code import proof_code
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.record import Document, Group, Item, Place, Sheet, Text, walk
from mockup.render.sheets.colourways import MOST_TOGETHER, colourways_document, paper_of
from mockup.render.sheets.overlaps import PICTURE, overlaps
from mockup.render.sheets.proof import Asked, proof_document
from mockup.render.viewpoint import ViewOptions
from tests.render.client_pieces import HOSTILE, sample


def drawn(piece: Piece, asked: Asked | None = None) -> Document:
    return colourways_document(
        piece,
        find_all(piece),
        code=proof_code(piece.design),
        shares=visible_shares(piece),
        asked=asked,
    )


@cache
def lanterns() -> Document:
    return drawn(sample("market-lanterns"))


def words(sheet: Sheet) -> list[str]:
    return [item.text for item in walk(sheet.items) if isinstance(item, Text)]


def field(sheet: Sheet, name: str) -> str:
    """The value of a field of the title block."""
    (cell,) = (
        item
        for item in walk(sheet.items)
        if isinstance(item, Group) and (item.kind, item.name) == ("cell", name)
    )
    return " ".join(t.text for t in walk(cell.items) if isinstance(t, Text) and t.role == "field")


def pictures(sheet: Sheet) -> list[Group]:
    return [i for i in walk(sheet.items) if isinstance(i, Group) and i.kind == PICTURE]


def test_each_colourway_has_its_page_and_all_share_the_last() -> None:
    sheets = lanterns().sheets
    assert [sheet.name for sheet in sheets] == [
        "Proof, colourway A",
        "Proof, colourway after dark",
        "Colourways",
    ]
    assert [field(sheet, "Sheet") for sheet in sheets] == ["1 of 3", "2 of 3", "3 of 3"]
    assert [len(pictures(sheet)) for sheet in sheets] == [1, 1, 2]


def test_the_sentence_that_is_signed_names_the_colourway() -> None:
    said = [" ".join(words(sheet)) for sheet in lanterns().sheets]
    assert "I approve colourway A of proof" in said[0]
    assert "I approve colourway after dark of" in said[1]
    assert "I approve" not in said[2]


def test_shares_are_the_same_figures_under_other_names() -> None:
    first, second, both = (words(sheet) for sheet in lanterns().sheets)
    shares = [[text for text in each if text.endswith(" %")] for each in (first, second, both)]
    assert shares[0] == shares[1]
    assert shares[2] == shares[0] + shares[1]
    assert sum(int(text.removesuffix(" %")) for text in shares[0]) == 100
    assert "pepper red" in first
    assert "pepper red" not in second


def test_pictures_side_by_side_are_of_one_printed_scale() -> None:
    sheet = lanterns().sheets[-1]
    scale = field(sheet, "Scale")
    assert f"SCALE {scale}" in words(sheet)
    shadows = [
        {item.scale for item in walk(picture.items) if isinstance(item, Place)}
        for picture in pictures(sheet)
    ]
    assert shadows[0] == shadows[1]


def test_without_colourways_it_is_the_plain_proof() -> None:
    piece = sample("juniper-two")
    plain = proof_document(
        piece, find_all(piece), code=proof_code(piece.design), shares=visible_shares(piece)
    )
    assert drawn(piece) == plain


def test_all_pages_are_of_one_paper_and_nothing_collides() -> None:
    document = lanterns()
    paper = paper_of(document)
    for sheet in document.sheets:
        assert sorted((sheet.width, sheet.height)) == sorted((paper.width, paper.height))
        assert overlaps(sheet) == []


def many(count: int, name: str = "way") -> Piece:
    piece = sample("juniper-two")
    ways = tuple(Colourway(f"{name} {n}", piece.design.colours) for n in range(2, count + 1))
    return replace(piece, design=replace(piece.design, colourways=ways))


def test_more_than_a_page_holds_go_on_further_pages() -> None:
    document = drawn(many(MOST_TOGETHER + 2))
    assert [len(pictures(sheet)) for sheet in document.sheets[-2:]] == [MOST_TOGETHER, 2]
    assert field(document.sheets[-1], "Sheet") == f"{MOST_TOGETHER + 4} of {MOST_TOGETHER + 4}"


def test_hostile_and_long_names_keep_clear_or_are_refused_in_words() -> None:
    document = drawn(many(3, HOSTILE))
    assert all(overlaps(sheet) == [] for sheet in document.sheets)


def test_further_views_come_once() -> None:
    asked = Asked(views=("front", "side", "plan"))
    document = drawn(sample("market-lanterns"), asked)
    captions = [text for sheet in document.sheets for text in words(sheet)]
    assert captions.count("From the right") == captions.count("From above") == 1


def paints(items: tuple[Item, ...]) -> Iterator[str]:
    """Every colour of what is drawn, those of symbols and gradients too."""
    for item in items:
        if isinstance(item, Group):
            yield from paints(item.items)
        elif isinstance(item, Place):
            yield from paints(item.symbol.items)
        elif isinstance(item, Text):
            yield item.colour
        else:
            for paint in (item.style.fill, item.style.stroke):
                if not isinstance(paint, str):
                    yield from (stop.colour for stop in paint.stops)
                elif paint != "none":
                    yield paint


def grey(colour: str) -> bool:
    return colour[1:3] == colour[3:5] == colour[5:7] or colour == "#1c1c1e"


def test_in_grey_every_paint_is_grey_every_balloon_lettered_and_the_sheet_says_so() -> None:
    view = ViewOptions(letters=True, recolour=shown_as("grey"))
    document = drawn(sample("market-lanterns"), Asked(view=view, seen="in grey"))
    for sheet in document.sheets:
        assert all(map(grey, (p for picture in pictures(sheet) for p in paints(picture.items))))
        assert field(sheet, "Document").endswith("in grey")
        letters = [i for i in walk(sheet.items) if isinstance(i, Text) and i.role == "letter"]
        assert {letter.text for letter in letters} == {"A", "B", "C"}
    assert "Colours, in grey" in words(document.sheets[0])


@pytest.mark.parametrize("sight", ["deutan", "protan", "tritan"])
def test_as_another_eye_sees_it_the_key_changes_and_the_names_stay(sight: Sight) -> None:
    piece = sample("market-lanterns")
    view = ViewOptions(recolour=shown_as(sight))
    document = drawn(piece, Asked(view=view, seen=f"{sight} sight"))
    assert "pepper red" in words(document.sheets[0])
    shown = set(paints(document.sheets[0].items))
    for use in piece.design.colours.values():
        assert shown_as(sight)(use.srgb) in shown
