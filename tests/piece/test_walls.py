"""Walls as whole pieces: placed, counted, judged, and read out row by row."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.design.model import ColourUse, Design, FrameSpec, Limits, WallSpec
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.code import content, proof_code
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.recalled import design_from_content
from mockup.piece.wall import row_lines
from mockup.stock.picking import pick

HEAD = 'title = "W"\nsize = "11in"\ncolours = { A = "oat", B = "brass", C = "deep teal" }\n'


TALL = "[frame]\nkind = 'wall'\nwidth = '10ft'\nheight = '7ft'\n"


def design(wall: str, more: str = "", frame: str = "") -> Design:
    return design_from_text(f"{HEAD}{more}{frame}[wall]\n{wall}\n", "w.toml")


def piece(wall: str, more: str = "", frame: str = "") -> Piece:
    return assemble(design(wall, more, frame))


def findings(wall: str, more: str = "", frame: str = "") -> dict[str, tuple[str, str]]:
    return {f.name: (f.verdict, f.says) for f in find_all(piece(wall, more, frame))}


COLOURS = {letter: ColourUse(letter, letter, "#808080", "matte") for letter in "ABC"}
row_maps = st.integers(1, 8).flatmap(
    lambda wide: st.lists(st.text("ABC.", min_size=wide, max_size=wide), min_size=1, max_size=6)
)


def of_rows(rows: list[str], squeeze: float = 0.1) -> Design:
    wall = WallSpec("single", 279.4, 228.6, None, staggered=False, rows=tuple(rows))
    frame = FrameSpec("wall", width=2000.0, height=1500.0)
    return Design("W", frame, (), COLOURS, wall=wall, limits=Limits(squeeze=squeeze))


@settings(max_examples=40, deadline=None)
@given(row_maps)
def test_every_letter_of_the_map_is_a_balloon_and_every_balloon_a_letter(rows: list[str]) -> None:
    """Counted again by hand from the text, from the placed balloons and from the buying list."""
    text = Counter("".join(rows).replace(".", ""))
    built = of_rows(rows)
    placed = assemble(built)
    assert Counter(b.letter for b in placed.balloons) == text
    assert {n.name: n.count for n in pick([(built, 1)]).needs} == dict(text)
    for balloon in placed.balloons:
        row, column = int(balloon.section.removeprefix("row ")), balloon.step
        assert rows[row - 1][column - 1] == balloon.letter


@settings(max_examples=25, deadline=None)
@given(row_maps)
def test_a_mirrored_map_gives_the_mirrored_wall(rows: list[str]) -> None:
    def spots(each: list[str], sign: float) -> set[tuple[float, float, str]]:
        return {
            (round(sign * b.centre[0], 6) + 0.0, round(b.centre[1], 6) + 0.0, b.letter)
            for b in assemble(of_rows(each)).balloons
        }

    assert spots(rows, 1.0) == spots([row[::-1] for row in rows], -1.0)


def test_the_first_row_is_the_top_one_and_the_first_column_the_left_one() -> None:
    placed = piece('rows = ["AB", "CC"]\nfill = "9in"')
    first = placed.balloons[0]
    assert first.letter == "A"
    assert first.centre[0] < 0 < first.centre[1]
    assert placed.balloon_words(1) == "balloon in row 1, column 2"


@pytest.mark.parametrize("mesh", ["square", "staggered"])
def test_pressed_balloons_are_a_squeeze_closer_than_wide(mesh: str) -> None:
    placed = piece(f'pattern = "bands"\nmesh = "{mesh}"\nfill = "9in"')
    spots = np.array([b.centre for b in placed.balloons])
    gaps = [float(np.linalg.norm(spots[a] - spots[b])) for a, b in placed.nestling.contacts]
    assert gaps == pytest.approx([0.9 * 228.6] * len(gaps))
    assert placed.nestling.crossing == pytest.approx(0.1)
    assert all(b.centre == b.placed for b in placed.balloons)


def test_a_quad_lies_two_by_two_round_its_knot_in_the_colours_of_its_cells() -> None:
    placed = piece('kind = "quad"\nfill = "9in"\nrows = ["ABAA", "CBAA"]')
    quad = placed.clusters[0]
    assert (quad.kind, quad.letters, len(placed.clusters)) == ("quad", "ABBC", 2)
    own = [placed.balloons[i] for i in quad.balloons]
    assert [b.place for b in own] == ["upper left", "upper right", "lower right", "lower left"]
    middle = np.mean([b.centre for b in own], axis=0)
    assert middle[:2] == pytest.approx(quad.knot[:2])
    assert own[0].centre[0] < own[1].centre[0]
    assert own[0].centre[1] > own[3].centre[1]
    assert placed.balloon_words(3) == "quad in row 1, column 1, lower left balloon"
    flat = piece('fill = "9in"\nrows = ["ABAA", "CBAA"]')
    same = {(*np.round(b.centre, 6), b.letter) for b in flat.balloons}
    assert {(*np.round(b.centre, 6), b.letter) for b in placed.balloons} == same


def test_what_a_wall_says_of_itself() -> None:
    said = findings('letters = "AI"\nfill = "9in"', frame=TALL)
    assert "singles on a square mesh, 8 1/8 in apart" in said["wall"][1]
    assert said["daylight"][0] == "look"
    assert said["doorway"][0] == "look"
    assert said["letters"][0] == "holds"
    assert not {"swing", "mirror left/right", "bare frame", "alternation"} & set(said)


def test_the_staggered_mesh_hides_what_the_square_one_shows() -> None:
    """The remedy that is told for daylight, carried out, mends it."""
    wall = 'pattern = "bands"\nfill = "9in"\n'
    open_, shut = (findings(wall + more)["daylight"] for more in ("", 'mesh = "staggered"'))
    assert (open_[0], shut[0]) == ("look", "holds")


def test_small_letters_are_told_and_a_frame_that_is_left_bare() -> None:
    small = findings('letters = "I"\nfill = "9in"\nhigh = "44in"')["letters"]
    assert small == ("look", "The letters I stand 5 balloons high, too few to be read with ease.")
    bare = findings('rows = ["AA", "AA"]\nfill = "9in"', frame=TALL)
    assert bare["wall edges"][0] == "look"
    assert findings('rows = ["AA", "AA"]\nfill = "9in"')["wall edges"][0] == "holds"


def test_a_doorway_is_passed_by_panels_that_pass_it() -> None:
    wall = 'pattern = "bands"\nfill = "9in"'
    found = {f.name: f for f in find_all(piece(wall, frame=TALL))}["doorway"]
    assert found.remedy.startswith("build it of 2 panels of 60 in x 84 in, carry each edge on")
    panel = "[frame]\nkind = 'wall'\nwidth = '60in'\nheight = '84in'\n"
    assert findings(wall, frame=panel)["doorway"][0] == "holds"


@pytest.mark.parametrize("which", ["left/right", "top/bottom"])
def test_mirrors_are_judged_where_they_are_meant(which: str) -> None:
    wish = f'mirror = ["{which}"]\n'
    name = f"mirror {which}"
    even, odd = 'rows = ["ABA", "CCC", "ABA"]', 'rows = ["AAB", "CCC", "ACA"]'
    assert findings(even, wish)[name][0] == "holds"
    assert findings(odd, wish)[name][0] == "fails"
    assert name not in findings(odd)


def test_a_wall_on_feet_is_judged_above_the_floor() -> None:
    stand = '[stand]\nrise = "1in"\n'
    said = findings('pattern = "bands"\nfill = "9in"', frame="[frame]\nkind = 'wall'\n" + stand)
    assert said["off the floor"][0] in ("holds", "fails")


def test_another_map_is_another_design_and_a_logged_one_is_drawn_again() -> None:
    one, two = (design(f'fill = "9in"\nrows = ["{row}"]') for row in ("ABA", "AAA"))
    assert proof_code(one) != proof_code(two)
    again = design_from_content(content(one))
    assert again.wall == replace(one.wall, path=("wall",)) if one.wall else False
    assert "wall" not in content(
        design_from_text(HEAD + '[[section]]\nat = "12"\nclusters = [{}]\n', "w.toml")
    )


def test_a_row_is_read_out_by_its_runs() -> None:
    lines = list(row_lines(*_with_wall(piece('rows = ["AAB", "CCC"]\nfill = "9in"'))))
    assert lines[0].startswith("W: 3 columns and 2 rows, 8 1/8 in from column to column")
    assert lines[1].split()[:2] == ["row", "1"]
    assert lines[1].endswith("AAB  2 A  1 B")


def _with_wall(placed: Piece) -> tuple[Piece, WallSpec]:
    assert placed.design.wall is not None
    return placed, placed.design.wall
