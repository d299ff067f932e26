"""How long a garland takes to grow: 600 balloons beside a sort that takes about 18 ms."""

from __future__ import annotations

from mockup.packing import growing
from mockup.packing.frames import frame_from
from mockup.packing.growing import Growth, Portion, grow
from tests.benchmarks.ratios import tell, yards

RECIPE = (Portion(380.0, 0.08), Portion(250.0, 0.34), Portion(108.0, 0.58))
MOST_YARDS = 170.0


def test_a_garland_of_six_hundred_balloons() -> None:
    bar = frame_from("straight", length=26_000.0, tube=20.0)
    asked = Growth(RECIPE, 0.0, bar.length, 560.0, 0.96)
    many = len(grow(bar, asked).centres)
    assert many >= 600

    def anew() -> None:
        growing._grown.cache_clear()
        grow(bar, asked)

    ratio = yards(anew, rounds=2) * 600 / many
    tell("growing a garland of 600 balloons over a sort", ratio, MOST_YARDS)
