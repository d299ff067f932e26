"""Garlands in whole pieces: read, grown, judged, bought, and cut into stretches to tie."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.model import Design
from mockup.design.reading import design_from_text, read_design
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.changes import changes
from mockup.piece.code import content
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.stock.picking import pick

HEAD = (
    'title = "G"\nunit = "cm"\n'
    'colours = { A = "oat", B = "brass", C = "deep teal", D = "rope", E = "sea glass" }\n'
)
RECIPE = (
    'recipe = [{ size = "11in", fill = "24cm", share = "40%" }, '
    '{ size = "5in", fill = "10cm", share = "60%" }]\n'
)
ARC = '[frame]\nkind = "arc"\noutside = "1.6m"\n'


def design(garland: str, more: str = "") -> Design:
    return design_from_text(f"{HEAD}{ARC}{more}[[garland]]\n{garland}", "g.toml")


@pytest.fixture(scope="module")
def piece() -> Piece:
    return assemble(design(RECIPE + 'width = "45cm"\n'))


def test_a_file_with_a_garland_needs_no_section_and_says_what_it_takes(piece: Piece) -> None:
    findings = {f.name: f for f in find_all(piece)}
    assert findings["coverage"].verdict == "holds"
    assert findings["colours apart"].verdict == "holds"
    assert findings["balance"].verdict == "holds"
    assert findings["garland"].measured == len(piece.balloons)
    assert "to metre" in findings["garland"].says
    assert not {"swing", "alternation", "mirror left/right"} & set(findings)


def test_stretches_of_a_metre_name_what_is_tied_in_order_large_ones_first(piece: Piece) -> None:
    names = list(dict.fromkeys(c.section for c in piece.clusters))
    assert names[0] == "garland, 0.0 cm to 100.0 cm"
    assert len(names) == 3
    for name in names:
        own = [c for c in piece.clusters if c.section == name]
        assert [c.step for c in own] == list(range(1, len(own) + 1))
        assert [c.diameter for c in own] == sorted((c.diameter for c in own), reverse=True)
    assert piece.cluster_words(0) == "garland, 0.0 cm to 100.0 cm, no. 1"
    assert len({b.id for b in piece.balloons}) == len(piece.balloons)


def test_what_is_bought_is_what_is_placed(piece: Piece) -> None:
    needs = pick([(piece.design, 2)]).needs
    assert sum(need.count for need in needs) == 2 * len(piece.balloons)


def test_placed_balloons_stay_where_they_were_grown(piece: Piece) -> None:
    moved = [
        abs(a - b) for one in piece.balloons for a, b in zip(one.centre, one.placed, strict=True)
    ]
    assert max(moved) < 1.0


def test_a_garland_and_a_section_share_a_frame() -> None:
    section = '[[section]]\nat = "2"\nclusters = [{ fill = "10cm" }]\n'
    both = assemble(design(RECIPE + 'to = "12"\nwidth = "40cm"\n', section))
    assert {c.loose for c in both.clusters} == {True, False}


@pytest.mark.parametrize(
    ("garland", "says"),
    [
        ('recipe = [{ size = "5in", share = "60%" }]\n', "the shares of the recipe come to 60 %"),
        (RECIPE + 'colours = "AZ"\n', "'Z' in 'colours' is not among"),
        (RECIPE + 'width = "1in"\n', "'width' is '1in'"),
        ('width = "40cm"\n', "a garland has no 'recipe'"),
        (RECIPE + "[[garland]]\n" + RECIPE, "two garlands are called 'garland'"),
    ],
)
def test_a_garland_that_cannot_be_is_told(garland: str, says: str) -> None:
    with pytest.raises(FaultsFound) as found:
        design(garland)
    assert says in str(found.value)


def test_ends_the_wrong_way_round_are_told_at_the_garland() -> None:
    with pytest.raises(FaultsFound, match=r"g\.toml:\d+: a garland must end further along"):
        assemble(design(RECIPE + 'from = "2"\nto = "10"\n'))


def test_a_file_with_neither_is_refused() -> None:
    with pytest.raises(FaultsFound, match="the file has no 'section'"):
        design_from_text(HEAD, "g.toml")


def test_a_changed_garland_is_told_by_its_name() -> None:
    first, second = (content(design(RECIPE + more)) for more in ("", 'seed = 2\nwidth = "50cm"\n'))
    assert changes(first, second) == ["garland: another width and seed"]
    none = content(design_from_text(HEAD + '[[section]]\nat = "12"\nclusters = [{}]\n', "g.toml"))
    assert "garland: added" in changes(none, first)


def test_the_shares_reached_are_told_beside_those_asked_for() -> None:
    sample = Path(__file__).parents[2] / "samples" / "wren-garland.toml"
    piece = assemble(read_design(sample))
    (finding,) = (each for each in find_all(piece) if each.name == "garland")
    (garland,) = piece.design.garlands
    for portion in garland.recipe:
        count = sum(b.nominal == portion.nominal for b in piece.balloons)
        size = f"{round(portion.nominal / 25.4)} in"
        reached = f"{count / len(piece.balloons):.0%}, {portion.share:.0%} asked"
        assert f"{count} of {size} ({reached})" in finding.says
