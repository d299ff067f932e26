"""Scripts that run from right to left, join and stack, with a font of the user's that has them."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from pathlib import Path

import matplotlib as mpl
import pytest
from bidi import get_display
from hypothesis import given
from hypothesis import strategies as st

from mockup.render.bidirectional import levels, visual
from mockup.render.fonts import lettered_with
from mockup.render.record import Sheet, Text
from mockup.render.shaping import needs_shaping
from mockup.render.svg import svg_text
from mockup.render.text import missing, runs, width

# DejaVu Sans, which matplotlib ships, has Hebrew with points and joined Arabic.
DEJAVU = Path(mpl.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"


@pytest.fixture
def dejavu() -> Iterator[None]:
    with lettered_with(DEJAVU):
        yield


def names(text: str) -> list[str]:
    """Glyphs of a line from left to right, with those of the packaged face marked."""
    return [
        name if run.face.path == DEJAVU else f"packaged {name}"
        for run in runs(text, 7.0)
        for name, _ in run.glyphs
    ]


# UAX #9 (Unicode 16), the examples of section 3.4 with Hebrew for its capitals, in memory order:
# "car means CAR." and "he said CAR MEANS CAR." and "DID YOU SAY 'he said'".
@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("car means אבג.", "car means גבא."),
        ("<car דהו אבג", "<car גבא והד"),
        ("אבג ab 12", "ab 12 גבא"),
        ("ab (אב) 5", "ab (בא) 5"),
        ("ا 1,5%", "%1,5 ا"),
    ],
)
def test_characters_stand_in_the_order_of_the_algorithm(text: str, shown: str) -> None:
    assert "".join(text[i] for i in visual(levels(text))) == shown


MIXED = st.text(alphabet="abאבגابت 12٣٤.,:-+/%$()[]!\u05b4\u064e", max_size=14)


@given(MIXED)
def test_the_order_is_that_of_an_independent_implementation(text: str) -> None:
    assert "".join(text[i] for i in visual(levels(text))) == get_display(text)


@pytest.mark.usefixtures("dejavu")
def test_arabic_letters_take_the_form_of_their_place_in_the_word() -> None:
    # Unicode, block FE70: FEE3 meem initial, FEA4 hah medial, FEE4 meem medial, FEAA dal final.
    assert names("محمد") == [f"uni{code}" for code in ("FEAA", "FEE4", "FEA4", "FEE3")]


@pytest.mark.usefixtures("dejavu")
def test_lam_and_alef_become_one_glyph() -> None:
    # FEFB is the isolated ligature of lam with alef.
    assert names("لا") == ["uniFEFB"]


@pytest.mark.usefixtures("dejavu")
def test_a_joiner_that_parts_letters_is_obeyed_and_not_drawn() -> None:
    # Zero width non-joiner: both keep the isolated form (the nominal glyph of this font).
    assert names("ب\u200cب") == ["uni0628", "uni0628"]
    assert names("بب") == ["uniFE90", "uniFE91"]


@pytest.mark.usefixtures("dejavu")
def test_hebrew_points_stand_under_and_over_their_letters() -> None:
    plain, pointed = width("שלום", 7.0), width("שָׁלוֹם", 7.0)
    assert pointed == pytest.approx(plain, abs=0.01)
    assert len(names("שָׁלוֹם")) > len(names("שלום"))


@pytest.mark.usefixtures("dejavu")
def test_words_of_two_scripts_share_a_line_and_latin_keeps_its_order() -> None:
    shown = names("for ליאת, 2027")
    assert shown[:3] == ["f", "o", "r"]
    # Figures after Hebrew stand to its left, in their own order; tav, its last letter, follows.
    assert shown.index("two") < shown.index("seven") < shown.index("uni05EA")


@pytest.mark.usefixtures("dejavu")
def test_what_the_font_lacks_is_named_and_the_rest_is_drawn() -> None:
    assert missing("ליאת") == []
    assert "DEVANAGARI LETTER NA" in missing("נ न")[0]
    assert "packaged .notdef" in names("נ न")


def test_without_a_font_every_letter_is_named_once() -> None:
    assert [each.split(",")[0] for each in missing("אבא")] == [
        f"{c} ({unicodedata.name(c)}" for c in "אב"
    ]


def test_latin_greek_and_cyrillic_need_no_shaping() -> None:
    assert not needs_shaping("Zoë Łuk, Ζωή, Жук, 30 ½ — “…”")


@pytest.mark.usefixtures("dejavu")
@given(MIXED)
def test_any_mixture_is_drawn_within_its_width(text: str) -> None:
    line = Text((5.0, 20.0), text, 5.0)
    svg_text(Sheet(100.0, 30.0, (line,)), debug=False)
    total = width(text, 5.0)
    for run in runs(text, 5.0):
        assert -0.01 <= run.start <= total + 0.01


@pytest.mark.usefixtures("dejavu")
def test_a_turned_line_raises_its_marks_across_itself() -> None:
    upright = svg_text(Sheet(50.0, 50.0, (Text((5.0, 20.0), "שָׁלוֹם", 5.0),)))
    turned = svg_text(Sheet(50.0, 50.0, (Text((5.0, 20.0), "שָׁלוֹם", 5.0, turn=-90.0),)))
    assert turned.count("rotate(-90)") == upright.count("scale(")
