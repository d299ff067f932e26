"""Lettering: measured against HarfBuzz, ISO 3098 heights, and laws of breaking lines."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageFont, features

from mockup.render.fonts import CannotUseFont, faces, lettered_with, packaged_face, packaged_files
from mockup.render.record import Text, Weight
from mockup.render.text import (
    HEIGHTS,
    bounds,
    missing,
    plain,
    runs,
    shrink_to,
    width,
    wrap,
)

LINES = [
    "Ring for Zoë & Łukasz — 50th “Peña”",
    "AVAST! To Wave, Yes. LTA P.A.",
    "11 in, 330 mm, 1:10, Ø 762",
    "Τάμα ΑΥΓΗ, Ωμέγα",
    "Шары для Анны, ТАУ",
]
OTHER_FACE = packaged_files()[0].with_name("SourceSansPro-It.otf")
"""A packaged file with half the characters of the usual one: no Greek, no Cyrillic."""


@pytest.mark.skipif(not features.check("raqm"), reason="this Pillow comes without HarfBuzz")
@pytest.mark.parametrize("weight", ["regular", "bold"])
@pytest.mark.parametrize("text", LINES)
def test_width_as_harfbuzz_shapes_it(text: str, weight: Weight) -> None:
    """Pillow with raqm shapes with HarfBuzz, an independent reader of the same font file."""
    face = packaged_face(weight)
    size = 2000
    font = ImageFont.truetype(face.path, size, layout_engine=ImageFont.Layout.RAQM)
    judged = font.getlength(text, features=["-liga"]) / size * face.units_per_em / face.cap_height
    assert width(text, 1.0, weight) == pytest.approx(judged, rel=0.001)


def test_kerning_brings_letters_together() -> None:
    assert width("AV", 10.0) < width("A", 10.0) + width("V", 10.0) - 0.2


def test_a_capital_is_as_high_as_asked() -> None:
    """ISO 3098-1: the lettering height h is the height of the capitals."""
    from fontTools.pens.boundsPen import BoundsPen
    from fontTools.svgLib.path import parse_path

    (run,) = runs("H", 3.5)
    pen = BoundsPen(None)
    parse_path(run.face.outline(run.glyphs[0][0]), pen)
    _, bottom, _, top = pen.bounds
    assert (bottom, top * run.scale) == pytest.approx((0.0, 3.5))


def test_the_heights_are_those_of_the_standard() -> None:
    """ISO 3098-1, table of heights (from memory: 1.8 to 20 mm, steps of root 2)."""
    assert sorted(HEIGHTS) == [1.8, 2.5, 3.5, 5.0, 7.0, 10.0]


def test_accents_written_apart_are_composed() -> None:
    assert plain("Zoe\u0308, N\u0303") == "Zoë, Ñ"
    assert width("Zoe\u0308", 5.0) == width("Zoë", 5.0)
    assert missing("Zoe\u0308 ά Ř Ж Ё ß") == []


def test_control_characters_become_the_replacement_character() -> None:
    """XML 1.0, production 2 (Char) has no place for them."""
    controls = [chr(c) for c in range(32) if chr(c) not in "\t\n\r\x0b\x0c"]
    assert all(plain(f"a{c}b") == "a\ufffdb" for c in [*controls, "\x7f", "\x9b", "\ud800"])
    assert plain("a\tb\r\nc\u2028d") == "a b c d"


def test_missing_characters_are_named_as_unicode_names_them() -> None:
    assert missing("🎈 up 🎈 ☃") == ["🎈 (BALLOON, U+1F388)", "☃ (SNOWMAN, U+2603)"]
    assert missing("\x01") == ["\ufffd (REPLACEMENT CHARACTER, U+FFFD)"]
    assert missing("plain\u200b\ufeff text\u00ad") == []


def test_a_missing_character_still_takes_room() -> None:
    assert width("🎈", 5.0) > 1.0


def test_an_own_font_comes_first_and_the_packaged_one_fills_in() -> None:
    usual = width("Ring", 5.0)
    with lettered_with(OTHER_FACE):
        assert faces().faces[0].path == OTHER_FACE
        assert width("Ring", 5.0) != usual
        assert [run.face.path for run in runs("Ring Жук", 5.0)] == [OTHER_FACE, packaged_files()[0]]
        assert missing("Ring Жук") == []
        assert width("Жу", 5.0) == pytest.approx(width("Ж", 5.0) + width("у", 5.0), abs=0.2)
    assert width("Ring", 5.0) == usual


def test_a_file_that_is_no_font_is_refused_in_plain_words(tmp_path: Path) -> None:
    broken = tmp_path / "letters.otf"
    broken.write_bytes(b"not a font at all")
    with pytest.raises(CannotUseFont, match="not a font"), lettered_with(broken):
        pass
    with pytest.raises(CannotUseFont, match="no such font file"), lettered_with(tmp_path / "x.ttf"):
        pass
    assert width("A", 5.0) > 0.0


@pytest.mark.parametrize("kept", [0.02, 0.1, 0.3, 0.5, 0.8, 0.97])
def test_a_font_cut_short_is_refused_in_plain_words(tmp_path: Path, kept: float) -> None:
    whole = packaged_files()[0].read_bytes()
    cut = tmp_path / "cut.otf"
    cut.write_bytes(whole[: int(len(whole) * kept)])
    with pytest.raises(CannotUseFont, match=r"cut\.otf"), lettered_with(cut):
        width("Ring", 5.0)


@pytest.mark.parametrize("name", ["SourceSansPro-Black.ttf", "SourceSansPro-LightIt.otf"])
def test_other_fonts_are_read_whether_of_quadratic_or_cubic_outlines(name: str) -> None:
    with lettered_with(packaged_files()[0].with_name(name)):
        (run,) = runs("Ring & quad", 5.0)
        assert run.face.outline(run.glyphs[0][0]).startswith("M")
        assert run.scale * run.face.cap_height == pytest.approx(5.0)


words = st.text(st.characters(codec="utf-8", categories=("L", "N", "P")), min_size=1, max_size=14)


@settings(max_examples=60, deadline=None)
@given(st.lists(words, max_size=8), st.floats(3.0, 90.0), st.sampled_from(HEIGHTS))
def test_wrapping_keeps_every_character_and_the_width(
    said: list[str], limit: float, height: float
) -> None:
    lines = wrap(" ".join(said), height, limit)
    assert "".join(lines).replace(" ", "") == plain("".join(said)).replace(" ", "")
    assert all(width(line, height) <= limit + 1e-9 or len(line) == 1 for line in lines)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from(["pearl", "brass", "a", "1:10"]), min_size=1, max_size=9))
def test_wrapping_takes_no_more_lines_than_it_must(said: list[str]) -> None:
    """Each line but the last could not have taken the first word of the next."""
    lines = wrap(" ".join(said), 2.5, 25.0)
    assert all(width(f"{line} {after.split()[0]}", 2.5) > 25.0 for line, after in pairwise(lines))


def test_long_words_break_after_hyphens_first() -> None:
    assert wrap("teal-and-brass-and-pearl", 2.5, 22.0) == ["teal-and-", "brass-and-", "pearl"]


def test_line_breaks_of_the_text_stay() -> None:
    assert wrap("one\ntwo\n\nthree", 2.5, 50.0) == ["one", "two", "", "three"]
    assert wrap("", 2.5, 50.0) == [""]


@settings(max_examples=40, deadline=None)
@given(st.text("abc def", min_size=1, max_size=40), st.floats(5.0, 120.0))
def test_shrink_to_takes_the_largest_height_that_fits(text: str, limit: float) -> None:
    fitted = shrink_to(text, limit)
    larger = [h for h in (7.0, 5.0, 3.5, 2.5, 1.8) if h > fitted.height]
    assert all(len(wrap(text, height, limit)) > 1 for height in larger)
    assert len(fitted.lines) == 1 or fitted.height == 1.8
    assert all(width(line, fitted.height) <= limit or len(line) == 1 for line in fitted.lines)


def test_more_lines_allow_larger_letters() -> None:
    text = "Invented Anniversary Ring in the Garden Hall"
    assert shrink_to(text, 60.0, most_lines=2).height > shrink_to(text, 60.0).height


def test_bounds_turn_and_anchor_with_the_text() -> None:
    upright = Text((50.0, 40.0), "330 mm", 3.5, "middle")
    long = width("330 mm", 3.5)
    assert bounds(upright) == pytest.approx((50 - long / 2, 36.5, 50 + long / 2, 41.225))
    turned = Text((50.0, 40.0), "330 mm", 3.5, "end", turn=-90.0)
    assert bounds(turned) == pytest.approx((46.5, 40.0, 51.225, 40.0 + long))
