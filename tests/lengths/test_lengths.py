"""Lengths as decorators write them; inches are exactly 25.4 mm (international yard, 1959)."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.lengths import (
    MM_PER,
    NotALength,
    Unit,
    format_length,
    format_true,
    parse_length,
    unit_of,
)

UNITS: tuple[Unit, ...] = ("in", "cm")


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("11in", 279.4),
        ("12in", 304.8),
        ("4 1/2in", 114.3),
        ("1/2in", 12.7),
        ("4.5in", 114.3),
        (".5in", 12.7),
        ('4.5"', 114.3),
        ("4.5 ”", 114.3),
        ("5 inches", 127.0),
        ("1 inch", 25.4),
        ("2ft 6in", 762.0),
        ("2ft6in", 762.0),
        ("2' 6\"", 762.0),
        ("2ft 6 1/2in", 774.7),
        ("40ft", 12192.0),
        ("33cm", 330.0),
        ("3.5 cm", 35.0),
        ("330mm", 330.0),
        ("1.2m", 1200.0),
        ("4½in", 114.3),
        ("4 ½in", 114.3),
        ("½in", 12.7),
        ("8⅞ in", 225.425),
        ("  13IN  ", 330.2),
        ("0in", 0.0),
    ],
)
def test_a_length_is_read(text: str, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("13", "'13' has no unit"),
        ("4 1/2", "'4 1/2' has no unit"),
        ("2ft 6", "'2ft 6' has no unit"),
        ("3,5cm", "'3,5cm' has a comma"),
        ("1,000mm", "'1,000mm' has a comma"),
        ("", "'' is empty"),
        ("   ", "'   ' is empty"),
        ("-3in", "'-3in' is below zero"),
        ("−3in", "'−3in' is below zero"),
        ("+3in", "'+3in' is not a length"),
        ("nan in", "'nan in' is not a length"),
        ("inf in", "'inf in' is not a length"),
        ("3furlong", "'3furlong' has the unit 'furlong', which is not known here"),
        ("6in 2ft", "'6in 2ft' has two units that do not go together"),
        ("5in 3cm", "'5in 3cm' has two units that do not go together"),
        ("1ft 1ft 1in", "'1ft 1ft 1in' has two units that do not go together"),
        ("1/0in", "'1/0in' divides by zero"),
        ("in", "'in' is not a length"),
        ("=1+1", "'=1+1' is not a length"),
        ("9" * 60 + "in", f"'{'9' * 37}...' is too long for a length"),
    ],
)
def test_what_is_no_length_is_told_in_words(text: str, what: str) -> None:
    with pytest.raises(NotALength) as told:
        parse_length(text)
    assert told.value.what == what
    assert told.value.instead


@pytest.mark.parametrize("text", ["1½4in", "½½in", "1/2½in", "1½½in", "1.5½in", "1½/2in", "½1/2in"])
def test_a_vulgar_fraction_stands_alone_or_after_a_whole_number(text: str) -> None:
    """``1½4in`` once came out as 1 1/24 in."""
    with pytest.raises(NotALength):
        parse_length(text)


@pytest.mark.parametrize("text", ["٣in", "１３in"])
def test_only_plain_digits_count(text: str) -> None:
    """Other scripts' digits would pass here and fail in the schema that editors use."""
    with pytest.raises(NotALength):
        parse_length(text)


def test_a_number_of_many_digits_is_not_said_to_lack_its_unit() -> None:
    with pytest.raises(NotALength, match="is not a length"):
        parse_length("12345678901in")


def test_a_message_never_carries_control_characters() -> None:
    with pytest.raises(NotALength) as told:
        parse_length("\x1b[31m5in\n")
    assert str(told.value).isprintable()


@given(st.text(max_size=50))
def test_any_text_is_a_length_or_told(text: str) -> None:
    assert _length_or_words(text)


def _length_or_words(text: str) -> bool:
    try:
        return parse_length(text) >= 0.0
    except NotALength as told:
        return str(told).isprintable()


@given(st.integers(0, 400), st.integers(0, 15), st.sampled_from(["in", "cm", "mm", "ft", "m"]))
def test_whole_and_fraction_add_up(whole: int, sixteenths: int, unit: str) -> None:
    text = f"{whole} {sixteenths}/16{unit}"
    assert parse_length(text) == pytest.approx((whole + sixteenths / 16) * MM_PER[unit], abs=1e-8)


@given(st.floats(0, 20_000), st.sampled_from(UNITS))
def test_what_is_printed_reads_back_within_half_a_step(mm: float, unit: Unit) -> None:
    step = 25.4 / 8 if unit == "in" else 1.0
    assert abs(parse_length(format_length(mm, unit)) - mm) <= step / 2 + 1e-6


@given(st.floats(-20_000, 20_000), st.sampled_from(UNITS))
def test_a_printed_length_is_short_plain_and_has_no_negative_zero(mm: float, unit: Unit) -> None:
    printed = format_length(mm, unit)
    assert re.fullmatch(r"-?\d+( \d/\d)?(\.\d)?( \d/\d)? (in|cm)|-?\d/\d in", printed)
    assert not re.fullmatch(r"-0(\.0)? (in|cm)", printed)


@pytest.mark.parametrize(
    ("mm", "unit", "printed"),
    [
        (114.3, "in", "4 1/2 in"),
        (12.7, "in", "1/2 in"),
        (3.175, "in", "1/8 in"),
        (25.4, "in", "1 in"),
        (25.3, "in", "1 in"),
        (-114.3, "in", "-4 1/2 in"),
        (-0.2, "in", "0 in"),
        (330.2, "cm", "33.0 cm"),
        (-0.2, "cm", "0.0 cm"),
    ],
)
def test_lengths_are_printed(mm: float, unit: Unit, printed: str) -> None:
    assert format_length(mm, unit) == printed
    assert f"{format_length(mm, unit, with_unit=False)} {unit}" == printed


@pytest.mark.parametrize("mm", [float("nan"), float("inf")])
def test_what_has_no_end_is_not_printed(mm: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        format_length(mm, "in")


@pytest.mark.parametrize(
    ("mm", "unit", "printed"),
    [
        (71.99, "in", "2.83 in"),
        (82.4, "in", "3.24 in"),
        (82.42, "in", "3.24 in"),
        (228.6, "in", "9 in"),
        (92.08, "in", "3 5/8 in"),
        (90.72, "cm", "9.07 cm"),
        (110.0, "cm", "11.0 cm"),
    ],
)
def test_what_is_cut_is_told_true(mm: float, unit: Unit, printed: str) -> None:
    assert format_true(mm, unit) == printed


@given(st.floats(10, 900), st.sampled_from(UNITS))
def test_a_true_length_reads_back_to_a_fifth_of_a_millimetre(mm: float, unit: Unit) -> None:
    assert parse_length(format_true(mm, unit)) == pytest.approx(mm, abs=0.2)


def test_no_length_without_end_is_told_true() -> None:
    with pytest.raises(ValueError, match="finite"):
        format_true(float("nan"), "cm")


@pytest.mark.parametrize(
    ("text", "unit"),
    [("4 1/2in", "in"), ("2ft", "in"), ('9"', "in"), ("33cm", "cm"), ("9mm", "cm")],
)
def test_an_answer_takes_the_unit_of_the_question(text: str, unit: Unit) -> None:
    assert unit_of(text) == unit
