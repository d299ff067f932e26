"""Words of any length: they wrap or shrink, and never break the sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.render.record import Sheet
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.proof import Asked
from mockup.render.text import HEIGHTS
from tests.render.sheet_pieces import ILL, dozen, proof, ring, said, texts, titled

LONG = {
    "words": "The grand and long awaited evening of the lanterns " * 4,
    "one word": "Donaudampfschifffahrtsgesellschaft" * 6,
    "widest letters": "W" * 200,
    "accents": "ÅÉÎÕÜ ŁŒŘŠŽ çğış " * 12,
    "Greek and Cyrillic": "Ελληνικά γενέθλια, Кириллица и праздник " * 5,
}


def sound(sheet: Sheet) -> None:
    assert overlaps(sheet) == []
    assert min(t.height for t in texts(sheet)) >= min(HEIGHTS)


@pytest.mark.parametrize("text", LONG.values(), ids=LONG)
@pytest.mark.parametrize("paper", ["a4", "a3"])
def test_two_hundred_letters_everywhere(text: str, paper: str) -> None:
    piece = titled(ring(), title=text[:200], client=text[:120], venue=text[:120])
    sheet = proof(piece, ILL, Asked(paper=paper, studio=text[:80])).sheets[0]
    sound(sheet)
    assert _letters(text[:200]) in _letters(said(sheet))


def _letters(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("landscape", [True, False])
@pytest.mark.parametrize("paper", ["a4", "letter", "a3", "tabloid"])
def test_twelve_colours_on_every_paper(paper: str, landscape: bool) -> None:
    sheet = proof(dozen(), ILL, Asked(paper=paper, landscape=landscape)).sheets[0]
    sound(sheet)
    for number in range(12):
        assert f"colournumber{number}" in _letters(said(sheet))


def test_long_colour_names_stay_in_their_rows() -> None:
    colours = {
        letter: replace(use, name="the colour of a harbour wall at dusk")
        for letter, use in dozen().design.colours.items()
    }
    piece = replace(dozen(), design=replace(dozen().design, colours=colours))
    for paper in ("a4", "a3"):
        sound(proof(piece, asked=Asked(paper=paper)).sheets[0])


def test_a_short_title_is_large_and_a_long_one_smaller() -> None:
    def height(title: str) -> float:
        sheet = proof(titled(ring(), title=title)).sheets[0]
        return max(t.height for t in texts(sheet) if t.role == "title")

    assert height("Ruby") == 7.0
    assert 1.8 < height("The grand and long awaited evening of the lanterns " * 3) < 7.0


def test_empty_words_leave_empty_cells() -> None:
    bare = replace(ring().design, client="", venue="", event_date=None)
    sheet = proof(replace(ring(), design=bare)).sheets[0]
    sound(sheet)
    assert "for " not in [t.text for t in texts(sheet) if t.role == "client"]


@settings(max_examples=15, deadline=None)
@given(
    title=st.text(max_size=200),
    client=st.text(max_size=200),
)
def test_any_text_at_all(title: str, client: str) -> None:
    sound(proof(titled(ring(), title=title, client=client), asked=Asked(paper="a4")).sheets[0])
