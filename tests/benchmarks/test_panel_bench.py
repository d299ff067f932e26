"""How long a fit takes, and how much less than by shapely's distances in a scan."""

from __future__ import annotations

import time
from collections.abc import Callable
from math import cos, pi, radians, sin
from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from mockup.panel.fit import Fit, fit_numerals
from mockup.panel.numerals import numeral_row
from mockup.panel.window import blocked_radii, window

R, GAP, THICKNESS, Z0 = 381.0, 12.7, 8.0, 10.0
Floats = NDArray[np.float64]


def crescents() -> tuple[Floats, Floats]:
    """Sixty balloons in quads at the top and the bottom of a 762 mm ring, unsettled."""
    places, sizes = [], []
    for at, count in ((0.0, 8), (180.0, 7)):
        for step in range(count):
            off = step - (count - 1) / 2
            angle = radians(at + 12.0 * off)
            d = 112.0 - 5.0 * abs(off)
            for k in range(4):
                phi = pi / 4 * (1 + step) + k * pi / 2
                out = 375.0 + d * 0.7071 * cos(phi)
                places.append([out * sin(angle), out * cos(angle), d * 0.7071 * sin(phi)])
                sizes.append(d)
    return np.array(places), np.array(sizes)


def fitted(text: str, height: float) -> Fit:
    centres, diameters = crescents()
    return fit_numerals(
        text, height, widths={}, gap=GAP, thickness=THICKNESS, z0=Z0, opening_radius=R,
        centres=centres, diameters=diameters,
    )  # fmt: skip


def scanned(text: str, height: float) -> float:
    """The best clearance over 401 shifts with one shapely distance for each balloon and numeral."""
    centres, diameters = crescents()
    blocked = blocked_radii(centres, diameters, THICKNESS, Z0)
    shifts = np.linspace(-100, 100, 401)
    least = np.full(len(shifts), np.inf)
    for shape in numeral_row(text, height, {}, GAP):
        line = shapely.MultiLineString(list(shape.strokes))
        for (x, y, _), reach in zip(centres, blocked, strict=True):
            if reach > 0.0:
                apart = shapely.distance(shapely.points(x, y - shifts), line)
                least = np.minimum(least, apart - shape.half_width - reach)
    return float(least.max())


def best_of(rounds: int, work: Callable[[], Any]) -> float:
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


@pytest.mark.parametrize(("text", "height"), [("75", 340.0), ("100", 290.0), ("888", 290.0)])
def test_fit_is_a_fraction_of_a_scan(text: str, height: float, capsys: Any) -> None:
    """A fit also finds the largest height and the window; the scan finds one shift to 0.5 mm."""
    ours, theirs = (
        best_of(7, lambda: fitted(text, height)),
        best_of(2, lambda: scanned(text, height)),
    )
    with capsys.disabled():
        print(
            f"\n{text}: fit {1e3 * ours:.1f} ms, scan {1e3 * theirs:.1f} ms: 1/{theirs / ours:.1f}"
        )
    assert ours < theirs / 3


def test_window_polygon(capsys: Any) -> None:
    """At most four times what shapely takes to unite the same discs alone."""
    centres, diameters = crescents()
    blocked = blocked_radii(centres, diameters, THICKNESS, Z0)
    near = (blocked > 0) & (np.hypot(centres[:, 0], centres[:, 1]) - blocked < R)

    def united() -> None:
        discs = shapely.buffer(shapely.points(centres[near, :2]), blocked[near], quad_segs=64)
        shapely.union_all(discs)

    ours = best_of(7, lambda: window(R, centres, diameters, THICKNESS, Z0))
    theirs = best_of(7, united)
    with capsys.disabled():
        print(f"\nwindow {1e3 * ours:.1f} ms, union alone {1e3 * theirs:.1f} ms")
    assert ours < 4 * theirs


def test_fit(benchmark: Any) -> None:
    found = benchmark(lambda: fitted("100", 290.0))
    assert found.verdict in ("clear", "tucks")
