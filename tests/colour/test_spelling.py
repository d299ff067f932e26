"""The nearest known word: near for a slip of the fingers, none for another word."""

from __future__ import annotations

import string
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.spelling import did_you_mean, nearest_name, plain_form

COLOURS = ["deep teal", "oat", "brass", "night tide", "sea glass", "buoy red", "wet slate"]
WORDS = st.text("abc -_", max_size=5)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("deep teel", "deep teal"),
        ("Deep-Teal", "deep teal"),
        ("DEEP_TEAL", "deep teal"),
        ("teal", "deep teal"),
        ("bras", "brass"),
        ("sea gloss", "sea glass"),
        ("bouy red", "buoy red"),
        ("umbrella stand", None),
        ("", None),
        ("x" * 100_000, None),
    ],
)
def test_nearest(written: str, meant: str | None) -> None:
    assert nearest_name(written, COLOURS) == meant


@given(st.lists(WORDS, max_size=8), st.randoms(use_true_random=False), WORDS)
def test_order_does_not_matter_and_the_answer_is_known(
    names: list[str], chance: Random, written: str
) -> None:
    mixed = sorted(names, key=lambda _: chance.random())
    found = nearest_name(written, names)
    assert found == nearest_name(written, mixed)
    assert found is None or found in names


@given(st.lists(WORDS, min_size=1, max_size=8))
def test_a_known_name_is_found_in_any_dress(names: list[str]) -> None:
    for name in names:
        found = nearest_name(name.upper(), names)
        assert found is not None
        assert plain_form(found) == plain_form(name)


def test_far_from_all_the_known_are_listed_in_short() -> None:
    many = [f"{letter * 3}" for letter in string.ascii_lowercase]
    said = did_you_mean("12345", many)
    assert said.startswith("known here: aaa, bbb")
    assert said.endswith("and 14 more")
    assert did_you_mean("12345", []) == ""
