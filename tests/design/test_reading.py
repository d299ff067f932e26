"""What a piece file says becomes a design; everything wrong with it is told in one run."""

from __future__ import annotations

import time
from datetime import date
from pathlib import Path

import pytest

from mockup.design.model import (
    ColourUse,
    Design,
    FrameSpec,
    Limits,
    PanelSpec,
    Pump,
    StandSpec,
)
from mockup.design.reading import design_from_text, read_design
from mockup.errors import FaultsFound

BAD = sorted((Path(__file__).parent / "data" / "bad").glob("*.toml"))
LEAST = """\
title = "Ruby"
colours = { A = "deep teal", B = "oat" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""


def read(text: str) -> Design:
    return design_from_text(text, "ruby.toml")


def faults(text: str) -> list[str]:
    with pytest.raises(FaultsFound) as told:
        read(text)
    return [str(fault) for fault in told.value.faults]


def with_section(rest: str) -> str:
    return LEAST.replace("clusters = [{ strokes = 3 }]\n", rest)


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.stem)
def test_every_fault_of_a_bad_file_is_told_word_for_word(path: Path) -> None:
    with pytest.raises(FaultsFound) as told:
        design_from_text(path.read_text("utf-8"), path.name)
    expected = path.with_suffix(".txt").read_text("utf-8")
    assert f"{told.value}\n" == expected


def test_there_are_bad_files_to_judge_by() -> None:
    assert len(BAD) >= 5


def test_the_least_file_gets_every_usual_figure() -> None:
    design = read(LEAST)
    assert design.frame == FrameSpec()
    assert (design.stand, design.panel, design.colourways) == (None, None, ())
    assert (design.pump, design.limits) == (Pump(), Limits())
    assert (design.unit, design.revision, design.outdoors, design.overhead) == (
        "in", 1, False, False,
    )  # fmt: skip
    (section,) = design.sections
    assert (section.name, section.at_deg, section.right, section.left) == ("top", 0.0, (), ())
    assert (section.end_right, section.whole, section.pattern) == (None, False, "alternate")
    middle = section.middle
    assert middle is not None
    assert (middle.kind, middle.nominal, middle.letters) == ("quad", 127.0, "ABAB")
    assert middle.turn_deg == 45.0
    assert middle.path == ("section", 0, "clusters", 0)


def test_the_usual_figures_written_out_give_the_same_design() -> None:
    written = LEAST.replace(
        "[[section]]",
        'unit = "in"\nsize = "5in"\nkind = "quad"\noutdoors = false\n'
        '[frame]\nkind = "ring"\noutside = "30in"\ntube = "1/2in"\n'
        '[pump]\nstrokes = 4\ngives = "4 1/2in"\n'
        '[limits]\nsqueeze = "10%"\ncrossing = "25%"\nswing = 45\ndaylight = "8%"\n'
        'bare_frame = "20%"\ndoorway = ["32in", "80in"]\nfill = ["50%", "95%"]\n'
        'colour_difference = 10\nfoil_shrink = "12%"\n[[section]]',
    )
    assert read(written) == read(LEAST)


def test_bare_tables_mean_the_usual_stand_and_frame() -> None:
    design = read(LEAST + "[stand]\n[frame]\n[pump]\n[limits]\n")
    assert design.stand == StandSpec()
    assert design.frame == FrameSpec()


def test_a_full_file_is_read_whole() -> None:
    design = read(
        """
        title = "  Ruby turns thirty "
        client = "Zoë & Łukasz <Alder>"
        date = "2027-03-14"
        venue = "Hall"
        unit = "cm"
        outdoors = true
        overhead = true
        note = "one\\ntwo"
        kind = "pair"
        size = "33cm"
        colours = { A = { name = "our own red", srgb = "#B3202C", finish = "gloss" } }
        frame = { outside = "2ft 6in", tube = "15mm", kind = "arc", from = "10:30", to = "1:30" }
        stand = { rise = "30cm", plate = "40cm", plate_thickness = "6mm" }
        panel = { numerals = "3A&", height = "40cm", measured = "35cm", gap = "0mm",
        """.rstrip("\n ")
        + """ widths = { 3 = "20cm" }, colour = "A", place = "inside", raised = "-2cm" }
        limits = { fill = ["40%", "99.5%"], doorway = ["800mm", "2m"] }
        pump = { strokes = 2, gives = "9cm" }
        section = [{ at = 12, clusters = [{ strokes = 16 }] }]
        """
    )
    assert (design.title, design.client) == ("Ruby turns thirty", "Zoë & Łukasz <Alder>")
    assert (design.event_date, design.note) == (date(2027, 3, 14), "one\ntwo")
    assert design.frame == FrameSpec("arc", 762.0, 15.0, 315.0, 405.0)
    assert design.stand == StandSpec(300.0, 400.0, 6.0)
    foil = ColourUse("", "our own red", "#b3202c", "mirror", ("panel", "colour"))
    assert design.panel == PanelSpec(
        "3A&", 400.0, 350.0, {"3": 200.0}, foil, "inside", 0.0, 8.0, -20.0
    )
    assert design.limits.fill_least == pytest.approx(0.4)
    assert design.limits.fill_most == pytest.approx(0.995)
    assert design.limits.doorway == (800.0, 2000.0)
    middle = design.sections[0].middle
    assert middle is not None
    assert middle.diameter == pytest.approx(180.0)  # eight times the volume, twice the diameter
    assert middle.letters == "AA"


def test_three_strokes_of_the_usual_pump_give_just_over_four_inches() -> None:
    """Common practice, no source: a pump whose 4 strokes give 4 1/2 in gives about 4.1 at 3."""
    middle = read(LEAST).sections[0].middle
    assert middle is not None
    assert middle.diameter / 25.4 == pytest.approx(4.1, rel=0.02)


def test_an_unfilled_cluster_is_filled_as_usual_for_its_size() -> None:
    middle = read(with_section("clusters = [{ size = '11in' }]")).sections[0].middle
    assert middle is not None
    assert middle.nominal == pytest.approx(279.4)
    assert middle.strokes is None
    assert 0.5 < middle.diameter / middle.nominal < 0.95


@pytest.mark.parametrize(
    ("at", "degrees", "name"),
    [
        ('"12"', 0.0, "top"), ("12", 0.0, "top"), ("3", 90.0, "right"), ('"6"', 180.0, "bottom"),
        ("9", 270.0, "left"), ('"10:30"', 315.0, "at 10:30"), ('"1:01"', 30.5, "at 1:01"),
        ("\"12 o'clock\"", 0.0, "top"), ('"6 o’clock"', 180.0, "bottom"),
        ("11", 330.0, "at 11"),
    ],
)  # fmt: skip
def test_places_on_the_clock(at: str, degrees: float, name: str) -> None:
    section = read(LEAST.replace('"12"', at)).sections[0]
    assert (section.at_deg, section.name) == (degrees, name)


def test_a_date_may_be_written_both_ways() -> None:
    for written in ("2027-03-14", '"2027-03-14"'):
        assert read(f"date = {written}\n{LEAST}").event_date == date(2027, 3, 14)


@pytest.mark.parametrize(
    ("written", "mirrors"),
    [
        ("", None),
        ("mirror = false", ()),
        ("mirror = true", ("left/right", "top/bottom")),
        ("mirror = []", ()),
        ('mirror = ["top/bottom"]', ("top/bottom",)),
    ],
)
def test_mirrors_are_asked_for_or_left_to_the_piece(
    written: str, mirrors: tuple[str, ...] | None
) -> None:
    assert read(f"{written}\n{LEAST}").mirror == mirrors


def test_lines_lead_from_a_cluster_back_to_the_file() -> None:
    design = read(with_section("clusters = [\n  { strokes = 3 },\n  { strokes = 2 },\n]\n"))
    (right,) = design.sections[0].right
    assert design.where(right.path) == "ruby.toml:7"
    assert design.where(("section", 0, "end_cap")) == "ruby.toml:3"
    assert design.where(("panel", "height")) == "ruby.toml:1"


def test_a_file_is_named_in_its_faults_as_it_was_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "ruby.toml"
    path.write_text(LEAST + "[panel]\n", "utf-8")
    with pytest.raises(FaultsFound) as told:
        read_design(str(path))
    assert all(fault.where == f"{path}:6" for fault in told.value.faults)
    path.write_text(LEAST, "utf-8")
    assert read_design(path).file_name == str(path)


def test_a_long_list_of_clusters_is_refused_at_once() -> None:
    start = time.perf_counter()
    many = with_section(f"clusters = [{'{strokes=3},' * 10_000}]\n")
    said = "ruby.toml:5: 'clusters' has 10,000 clusters; write at most 2,000"
    assert faults(many) == [said]
    assert time.perf_counter() - start < 2.0


@pytest.mark.parametrize(
    ("clusters", "total"),
    [
        ("clusters = [{ times = 1500 }]", "2,999"),
        ("clusters = [{ times = 900 }, { times = 900 }]", "3,599"),
        ("clusters = [{ times = 2 }]\nleft = [{ times = 2000 }]", "2,002"),
        ("middle = false\nclusters = [{ times = 1001 }]", "2,002"),
    ],
)
def test_clusters_are_counted_before_they_are_laid_out(clusters: str, total: str) -> None:
    said = f"ruby.toml:3: the sections hold {total} clusters in all; a piece takes at most 2,000"
    assert faults(with_section(clusters)) == [said]


def test_a_piece_of_two_thousand_clusters_is_read_quickly() -> None:
    start = time.perf_counter()
    section = read(with_section("middle = false\nclusters = [{ times = 999 }]")).sections[0]
    assert len(section.right) == len(section.left) == 999
    assert time.perf_counter() - start < 1.0


def test_a_file_of_nothing_but_faults_is_told_in_part_and_counted() -> None:
    start = time.perf_counter()
    told = faults(f"{LEAST}[stand]\n" + "".join(f"key{n} = 1\n" for n in range(20_000)))
    assert len(told) == 201
    assert told[-1] == "ruby.toml: there are 19,800 more faults; mend these first"
    assert time.perf_counter() - start < 5.0


@pytest.mark.parametrize("name", ["client", "venue", "title"])
@pytest.mark.parametrize("sign", ["\\u0000", "\\u001B[31m", "\\u0085", "\\uFFFF", "\\n"])
def test_a_character_that_cannot_be_printed_is_named(name: str, sign: str) -> None:
    text = LEAST.replace('title = "Ruby"', "") if name == "title" else LEAST
    (said,) = faults(f'{name} = "A{sign} B"\n{text}')
    assert said.startswith(f"ruby.toml:1: '{name}' holds ")
    assert said.isprintable()


@pytest.mark.parametrize("name", ["<b>&amp;</b>", "</svg><script>", "יעל & عمر", "🎈 Zoë"])
def test_names_of_every_script_and_sign_are_welcome(name: str) -> None:
    assert read(f'client = "{name}"\n{LEAST}').client == name


def test_a_name_far_too_long_is_told() -> None:
    assert faults(f'client = "{"x" * 201}"\n{LEAST}') == [
        "ruby.toml:1: 'client' is 201 characters long; write at most 200"
    ]


NO_STROKES = (
    "nan", "inf", "-inf", "1e400", "-1", "0", "0.2", "200.1", "9" * 400, "0x" + "f" * 5000,
    "true", '"3"', "[3]", "{}",
)  # fmt: skip


@pytest.mark.parametrize("number", NO_STROKES, ids=lambda number: number[:8])
def test_what_is_no_number_of_strokes_is_refused_in_one_line(number: str) -> None:
    (said,) = faults(with_section(f"clusters = [{{ strokes = {number} }}]"))
    assert said.startswith("ruby.toml:5: 'strokes' is ")
    assert len(said) < 150


@pytest.mark.parametrize(
    ("written", "right"),
    [
        ("30", 'write outside = "30in" or "30cm"'),
        ("30.5", 'write outside = "30.5in" or "30.5cm"'),
        ('"30"', 'write outside = "30in" or "30cm"'),
        ('"30 1/2"', 'write outside = "30 1/2in" or "30 1/2cm"'),
        ('"3,5cm"', "use a point for decimals, such as 3.5cm"),
        ('"0in"', "write a length from 4in to 40ft"),
        ('"3in"', "write a length from 4in to 40ft"),
        ('"-30in"', "write a length above zero, such as 13in"),
        ("true", 'write outside = "30in"'),
    ],
)
def test_a_length_at_fault_shows_the_right_form(written: str, right: str) -> None:
    (said,) = faults(f"frame.outside = {written}\n{LEAST}")
    assert said.endswith(f"; {right}")


def test_numerals_may_be_whatever_has_a_foil_shape_and_nothing_else() -> None:
    from mockup.panel.digits import DIGITS
    from mockup.panel.letters import LETTERS

    for one in (*DIGITS, *LETTERS):
        design = read(f'{LEAST}[panel]\nnumerals = "{one}"\nheight = "16in"\n')
        assert design.panel is not None
        assert design.panel.text == one
    assert len(faults(LEAST + '[panel]\nnumerals = "3 a"\nheight = "16in"')) == 1
    for sign in set("aäé٣#,;:/'%*()\U0001f388\u00a0 ") - {*DIGITS, *LETTERS}:
        panel = f'[panel]\nnumerals = "{sign}"\nheight = "16in"\n'
        (said,) = faults(LEAST + panel)
        assert said.startswith("ruby.toml:7: 'numerals' is ")


def test_a_slip_on_the_first_line_and_a_section_that_is_missing_are_both_told() -> None:
    """What stands nowhere is told at line 1, and must not pass for a fault of that line's value."""
    missing = "ruby.toml:1: the file has no 'section'; write [[section]]"
    bare = "ruby.toml:1: 'title' has a value without quotes; write title = \"Ruby\""
    assert faults('title = Ruby\ncolours = { A = "oat" }\n') == [missing, bare]
    comma = 'ruby.toml:1: has no comma before B = "brass" }; write a comma between the two'
    told = faults('colours = { A = "oat" B = "brass" }\ntitle = "Ruby"\n')
    assert comma in told
    assert missing in told
