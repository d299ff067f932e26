"""Clusters round the stand's pole: where they lie, what is said of them, and what cannot be."""

from __future__ import annotations

import re
from math import hypot, sqrt
from pathlib import Path

import pytest

from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.changes import changes
from mockup.piece.code import content
from mockup.piece.extent import floor, foot
from mockup.piece.findings import failing, find_all
from mockup.piece.layout import layout_data
from mockup.piece.placed import Piece
from mockup.stock.build_plan import placings
from mockup.worksheets.build_steps import distance_words

SAMPLE = (Path(__file__).parents[2] / "samples/quince-four.toml").read_text("utf-8")
PLATE, INCH = 8.0, 25.4


def piece_of(text: str = SAMPLE) -> Piece:
    return assemble(design_from_text(text, "quince.toml"))


def swapped(*pairs: tuple[str, str]) -> str:
    text = SAMPLE
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def faults_of(text: str) -> str:
    with pytest.raises(FaultsFound) as found:
        piece_of(text)
    return str(found.value)


@pytest.fixture(scope="module")
def piece() -> Piece:
    return piece_of()


def test_the_base_lies_round_the_pole_as_high_as_the_file_says(piece: Piece) -> None:
    """Four equal balls round a pole: their middles lie d / sqrt 2 from it (elementary geometry)."""
    own = [b for b in piece.balloons if b.section == "base"]
    stand = piece.design.stand
    assert stand is not None
    high = floor(piece.frame, stand) + PLATE + 3.25 * INCH
    assert len(own) == 4
    for ball in own:
        x, y, z = ball.placed
        assert hypot(x, z) == pytest.approx(ball.diameter / sqrt(2), rel=1e-6)
        assert y == pytest.approx(high)
        assert ball.centre[1] == pytest.approx(high)  # nothing presses it up or down
        assert ball.knot[0] == ball.knot[2] == 0.0
    assert {b.place for b in own} == {"left front", "right front", "left back", "right back"}


def test_the_pair_under_the_ring_is_under_it_left_and_right(piece: Piece) -> None:
    left, right = (b for b in piece.balloons if b.section == "under the ring")
    assert (left.place, right.place) == ("left", "right")
    assert left.centre[0] == pytest.approx(-right.centre[0])
    assert left.centre[0] < 0 < right.centre[0]
    assert left.centre[1] < foot(piece.frame)


def test_the_sample_holds_and_everything_counts(piece: Piece) -> None:
    assert not failing(find_all(piece))
    assert len(piece.balloons) == 4 + 6 * 4 + 2 * 2 + 4 + 2
    sections = {b["section"] for b in layout_data(piece)["balloons"]}
    assert {"base", "under the ring"} <= sections
    assert [one.first for one in placings(piece)][-2:] == ["left front", "left"]


def test_only_what_is_on_the_frame_is_held_against_its_mirror(piece: Piece) -> None:
    says = next(f.says for f in find_all(piece) if f.name == "mirror left/right")
    assert "the stand's pole has no left and right" in says


def test_a_column_up_the_pole_leaves_its_place_on_the_plate() -> None:
    up = swapped(
        ('at = "3 1/4in"', 'at = "0%"\nwhole = true\ntoward = "up"'),
        ('size = "11in", fill = "6 1/2in"', 'fill = "4in"'),
    )
    piece = piece_of(up)
    own = [c for c in piece.clusters if c.section == "base"]
    assert len(own) > 2
    assert {c.on for c in own} == {"stand"}
    assert piece.cluster_words(own[1].index).endswith("up")
    assert distance_words(own[0], "in").endswith(" up")
    measured = next(f.measured for f in find_all(piece) if f.name == "off the floor")
    assert measured is not None
    assert measured > 0


@pytest.mark.parametrize(
    ("pairs", "says"),
    [
        (
            [('[stand]\nrise = "14in"\nplate = "18in"\n', "")],
            r"the piece has no stand; write \[stand\] with rise",
        ),
        ([('at = "3 1/4in"', 'at = "6"')], r"pole has no 6 o'clock; write how far up"),
        ([('at = "3 1/4in"', 'at = "2in"')], r"1 1/4 in into the stand's base plate"),
        ([('at = "12 1/2in"', 'at = "15in"')], r"runs 1 3/8 in past the top of the stand's pole"),
        ([('at = "12 1/2in"', 'at = "4in"')], r"runs into section 'base'"),
        ([('rise = "14in"', 'rise = "0in"')], r"leaves no pole between its plate and the frame"),
        ([('on = "stand"   ', 'on = "stool"   ')], r"'on' cannot be 'stool'"),
        (
            [('at = "3 1/4in"', 'at = "3 1/4in"\ntoward = "left"')],
            r"a section on the stand's pole has no 'left'; write toward = \"up\" or \"down\"",
        ),
        (
            [
                ('outside = "30in"', 'kind = "arch"\nwidth = "5ft"\nheight = "6ft"'),
                ('[panel]\nnumerals = "4"\nheight = "20in"\ncolour = "C"\n', ""),
            ],
            r"stands on 2 poles, and a section goes round one",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_with_its_line(pairs: list[tuple[str, str]], says: str) -> None:
    told = faults_of(swapped(*pairs))
    assert re.search(says, told), told
    assert re.match(r"quince\.toml:\d+: ", told)


def test_too_short_a_pole_names_the_largest_that_works_and_it_works() -> None:
    lone = SAMPLE[: SAMPLE.index('[[section]]\nname = "under')]
    told = faults_of(lone.replace('rise = "14in"', 'rise = "3in"'))
    largest = re.search(r'fill its largest balloons to ([^"]+?in) at most', told)
    taller = re.search(r'rise = "([^"]+in)" or more', told)
    assert largest, told
    assert taller, told
    short = lone.replace('rise = "14in"', 'rise = "3in"')
    # Filled to that they fit on the pole; where they go on it is told next, or they go there.
    smaller = short.replace("6 1/2in", largest[1])
    between = re.search(r"write an 'at' (?:from )?\"([^\"]+)\"", faults_of(smaller))
    assert between
    assert piece_of(smaller.replace("3 1/4in", between[1]))
    assert piece_of(lone.replace('rise = "14in"', f'rise = "{taller[1]}"'))


def test_every_misplaced_section_is_mended_by_what_is_written_instead() -> None:
    for wrong in ("1in", "13 7/8in", "0%"):
        told = faults_of(swapped(('at = "12 1/2in"', f'at = "{wrong}"')))
        ends = re.findall(r"from \"([^\"]+)\" to \"([^\"]+)\"", told)
        assert ends, told
        assert piece_of(swapped(('at = "12 1/2in"', f'at = "{ends[0][1]}"')))


def test_where_it_is_tied_is_part_of_what_was_approved() -> None:
    on_the_pole = design_from_text(SAMPLE, "a.toml")
    on_the_ring = design_from_text(
        swapped(('on = "stand"\nat = "12 1/2in"', 'at = "12 1/2in"')), "b.toml"
    )
    said = changes(content(on_the_pole), content(on_the_ring))
    assert "under the ring section: was tied round the stand, is tied round the frame" in said
