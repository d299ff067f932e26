"""Walls in a piece file: what they show, and what is refused at which line."""

from __future__ import annotations

import pytest

from mockup.design.model import Design, WallSpec
from mockup.design.reading import design_from_text
from mockup.design.wall_maps import counts, mirrored, runs
from mockup.errors import FaultsFound

HEAD = 'title = "W"\nsize = "11in"\ncolours = { A = "oat", B = "brass", C = "deep teal" }\n'
FRAME = '[frame]\nkind = "wall"\nwidth = "10ft"\nheight = "7ft"\n'


def read(wall: str, frame: str = FRAME, more: str = "") -> Design:
    return design_from_text(f"{HEAD}{more}{frame}[wall]\n{wall}", "w.toml")


def wall_of(wall: str, frame: str = FRAME) -> WallSpec:
    found = read(wall, frame).wall
    assert found is not None
    return found


def told(wall: str, frame: str = FRAME, more: str = "") -> str:
    with pytest.raises(FaultsFound) as found:
        read(wall, frame, more)
    return str(found.value)


def test_rows_are_kept_as_written_and_make_the_frame() -> None:
    design = read('fill = "25cm"\nrows = ["ABA", "B.B"]', "")
    assert design.wall is not None
    assert (design.wall.rows, design.wall.shows) == (("ABA", "B.B"), "rows")
    assert design.frame.kind == "wall"
    assert design.frame.width == pytest.approx(2 * 225 + 250)
    assert design.frame.height == pytest.approx(225 + 250)
    framed = read('fill = "25cm"\nrows = ["ABA", "B.B"]').frame
    assert (framed.width, framed.height) == pytest.approx((3048.0, 2133.6))


def test_without_a_frame_a_wall_has_the_usual_one() -> None:
    design = read('pattern = "bands"', "")
    assert (design.frame.kind, design.frame.width) == ("wall", 8 * 304.8)


def test_a_word_is_written_in_its_colours_on_its_ground() -> None:
    wall = wall_of('fill = "9in"\nletters = "AI"\nground = "C"\ncolours = "AB"')
    assert counts(wall.rows).keys() == {"A", "B", "C"}
    left = "".join(row[: len(row) // 2] for row in wall.rows)
    assert "A" in left
    assert wall.word_rows >= 7
    small = wall_of('fill = "9in"\nletters = "AI"\nhigh = "4ft"')
    assert small.word_rows == round(4 * 12 / 8.1)


def test_a_word_stands_on_a_pattern_in_the_colour_that_is_free() -> None:
    wall = wall_of('fill = "9in"\nletters = "I"\npattern = "bands"\norder = "AB"')
    assert counts(wall.rows)["C"] > 5
    assert wall.shows == "letters I"


def test_a_ground_of_none_leaves_only_the_word() -> None:
    wall = wall_of('fill = "9in"\nletters = "I"\nground = "none"')
    assert set(counts(wall.rows)) == {"A"}


def test_quads_have_even_columns_and_rows() -> None:
    wall = wall_of('kind = "quad"\nfill = "9in"\npattern = "alternate"')
    assert len(wall.rows) % 2 == 0 == len(wall.rows[0]) % 2


@pytest.mark.parametrize(
    ("wall", "says"),
    [
        ("", "w.toml:8: the wall does not say what it shows; write pattern ="),
        ('rows = ["AB", "A"]', "row 2 has 1 letters, and must have 2; make every row as long"),
        ('rows = ["AB", "AB"]\nmesh = "staggered"', "row 2 has 2 letters, and must have 1; on a"),
        ('rows = ["AZ"]', "'Z' in row 1 is not among the colours; add Z to [colours]"),
        ('rows = ["ab"]', "capital letters, and . for no balloon"),
        ('rows = [".."]', "no row has a balloon"),
        ("rows = []", "'rows' is empty"),
        ('rows = ["A"]\nletters = "I"', "the wall has both 'rows' and 'letters'"),
        ('rows = ["ABA", "ABA"]\nkind = "quad"', "do not come out even in quads"),
        ('rows = ["A.", "AB"]\nkind = "quad"', "row 1 leaves out a balloon, and quads are tied"),
        ('letters = "I"\nkind = "quad"\nground = "none"', "quads are tied whole"),
        ('pattern = "bands"\nkind = "quad"\nmesh = "staggered"', "quads lie on a square mesh"),
        ('letters = "MIAMIA"', None),
        ('letters = "MIAMIAMIAMIA"\nfill = "10in"', "does not go on 13 x 9 balloons"),
        ('letters = "mia"', "capital letters, numerals"),
        ('letters = "I"\ncolours = "Q"', "'Q' in 'colours' is not among the colours"),
        ('letters = "I"\nground = "Q"', "'Q' in 'ground' is not among the colours"),
        ('pattern = "bands"\norder = "AQ"', "'Q' in 'order' is not among the colours"),
        ('pattern = "bands"\nground = "A"', "has both 'ground' and 'pattern'"),
        ('pattern = "bands"\nhigh = "1ft"', "'high' goes with 'letters'; take it out"),
        ('letters = "I"\neach = 2', "'each' goes with 'pattern'"),
        ('pattern = "bands"\ncolours = "A"', "'colours' goes with 'letters' or 'picture'"),
        ('pattern = "band"', "did you mean 'bands'?"),
        ('pattern = "bands"\nfill = "2in"\nsize = "2in"', None),
        ('pattern = "bands"\nfill = "2cm"\nsize = "11in"', "far too little for a balloon"),
        ('pattern = "bands"\nstrokes = 3\nfill = "9in"', "both 'strokes' and 'fill'"),
        ('picture = "a.png"', "cannot be looked for"),
    ],
)  # fmt: skip
def test_what_a_wall_cannot_be_is_told(wall: str, says: str | None) -> None:
    if says is None:
        if "letters" in wall:
            wall += '\nfill = "4in"\nsize = "5in"'
        assert read(wall).wall is not None
    else:
        assert says in told(wall)


def test_a_wall_and_its_frame_go_together() -> None:
    assert "w.toml:4: [wall] needs a frame that is a wall, and this one is of kind 'ring'" in told(
        'pattern = "bands"', "[frame]\nkind = 'ring'\n"
    )
    with pytest.raises(FaultsFound, match="the frame is a wall, and the file has no"):
        design_from_text(HEAD + FRAME + '[[section]]\nat = "12"\nclusters = [{}]\n', "w.toml")
    panel = told('pattern = "bands"\n[panel]\nnumerals = "3"\nheight = "9in"\n')
    assert "a wall has no 'panel'; take it out, and write letters" in panel
    assert "a wall has no 'section'" in told(
        'pattern = "bands"\n[[section]]\nat = "12"\nclusters = [{}]\n'
    )
    assert "a wall has no 'outside'; take it out" in told(
        'pattern = "bands"', FRAME + 'outside = "3ft"\n'
    )


def test_a_wall_too_large_is_refused_before_it_is_made() -> None:
    huge = '[frame]\nkind = "wall"\nwidth = "100ft"\nheight = "100ft"\n'
    said = told('size = "5in"\nfill = "4in"\npattern = "bands"', huge)
    assert "balloons of 4 in; a wall takes at most 20,000" in said


@pytest.mark.parametrize(
    ("rows", "which", "breaks"),
    [
        (["ABA"], "left/right", 0),
        (["ABB"], "left/right", 2),
        (["AB", "AB"], "top/bottom", 0),
        (["AB", "BB"], "top/bottom", 2),
        (["ABA", "BB", "ABA"], "top/bottom", 0),
        (["AB", "B"], "top/bottom", 3),
    ],
)
def test_a_mirror_finds_each_cell_that_breaks_it(rows: list[str], which: str, breaks: int) -> None:
    assert len(mirrored(rows, which)) == breaks


def test_runs_say_a_row() -> None:
    assert "".join(letter * count for letter, count in runs("AABBBA.A")) == "AABBBA.A"
    assert runs("") == []
