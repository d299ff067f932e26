"""How fast a piece becomes a drawing: 100 balloons with two numerals, front, side and plan.

Run by hand: ``pytest -o addopts=--import-mode=importlib -s`` and this file. The first drawing of
a foil costs its crescents; later pages of the same numerals find them made. Times are the
process's own, so that what else the machine does counts little.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from time import process_time

import pytest

from mockup.design.model import StandSpec
from mockup.design.wish import Wish, design_from_wish
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.foil import foil_symbol
from mockup.render.front_view import front_view
from mockup.render.record import Group, Place, Sheet, walk
from mockup.render.side_view import plan_view, side_view
from mockup.render.svg import svg_text
from mockup.render.viewpoint import ViewOptions

ORIGIN, SCALE = (70.0, 70.0), 0.1


@pytest.fixture(scope="module")
def piece() -> Piece:
    crescent = "3, 3, 3, 2, 2, 2, 2, end 1"
    wish = Wish(ring="42in", numerals="85", height="16in", top=crescent, bottom=crescent)
    made = assemble(replace(design_from_wish(wish), stand=StandSpec()))
    assert len(made.balloons) >= 100
    return made


def least(job: Callable[[], object], times: int = 7) -> float:
    """The least of some runs, ms of the process's own time."""
    taken = []
    for _ in range(times):
        start = process_time()
        job()
        taken.append(1000 * (process_time() - start))
    return min(taken)


def test_a_hundred_balloons_are_drawn_in_a_few_frames(piece: Piece) -> None:
    """Targets: balloons, tube and stand 60 ms; the foil of two digits 150 ms, once."""
    front_view(piece, SCALE, ORIGIN)
    views = {
        "front": lambda: front_view(piece, SCALE, ORIGIN),
        "front, lettered": lambda: front_view(piece, SCALE, ORIGIN, ViewOptions(letters=True)),
        "side": lambda: side_view(piece, SCALE, ORIGIN),
        "plan": lambda: plan_view(piece, SCALE, ORIGIN),
    }
    taken = {name: least(job) for name, job in views.items()}
    print(f"\n{len(piece.balloons)} balloons:", {k: f"{v:.1f} ms" for k, v in taken.items()})
    assert taken["front"] < 60
    assert taken["side"] < 60
    assert taken["plan"] < 60
    assert taken["front, lettered"] < 120

    def foil() -> Group:
        foil_symbol.cache_clear()
        return front_view(piece, SCALE, ORIGIN)

    fresh = least(foil, 3)
    print(f"with its foil made anew: {fresh:.1f} ms")
    assert fresh < 60 + 150


def test_shares_of_a_hundred_balloons_take_30_ms(piece: Piece) -> None:
    taken = least(lambda: visible_shares(piece))
    print(f"\nshares: {taken:.1f} ms")
    assert taken < 30


def test_the_file_of_a_hundred_balloons_stays_under_half_a_megabyte(piece: Piece) -> None:
    view = front_view(piece, SCALE, ORIGIN)
    size = len(svg_text(Sheet(140.0, 190.0, (view,))))
    symbols = {item.symbol.id for item in walk(view.items) if isinstance(item, Place)}
    print(f"\nSVG {size / 1000:.0f} KB, {len(symbols)} symbols")
    assert size < 500_000


def test_drawing_grows_with_the_number_of_balloons(piece: Piece) -> None:
    """Twice the balloons, at most 2.6 times the time (balloons apart from their numerals)."""
    plain = replace(piece, fit=None)
    shifted = tuple(
        replace(
            b,
            index=b.index + len(plain.balloons),
            id=f"{b.id}x",
            centre=(b.centre[0] + 2000.0, *b.centre[1:]),
        )
        for b in plain.balloons
    )
    double = replace(plain, balloons=plain.balloons + shifted)
    one, two = (
        min(least(partial(front_view, each, SCALE, ORIGIN), 3) for _ in range(3))
        for each in (plain, double)
    )
    print(f"\n{len(plain.balloons)} balloons {one:.1f} ms, twice as many {two:.1f} ms")
    assert two < 2.6 * one
