"""The check of a sheet can fail: it finds what it is there to find."""

from __future__ import annotations

import pytest

from mockup.render.record import Group, Item, Line, Sheet, Style, Text
from mockup.render.sheets.areas import Area, cell
from mockup.render.sheets.overlaps import LabelsCollide, overlaps, require_clear

STROKE = Style(stroke="#000000")


def told(*items: Item) -> list[str]:
    return [str(each) for each in overlaps(Sheet(100.0, 100.0, items, name="test"))]


def test_a_clear_sheet_is_clear() -> None:
    assert told(Text((10, 10), "one", 2.5), Text((10, 20), "two", 2.5)) == []


def test_two_labels_on_one_place_are_found() -> None:
    (found,) = told(Text((10, 10), "one", 2.5), Text((11, 11), "two", 2.5))
    assert found == "'one' meets 'two'"


def test_labels_inside_groups_are_found_too() -> None:
    inner = Group((Text((11, 11), "two", 2.5),))
    assert len(told(Text((10, 10), "one", 2.5), Group((inner,)))) == 1


def test_turned_labels_are_judged_where_they_lie() -> None:
    assert told(Text((50, 50), "long words", 2.5, turn=-90), Text((52, 40), "x", 2.5)) == []
    assert len(told(Text((50, 50), "long words", 2.5, turn=-90), Text((48, 40), "x", 2.5))) == 1


@pytest.mark.parametrize("line", [Line((0, 9), (90, 9), STROKE), Line((13, 0), (13, 90), STROKE)])
def test_a_line_through_a_label_is_found(line: Line) -> None:
    assert len(told(Text((10, 10), "one", 2.5), line)) == 1


def test_lines_and_letters_of_the_picture_may_cross() -> None:
    letters = (
        Text((10, 10), "A", 2.5, role="letter"),
        Text((11, 10), "B", 2.5, role="letter"),
        Line((0, 9), (90, 9), STROKE),
    )
    assert told(Group(letters, kind="picture")) == []


def test_a_label_over_a_letter_of_the_picture_is_found() -> None:
    letter = Group((Text((10, 10), "A", 2.5, role="letter"),), kind="picture")
    assert len(told(letter, Text((10, 10), "30 in", 2.5, role="dimension"))) == 1


def test_a_label_that_leaves_its_cell_is_found() -> None:
    narrow = cell("title", Area(10, 10, 12, 8), (Text((11, 15), "too long a word", 2.5),))
    assert told(narrow) == ["'too long a word' leaves its cell 'title'"]


def test_a_label_that_leaves_the_sheet_is_found() -> None:
    assert told(Text((90, 50), "too far right", 2.5)) == ["'too far right' leaves the sheet 'test'"]


def test_a_muddled_sheet_is_refused_in_words() -> None:
    sheet = Sheet(100, 100, (Text((9, 9), "one", 2.5), Text((9, 9), "two", 2.5)), name="Proof")
    with pytest.raises(LabelsCollide, match=r"'Proof' do not keep clear .*'one' meets 'two'"):
        require_clear(sheet)
