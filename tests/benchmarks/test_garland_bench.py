"""How long a garland takes to grow: 600 balloons within three seconds of this processor."""

from __future__ import annotations

import time

from mockup.packing.frames import frame_from
from mockup.packing.growing import Growth, Portion, grow

RECIPE = (Portion(380.0, 0.08), Portion(250.0, 0.34), Portion(108.0, 0.58))
MOST_SECONDS = 3.0


def test_a_garland_of_six_hundred_balloons() -> None:
    bar = frame_from("straight", length=26_000.0, tube=20.0)
    start = time.process_time()
    grown = grow(bar, Growth(RECIPE, 0.0, bar.length, 560.0, 0.96))
    took = time.process_time() - start
    print(f"\n{len(grown.centres)} balloons in {took:.2f} s, {grown.covered:.1%} covered")
    assert len(grown.centres) >= 600
    assert took * 600 / len(grown.centres) <= MOST_SECONDS
