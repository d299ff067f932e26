"""Tapers by name and by their ends, and sections that name one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.model import Design, Pump
from mockup.design.reading import design_from_text
from mockup.design.tapers import SHARES, Taper, taper_from_words, tapered
from mockup.design.wishes_fills import Fill, stroked
from mockup.errors import FaultsFound

HEAD = 'title = "Law"\ncolours = { A = "deep teal", B = "oat" }\n[[section]]\nat = "12"\n'


def design(section: str) -> Design:
    return design_from_text(HEAD + section, "law.toml")


def refused(section: str) -> str:
    with pytest.raises(FaultsFound) as found:
        design(section)
    return str(found.value)


@given(st.sampled_from(sorted(SHARES)), st.floats(2, 8), st.integers(0, 12))
def test_a_named_taper_never_grows_outward(name: str, strokes: float, outward: int) -> None:
    fills = tapered(Taper(name), stroked(strokes, Pump()), outward, Pump(), "in")
    assert len(fills) == outward + 1
    assert fills[0].strokes == strokes
    assert all(a.diameter >= b.diameter for a, b in pairwise(fills))


@given(st.integers(2, 12))
def test_strong_ends_smaller_than_gentle_and_gentle_than_even(outward: int) -> None:
    ends = [
        tapered(Taper(name), Fill(228.6), outward, Pump(), "in")[-1].diameter
        for name in ("even", "gentle", "strong")
    ]
    assert ends[0] == 228.6
    assert ends[0] > ends[1] > ends[2]


def test_a_taper_by_its_ends_falls_in_equal_steps_and_keeps_them() -> None:
    taper = taper_from_words("from 4 1/2in to 3in in 4")
    assert taper is not None
    fills = tapered(taper, Fill(1.0), 0, Pump(), "in")
    assert [fill.diameter for fill in fills] == pytest.approx([114.3, 101.6, 88.9, 76.2])


def test_a_section_builds_the_clusters_of_its_taper() -> None:
    section = design('strokes = 4\ntaper = "strong"\na_side = 2\n').sections[0]
    assert section.middle is not None
    assert [spec.strokes for spec in (section.middle, *section.right)] == [4.0, 2.0, 1.0]
    assert section.left == section.right


def test_a_taper_without_a_middle_has_so_many_a_side() -> None:
    section = design('taper = "even"\nmiddle = false\na_side = 4\n').sections[0]
    assert section.middle is None
    assert len(section.right) == 4


@pytest.mark.parametrize(
    ("section", "says"),
    [
        ('taper = "gentel"\n', "law.toml:5: 'taper' is 'gentel', which is no taper; did you mean"),
        ('taper = "from 4in to 3 in 4"\n', 'write "even", "gentle", "strong" or "from'),
        ('taper = "gentle"\nclusters = [{}]\n', "both 'clusters' and 'taper'"),
        ("clusters = [{}]\na_side = 2\n", "'a_side' goes with a taper"),
        ("strokes = 3\n", "a section has no 'clusters'"),
        ('taper = "even"\na_side = 500\n', "write a number from 0 to 200"),
        ('taper = "from 9in to 3in in 4"\n', "far too much for a balloon of nominal size 5 in"),
    ],
)
def test_a_wrong_taper_is_told(section: str, says: str) -> None:
    assert says in refused(section)
