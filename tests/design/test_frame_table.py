"""Frames in a piece file: each kind's own keys, drawings, and places along a frame."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.model import Design
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.piece.code import content

HEAD = 'title = "Piece"\ncolours = { A = "oat" }\n'
SECTION = '[[section]]\nat = "12"\nclusters = [{ strokes = 3 }]\n'


def read(frame: str, section: str = SECTION, folder: Path | None = None) -> Design:
    return design_from_text(f"{HEAD}[frame]\n{frame}\n{section}", "piece.toml", folder)


def told(frame: str, section: str = SECTION, folder: Path | None = None) -> str:
    with pytest.raises(FaultsFound) as found:
        read(frame, section, folder)
    return str(found.value)


def test_each_kind_keeps_its_measures() -> None:
    arch = read('kind = "arch"\nwidth = "2m"\nheight = "2.1m"\nlegs = "50cm"').frame
    assert (arch.kind, arch.width, arch.height, arch.legs) == ("arch", 2000.0, 2100.0, 500.0)
    spiral = read('kind = "spiral"\noutside = "1m"\nturns = 3').frame
    assert (spiral.outside, spiral.inner, spiral.turns) == (1000.0, 250.0, 3.0)
    heart = read('kind = "heart"\ncorner = "3in"').frame
    assert (heart.width, heart.height) == pytest.approx((914.4, 914.4))
    assert heart.corner == pytest.approx(76.2)


@pytest.mark.parametrize(
    ("frame", "says"),
    [
        ('kind = "heart"\noutside = "1m"', "piece.toml:5: a heart has no 'outside'; take it out"),
        ('kind = "arch"\nfrom = "9"', "an arch has no 'from'"),
        ('kind = "ring"\nheight = "1m"', "a ring has no 'height'; take it out, or write kind ="),
        ('kind = "square"\ncorner = "20in"', "bent wider than half the square"),
        ('kind = "arch"\nheight = "1m"\nlegs = "1m"', "leave no height for the bend"),
        ('kind = "pole"\nheight = "1m"\ntube = "30cm"', None),
        ('kind = "path"', "neither a 'line' nor a 'drawing'"),
        ('kind = "path"\nline = "M 0 0 H 9"\ndrawing = "a.svg"', "has both 'line' and 'drawing'"),
        ('kind = "hart"', "'heart'"),
    ],
)
def test_what_does_not_go_with_a_frame_is_told(frame: str, says: str | None) -> None:
    if says is None:
        assert read(frame).frame.tube == 300.0
    else:
        assert says in told(frame)


def test_a_drawing_is_read_with_the_transforms_that_hold_for_its_path(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg"><g transform="scale(2)">'
        '<path transform="translate(5 0)" d="M 0 0 H 100"/></g></svg>'
    )
    frame = read('kind = "path"\ndrawing = "a.svg"\nunit = "1cm"', folder=tmp_path).frame
    assert frame.unit == 10.0
    from mockup.packing.drawn import DrawnPath

    assert DrawnPath(frame.line, frame.unit, frame.tube).length == pytest.approx(2000.0)


@pytest.mark.parametrize(
    ("drawn", "says"),
    [
        (b"\x89PNG\r\n", "is no SVG drawing"),
        (b"<svg></svg>", "has no path"),
        (b'<svg><path d="M0 0H9"/><path d="M0 0H9"/></svg>', "has 2 paths"),
        (b'<!DOCTYPE svg [<!ENTITY a "b">]><svg/>', "has a document type"),
        (None, "cannot be read"),
    ],
)
def test_a_drawing_that_gives_no_path_is_told(
    tmp_path: Path, drawn: bytes | None, says: str
) -> None:
    if drawn is not None:
        (tmp_path / "a.svg").write_bytes(drawn)
    assert says in told('kind = "path"\ndrawing = "a.svg"\nunit = "1cm"', folder=tmp_path)


def test_a_drawing_needs_a_unit(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_bytes(b'<svg><path d="M0 0H9"/></svg>')
    assert "what its unit measures" in told('kind = "path"\ndrawing = "a.svg"', folder=tmp_path)


@pytest.mark.parametrize(
    ("at", "share", "length", "name"),
    [
        ('"1/2"', 0.5, None, "middle"),
        ('"25%"', 0.25, None, "at 25 %"),
        ('"3ft"', None, 914.4, "at 36 in"),
        ('"0%"', 0.0, None, "foot"),
        ('"100%"', 1.0, None, "top"),
        ('"12"', None, None, "top"),
    ],
)
def test_a_place_is_a_clock_position_a_share_or_a_length(
    at: str, share: float | None, length: float | None, name: str
) -> None:
    section = f"[[section]]\nat = {at}\nclusters = [{{ strokes = 3 }}]\n"
    found = read('kind = "pole"', section).sections[0]
    assert (found.at_share, found.at_length, found.name) == (share, length, name)


@pytest.mark.parametrize(
    ("at", "says"),
    [('"3/2"', "past the end"), ('"1/0"', "divides by nothing"), ('"150%"', "past the end"),
     ('"half"', "no position"), ('"-3ft"', "at")],
)  # fmt: skip
def test_a_place_off_the_frame_is_told(at: str, says: str) -> None:
    section = f"[[section]]\nat = {at}\nclusters = [{{ strokes = 3 }}]\n"
    assert says in told('kind = "pole"', section)


def test_a_design_without_the_newer_figures_says_what_it_always_said() -> None:
    """So the proof codes that clients have signed stay as they are."""
    plain = content(design_from_text(HEAD + SECTION, "piece.toml"))
    assert set(plain["frame"]) == {"kind", "outside", "tube", "start_deg", "end_deg"}
    assert not {"order", "starts", "hand", "each", "at_share", "only"} & set(plain["sections"][0])
    assert not {"garlands", "topper"} & set(plain)
    assert {"height"} <= set(content(read('kind = "pole"'))["frame"])
