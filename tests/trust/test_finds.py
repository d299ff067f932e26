"""Piece files that a hunt once brought down, kept as they were found but for their words."""

from __future__ import annotations

import pytest

from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.packing.frames import frame_from
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all

TOP = 'title = "Found"\ncolours = { A = "deep teal" }\n'


def test_clusters_that_slip_into_each_other_close_no_ring() -> None:
    """A small cluster between large ones takes no length at all: no count closes the ring."""
    text = (
        f'{TOP}frame = {{ outside = "18in" }}\n[[section]]\nat = "12"\nwhole = true\n'
        'clusters = [{ strokes = 0.25 }, { fill = "9 1/2in", size = "11in" }]\n'
    )
    with pytest.raises(FaultsFound) as told:
        assemble(design_from_text(text, "found.toml"))
    (fault,) = told.value.faults
    assert fault.where == "found.toml:4"
    assert "slip" in fault.what


@pytest.mark.parametrize("kind", ["hexagon", "square"])
def test_a_frame_of_any_size_has_a_clock_face(kind: str) -> None:
    """One in some sizes had one mark more than places, by the last digit of a division."""
    for eighths in range(160, 480):
        frame = frame_from(kind=kind, outside=25.4 * eighths / 8, tube=12.7, corner=50.8)
        for deg in (0.0, 90.0, 200.0):
            assert frame.deg_at(frame.s_at_deg(deg)) == pytest.approx(deg, abs=0.01)


def test_a_hexagon_goes_round_whole() -> None:
    text = (
        f'{TOP}frame = {{ kind = "hexagon", outside = "40.125in" }}\n'
        '[[section]]\nat = "12"\nwhole = true\nclusters = [{ strokes = 3 }]\n'
    )
    piece = assemble(design_from_text(text, "found.toml"))
    assert piece.wholes
    assert find_all(piece)


@pytest.mark.parametrize("size", ['"layers"', '"0in"', "3", "nan"])
def test_a_topper_of_no_size_is_told_with_its_line(size: str) -> None:
    text = (
        f'{TOP}frame = {{ kind = "pole", height = "60in" }}\n[[section]]\nat = "1/2"\n'
        f"clusters = [{{ strokes = 3 }}]\n[topper]\nsize = {size}\n"
    )
    with pytest.raises(FaultsFound) as told:
        design_from_text(text, "found.toml")
    (fault,) = told.value.faults
    assert fault.where == "found.toml:8"
    assert "size" in fault.what
