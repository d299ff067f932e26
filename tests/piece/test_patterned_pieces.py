"""Patterns in whole pieces: clusters without colours are dealt theirs, and breaks are told."""

from __future__ import annotations

import pytest

from mockup.design.model import Design
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.patterning import evenest
from mockup.piece.placed import Piece

WHOLE = 'whole = true\nclusters = [{ fill = "100mm" }]\n'


def design(section: str, frame: str = 'kind = "pole"\nheight = "6ft"') -> Design:
    text = (
        'title = "P"\ncolours = { A = "oat", B = "brass", C = "deep teal" }\n'
        f"[frame]\n{frame}\n[[section]]\n{section}\n"
    )
    return design_from_text(text, "p.toml")


def judged(piece: Piece) -> Finding:
    return next(f for f in find_all(piece) if f.name == "pattern")


@pytest.mark.parametrize("pattern", ["rows", "spiral", "bands", "blocks", "diamond", "gradual"])
def test_a_pattern_colours_the_clusters_and_holds(pattern: str) -> None:
    piece = assemble(design(f'{WHOLE}at = "0%"\norder = "AB"\npattern = "{pattern}"'))
    assert judged(piece).verdict == "holds"
    assert {b.letter for b in piece.balloons} == {"A", "B"}
    assert "alternation" not in {f.name for f in find_all(piece)}


def test_a_cluster_coloured_by_hand_is_judged_and_told_what_is_wanted() -> None:
    clusters = '[{ fill = "4in" }, { fill = "4in", colours = "AABB" }, { fill = "4in" }]'
    piece = assemble(
        design(
            f'at = "1/2"\nkind = "quad"\npattern = "spiral"\norder = "AB"\nclusters = {clusters}'
        )
    )
    told = judged(piece)
    assert told.verdict == "fails"
    assert "wants" in told.says
    assert told.remedy.startswith("make it ")


def test_a_spiral_keeps_its_colours_out_of_the_mirror() -> None:
    arch = 'kind = "arch"\nwidth = "6ft"\nheight = "6ft"'
    piece = assemble(
        design(
            WHOLE + 'at = "12"\nkind = "trio"\npattern = "spiral"',
            arch,
        )
    )
    mirror = next(f for f in find_all(piece) if f.name == "mirror left/right")
    assert mirror.verdict == "holds"
    assert mirror.says.startswith("Left mirrors right in places and sizes; the colours wind on")


@pytest.mark.parametrize(
    ("count", "verdict"), [(24, "holds"), (26, "fails"), (28, "fails"), (32, "holds")]
)
def test_a_spiral_round_a_ring_must_meet_itself(count: int, verdict: str) -> None:
    """Four colours on quads wind by an eighth a cluster: the count is a multiple of eight."""
    text = f'{WHOLE}at = "12"\ncount = {count}\norder = "ABAC"\npattern = "spiral"'
    piece = assemble(design(text, f'outside = "{count * 72 / 3.14159 + 13:.0f}mm"'))
    assert judged(piece).verdict == verdict


@pytest.mark.parametrize(
    ("section", "says"),
    [
        ('pattern = "spiral"', "3 colours do not come out even round a quad"),
        ('pattern = "rows"\norder = "AB"\nstarts = 3', "2 colours 3 times do not come out even"),
        ('pattern = "spiral"\norder = "AD"', "'D' in 'order' is not among the colours"),
        ('order = "AB"', "'order' does not go with the pattern 'alternate'"),
        ('pattern = "bands"\nhand = "left"', "'hand' does not go with the pattern 'bands'"),
        ('pattern = "stripes"', "cannot be 'stripes'"),
    ],
)
def test_a_pattern_that_cannot_be_is_told(section: str, says: str) -> None:
    with pytest.raises(FaultsFound) as found:
        design(f'at = "0%"\nwhole = true\n{section}\nclusters = [{{ fill = "4in" }}]')
    assert says in str(found.value)


def test_a_gradual_change_without_an_order_steps_as_evenly_as_the_colours_allow() -> None:
    greys = {"A": "#ffffff", "B": "#202020", "C": "#b0b0b0", "D": "#686868"}
    table = ", ".join(f'{k} = {{ name = "{k}", srgb = "{v}" }}' for k, v in greys.items())
    text = f'title = "P"\ncolours = {{ {table} }}\n[[section]]\nat = "12"\nclusters = [{{}}]\n'
    assert evenest(design_from_text(text, "p.toml"), "ABCD") == "ACDB"
