"""Slips of the TOML itself, told in plain words with their lines."""

from __future__ import annotations

import time
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.syntax import MOST_SLIPS, parse


def slips(text: str) -> list[str]:
    return [
        f"{slip.line}: {slip.what}; {slip.instead}".removesuffix("; ") for slip in parse(text).slips
    ]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title = Ruby\n", "1: 'title' has a value without quotes; write title = \"Ruby\""),
        ("a = 30in # wide\n", "1: 'a' has a value without quotes; write a = \"30in\""),
        ("a = 4 1/2in\n", "1: 'a' has a value without quotes; write a = \"4 1/2in\""),
        ("a = 3,5in\n", "1: 'a' has a value without quotes; write a = \"3.5in\""),
        ("a = 2,5\n", "1: 'a' has a comma for its point; write a = 2.5"),
        ("a = True\n", "1: 'a' has a capital letter in true or false; write a = true"),
        ("a = 10:30\n", "1: 'a' has a value without quotes; write a = \"10:30\""),
        ("a = 1\n\na = 2\n", "3: 'a' is given twice (first on line 1); keep one of them"),
        (
            "a = { b = 1, b = 2 }\n",
            "1: 'b' is given twice in one table; keep one",
        ),
        ("[f]\na = 1\n[f]\n", "3: [f] is given twice (first on line 1); keep one of them"),
        ("a = 1\n[a]\n", "2: [a] is given twice (first on line 1); keep one of them"),
        ("[[s]]\n[s]\n", "2: [s] is given twice (first on line 1); keep one of them"),
        (
            "[section]\na = 1\n[section]\n",
            "3: [section] is given twice (first on line 1);"
            " keep one of them, or begin each with [[section]]",
        ),
        ('a = ["x" "y"]\n', '1: has no comma before "y"]; write a comma between the two'),
        ('a = ["x",\n"y"\n"z"]\n', '3: has no comma before "z"]; write a comma between the two'),
        ("a = { b = 1 c = 2 }\n", "1: has no comma before c = 2 }; write a comma between the two"),
        ("a = [1,\n2\nb = 3\n", "3: a list is not closed; write ] at its end"),
        ("a = [1\n[[s]]\nb = 3\n", "2: a list is not closed; write ] at its end"),
        ("a = [1,\n[[s]]\nb = 3\n", "2: a list is not closed; write ] at its end"),
        ("a = [\n", "2: a list is not closed; write ] at its end"),
        ("[f\na = 1\n", "1: a [table] line does not end with ]"),
        ("[[f]\na = 1\n", "1: a [[table]] line does not end with ]]"),
        ("a = [1,\n2\n", "2: a list is not closed; write ] at its end"),
        ("a = { b = 1", "1: a table in braces is not closed; write } at its end"),
        ('a = "open\n', '1: a text is not closed; write " at its end'),
        ('a = """open\n\n', '1: a text is not closed; write " at its end'),
        ("a = 'open\n", '1: a text is not closed; write " at its end'),
        ('a = "c:\\piece"\n', "1: a backslash in a text needs another; write \\\\ for \\"),
        ("a = 'open\nb = 1\nc = 2\n", '1: a text is not closed; write " at its end'),
        ("b = 0\na = '''open\nc = 1\n", '2: a text is not closed; write " at its end'),
        ("a = 2027-02-30\n", "1: is no day of the calendar; write a date as 2027-03-14"),
        (
            "outside 30\n",
            '1: is no line of the form key = value; write it as title = "..."',
        ),
        (
            "= 30\n",
            '1: does not begin with a key; write it as title = "..."; a comment begins with #',
        ),
        ("a = \n", "1: has no value that can be read; put text and lengths in quotes"),
        ('a = "tab \x01"\n', "1: holds a control character; take it out"),
        (
            "a = [1] b\n",
            "1: goes on after its value; put text and lengths in quotes, and each key on a line "
            "of its own",
        ),
    ],
)
def test_a_slip_is_told_in_plain_words(text: str, said: str) -> None:
    assert slips(text) == [said]


def test_several_slips_are_told_in_one_run() -> None:
    text = 'title = Ruby\nsize = "5in"\nsize = 5in\n[frame]\noutside = 30in\n'
    assert [slip.line for slip in parse(text).slips] == [1, 3, 5]


def test_reading_goes_on_past_slips_within_a_line() -> None:
    parsed = parse('title = Ruby "the" Great\nsize = 5in\nsize = "6in"\nkind = "quad"')
    assert parsed.data == {"title": 'Ruby "the" Great', "size": "5in", "kind": "quad"}
    assert parsed.silent_lines == {1, 3}


def test_reading_stops_at_what_cannot_be_mended() -> None:
    parsed = parse("title = Ruby\n[frame\noutside = 30in\n")
    assert parsed.data is None
    assert [slip.line for slip in parsed.slips] == [1, 2]


def test_a_page_of_slips_ends_after_some() -> None:
    parsed = parse("".join(f"key{n} = no quotes\n" for n in range(100)))
    assert len(parsed.slips) == MOST_SLIPS
    assert parsed.data is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a = " + "[" * 5000 + "]" * 5000, "nested too deep"),
        ("a = " + "{a = " * 5000, "nested too deep"),
        ("b = 1\na = " + "9" * 5000, "a number has thousands of digits"),
        ("\n" + ".".join("a" * 20000) + " = 1", "more dots than a piece file needs"),
        ("x = 'a'\n" + ".".join(['"q"'] * 20000) + " = 1", "more dots than a piece file needs"),
    ],
)
def test_traps_of_the_parser_are_refused_at_once(text: str, said: str) -> None:
    start = time.perf_counter()
    parsed = parse(text)
    assert said in parsed.slips[0].what
    assert parsed.data is None
    assert time.perf_counter() - start < 2.0


def test_a_long_number_is_told_with_its_line() -> None:
    assert slips("a = 1\nb = " + "9" * 5000)[0].startswith("2: ")


@pytest.mark.parametrize("text", ["a" * 900_000, '"' * 900_000, "a." * 3 + "b = " + " " * 900_000])
def test_a_megabyte_of_one_sign_takes_no_time(text: str) -> None:
    start = time.perf_counter()
    parse(text)
    assert time.perf_counter() - start < 3.0


def test_words_with_many_dots_in_a_text_are_no_key() -> None:
    note = ". ".join(["Set it up slowly, then rest"] * 60)
    assert parse(f'note = "{note}"').slips == []


@given(st.text(alphabet='ab=[]{}".\n1# ', max_size=40))
def test_a_text_is_toml_exactly_when_no_slip_is_told(text: str) -> None:
    try:
        expected = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        assert parse(text).slips
    else:
        parsed = parse(text)
        assert (parsed.data, parsed.slips) == (expected, [])


@given(st.text(max_size=60))
def test_slips_print_no_control_characters(text: str) -> None:
    assert all((slip.what + slip.instead).isprintable() for slip in parse(text).slips)
