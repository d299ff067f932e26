"""The first piece file: short, right as it stands, and it holds."""

from __future__ import annotations

import pytest

from mockup.design.reading import design_from_text
from mockup.design.starter import begun_text, starter_name, starter_text
from mockup.design.starter_frames import BEGINNINGS
from mockup.errors import FaultsFound
from mockup.lengths import Unit
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all


def test_a_first_file_is_under_25_lines_and_explains_itself() -> None:
    text = starter_text("Ruby turns thirty")
    assert len(text.splitlines()) < 25
    assert text.count("#") >= 4
    assert all(len(line) <= 100 for line in text.splitlines())


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize("ring", ["24in", "30in", "3ft", "90cm", "5ft"])
@pytest.mark.parametrize("numerals", ["1", "7", "30", "100", "88"])
def test_every_starter_reads_and_its_numerals_fit(ring: str, numerals: str, unit: Unit) -> None:
    text = starter_text("Ruby", ring=ring, numerals=numerals, unit=unit)
    assert len(text.splitlines()) < 25
    design = design_from_text(text, "ruby.toml")
    assert design.unit == unit
    piece = assemble(design)
    assert piece.fit is not None
    assert piece.fit.verdict in ("clear", "tucks")
    assert piece.nestling.crossing <= design.limits.crossing


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize(
    ("frame", "size"),
    [(name, size) for name, each in BEGINNINGS.items() for size in ("least", each.usual[1])],
)
def test_every_other_frame_begins_with_a_piece_that_holds(
    frame: str, size: str, unit: Unit
) -> None:
    begin = BEGINNINGS[frame]
    said = f"{begin.least / 10:g}cm" if size == "least" else size
    text = begun_text("Fair", begin, size=said, unit=unit)
    assert len(text.splitlines()) < 31
    assert all(len(line) <= 100 for line in text.splitlines())
    found = find_all(assemble(design_from_text(text, "fair.toml")))
    assert {each.name for each in found if each.verdict != "holds"} <= {"doorway"}


@pytest.mark.parametrize(
    ("frame", "size", "numerals", "says"),
    [
        ("arch", "9", "", "--arch: 'width': '9' has no unit"),
        ("arch", "2ft", "", "--arch: '2ft' is no size to begin an arch with; write from 48 in"),
        ("garland", "30ft", "", "--garland: '30ft' is no size to begin a garland with"),
        ("column", "6ft", "30", "--numerals: a column has no numerals inside"),
        ("garland", "6ft", "3o", "--numerals: "),
    ],
)
def test_what_a_frame_cannot_begin_with_is_told_at_its_option(
    frame: str, size: str, numerals: str, says: str
) -> None:
    with pytest.raises(FaultsFound) as told:
        begun_text("Fair", BEGINNINGS[frame], size=size, numerals=numerals)
    assert [str(fault)[: len(says)] for fault in told.value.faults] == [says]


@pytest.mark.parametrize(
    "title", ["Ruby", 'Say "hi" \\ twice', "Zoë & Łukasz", "🎈 יעל", "</svg><script>", "x" * 200]
)
def test_any_title_survives_the_file(title: str) -> None:
    assert design_from_text(starter_text(title), "a.toml").title == title


def test_what_cannot_stand_in_a_file_is_told_at_its_option() -> None:
    with pytest.raises(FaultsFound) as told:
        starter_text("  ", ring="30", numerals="3o")
    said = [str(fault) for fault in told.value.faults]
    assert [one.split(":")[0] for one in said] == ["NAME", "--ring", "--numerals"]
    assert "'30' has no unit" in said[1]


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Ruby turns thirty", "ruby-turns-thirty.toml"),
        ("Zoë & Łukasz – 50!", "zoe-ukasz-50.toml"),
        ("../../etc/passwd", "etc-passwd.toml"),
        ("יעל", "piece.toml"),
        ("", "piece.toml"),
        ("CON", "con-piece.toml"),
        ("a" * 300, "a" * 60 + ".toml"),
        ("ruby.toml", "ruby.toml"),
    ],
)
def test_a_title_becomes_a_file_name_that_every_system_takes(title: str, name: str) -> None:
    assert starter_name(title) == name
