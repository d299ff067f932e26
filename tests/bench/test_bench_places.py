"""Where the page finds the parts of a drawing: a section's mark lies where it is tied."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.bench.looks import Look, ground_of
from mockup.bench.places import places
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.mark.parametrize(("name", "section"), [("quince-four", 1), ("lamplight-column", 0)])
def test_the_mark_of_a_section_is_where_its_first_cluster_is_tied(name: str, section: int) -> None:
    """Round the stand's pole, and on a pole where the place is a length and no clock position."""
    piece = assemble(read_design(SAMPLES / f"{name}.toml"))
    ground = ground_of(piece, Look())
    first = min(
        (one for one in piece.clusters if one.section == piece.design.sections[section].name),
        key=lambda one: one.step,
    )
    told = places(piece, ground)["sections"][section]["middle"]
    assert told == pytest.approx(ground.at(*first.knot[:2]), abs=0.02)
