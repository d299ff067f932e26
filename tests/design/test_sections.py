"""Sections, their clusters, sides, turns, colours and caps."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.clusters import usual_letters
from mockup.design.model import KIND_COUNTS, ClusterSpec, SectionSpec
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.symmetry.alternation import ClusterColours, alternation_breaks

HEAD = 'title = "Ruby"\ncolours = { A = "deep teal", B = "oat", C = "brass" }\n'


def section(body: str, head: str = HEAD) -> SectionSpec:
    return design_from_text(f'{head}[[section]]\nat = "12"\n{body}', "ruby.toml").sections[0]


def faults(body: str, head: str = HEAD) -> list[str]:
    with pytest.raises(FaultsFound) as told:
        section(body, head)
    return [str(fault) for fault in told.value.faults]


def middle(body: str) -> ClusterSpec:
    spec = section(body).middle
    assert spec is not None
    return spec


def strokes(specs: tuple[ClusterSpec, ...]) -> list[float | None]:
    return [spec.strokes for spec in specs]


def test_clusters_are_listed_from_the_middle_outward_on_both_sides() -> None:
    found = section("clusters = [{ strokes = 4 }, { strokes = 3, times = 2 }, { strokes = 2 }]")
    assert found.middle is not None
    assert found.middle.strokes == 4
    assert strokes(found.right) == [3, 3, 2]
    assert found.left == found.right


def test_without_a_middle_the_first_cluster_is_the_first_of_each_side() -> None:
    found = section("middle = false\nclusters = [{ strokes = 4 }, { strokes = 3 }]")
    assert found.middle is None
    assert strokes(found.right) == strokes(found.left) == [4, 3]
    assert found.right[0].turn_deg is None


def test_the_left_side_may_be_another() -> None:
    found = section("clusters = [{ strokes = 4 }, { strokes = 3 }]\nleft = [{ strokes = 1 }]")
    assert (strokes(found.right), strokes(found.left)) == ([3], [1])
    assert found.left[0].path == ("section", 0, "left", 0)


def test_a_repeated_first_cluster_goes_on_to_the_sides() -> None:
    found = section("clusters = [{ strokes = 4, times = 3 }]")
    assert found.middle is not None
    assert strokes(found.right) == [4, 4]


def test_a_cluster_takes_from_its_section_and_that_from_the_file_what_it_leaves_out() -> None:
    head = 'kind = "trio"\nsize = "11in"\n' + HEAD
    own = 'clusters = [{ kind = "quad", size = "5in", fill = "4in", colours = "AC" }]'
    found = section('kind = "pair"\nstrokes = 3\n' + own, head).middle
    assert found is not None
    assert (found.kind, found.nominal, found.diameter, found.letters) == (
        "quad", 127.0, 101.6, "ACAC",
    )  # fmt: skip
    assert found.strokes is None
    left_out = section('kind = "pair"\nstrokes = 30\ncolours = "C"\nclusters = [{}]', head).middle
    assert left_out is not None
    assert left_out.nominal == pytest.approx(279.4)
    assert (left_out.kind, left_out.strokes, left_out.letters) == ("pair", 30, "CC")
    assert section("clusters = [{}]", head).right == ()


@pytest.mark.parametrize(
    ("kind", "turn", "degrees"),
    [
        ("quad", '"valley in"', 45), ("quad", '"point in"', 0), ("quad", "30", 30),
        ("quad", "-30", 330), ("quad", "22.5", 22.5), ("trio", '"point in"', 60),
        ("trio", '"valley in"', 0), ("pair", '"valley in"', 90), ("pair", '"point in"', 0),
        ("five", '"point in"', 36), ("single", '"point in"', 180),
    ],
)  # fmt: skip
def test_a_turn_is_a_word_or_an_angle(kind: str, turn: str, degrees: float) -> None:
    assert middle(f'clusters = [{{ kind = "{kind}", turn = {turn}, colours = "A" }}]').turn_deg == (
        degrees
    )


def test_the_middle_cluster_is_valley_in_and_the_others_nestle() -> None:
    found = section("clusters = [{ strokes = 3 }, { strokes = 2, times = 2 }]")
    assert found.middle is not None
    assert found.middle.turn_deg == 45
    assert [spec.turn_deg for spec in found.right] == [None, None]


def test_a_sections_turn_is_that_of_its_first_cluster_only() -> None:
    found = section('turn = "point in"\nclusters = [{ times = 3 }]')
    assert found.middle is not None
    assert found.middle.turn_deg == 0
    assert [spec.turn_deg for spec in found.right] == [None, None]
    sides = section('turn = "point in"\nmiddle = false\nclusters = [{ times = 2 }]')
    assert [spec.turn_deg for spec in sides.right] == [0, None]


def test_of_several_alike_only_the_first_is_turned_by_hand() -> None:
    found = section('clusters = [{}, { turn = "point in", times = 3 }]')
    assert [spec.turn_deg for spec in found.right] == [0, None, None]


def test_end_caps_are_half_the_strokes_of_the_last_cluster_in_its_first_colour() -> None:
    found = section('end_cap = true\nclusters = [{ strokes = 4 }, { strokes = 2, colours = "CB" }]')
    assert found.end_right == found.end_left
    cap = found.end_right
    assert cap is not None
    assert (cap.kind, cap.strokes, cap.letters, cap.nominal) == ("pair", 1, "CC", 127.0)
    assert cap.path == ("section", 0, "end_cap")
    assert cap.turn_deg is None


def test_end_caps_are_half_the_volume_where_a_diameter_was_given() -> None:
    cap = section('end_cap = true\nclusters = [{ fill = "4in" }]').end_right
    assert cap is not None
    assert cap.strokes is None
    assert (cap.diameter / 101.6) ** 3 == pytest.approx(0.5)


def test_end_caps_may_say_everything_themselves() -> None:
    written = 'end_cap = { kind = "trio", size = "9in", fill = "6in", colours = "C" }'
    cap = section(written + "\nclusters = [{ strokes = 3 }]").end_left
    assert cap is not None
    assert (cap.kind, cap.letters) == ("trio", "CCC")
    assert cap.diameter == pytest.approx(152.4)
    assert cap.nominal == pytest.approx(228.6)


def test_each_side_has_the_cap_of_its_own_last_cluster() -> None:
    found = section("end_cap = true\nclusters = [{}, { strokes = 3 }]\nleft = [{ strokes = 2 }]")
    assert found.end_right is not None
    assert found.end_left is not None
    assert (found.end_right.strokes, found.end_left.strokes) == (1.5, 1)


def test_no_cap_unless_asked_for() -> None:
    assert section("clusters = [{}]").end_right is None
    assert section("end_cap = false\nclusters = [{}]").end_left is None


def test_a_whole_ring_repeats_its_clusters_and_lets_them_nestle() -> None:
    found = section("whole = true\ncount = 24\nclusters = [{ strokes = 3 }, { strokes = 2 }]")
    assert (found.whole, found.whole_count, found.name) == (True, 24, "ring")
    assert found.middle is not None
    assert found.middle.turn_deg is None
    assert strokes(found.right) == [2]
    assert section("whole = true\nclusters = [{}]").whole_count is None


@pytest.mark.parametrize(
    ("kind", "colours", "letters"),
    [
        ("quad", "ABCA", "ABCA"), ("quad", "AB", "ABAB"), ("quad", "C", "CCCC"),
        ("trio", "ABC", "ABC"), ("trio", "B", "BBB"), ("pair", "AB", "AB"), ("single", "C", "C"),
        ("five", "ABCBA", "ABCBA"), ("five", "A", "AAAAA"),
    ],
)  # fmt: skip
def test_letters_repeat_where_they_divide_the_cluster(
    kind: str, colours: str, letters: str
) -> None:
    assert middle(f'clusters = [{{ kind = "{kind}", colours = "{colours}" }}]').letters == letters


@pytest.mark.parametrize(
    ("kind", "colours", "needed"),
    [
        ("quad", "ABC", "a quad takes 4 letters, or 1 or 2 that repeat"),
        ("quad", "ABCAB", "a quad takes 4 letters, or 1 or 2 that repeat"),
        ("trio", "AB", "a trio takes 3 letters, or 1 that repeats"),
        ("pair", "ABC", "a pair takes 2 letters, or 1 that repeats"),
        ("single", "AB", "a single takes 1 letter"),
        ("five", "AB", "a five takes 5 letters, or 1 that repeats"),
    ],
)
def test_letters_of_a_wrong_count_say_the_right_one(kind: str, colours: str, needed: str) -> None:
    (said,) = faults(f'clusters = [{{ kind = "{kind}", colours = "{colours}" }}]')
    count = len(colours)
    assert said == f"ruby.toml:5: '{colours}' has {count} letters for a {kind}; {needed}"


def test_a_wrong_letter_of_the_section_is_told_once_at_its_line() -> None:
    assert faults('colours = "AZ"\nclusters = [{}, {}, {}]') == [
        "ruby.toml:5: 'Z' in 'AZ' is not among the colours; add Z to [colours], or use A, B, C"
    ]


def test_colours_alternate_where_the_file_names_none() -> None:
    assert middle("clusters = [{}]").letters == "ABAB"
    assert middle('clusters = [{ kind = "trio" }]').letters == "AAA"
    one = section("clusters = [{}]", 'title = "R"\ncolours = { D = "oat" }\n').middle
    assert one is not None
    assert one.letters == "DDDD"


@given(st.sampled_from(sorted(KIND_COUNTS)), st.integers(1, 8))
def test_the_usual_colours_alternate_by_the_rules_of_the_checks(kind: str, steps: int) -> None:
    """The alternation check itself has nothing to say about a run of usual colours."""
    count = KIND_COUNTS[kind]
    run = [
        ClusterColours(
            letters=usual_letters(count, step, ("A", "B")),
            phis_deg=tuple(360.0 * k / count + 180.0 / count * step for k in range(count)),
            step=step,
            side="right",
            section="top",
            plain=count % 2 == 1,
            index=step,
        )
        for step in range(steps)
    ]
    assert alternation_breaks(run) == []


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (
            'clusters = [{ strokes = 13 }]',
            "ruby.toml:5: 13 strokes fill to 6 5/8 in, far too much for a balloon of nominal size "
            "5 in; fill it less, or take another size",
        ),
        (
            'clusters = [{ size = "9in", fill = "1/2in" }]',
            "ruby.toml:5: a fill of 1/2 in, far too little for a balloon of nominal size 9 in; "
            "fill it more, or take another size",
        ),
        (
            'clusters = [{}]\nend_cap = { size = "2in", strokes = 4 }',
            "ruby.toml:6: 4 strokes fill to 4 1/2 in, far too much for a balloon of nominal size "
            "2 in; fill it less, or take another size",
        ),
    ],
)  # fmt: skip
def test_a_fill_no_balloon_can_have_is_told(body: str, said: str) -> None:
    assert faults(body) == [said]


@pytest.mark.parametrize(
    "fill", ["strokes = 7.5", 'fill = "6 1/2in"', 'fill = "1/2in"', "strokes = 0.25"]
)
def test_a_fill_that_is_only_unwise_is_left_to_the_checks(fill: str) -> None:
    assert middle(f"clusters = [{{ {fill} }}]").diameter > 0


@pytest.mark.parametrize("caps", ["", "end_cap = false"])
def test_caps_that_are_not_asked_for_are_not_counted(caps: str) -> None:
    text = (
        'title = "Long"\ncolours = { A = "oat" }\nframe = { outside = "40ft" }\n[[section]]\n'
        f'at = "12"\nmiddle = false\n{caps}\nclusters = [{{ strokes = 1, times = 1000 }}]\n'
    )
    (section,) = design_from_text(text, "long.toml").sections
    assert len(section.right) + len(section.left) == 2000
