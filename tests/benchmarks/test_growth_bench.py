"""How time grows with the number of balloons: the exponent of n, from small to large, in one run.

uv run pytest tests/benchmarks/test_growth_bench.py -s

The smallest count only warms up: there the growth hides behind what every job costs. Settling takes
a number of steps that varies between pieces (366 at 5,000 balloons, 1,148 at 10,000), so that its
slope is taken over a wide range; a step costs the same for each balloon.

A piece file holds at most some thousand balloons, so that whole pieces go up to 8,000; settling,
the window and the crossing, which know no file, go up to 20,000, and so does buying for a job.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import log, pi

import numpy as np
import pytest
from numpy.typing import NDArray

from mockup.design.reading import design_from_text
from mockup.design.studio_reading import studio_from_text
from mockup.packing.clusters import offsets
from mockup.packing.frames import Ring
from mockup.packing.nesting import ClusterShape, crossing, next_turn, pitch
from mockup.packing.settling import settle
from mockup.panel.window import window
from mockup.piece.assemble import assemble
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.front_view import front_view
from mockup.render.record import Sheet
from mockup.render.svg import svg_text
from mockup.stock.buying import buy_list
from mockup.stock.picking import pick
from tests.benchmarks.ratios import once, tell

Floats = NDArray[np.float64]
DIAMETER, TUBE = 114.3, 12.7


def exponent(work: Callable[[int], Callable[[], object]], counts: Sequence[int]) -> float:
    """The slope of log time over log count, from the second count to the last.

    Every run has a piece made anew, so that nothing a piece remembers of itself is counted as fast.
    """
    work(counts[0])()
    small, large = (
        (n, min(once(work(n)) for _ in range(5 if n < 1000 else 2)))
        for n in (counts[1], counts[-1])
    )
    return log(large[1] / small[1]) / log(large[0] / small[0])


def quads(balloons: int) -> tuple[Floats, Floats, Floats]:
    """Quads nestled on three quarters of a ring: centres, diameters, knots."""
    shape = ClusterShape(4, DIAMETER, 45.0)
    gap = pitch(shape, ClusterShape(4, DIAMETER, next_turn(shape)), 0.1)
    ring = Ring(balloons / 4 * gap / 0.75 / np.pi + 2 * TUBE, TUBE)
    centres, knots = [], []
    for step in range(balloons // 4):
        s = (step - balloons // 8) * gap
        axes = np.array([[*ring.normal(s), 0.0], [0.0, 0.0, 1.0]])
        knot = np.array([*ring.at(s), 0.0])
        centres.append(knot + offsets(4, DIAMETER, 45.0 * (step % 2)) @ axes)
        knots.append(np.tile(knot, (4, 1)))
    made = np.concatenate(centres)
    return made, np.full(len(made), DIAMETER), np.concatenate(knots)


def file_of(balloons: int) -> str:
    """A piece of so many balloons: quads of a small size over most of a large ring."""
    a_side = balloons // 8 - 1  # a piece takes 2,000 clusters, counted with two end caps
    inches = max(8.0, balloons / 4 * 0.72 * 1.04 / pi + 1)
    return (
        'title = "Growth"\npalette = "harbour"\nsize = "2in"\n'
        f'colours = {{ A = "deep teal", B = "oat" }}\nframe = {{ outside = "{inches:.1f}in" }}\n'
        '[[section]]\nat = "12"\nmiddle = false\nend_cap = false\n'
        f'clusters = [{{ fill = "1in", colours = "AB", times = {a_side} }}]\n'
    )


def piece(balloons: int) -> Piece:
    made = assemble(design_from_text(file_of(balloons), "growth.toml"))
    assert len(made.balloons) == pytest.approx(balloons, rel=0.1)
    return made


def settling(count: int) -> Callable[[], object]:
    tied = quads(count)
    return lambda: settle(*tied)


def windows(count: int) -> Callable[[], object]:
    centres, sizes, knots = quads(count)
    radius = float(np.hypot(knots[:, 0], knots[:, 1]).max())
    return lambda: window(radius, centres, sizes, 8.0, 10.35)


def crossings(count: int) -> Callable[[], object]:
    centres, sizes, _ = quads(count)
    owner = np.arange(len(sizes)) // 4
    return lambda: crossing(centres, sizes, owner)


def reading(count: int) -> Callable[[], object]:
    text = file_of(count)
    return lambda: design_from_text(text, "growth.toml")


def checks(count: int) -> Callable[[], object]:
    made = piece(count)
    return lambda: find_all(made)


def drawing(count: int) -> Callable[[], object]:
    made = piece(count)
    return lambda: svg_text(Sheet(400.0, 400.0, (front_view(made, 0.02, (200.0, 200.0)),)))


def shares(count: int) -> Callable[[], object]:
    made = piece(count)
    step = max(made.extent.width, made.extent.height) / 1000
    return lambda: visible_shares(made, step=step)


def buying(count: int) -> Callable[[], object]:
    design = design_from_text(file_of(200), "growth.toml")
    bag = '[[bag]]\nsize = "2in"\ncolour = "{}"\nfinish = "{}"\ncount = {}\nprice = {}\n'
    finishes = {use.name: use.finish for use in design.colours.values()}
    book = "".join(
        bag.format(name, finish, holds, price)
        for name, finish in finishes.items()
        for holds, price in ((12, 2.35), (50, 7.1), (100, 11.9))
    )
    studio = studio_from_text(book, "studio.toml")
    return lambda: buy_list(pick([(design, count // 200)]), studio)


PIECES = (80, 800, 8_000)
WHOLE = (200, 2_000, 20_000)


@pytest.mark.parametrize(
    ("name", "work", "counts", "goal"),
    [
        ("settling", settling, (50, 500, 5_000, 20_000), 1.5),
        ("window", windows, (50, 500, 5_000, 20_000), 1.3),
        ("crossing", crossings, (50, 500, 5_000, 20_000), 1.3),
        ("reading", reading, PIECES, 1.1),
        ("checks", checks, PIECES, 1.3),
        ("drawing", drawing, PIECES, 1.3),
        ("shares of the front", shares, PIECES, 1.1),
        ("buying", buying, WHOLE, 1.1),
    ],
)
def test_how_the_time_grows(
    name: str, work: Callable[[int], Callable[[], object]], counts: tuple[int, ...], goal: float
) -> None:
    found = exponent(work, counts)
    tell(f"{name}, {counts[1]:,} to {counts[-1]:,} balloons, grows as n to the", found, goal, "")
