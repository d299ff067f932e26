"""Changes told in the trade's words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.model import Design, StandSpec
from mockup.design.wish import Wish, design_from_wish
from mockup.piece.changes import changes
from mockup.piece.code import content, proof_code


def design(top: str = "3, 2, 2, end 1", **words: str) -> Design:
    wish = {"ring": "24in", "numerals": "30", "height": "13in", "bottom": "3, 2, end 1"} | words
    return design_from_wish(Wish(top=top, **wish))  # type: ignore[arg-type]  # words are strings


def told(new: Design) -> list[str]:
    return changes(content(design()), content(new))


@pytest.mark.parametrize(
    ("new", "said"),
    [
        (design("3, 2, 3, end 1"), "top section: last cluster was 2 strokes, is 3 strokes"),
        (design("2, 2, 2, end 1"), "top section: middle cluster was 3 strokes, is 2 strokes"),
        (design("3, 2, end 1"), "top section: had 2 clusters a side, has 1"),
        (design("3, 2, 2"), "top section: end cap taken out"),
        (design(""), "top section: taken out"),
        (design(ring="26in"), "ring's outside diameter: was 24 in, is 26 in"),
        (design(numerals="40"), "numerals: was '30', is '40'"),
        (replace(design(), client="Alder"), "client: was nothing, is 'Alder'"),
        (
            replace(design(), event_date=date(2027, 3, 1)),
            "event date: was nothing, is '1 Mar 2027'",
        ),
        (replace(design(), stand=StandSpec()), "stand: added"),
        (replace(design(), outdoors=True), "outdoors: was no, is yes"),
    ],
)
def test_each_change_is_told(new: Design, said: str) -> None:
    assert said in told(new)


def test_nothing_changed_says_nothing() -> None:
    assert told(design()) == []


def test_where_a_design_stands_in_its_file_is_no_change() -> None:
    moved = replace(design(), file_name="other.toml", lines={("frame",): 7})
    assert told(moved) == []
    assert proof_code(moved) == proof_code(design())


FIELDS = st.fixed_dictionaries(
    {},
    optional={
        "title": st.text(min_size=1, max_size=9),
        "venue": st.text(max_size=9),
        "outdoors": st.booleans(),
        "stand": st.one_of(st.none(), st.builds(StandSpec, rise=st.sampled_from([100.0, 200.0]))),
    },
)


@given(FIELDS, FIELDS)
def test_designs_with_another_code_have_something_told(
    one: dict[str, object], other: dict[str, object]
) -> None:
    first, second = replace(design(), **one), replace(design(), **other)  # type: ignore[arg-type]  # drawn fields
    said = changes(content(first), content(second))
    assert bool(said) == (proof_code(first) != proof_code(second))
