"""Every command on a wall: it does its work, or says in a sentence that a wall has none for it."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from shutil import copy
from typing import Any

import pytest

from mockup.design.model import Design
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.changes import changes
from mockup.piece.code import content
from mockup.render.page.words import approved
from mockup.render.record import Circle, Text, walk
from mockup.render.sheets.map_pictures import MOST_ACROSS, MOST_DOWN, map_picture
from mockup.worksheets.build_wall import row_words

Run = Callable[..., Any]
WALL = """
title = "W"
size = "11in"
colours = { A = "oat", B = "brass", C = "deep teal" }
[frame]
kind = "wall"
width = "8ft"
height = "5ft"
[wall]
fill = "9in"
"""


@pytest.fixture
def wall(tmp_path: Path) -> Path:
    file = tmp_path / "w.toml"
    file.write_text(WALL + 'letters = "I"\nground = "B"\n', encoding="utf-8")
    return file


def letters_of(file: Path) -> Counter[str]:
    return Counter(b.letter for b in assemble(read_design(file)).balloons)


def test_check_and_layout_tell_the_wall(run: Run, wall: Path) -> None:
    checked = run("check", wall)
    assert checked.code == 0
    assert "12 columns and 7 rows of singles on a square mesh" in checked.out
    laid = run("layout", wall).out.splitlines()
    assert [line.split()[1] for line in laid[1:]] == [f"{n}" for n in range(1, 8)]
    data = json.loads(run("layout", wall, "--json").out)
    assert data["frame"] == {
        "kind": "wall", "tube": 12.7, "length": data["frame"]["length"],
        "width": 2438.4, "height": 1524.0,
    }  # fmt: skip
    assert Counter(b["colour"] for b in data["balloons"]) == letters_of(wall)
    assert {c["section"] for c in data["clusters"]} == {f"row {n}" for n in range(1, 8)}


def test_buying_the_gauge_and_the_build_take_the_walls_own_balloons(
    run: Run, wall: Path, tmp_path: Path
) -> None:
    bought = run("buy", wall)
    for count in letters_of(wall).values():
        assert f" {count} " in bought.out
    for command, out in (("gauge", "g.pdf"), ("build", "b.html"), ("build", "b.pdf")):
        ran = run(command, wall, "-o", tmp_path / out)
        assert ran.code == 0, ran.err
        assert (tmp_path / out).stat().st_size > 1000
    page = (tmp_path / "b.html").read_text("utf-8")
    assert "colour map" in page
    assert "row by row" in page
    assert "wall, 96 in x 60 in with mesh" in page


def test_a_proof_is_drawn_in_every_form(run: Run, wall: Path, tmp_path: Path) -> None:
    outs = [tmp_path / f"p.{form}" for form in ("svg", "html", "pdf")]
    words = [word for out in outs for word in ("-o", out)]
    ran = run("proof", wall, *words, "--views", "front,side,plan")
    assert ran.code == 0, ran.err
    counts = letters_of(wall)
    drawn = outs[0].read_text("utf-8")
    assert f"matte latex, {counts['A']} balloon" in drawn
    told = " ".join(approved(assemble(read_design(wall))))
    assert "A wall of 96 in x 60 in." in told
    assert f"{sum(counts.values())} latex balloons over its mesh, in 7 rows of 12." in told


@pytest.mark.parametrize(
    ("command", "says"),
    [
        (("colours",), "w.toml:9: a wall has no other orders of colours"),
        (("suggest",), "w.toml:6: 'mockup suggest' seeks crescents"),
        (("close",), "there is no section whose clusters could close the frame"),
        (("fit",), "This piece has no numerals"),
    ],
)
def test_what_a_wall_has_no_use_for_is_refused(
    run: Run, wall: Path, command: tuple[str, ...], says: str
) -> None:
    ran = run(*command, wall)
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_two_walls_are_compared_and_their_changes_told(run: Run, wall: Path) -> None:
    option = '[[option]]\nname = "staggered"\nwall = { mesh = "staggered" }\n'
    wall.write_text(wall.read_text("utf-8") + option, encoding="utf-8")
    rows = json.loads(run("compare", wall, "--json").out)["rows"]
    daylight = next(row for row in rows if row["label"] == "Daylight")
    assert daylight["cells"] == ["10.3%", "0.6%"]
    balloons = next(row for row in rows if row["label"] == "Balloons")
    assert balloons["figures"][0] == 84


def test_a_picture_that_is_missing_ends_with_2_and_its_line(run: Run, wall: Path) -> None:
    wall.write_text(WALL + 'picture = "none.png"\n', encoding="utf-8")
    for command in ("check", "proof", "layout", "buy"):
        ran = run(command, wall)
        assert ran.code == 2
        assert f"{wall}:11: there is no picture 'none.png' beside the piece" in ran.err


def test_a_changed_wall_is_told_in_its_own_words(tmp_path: Path) -> None:
    def design(wall: str) -> Design:
        file = tmp_path / "v.toml"
        file.write_text(WALL.replace('fill = "9in"\n', "") + wall, encoding="utf-8")
        return read_design(file)

    first = content(design('fill = "9in"\nrows = ["AAB", "CCC"]\n'))
    for wall, says in (
        ('fill = "9in"\nrows = ["AAA", "CCC"]\n', ["wall: 1 balloon of another colour"]),
        ('fill = "8in"\nrows = ["AAB", "CCC"]\n',
         ["wall: its balloons were filled to 9 in, are filled to 8 in"]),
        ('fill = "9in"\nrows = ["AAB", "CCC", "AAA"]\n', ["wall: was 2 rows of 3, is 3 rows of 3"]),
    ):  # fmt: skip
        assert changes(first, content(design(wall))) == says
    assert changes(first, {**first, "wall": None}) == ["wall: taken out"]
    lettered = changes(first, content(design('fill = "9in"\nletters = "I"\n')))
    assert lettered[0] == "wall: was 'rows', is 'letters I'"


def test_the_parts_of_a_map_hold_every_cell_once(tmp_path: Path) -> None:
    file = tmp_path / "v.toml"
    rows = [
        "".join("ABC."[(r * 5 + c * 3) % 4] for c in range(MOST_ACROSS + 7))
        for r in range(MOST_DOWN + 4)
    ]
    text = WALL.replace('width = "8ft"\nheight = "5ft"\n', "")
    file.write_text(f"{text}rows = {json.dumps(rows)}\n", encoding="utf-8")
    design = read_design(file)
    assert design.wall is not None
    found: Counter[str] = Counter()
    for down in ((0, MOST_DOWN), (MOST_DOWN, len(rows))):
        for across in ((0, MOST_ACROSS), (MOST_ACROSS, len(rows[0]))):
            items = list(walk(map_picture(design.wall, design.colours, down, across).draw((0, 0))))
            letters = [i.text for i in items if isinstance(i, Text) and i.role == "letter"]
            found.update(letters)
            cells = (down[1] - down[0]) * (across[1] - across[0])
            assert sum(isinstance(item, Circle) for item in items) == cells
            numbers = {i.text for i in items if isinstance(i, Text) and i.role == "number"}
            ends = {down[0] + 1, down[1], across[0] + 1, across[1]}
            assert {str(end) for end in ends} <= numbers
    assert found == Counter("".join(rows).replace(".", ""))


def test_a_row_that_is_read_out_says_every_balloon() -> None:
    for row in ("AAAABB.CCC", "ABABABABABABABABA", "A"):
        said = row_words(row)
        if any(sign.isdigit() for sign in said):
            parts = [part.split(" ", 1) for part in said.split(", ")]
            assert "".join(int(n) * w.replace("left out", ".") for n, w in parts) == row
        else:
            assert said.replace(" ", "") == row


def test_the_picture_sample_is_drawn_wherever_it_is_copied(
    run: Run, samples: Path, tmp_path: Path
) -> None:
    for name in ("lugger-wall.toml", "lugger.png"):
        copy(samples / name, tmp_path / name)
    assert run("check", tmp_path / "lugger-wall.toml").code == 0
