"""How long a wall takes: 10,000 balloons placed and judged within eight seconds."""

from __future__ import annotations

import time

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all

MOST_SECONDS = 8.0
WALL = """
title = "W"
size = "5in"
colours = { A = "oat", B = "brass" }
[frame]
kind = "wall"
width = "30ft"
height = "30ft"
[wall]
fill = "4in"
pattern = "diamond"
"""


def test_a_wall_of_ten_thousand_balloons() -> None:
    start = time.process_time()
    piece = assemble(design_from_text(WALL, "w.toml"))
    find_all(piece)
    took = time.process_time() - start
    print(f"\n{len(piece.balloons):,} balloons of a wall in {took:.2f} s")
    assert len(piece.balloons) == 10_000
    assert took <= MOST_SECONDS
