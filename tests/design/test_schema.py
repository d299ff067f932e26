"""The exported JSON Schema against the reader, judged by the jsonschema library."""

from __future__ import annotations

import copy
import json
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from mockup.design.keys import DEFINED, PIECE
from mockup.design.kinds import Kind
from mockup.design.lists import Either, ListOf, MapOf
from mockup.design.measures import LENGTH_PATTERN
from mockup.design.reading import design_from_text
from mockup.design.schema import json_schema
from mockup.design.starter import starter_text
from mockup.design.tables import Key, Table
from mockup.errors import FaultsFound
from mockup.lengths import NotALength, parse_length

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.toml"))
SCHEMA = json_schema()
JUDGE = Draft202012Validator(SCHEMA, format_checker=Draft202012Validator.FORMAT_CHECKER)


def as_json(data: dict[str, Any]) -> Any:
    """TOML data as an editor hands it to a JSON Schema: dates as their text."""
    return json.loads(json.dumps(data, default=lambda day: day.isoformat()))


def troubles(data: dict[str, Any]) -> list[str]:
    return [error.json_path for error in JUDGE.iter_errors(as_json(data))]


def test_the_schema_is_one_of_its_own_draft() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_is_valid(path: Path) -> None:
    assert troubles(tomllib.loads(path.read_text("utf-8"))) == []


def test_the_starter_is_valid() -> None:
    assert troubles(tomllib.loads(starter_text("Ruby", unit="cm"))) == []


def every_table(data: object) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = [data] if isinstance(data, dict) else []
    inner = data.values() if isinstance(data, dict) else data if isinstance(data, list) else ()
    return found + [table for one in inner for table in every_table(one)]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_typo_in_any_table_of_a_sample_is_refused(path: Path) -> None:
    whole = tomllib.loads(path.read_text("utf-8"))
    for number in range(len(every_table(whole))):
        spoilt = copy.deepcopy(whole)
        every_table(spoilt)[number]["strocks"] = 3
        assert troubles(spoilt), f"table {number} takes any key"


LEAST: dict[str, Any] = {
    "title": "Ruby",
    "colours": {"A": "oat"},
    "section": [{"at": "12", "clusters": [{"strokes": 3}]}],
}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("title",), 5), (("title",), ""), (("date",), "14.3.2027"), (("unit",), "inch"),
        (("size",), "5"), (("size",), 5), (("size",), "3,5cm"), (("outdoors",), "yes"),
        (("frame", "outside"), "30"), (("frame", "kind"), "hoop"),
        (("colours", "b"), "oat"), (("colours", "A"), {"srgb": "red"}),
        (("colours", "A"), {"colour": "oat", "srgb": "#efe0c1"}), (("colours",), {}),
        (("section",), []), (("section", 0, "at"), "13"), (("section", 0, "at"), 0),
        (("section", 0, "clusters"), []), (("section", 0, "count"), 7),
        (("section", 0, "clusters", 0, "strokes"), 0),
        (("section", 0, "clusters", 0, "fill"), "4in"),
        (("section", 0, "clusters", 0, "colours"), "ab"),
        (("section", 0, "clusters", 0, "turn"), "sideways"),
        (("section", 0, "end_cap"), "yes"), (("panel",), {"height": "16in"}),
        (("panel",), {"numerals": "3a"}), (("panel",), {"numerals": "30", "widths": {"33": "8in"}}),
        (("limits", "squeeze"), 0.1), (("limits", "squeeze"), "10"),
        (("limits", "doorway"), ["32in"]), (("colourway",), [{"name": "B"}]),
    ],
)  # fmt: skip
def test_what_the_reader_refuses_by_form_the_schema_refuses(
    path: tuple[str | int, ...], value: object
) -> None:
    spoilt = copy.deepcopy(LEAST)
    assert troubles(spoilt) == []
    place: Any = spoilt
    for part in path[:-1]:
        place = place.setdefault(part, {}) if isinstance(part, str) else place[part]
    place[path[-1]] = value
    assert troubles(spoilt)
    with pytest.raises(FaultsFound):
        design_from_text(toml_of(spoilt), "a.toml")


def toml_of(data: dict[str, Any]) -> str:
    return "".join(f"{key} = {inline(value)}\n" for key, value in data.items())


def inline(value: object) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {inline(v)}" for key, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(inline(one) for one in value) + "]"
    return value.isoformat() if isinstance(value, date) else json.dumps(value)


def keys_of(kind: Kind) -> list[tuple[str, Key]]:
    """Every key under a kind with the name of its table."""
    if isinstance(kind, Table):
        own = [(kind.name, key) for key in kind.keys]
        return own + [one for key in kind.keys for one in keys_of(key.kind)]
    inner = (kind.item,) if isinstance(kind, ListOf | MapOf) else ()
    cases = kind.cases if isinstance(kind, Either) else ()
    return [one for each in (*inner, *cases) for one in keys_of(each)]


@pytest.mark.parametrize(
    ("table", "key"), keys_of(PIECE), ids=lambda one: one if isinstance(one, str) else one.name
)
def test_every_key_has_one_line_of_words_and_a_right_example(table: str, key: Key) -> None:
    assert key.words, table
    assert key.words.strip() == key.words
    assert "\n" not in key.words
    assert len(key.words) < 100
    headed = key.right_value().startswith("[[")
    shown = key.kind.example if headed else key.right_value()
    written = as_json(tomllib.loads(f"x = {shown}"))["x"]
    assert Draft202012Validator({"$defs": SCHEMA["$defs"], **key.kind.schema()}).is_valid(written)


def test_the_words_and_defaults_reach_the_editor() -> None:
    outside = SCHEMA["properties"]["frame"]["properties"]["outside"]
    assert outside["description"].startswith("Outside diameter")
    assert outside["default"] == "30in"
    assert set(SCHEMA["$defs"]) == {table.defined for table in DEFINED}


@pytest.mark.parametrize("text", ["4 1/2in", "2ft 6in", "33cm", "3.5 cm", '4.5"', "½in", "4½ in",
                                  "330mm", "1.2m", ".5in", "2' 6\"", "-1in", "12IN"])  # fmt: skip
def test_the_pattern_of_a_length_takes_the_right_forms(text: str) -> None:
    assert Draft202012Validator({"pattern": LENGTH_PATTERN}).is_valid(text)


@given(
    st.from_regex(r"[0-9]{1,3}( [1-7]/8|\.[0-9]{1,2}|½)? ?(in|cm|mm|ft|m|furlong|)", fullmatch=True)
)
def test_the_pattern_of_a_length_and_its_reader_agree(text: str) -> None:
    try:
        parse_length(text)
        right = True
    except NotALength:
        right = False
    assert Draft202012Validator({"pattern": LENGTH_PATTERN}).is_valid(text) == right
