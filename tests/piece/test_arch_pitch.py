"""How closely quads sit on five metres of arch, against what decorators count on."""

from __future__ import annotations

from itertools import pairwise

import pytest

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble

ARCH = """title = "Five metres"
size = "11in"
frame = {{ kind = "arch", width = "205cm", height = "190cm", tube = "2cm" }}
colours = {{ A = "oat" }}
[[section]]
at = "12"
whole = true
clusters = [{{ fill = "{fill}" }}]
"""


@pytest.mark.parametrize("fill", ["8in", "9in", "10in"])
def test_quads_on_five_metres_of_arch_sit_at_the_trades_pitch(fill: str) -> None:
    """0.65 to 0.80 of a balloon's diameter from one cluster to the next: common practice, no
    source."""
    piece = assemble(design_from_text(ARCH.format(fill=fill), "arch.toml"))
    assert 4_600 <= piece.frame.length <= 5_400
    diameter = piece.balloons[0].diameter
    along = sorted(cluster.along for cluster in piece.clusters)
    gaps = [(b - a) / diameter for a, b in pairwise(along)]
    assert len(gaps) >= 20
    assert min(gaps) >= 0.65
    assert max(gaps) <= 0.80
