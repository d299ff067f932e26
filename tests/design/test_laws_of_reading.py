"""Laws of reading over generated pieces, and the key table against the model it fills."""

from __future__ import annotations

import json
import tomllib
from dataclasses import fields
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from mockup.design.frame_keys import FRAME
from mockup.design.keys import LIMITS, PANEL, PIECE, PUMP, STAND
from mockup.design.lines import key_lines
from mockup.design.model import Design, FrameSpec, Limits, PanelSpec, Pump, StandSpec
from mockup.design.reading import design_from_text
from mockup.design.schema import json_schema
from mockup.design.syntax import parse
from mockup.errors import FaultsFound

JUDGE = Draft202012Validator(json_schema())
LETTERS = "ABCD"
SHADES = ('"deep teal"', '"oat"', '{ colour = "brass", finish = "gloss" }',
          '{ name = "our own", srgb = "#b3202c" }')  # fmt: skip
COUNTS = {"single": 1, "pair": 2, "trio": 3, "quad": 4, "five": 5}

words = st.text(alphabet=st.characters(min_codepoint=32, exclude_categories=["Cc", "Cs", "Zs"]),
                min_size=1, max_size=20).map(str.strip).filter(bool)  # fmt: skip
clocks = st.one_of(
    st.integers(1, 12).map(str),
    st.tuples(st.integers(1, 12), st.integers(0, 59)).map(lambda t: f'"{t[0]}:{t[1]:02d}"'),
)
fills = st.one_of(
    st.floats(0.25, 5).map(lambda strokes: f"strokes = {strokes:.3f}"),
    st.integers(20, 120).map(lambda mm: f'fill = "{mm}mm"'),
    st.sampled_from(['fill = "4 1/2in"', 'fill = "8.5cm"', 'fill = "4½in"']),
)
turns = st.sampled_from(["", 'turn = "valley in"', 'turn = "point in"', "turn = -22.5"])


@st.composite
def clusters(draw: st.DrawFn) -> str:
    kind = draw(st.sampled_from(sorted(COUNTS)))
    divisors = [n for n in range(1, COUNTS[kind] + 1) if COUNTS[kind] % n == 0]
    letters = draw(st.text(LETTERS, min_size=(n := draw(st.sampled_from(divisors))), max_size=n))
    parts = [f'kind = "{kind}"', draw(fills), f'colours = "{letters}"', draw(turns)]
    parts.append(draw(st.sampled_from(["", "times = 3"])))
    return "{ " + ", ".join(part for part in parts if part) + " }"


@st.composite
def sections(draw: st.DrawFn, name: str) -> str:
    lists = st.lists(clusters(), min_size=1, max_size=4)
    lines = [f'[[section]]\nname = "{name}"', f"at = {draw(clocks)}"]
    lines.append("clusters = [\n  " + ",\n  ".join(draw(lists)) + "\n]")
    if draw(st.booleans()):
        lines.append(f"left = [{', '.join(draw(lists))}]")
    lines.append(draw(st.sampled_from(["", "middle = false", "middle = true"])))
    caps = ["", "end_cap = true", "end_cap = false", 'end_cap = { strokes = 1, colours = "C" }']
    lines.append(draw(st.sampled_from(caps)))
    lines.append(draw(st.sampled_from(["", 'pattern = "any"', 'colours = "A"\nkind = "pair"'])))
    return "\n".join(line for line in lines if line)


@st.composite
def pieces(draw: st.DrawFn) -> str:
    head = [f"title = {json.dumps(draw(words), ensure_ascii=False)}"]
    head.append(f"client = {json.dumps(draw(words), ensure_ascii=False)}")
    head.append(draw(st.sampled_from(["", "date = 2027-03-14", 'unit = "cm"', "overhead = true"])))
    head.append('palette = "harbour"\nsize = "5in"')
    colours = ", ".join(f"{a} = {b}" for a, b in zip(LETTERS, SHADES, strict=True))
    head.append(f"colours = {{ {colours} }}")
    head.append(f'frame = {{ outside = "{draw(st.integers(20, 400))}in" }}')
    head.append(draw(st.sampled_from(["", 'stand.rise = "30cm"', "outdoors = true"])))
    names = [f"stretch {n}" for n in range(draw(st.integers(1, 4)))]
    head += [draw(sections(name)) for name in names]
    numerals = draw(st.text("0123456789AZ&", min_size=1, max_size=4))
    head.append(f'[panel]\nnumerals = "{numerals}"\nheight = "16in"\ncolour = "B"')
    return "\n".join(line for line in head if line) + "\n"


@settings(max_examples=50, deadline=None)
@given(pieces())
def test_a_valid_piece_reads_without_a_fault_and_its_schema_agrees(text: str) -> None:
    data = tomllib.loads(text)
    design = design_from_text(text, "piece.toml")
    assert len(design.sections) == len(data["section"])
    assert list(JUDGE.iter_errors(json.loads(json.dumps(data, default=str)))) == []


@settings(max_examples=40, deadline=None)
@given(pieces())
def test_every_cluster_has_a_letter_a_balloon_and_leads_to_its_line(text: str) -> None:
    design = design_from_text(text, "piece.toml")
    written = text.split("\n")
    for section in design.sections:
        run = (section.middle, *section.right, *section.left)
        for spec in (one for one in run if one):
            assert len(spec.letters) == spec.count
            assert set(spec.letters) <= set(design.colours)
            line = int(design.where(spec.path).split(":")[1])
            assert "kind = " in written[line - 1]


@settings(max_examples=40, deadline=None)
@given(pieces(), st.randoms(use_true_random=False))
def test_order_and_comments_of_the_file_do_not_matter(text: str, random: Random) -> None:
    top, *tables = text.split("[[section]]\n")
    lines = [f"{line}  # said" for line in top.split("\n") if line]
    random.shuffle(lines)
    again = "\n\n# again\n".join(lines) + "\n[[section]]\n" + "[[section]]\n".join(tables)
    one, other = design_from_text(text, "a.toml"), design_from_text(again, "a.toml")
    assert one == other


def spoilt(text: str, random: Random) -> str:
    """The text with one small slip of the keyboard."""
    at = random.randrange(len(text))
    slip = random.choice(['"', "", "x", "=", "[", "]", "}", ",", "\n", "9", " ", "#", "\\", "-"])
    return text[:at] + slip + text[at + random.choice([0, 1, 1, 4]) :]


@settings(max_examples=100, deadline=None)
@given(pieces(), st.randoms(use_true_random=False))
def test_a_slip_of_the_keyboard_is_read_or_told_and_never_more(text: str, random: Random) -> None:
    broken = spoilt(spoilt(text, random), random)
    try:
        assert design_from_text(broken, "a.toml").title
    except FaultsFound as told:
        last = len(broken.split("\n"))
        for fault in told.faults:
            assert fault.where.startswith("a.toml:")
            assert 1 <= int(fault.where.split(":")[1]) <= last
            assert fault.what.isprintable()
            assert fault.instead.isprintable()


@given(pieces(), st.sampled_from(sorted(PIECE.by_name)))
@settings(max_examples=25, deadline=None)
def test_a_misspelt_key_offers_the_right_one(text: str, key: str) -> None:
    wrong = f"{key[:-1]}q{key[-1]}"
    with pytest.raises(FaultsFound) as told:
        design_from_text(f"{wrong} = 1\n{text}", "a.toml")
    assert [fault.instead for fault in told.value.faults] == [f"did you mean '{key}'?"]


def test_lines_and_parsing_see_the_same_keys_in_a_piece() -> None:
    text = "a = 1\n[b]\nc = [{ d = 1 }, { d = 2 }]\n"
    assert parse(text).data == {"a": 1, "b": {"c": [{"d": 1}, {"d": 2}]}}
    assert len(key_lines(text)) == 7


BARE = 'title = "R"\ncolours = { A = "oat" }\n[[section]]\nat = 12\nclusters = [{}]\n'


def bare(tables: str) -> Design:
    return design_from_text(BARE + tables, "a.toml")


def test_the_key_tables_defaults_are_those_of_the_model() -> None:
    """A default stands in the key table for people and in the model for programs: the same."""
    written = ""
    for name, table in (("frame", FRAME), ("stand", STAND), ("pump", PUMP), ("limits", LIMITS)):
        rows = [f"{key.name} = {json.dumps(key.default)}" for key in table.keys if key.default]
        written += f"[{name}]\n" + "\n".join(rows) + "\n"
    design = bare(written)
    assert (design.frame, design.stand) == (FrameSpec(), StandSpec())
    assert (design.pump, design.limits) == (Pump(), Limits())
    rows = [f"{key.name} = {json.dumps(key.default)}" for key in PANEL.keys if key.default]
    panel = bare('[panel]\nnumerals = "3"\nheight = "9in"\n' + "\n".join(rows)).panel
    assert panel is not None
    usual = PanelSpec("3", panel.height)
    assert (panel.place, panel.gap, panel.thickness) == (usual.place, usual.gap, usual.thickness)


def test_every_field_of_the_model_can_be_filled_from_a_file() -> None:
    renamed = {"sections": "section", "event_date": "date", "colourways": "colourway",
               "garlands": "garland"}  # fmt: skip
    not_said = {"file_name", "lines", "revision"}
    expected = {field.name for field in fields(Design)} - not_said
    assert {renamed.get(name, name) for name in expected} <= set(PIECE.by_name)
