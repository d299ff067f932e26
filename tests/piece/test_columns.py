"""Columns: a base and a topper, one side only, doubled clusters, strands; and what is bought."""

from __future__ import annotations

from math import dist

import numpy as np
import pytest

from mockup.design.model import Design
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.stock.picking import pick

POLE = 'kind = "pole"\nheight = "2m"\ntube = "2cm"'


def design(sections: str, frame: str = POLE, more: str = "") -> Design:
    text = (
        f'title = "P"\ncolours = {{ A = "oat", B = "brass" }}\n[frame]\n{frame}\n{sections}\n{more}'
    )
    return design_from_text(text, "p.toml")


def column(clusters: str, more: str = "") -> Piece:
    return assemble(design(f'[[section]]\nat = "0%"\nwhole = true\n{clusters}', more=more))


@pytest.mark.parametrize(("count", "height"), [(2, 0.707107), (3, 0.816497), (4, 0.840896)])
def test_a_long_settled_column_without_squeeze_stays_the_antiprism(
    count: int, height: float
) -> None:
    """Heights of uniform antiprisms (Klitzing, Polytopes): pitch over diameter of hard spheres."""
    kind = {2: "pair", 3: "trio", 4: "quad"}[count]
    piece = column(
        f'kind = "{kind}"\nclusters = [{{ fill = "100mm" }}]', '[limits]\nsqueeze = "0%"'
    )
    inner = [c for c in piece.clusters if 4 <= c.step <= len(piece.clusters) - 4]
    middles = [np.mean([piece.balloons[i].centre for i in c.balloons], axis=0) for c in inner]
    pitch = float(np.mean(np.diff([m[1] for m in middles])))
    assert pitch / 100.0 == pytest.approx(height, rel=0.02)
    assert piece.nestling.crossing < 0.03


def test_counts_per_metre_are_those_of_packed_quads() -> None:
    """Common practice, no source: quads at 0.65-0.80 d, so 5-6.2 balloons a metre times 1/d."""
    piece = column('clusters = [{ fill = "100mm" }]')
    per_metre = len(piece.balloons) / (piece.frame.length / 1000.0)
    assert 4 / 0.80 * 10 * 0.95 <= per_metre <= 4 / 0.65 * 10


def test_a_topper_rests_on_the_pole_and_is_bought() -> None:
    asked = design(
        '[[section]]\nat = "50%"\nclusters = [{ fill = "100mm" }]',
        more='[topper]\nsize = "36in"\nfill = "60cm"\ncolours = "B"\n',
    )
    piece = assemble(asked)
    top = piece.balloons[-1]
    assert (top.section, top.letter, piece.balloon_words(top.index)) == ("topper", "B", "topper")
    assert top.centre == pytest.approx((0.0, 1990.0 + 300.0, 0.0), abs=0.5)
    assert any(need.kind.size == 914.4 and need.count == 1 for need in pick([(asked, 1)]).needs)


def test_toward_keeps_a_section_on_one_side_of_its_mark() -> None:
    up, down = (
        assemble(
            design(
                f'[[section]]\nat = "50%"\ntoward = "{way}"\n'
                'clusters = [{ fill = "100mm", times = 4 }]'
            )
        )
        for way in ("up", "down")
    )
    assert [round(c.along) for c in up.clusters] == [0, 72, 144, 216]
    assert [round(c.along) for c in down.clusters] == [0, -72, -144, -216]
    assert "cluster up" in up.cluster_words(2)
    with pytest.raises(FaultsFound, match="has no 'right'"):
        design('[[section]]\nat = "50%"\ntoward = "right"\nclusters = [{}]')
    with pytest.raises(FaultsFound, match="has no 'up'"):
        design('[[section]]\nat = "12"\ntoward = "up"\nclusters = [{}]', frame="")


def test_a_doubled_cluster_sets_small_balloons_in_the_valleys_of_the_large() -> None:
    asked = design(
        '[[section]]\nat = "50%"\nsize = "11in"\n'
        'clusters = [{ fill = "25cm", double = { size = "5in", fill = "10cm", colours = "B" } }]'
    )
    piece = assemble(asked)
    large, small = piece.clusters
    assert (len(large.balloons), len(small.balloons), small.after) == (4, 4, 4)
    assert len({b.id for b in piece.balloons}) == 8
    assert "second ring" in piece.balloon_words(small.balloons[0])
    for index in small.balloons:
        near = sorted(
            dist(piece.balloons[index].placed, piece.balloons[k].placed) for k in large.balloons
        )
        assert near[:2] == pytest.approx([0.9 * 175.0] * 2)
    assert sum(need.count for need in pick([(asked, 1)]).needs) == 8


def test_a_strand_of_singles_touches_at_the_squeeze() -> None:
    piece = column('kind = "single"\nclusters = [{ fill = "100mm" }]')
    knots = sorted(c.knot[1] for c in piece.clusters)
    assert np.diff(knots) == pytest.approx(90.0, rel=0.03)


def test_what_is_bought_has_the_colours_that_the_pattern_dealt() -> None:
    asked = design(
        '[[section]]\nat = "0%"\nwhole = true\npattern = "bands"\nclusters = [{ fill = "100mm" }]'
    )
    piece = assemble(asked)
    brass = sum(b.letter == "B" for b in piece.balloons)
    assert 0 < brass < len(piece.balloons)
    assert {n.kind.colour: n.count for n in pick([(asked, 1)]).needs}["brass"] == brass


def test_the_column_stands_and_keeps_its_checks() -> None:
    piece = column('clusters = [{ fill = "100mm" }]', '[stand]\nrise = "1in"')
    assert not [f.name for f in find_all(piece) if f.verdict == "fails"]
