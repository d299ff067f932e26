"""Each finding holds where it should, fails where it should, and its remedy mends it."""

from __future__ import annotations

import re

import pytest

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all

GOOD = """title = "Law"
[frame]
outside = "30in"
[stand]
[colours]
A = "deep teal"
B = "oat"
C = "night tide"
[[section]]
at = "12"
colours = "ABAB"
clusters = [{ strokes = 3 }, { strokes = 3 }, { strokes = 2 }]
end_cap = { strokes = 1, colours = "C" }
[[section]]
at = "6"
colours = "ABAB"
clusters = [{ strokes = 3 }, { strokes = 3 }, { strokes = 2 }]
end_cap = { strokes = 1, colours = "C" }
[panel]
numerals = "30"
height = "14in"
"""

SECOND = "{ strokes = 3 }, { strokes = 2 }"
TURNED = '{ strokes = 3, colours = "BABA" }, { strokes = 2 }'


def found(text: str) -> dict[str, Finding]:
    return {f.name: f for f in find_all(assemble(design_from_text(text, "law.toml")))}


def changed(old: str, new: str) -> str:
    assert old in GOOD
    return GOOD.replace(old, new, 1)


def test_a_good_piece_holds_everywhere() -> None:
    verdicts = {name: f.verdict for name, f in found(GOOD).items()}
    assert set(verdicts.values()) == {"holds"}, verdicts


def test_every_finding_says_one_sentence_and_mends_only_what_fails() -> None:
    for finding in found(GOOD).values():
        assert re.fullmatch(r"[A-Z].*\.", finding.says), finding.says
        assert finding.remedy == ""


@pytest.mark.parametrize(
    ("name", "verdict", "bad", "says"),
    [
        ("nestle", "fails", changed('"30in"', '"16in"'), "crowd"),
        ("fill", "fails", changed("strokes = 3", "strokes = 5"), "pear-shaped"),
        ("fill", "look", changed("strokes = 1,", "strokes = 0.5,"), "floppy neck"),
        ("numerals fit", "fails", changed('"14in"', '"34in"'), "29 7/8 in tall"),
        ("doorway", "look", changed('"30in"', '"7ft"'), "does not pass"),
        ("off the floor", "fails", changed("[stand]", '[stand]\nrise = "1in"'), "below"),
        (
            "colours told apart",
            "fails",
            changed('C = "night tide"', 'C = { name = "other teal", srgb = "#1f6f76" }'),
            "look alike",
        ),
        (
            "end caps",
            "look",
            changed('colours = "C" }', 'colours = "C", turn = 0 }'),
            "off the end",
        ),
        (
            "mirror left/right",
            "fails",
            changed('at = "12"', 'at = "12"\nleft = [{ strokes = 3 }, { strokes = 1.5 }]'),
            "mirror",
        ),
        (
            "mirror top/bottom",
            "fails",
            GOOD.replace(SECOND, TURNED, 1),
            "second cluster",
        ),
        (
            "alternation",
            "fails",
            GOOD.replace("[{ strokes = 3 },", '[{ strokes = 3, colours = "AABB" },'),
            "beside it",
        ),
    ],
)  # fmt: skip
def test_what_is_wrong_is_found(name: str, verdict: str, bad: str, says: str) -> None:
    finding = found(bad)[name]
    assert finding.verdict == verdict, finding
    assert says in finding.says, finding.says
    assert finding.remedy


@pytest.mark.parametrize(
    ("height", "doorway", "says"),
    [
        ("6ft", '["32in", "80in"]', "it passes a doorway of 32 in x 80 in."),
        ("8ft", '["32in", "80in"]', "it passes a doorway of 32 in x 80 in laid on its side."),
        ("5ft", '["20in", "80in"]', "it does not pass"),
    ],
)
def test_how_a_column_passes_its_doorway(height: str, doorway: str, says: str) -> None:
    text = f"""title = "A column"
size = "11in"
frame = {{ kind = "pole", height = "{height}" }}
limits = {{ doorway = {doorway} }}
colours = {{ A = "oat" }}
[[section]]
at = "8in"
toward = "up"
whole = true
clusters = [{{ fill = "9in" }}]
"""
    assert says in found(text)["doorway"].says


def test_the_remedy_of_a_turned_cluster_mends_it() -> None:
    bad = GOOD.replace(SECOND, TURNED, 1)
    said = r"turn the (top|bottom) section's second cluster on both sides by one place"
    assert re.match(said, found(bad)["mirror top/bottom"].remedy)
    mended = bad.replace('colours = "BABA"', 'colours = "ABAB"')
    assert found(mended)["mirror top/bottom"].verdict == "holds"


def test_the_remedy_of_a_broken_alternation_mends_it() -> None:
    bad = GOOD.replace("[{ strokes = 3 },", '[{ strokes = 3, colours = "AABB" },')
    remedy = found(bad)["alternation"].remedy
    assert "middle cluster" in remedy
    assert "swap" in remedy


def test_too_tall_numerals_name_the_largest_that_fit() -> None:
    finding = found(changed('"14in"', '"34in"'))["numerals fit"]
    named = re.search(r"named about ([\d /]+) in", finding.remedy)
    assert named
    mended = found(changed('"14in"', f'"{int(named[1].split()[0])}in"'))["numerals fit"]
    assert mended.verdict == "holds"


def test_crescents_that_differ_in_length_are_told_and_hold() -> None:
    longer = GOOD.replace("{ strokes = 2 }]", "{ strokes = 2 }, { strokes = 2 }]", 1)
    finding = found(longer)["mirror top/bottom"]
    assert finding.verdict == "holds"
    assert finding.says == (
        "Top and bottom are alike as far as the shorter goes: the last 4 clusters of the top have "
        "no partner."
    )
    # It speaks of what is left over at each side: a quad and the end cap that closes it.
    assert len(finding.balloons) == 2 * (4 + 2)


def test_a_piece_without_numerals_says_nothing_of_them() -> None:
    assert "numerals fit" not in found(GOOD[: GOOD.index("[panel]")])


def test_limits_can_be_edited() -> None:
    strict = found(GOOD + '[limits]\ncrossing = "1%"\nswing = 3\n')
    assert strict["nestle"].verdict == "fails"
    assert strict["swing"].verdict == "fails"


def test_a_whole_ring_says_how_it_closes() -> None:
    ring = GOOD[: GOOD.index("[[section]]")] + (
        '[[section]]\nat = "12"\nwhole = true\ncolours = "AB"\nclusters = [{ strokes = 3 }]\n'
    )
    finding = found(ring)["closing"]
    assert finding.verdict == "holds"
    assert finding.measured == pytest.approx(10.0, abs=3.0)
    tight = found(ring.replace("whole = true", "whole = true\ncount = 40"))["closing"]
    assert tight.verdict == "fails"
    assert "two fewer" in tight.remedy


def test_a_turn_on_a_whole_ring_counts_once() -> None:
    ring = GOOD[: GOOD.index("[[section]]")] + (
        '[[section]]\nat = "12"\nwhole = true\ncolours = "AB"\n'
        'clusters = [{ strokes = 3, turn = "point in" }]\n'
    )
    piece = assemble(design_from_text(ring, "law.toml"))
    turns = {round(c.turn_deg % 90) for c in piece.clusters}
    assert turns == {0, 45}
    assert found(ring)["nestle"].verdict == "holds"


def test_mirror_beside_gloss_asks_for_a_look_in_grey_though_the_swatches_differ() -> None:
    finding = found(changed('C = "night tide"', 'C = "brass"'))["colours told apart"]
    assert finding.verdict == "look"
    assert finding.limit is not None
    assert finding.measured is not None
    assert 10 < finding.measured < finding.limit
    assert "deep teal (A) and brass (C) look alike in a grey print, where" in finding.says
    assert "letters on the balloons" in finding.remedy


def test_its_shading_is_what_hides_it() -> None:
    matte = changed('C = "night tide"', 'C = { colour = "brass", finish = "matte" }')
    plain = matte.replace('"deep teal"', '{ colour = "deep teal", finish = "matte" }', 1)
    assert found(plain)["colours told apart"].verdict == "holds"
