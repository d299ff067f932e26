"""Two revisions side by side, the changed places marked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mockup.design.model import Design, StandSpec
from mockup.design.wish import Wish, design_from_wish
from mockup.lengths import format_length
from mockup.piece.assemble import assemble
from mockup.piece.changes import changes
from mockup.piece.code import content, proof_code
from mockup.piece.placed import Piece
from mockup.piece.recalled import design_from_content
from mockup.render.record import Circle, Document, Group, Rect, Text, walk
from mockup.render.sheets.differences import Revision, changed_places, differences_document
from mockup.render.sheets.inks import ALARM
from mockup.render.sheets.overlaps import PICTURE, overlaps
from mockup.render.sheets.paper import PAPERS
from mockup.render.sheets.title_block import TitleBlock


def design(top: str = "3, 2, 2, end 1", **words: str) -> Design:
    wish = {"ring": "24in", "numerals": "30", "height": "13in", "bottom": "3, 2, end 1"} | words
    return design_from_wish(Wish(top=top, **wish))  # type: ignore[arg-type]  # words are strings


def both(old: Design, new: Design) -> tuple[Piece, Piece]:
    """The old one by way of the log, as the command draws it."""
    return assemble(design_from_content(content(old))), assemble(new)


def sheet_of(old: Design, new: Design) -> Document:
    one, two = both(old, new)
    title = TitleBlock(new, proof_code(new), 1, "A4", document_type="What has changed")
    said = changes(content(old), content(new)) or ["Nothing has changed."]
    old_one, new_one = Revision("Revision 1", one), Revision("Revision 2", two)
    return differences_document(old_one, new_one, said, PAPERS["a4"].turned(True), title)


def marks(document: Document) -> list[int]:
    """How many places are marked in each picture."""
    sheet = document.sheets[0]
    found = [i for i in walk(sheet.items) if isinstance(i, Group) and i.kind == PICTURE]
    return [
        sum(isinstance(i, Circle | Rect) and i.style.stroke == ALARM for i in picture.items)
        for picture in found
    ]


def test_the_same_twice_has_no_marks() -> None:
    assert marks(sheet_of(design(), design())) == [0, 0]


@pytest.mark.parametrize(
    ("new", "count"),
    [
        (design("3, 2, 3, end 1"), [2, 2]),
        (design("2, 2, 2, end 1"), [1, 1]),
        (design("3, 2, end 1"), [4, 2]),
        (design(numerals="40"), [1, 1]),
        (design(height="12in"), [1, 1]),
        (replace(design(), stand=StandSpec()), [0, 1]),
        (replace(design(), title="Another title"), [0, 0]),
    ],
    ids=["last cluster", "middle", "one fewer", "numerals", "height", "stand", "title"],
)
def test_the_changed_places_are_marked_in_both(new: Design, count: list[int]) -> None:
    assert marks(sheet_of(design(), new)) == count


def test_a_mark_encloses_what_changed() -> None:
    old, new = both(design(), design("3, 2, 3, end 1"))
    clusters = [c for c in new.clusters if c.section == "top" and c.step == 2 and not c.end_cap]
    expected = {
        (
            min(new.balloons[i].centre[0] - new.balloons[i].radius for i in cluster.balloons),
            max(new.balloons[i].centre[1] + new.balloons[i].radius for i in cluster.balloons),
        )
        for cluster in clusters
    }
    assert {(left, high) for left, _, _, high in changed_places(new, old)} == expected


def test_every_change_is_on_the_sheet_in_words_and_nothing_collides() -> None:
    new = replace(design("3, 2, 3, end 1", numerals="40"), client="Alder", outdoors=True)
    document = sheet_of(design(), new)
    said = " ".join(i.text for i in walk(document.sheets[0].items) if isinstance(i, Text))
    for sentence in changes(content(design()), content(new)):
        assert sentence in said
    assert overlaps(document.sheets[0]) == []


def test_both_pictures_are_of_the_printed_scale() -> None:
    document = sheet_of(design(), design(ring="30in"))
    said = [i.text for i in walk(document.sheets[0].items) if isinstance(i, Text)]
    assert any(text.startswith("SCALE 1:") for text in said)
    assert f"ring's outside diameter: was 24 in, is {format_length(762.0, 'in')}" in said
