"""Placing and settling long columns: their growth, and beside a sort that takes about 18 ms."""

from __future__ import annotations

import time

import numpy as np

from mockup.packing.clusters import offsets
from mockup.packing.frames import frame_from
from mockup.packing.nesting import equal_pitch
from mockup.packing.settling import settle
from tests.benchmarks.ratios import NUMBERS, once, tell

MOST = {1_000: 28.0, 3_000: 170.0, 10_000: 450.0}
_DIAMETER = 100.0


def seconds(balloons: int) -> float:
    """Processor time to place quads along an arch and settle them."""
    step = equal_pitch(4, _DIAMETER, 0.1)
    around = balloons / 4 * step
    arch = frame_from("arch", width=around / 2.6, height=around / 2.6, legs=around / 8, tube=20.0)
    start = time.process_time()
    marks = np.linspace(0.0, arch.length, balloons // 4)
    knots = np.repeat([[*arch.at(s), 0.0] for s in marks.tolist()], 4, axis=0)
    turns = [offsets(4, _DIAMETER, 45.0 * (k % 2 + 1)) for k in range(len(marks))]
    axes = [np.array([[*arch.normal(s), 0.0], [0.0, 0.0, 1.0]]) for s in marks.tolist()]
    spread = np.vstack([turn @ axis for turn, axis in zip(turns, axes, strict=True)])
    settle(knots + spread, np.full(len(knots), _DIAMETER), knots)
    return time.process_time() - start


def test_the_cost_grows_no_faster_than_n_log_n() -> None:
    seconds(400)
    took = {n: seconds(n) for n in MOST}
    exponent = np.polyfit(np.log(list(took)), np.log(list(took.values())), 1)[0]
    yard = min(once(lambda: sorted(NUMBERS)) for _ in range(5))
    for n, most in MOST.items():
        tell(f"placing and settling {n:,} along an arch over a sort", took[n] / yard, most)
    # n log n over this range fits an exponent of 1.12.
    tell("placing and settling along an arch grows as n to the", exponent, 1.3, "")
