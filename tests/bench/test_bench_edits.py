"""Changes of the form, carried out in the text: what it says changes, and nothing else."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.bench.edits import Change, NotCarriedOut, edited
from mockup.bench.remarks import remark_at
from mockup.bench.rewriting import rewritten
from mockup.design.toml_text import as_toml

SAMPLES = [
    sample
    for sample in sorted((Path(__file__).parent.parent.parent / "samples").glob("*.toml"))
    if "[[section]]" in sample.read_text("utf-8")
]
REMARKED = """\
# top
title = "a # in a string"   # why
colours = { A = "oat", B = "brass" }

[[section]]  # the first
at = "12"
# about the clusters
clusters = [
  # from the middle
  { strokes = 3 },   # big
  { strokes = 2 },   # small
  { strokes = 1.5 }  # last
]

# about the second
[[section]]
at = "6"
clusters = [{ strokes = 3 }, { strokes = 2, times = 2 }]
end_cap = true

# about the panel
[panel]
numerals = "3"  # three
"""


def remarks(text: str) -> list[str]:
    found = (line[remark_at(line) :].strip() for line in text.splitlines())
    return [one for one in found if one]


def move(at: int, to: int) -> Change:
    return {"do": "move", "path": ["section", 0, "clusters"], "at": at, "to": to}


def put(path: list[Any], value: Any) -> Change:
    return {"do": "set", "path": path, "value": value}


def test_a_row_moved_takes_its_remark_along() -> None:
    rows = edited(REMARKED, [move(0, 2)]).splitlines()
    assert [row.split("{")[1].split("}")[0].strip() for row in rows if "strokes" in row][:3] == [
        "strokes = 2",
        "strokes = 1.5",
        "strokes = 3",
    ]
    assert next(row for row in rows if "strokes = 3 }" in row).endswith("# big")
    assert sorted(remarks("\n".join(rows))) == sorted(remarks(REMARKED))


@pytest.mark.parametrize("places", [(0, 1), (1, 0), (2, 0), (1, 2), (2, 1)])
def test_a_move_and_the_move_back_is_nothing(places: tuple[int, int]) -> None:
    there = edited(REMARKED, [move(*places)])
    assert tomllib.loads(edited(there, [move(*reversed(places))])) == tomllib.loads(REMARKED)


def test_a_section_removed_leaves_the_remarks_of_its_neighbours() -> None:
    left = edited(REMARKED, [{"do": "remove", "path": ["section", 0]}])
    assert "# about the second" in left
    assert "# about the panel" in edited(left, [put(["panel", "height"], "9in")])
    assert [one["at"] for one in tomllib.loads(left)["section"]] == ["6"]


def test_the_last_block_of_its_kind_goes_with_its_key() -> None:
    text = 'title = "Ruby"  # ours\n\n[[colourway]]\nname = "B"\n'
    gone = edited(text, [{"do": "remove", "path": ["colourway", 0]}])
    assert gone.strip() == 'title = "Ruby"  # ours'


def test_a_section_added_comes_after_the_last_and_before_its_neighbours_remark() -> None:
    new = {"at": "3", "clusters": [{"strokes": 2}]}
    text = edited(REMARKED, [{"do": "insert", "path": ["section"], "at": 2, "value": new}])
    assert text.index('at = "3"') < text.index("# about the panel") < text.index("[panel]")
    assert tomllib.loads(text)["section"][2] == new
    assert remarks(text) == remarks(REMARKED)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
@pytest.mark.parametrize(
    "change",
    [
        put(["title"], "Other"),
        put(["unit"], "cm"),
        put(["frame", "tube"], "3/4in"),
        put(["limits", "squeeze"], "12%"),
        put(["colours", "Z"], {"colour": "oat", "palette": "harbour"}),
        put(["section", 0, "name"], "crown"),
        put(["section", 0, "clusters", 0, "colours"], "A"),
        put(["section", 0, "clusters", 0, "turn"], -30),
        put(["panel", "raised"], "-1 1/2in"),
        {"do": "unset", "path": ["client"]},
        {"do": "insert", "path": ["section", 0, "clusters"], "at": 1, "value": {"strokes": 2.5}},
    ],
    ids=lambda c: f"{c['do']} {'.'.join(map(str, c['path']))}",
)
def test_a_change_keeps_every_remark_and_every_other_line(sample: Path, change: Change) -> None:
    text = sample.read_text("utf-8")
    made = edited(text, [change])
    assert remarks(made) == remarks(text) or change["do"] == "unset"
    before, after = text.splitlines(), made.splitlines()
    kept = sum(line in after for line in before)
    assert kept >= len(before) - 2


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_setting_what_stands_there_already_changes_no_word(sample: Path) -> None:
    text = sample.read_text("utf-8")
    title = tomllib.loads(text)["title"]
    assert edited(text, [put(["title"], title)]) == text


ROWS = st.fixed_dictionaries(
    {"strokes": st.integers(2, 8).map(lambda n: n / 2)},
    optional={"times": st.integers(1, 4), "colours": st.sampled_from(["A", "AB", "ABBA"])},
)


@given(st.lists(ROWS, min_size=2, max_size=5), st.data())
@settings(max_examples=40, deadline=None)
def test_rows_obey_the_laws_of_lists(rows: list[dict[str, Any]], data: st.DataObject) -> None:
    """Whatever is done to the rows in the text is what Python's own list does to them."""
    path = ["section", 1, "clusters"]
    text = edited(REMARKED, [put(path, rows)])
    wished = [dict(row) for row in rows]
    for _ in range(4):
        at = data.draw(st.integers(0, len(wished) - 1))
        to = data.draw(st.integers(0, len(wished) - 1))
        row = data.draw(ROWS)
        text = edited(
            text,
            [
                {"do": "move", "path": path, "at": at, "to": to},
                {"do": "insert", "path": path, "at": to, "value": row},
                {"do": "remove", "path": [*path, at]},
            ],
        )
        wished.insert(to, wished.pop(at))
        wished.insert(to, row)
        wished.pop(at)
    assert tomllib.loads(text)["section"][1]["clusters"] == wished
    assert remarks(text) == remarks(REMARKED)


@pytest.mark.parametrize(
    "change",
    [
        {"do": "set", "path": [], "value": 1},
        {"do": "set", "path": "title", "value": 1},
        {"do": "set", "path": ["section", 9, "at"], "value": "3"},
        {"do": "set", "path": ["a"] * 20, "value": 1},
        {"do": "set", "path": ["title", "x", "y"]},
        {"do": "nothing", "path": ["title"]},
        {"do": "remove", "path": ["section", 9]},
        {"do": "move", "path": ["section", 0, "clusters"], "at": 0, "to": 9},
        {"do": "insert", "path": ["section", 0, "clusters"], "at": -1, "value": {}},
        {"path": ["title"]},
    ],
)
def test_a_change_that_has_no_place_is_refused_in_words(change: Change) -> None:
    with pytest.raises(NotCarriedOut):
        edited(REMARKED, [change])


def test_a_text_that_is_no_toml_takes_no_change() -> None:
    with pytest.raises(NotCarriedOut, match="mend the text"):
        edited("title = ", [put(["title"], "x")])


@pytest.mark.parametrize(
    ("text", "path", "value", "made"),
    [
        ("a = 1 # a = 1\n", ["a"], 2, "a = 2 # a = 1\n"),
        ("# a = 1\na = 1\n", ["a"], 2, "# a = 1\na = 2\n"),
        ('s = "a = 1"\na = 1\n', ["a"], 2, 's = "a = 1"\na = 2\n'),
        ("r = [{ a = 1 }, { a=1,b = 2 }]", ["r", 1, "a"], 3, "r = [{ a = 1 }, { a=3,b = 2 }]"),
        ("[[r]]\na = 1\n[[r]]\na  =  1\n", ["r", 1, "a"], "x", '[[r]]\na = 1\n[[r]]\na  =  "x"\n'),
        ("t.a = 1\na = 1\n", ["a"], 2, "t.a = 1\na = 2\n"),
        ("a = 'its'\n", ["a"], "is", 'a = "is"\n'),
        ('a = "\\"b\\""\n', ["a"], 'c"', 'a = "c\\""\n'),
        ("ba = 1\na = 1\na-b = 1\n", ["a"], 2, "ba = 1\na = 2\na-b = 1\n"),
        ("a = 1\r\nb = 2", ["a"], 1.5, "a = 1.5\r\nb = 2"),
    ],
)
def test_one_value_is_written_where_it_stands(
    text: str, path: list[Any], value: Any, made: str
) -> None:
    data = tomllib.loads(text)
    assert rewritten(text, holder_of(data, path), str(path[-1]), as_toml(value), data) == made
    assert edited(text, [put(path, value)]) == made
    assert data == tomllib.loads(made)


def holder_of(data: Any, path: list[Any]) -> dict[str, Any]:
    for step in path[:-1]:
        data = data[step]
    assert isinstance(data, dict)
    return data


@pytest.mark.parametrize(
    ("text", "path", "value"),
    [
        ('a = """\nb"""\n', ["a"], "c"),
        ('"a" = 1\n', ["a"], 2),
        ("a = { b = 1 }\n", ["a"], 2),
        ("a.b = 1\n", ["a", "b"], 2),
    ],
)
def test_what_stands_otherwise_is_taken_apart(text: str, path: list[Any], value: Any) -> None:
    """There the library for the whole text does it, and the text says what was wished."""
    wished = tomllib.loads(text)
    holder_of(wished, path)[path[-1]] = value
    assert tomllib.loads(edited(text, [put(path, value)])) == wished


@pytest.mark.parametrize("text", ['a = """\nb"""\n', '"a" = "c"\n', "a = { b = 1 }\n"])
def test_where_no_place_is_found_nothing_is_changed(text: str) -> None:
    data = tomllib.loads(text)
    assert rewritten(text, data, "a", "2", data) is None
    assert data == tomllib.loads(text)


def test_the_tenth_of_many_alike_is_the_one_that_changes() -> None:
    rows = [f"{{ strokes = 2 }},  # no. {number}\n" for number in range(20)]
    text = f"clusters = [{''.join(rows)}]\n"
    rows[9] = rows[9].replace("strokes = 2", "strokes = 3")
    made = edited(text, [put(["clusters", 9, "strokes"], 3)])
    assert made == f"clusters = [{''.join(rows)}]\n"


def test_a_key_that_is_not_there_is_gone_already(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is taken apart for it: a form says so with every number that is typed."""
    monkeypatch.setattr("mockup.bench.edits._in_text", None)
    text = "# mine\nframe = { outside = '40in' }  # and this\n[[section]]\nat = '12'\n"
    for path in (["note"], ["frame", "tube"], ["section", 0, "end_cap"]):
        assert edited(text, [{"do": "unset", "path": path}]) == text
    with pytest.raises(NotCarriedOut):
        edited(text, [{"do": "unset", "path": ["panel", "height"]}])
