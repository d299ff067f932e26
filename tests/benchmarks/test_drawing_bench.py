"""How fast a piece becomes a drawing: 100 balloons with two numerals, front, side and plan.

The first drawing of a foil costs its crescents; later pages of the same numerals find them made.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

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
from tests.benchmarks.ratios import by_turns, tell, yards

ORIGIN, SCALE = (70.0, 70.0), 0.1


@pytest.fixture(scope="module")
def piece() -> Piece:
    crescent = "3, 3, 3, 2, 2, 2, 2, end 1"
    wish = Wish(ring="42in", numerals="85", height="16in", top=crescent, bottom=crescent)
    made = assemble(replace(design_from_wish(wish), stand=StandSpec()))
    assert len(made.balloons) >= 100
    return made


def test_a_hundred_balloons_are_drawn_in_a_few_frames(piece: Piece) -> None:
    """Beside what takes about 18 ms: a view in 60 ms, lettered in 120, with fresh foil in 210."""
    front_view(piece, SCALE, ORIGIN)
    views: dict[str, tuple[Callable[[], object], float]] = {
        "the front": (lambda: front_view(piece, SCALE, ORIGIN), 3.4),
        "the front, lettered": (
            lambda: front_view(piece, SCALE, ORIGIN, ViewOptions(letters=True)),
            6.8,
        ),
        "the side": (lambda: side_view(piece, SCALE, ORIGIN), 3.4),
        "the plan": (lambda: plan_view(piece, SCALE, ORIGIN), 3.4),
    }
    for name, (job, goal) in views.items():
        tell(f"{name} of {len(piece.balloons)} balloons over a sort", yards(job), goal)

    def foil() -> Group:
        foil_symbol.cache_clear()
        return front_view(piece, SCALE, ORIGIN)

    tell("the front with its foil made anew over a sort", yards(foil, 3), 11.9)


def test_shares_of_a_hundred_balloons_take_little_more_than_a_sort(piece: Piece) -> None:
    tell("shares of the front over a sort", yards(lambda: visible_shares(piece)), 1.7)


def test_the_file_of_a_hundred_balloons_stays_under_half_a_megabyte(piece: Piece) -> None:
    view = front_view(piece, SCALE, ORIGIN)
    size = len(svg_text(Sheet(140.0, 190.0, (view,))))
    symbols = {item.symbol.id for item in walk(view.items) if isinstance(item, Place)}
    assert symbols
    tell("SVG of a hundred balloons over half a megabyte", size / 500_000, 1.0)


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
    one, two = (partial(front_view, each, SCALE, ORIGIN) for each in (plain, double))
    tell("drawing twice as many balloons over drawing them", by_turns(two, one, 9), 2.6)
