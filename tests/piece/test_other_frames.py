"""Whole pieces on frames that are no rings: they settle, stand, and their bends are judged."""

from __future__ import annotations

from itertools import pairwise

import pytest

from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.packing.frames import frame_from
from mockup.piece.assemble import assemble
from mockup.piece.bends import tightest_bend
from mockup.piece.extent import feet
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.layout import layout_data
from mockup.piece.placed import Piece

QUADS = 'whole = true\nclusters = [{ fill = "4in", colours = "AB" }]\n'


def piece_of(frame: str, section: str, more: str = "") -> Piece:
    text = (
        f'title = "P"\ncolours = {{ A = "oat", B = "brass" }}\n[frame]\n{frame}\n{more}\n'
        f"[[section]]\n{section}"
    )
    return assemble(design_from_text(text, "p.toml"))


def finding(piece: Piece, name: str) -> Finding:
    return next(f for f in find_all(piece) if f.name == name)


KINDS = [
    'kind = "pole"\nheight = "5ft"',
    'kind = "arch"\nwidth = "5ft"\nheight = "6ft"\nlegs = "2ft"',
    'kind = "square"\noutside = "4ft"\ncorner = "14in"',
    'kind = "hexagon"\noutside = "4ft"\ncorner = "14in"',
    'kind = "heart"\nwidth = "5ft"\nheight = "5ft"\ncorner = "7in"',
    'kind = "spiral"\noutside = "6ft"\ninner = "2ft"\nturns = 1.5',
    'kind = "path"\nline = "M 0 0 C 50 -60 90 -60 140 0 S 230 60 280 0"\nunit = "1cm"',
]


@pytest.mark.parametrize("frame", KINDS)
def test_clusters_go_from_end_to_end_of_every_frame(frame: str) -> None:
    piece = piece_of(frame, 'at = "1/2"\n' + QUADS)
    knots = sorted(c.along for c in piece.clusters)
    gaps = [b - a for a, b in pairwise(knots)]
    assert min(gaps) > 0
    # Common practice, no source: packed quads sit at 0.65-0.80 of the balloon's diameter.
    assert 0.65 * 101.6 <= piece.frame.length / len(knots) <= 0.80 * 101.6
    covered = max(knots) - min(knots) + sum(gaps) / len(gaps)
    assert covered == pytest.approx(piece.frame.length, abs=101.6)
    assert layout_data(piece)["frame"]["kind"] == piece.frame.kind
    assert (
        "outside" in layout_data(piece)["frame"]
        or "arch heart pole path".find(piece.frame.kind) >= 0
    )


def test_five_metres_of_packed_arch_keep_the_trades_pitch() -> None:
    """Common practice, no source: 0.65-0.80 of the diameter from quad to quad."""
    frame = 'kind = "arch"\nwidth = "2m"\nheight = "2.04m"\nlegs = "60cm"'
    piece = piece_of(
        frame, 'at = "12"\nsize = "11in"\nwhole = true\nclusters = [{ fill = "25cm" }]\n'
    )
    assert piece.frame.length == pytest.approx(5000.0, rel=0.03)
    assert 0.65 <= piece.frame.length / len(piece.clusters) / 250.0 <= 0.80


def test_an_arch_filled_from_its_crown_is_mirrored_and_off_the_floor() -> None:
    frame = 'kind = "arch"\nwidth = "6ft"\nheight = "6ft"\nlegs = "2ft"'
    piece = piece_of(frame, 'at = "12"\n' + QUADS, '[stand]\nrise = "1in"')
    assert finding(piece, "mirror left/right").verdict == "holds"
    assert finding(piece, "off the floor").verdict == "holds"
    assert feet(piece.frame) == pytest.approx((-908.05, 908.05))
    assert piece.extent.x[0] <= -908.05 - 203.2


def test_a_frame_on_two_feet_stands_on_two_plates_and_a_ring_on_one() -> None:
    assert feet(frame_from("ring", outside=762.0, tube=12.0)) == (0.0,)
    assert feet(frame_from("square", outside=762.0, corner=50.0, tube=12.0)) == (0.0,)
    half = frame_from("arc", outside=762.0, tube=12.0, start_deg=270.0, end_deg=450.0)
    assert feet(half) == pytest.approx((-375.0, 375.0), abs=1.0)


def test_a_section_sits_at_its_length_along_the_frame() -> None:
    frame = 'kind = "pole"\nheight = "2m"\ntube = "2cm"'
    piece = piece_of(frame, 'at = "50cm"\nclusters = [{ fill = "4in" }]\n')
    assert piece.clusters[0].knot == pytest.approx((0.0, 510.0, 0.0))
    with pytest.raises(FaultsFound, match="runs off the end"):
        piece_of(frame, 'at = "3m"\nclusters = [{ fill = "4in" }]\n')


def test_a_bend_too_tight_is_named_and_the_largest_fill_that_is_told_works() -> None:
    frame = 'kind = "square"\noutside = "40in"\ncorner = "{}"'
    section = 'at = "12"\nwhole = true\nclusters = [{{ fill = "{}" }}]\n'
    tight = piece_of(frame.format("3in"), section.format("4in"))
    told = finding(tight, "bends")
    assert told.verdict == "fails"
    assert "radius 3 in" in told.says
    bend = tightest_bend(tight)
    assert bend is not None
    works = piece_of(frame.format("3in"), section.format(f"{bend.largest:.2f}mm"))
    assert finding(works, "bends").verdict == "holds"
    larger = piece_of(frame.format("3in"), section.format(f"{1.1 * bend.largest:.2f}mm"))
    assert finding(larger, "bends").verdict == "fails"
    assert (
        finding(piece_of(frame.format("18in"), section.format("4in")), "bends").verdict == "holds"
    )


def test_a_ring_has_no_finding_about_bends() -> None:
    piece = piece_of('outside = "30in"', 'at = "12"\nclusters = [{ fill = "4in" }]\n')
    assert "bends" not in {f.name for f in find_all(piece)}


def test_a_sharp_corner_is_a_bend_of_no_radius() -> None:
    frame = 'kind = "path"\nline = "M 0 0 H 100 V 100"\nunit = "1cm"'
    piece = piece_of(frame, 'at = "1/2"\n' + QUADS)
    told = finding(piece, "bends")
    assert told.verdict == "fails"
    assert "The corner 39 3/8 in along" in told.says


@pytest.mark.parametrize(
    ("line", "verdict"), [("M 0 0 H 200 V 100 H 100 V -100", "look"), ("M 0 0 H 200", "holds")]
)
def test_a_path_that_crosses_itself_is_allowed_and_said(line: str, verdict: str) -> None:
    frame = f'kind = "path"\nline = "{line}"\nunit = "1cm"'
    piece = piece_of(frame, 'at = "25cm"\nclusters = [{ fill = "4in" }]\n')
    assert finding(piece, "path").verdict == verdict


def test_a_path_that_cannot_be_bent_is_told_at_its_line() -> None:
    with pytest.raises(FaultsFound, match=r"p\.toml:3: the path doubles back"):
        piece_of('kind = "path"\nline = "M 0 0 L 100 0 L 0 1"', 'at = "12"\n' + QUADS)
