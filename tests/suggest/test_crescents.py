"""Batches of crescents against the one piece at a time that everything else is drawn from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from mockup.design.wishes import clock_place
from mockup.piece.assemble import assemble, frame_of
from mockup.piece.placed import Piece
from mockup.suggest.crescents import layout_of, place, worst_crossing
from mockup.suggest.crew import fixed_part
from mockup.suggest.designs import design_of
from mockup.suggest.judging import ROOM_MARGIN, Judge
from mockup.suggest.space import Options, diameters_of, every_option, space_of, unranked
from mockup.suggest.springs import front_and_back

Brief = Callable[..., Any]
WISHES = [
    'fills = [2, 3, "4 1/4in"]\na_side = [1, 3]',
    'fills = [2, 3]\na_side = [1, 2]\nturns = ["point in"]\nend_caps = ["none"]',
    'fills = [2, 3]\na_side = [2, 2]\nplaces = [["3", "9"], ["1", "7"]]',
    "fills = [2, 3]\na_side = [1, 2]\nturns = [20]",
    "fills = [2, 3.5]\na_side = [1, 2]",
]
UNLIKE = "fills = [2, 3]\na_side = [1, 3]\nalike = false"


def several(brief: Brief, wishes: str) -> list[tuple[Any, Options, list[Piece]]]:
    design, wished = brief(wishes, "26in")
    space = space_of(design, wished)
    found = []
    for options in every_option(space):
        few = Options(options.shape, options.fills[:: max(1, len(options.fills) // 3)])
        pieces = [assemble(design_of(design, wished, space, few, n)) for n in range(len(few.fills))]
        found.append((Judge(design, wished, space, fixed_part(design, wished)), few, pieces))
    return found


@pytest.mark.parametrize("wishes", WISHES)
def test_placed_balloons_and_their_crossing_are_the_pieces_own(brief: Brief, wishes: str) -> None:
    for judge, few, pieces in several(brief, wishes):
        shape = judge.space.shapes[few.shape]
        layout = layout_of(shape)
        sizes = diameters_of(judge.space, shape, few.fills)
        placed = place(layout, sizes, judge.radius, judge.design.limits.squeeze)
        crossings = worst_crossing(layout, placed)
        for n, piece in enumerate(pieces):
            own = [b for b in piece.balloons if b.section == "top" and b.side != "left"]
            if shape.places[0] == 0.0:
                exact = np.array([b.placed for b in own]).T
                assert np.abs(placed.centres[:, :, n] - exact).max() < 1e-9
            assert crossings[n] == pytest.approx(piece.nestling.crossing, abs=1e-9)


@pytest.mark.parametrize("wishes", [*WISHES, UNLIKE])
def test_coarse_and_full_settling_agree(brief: Brief, wishes: str) -> None:
    """The window's height within 2 %; the room is told short by less than the margin of a cut."""
    for judge, few, pieces in several(brief, wishes):
        verdicts = judge(few)
        for n, piece in enumerate(pieces):
            holds = max(piece.nestling.swings_deg) <= judge.design.limits.swing_deg
            if np.isnan(verdicts.room[n]) or not holds:
                continue
            assert piece.opening is not None
            assert piece.fit is not None
            assert verdicts.window[n] == pytest.approx(piece.opening.height, rel=0.02)
            assert piece.fit.room - verdicts.room[n] < ROOM_MARGIN


def test_a_section_told_by_its_share_of_the_ring_sits_there(brief: Brief) -> None:
    design, wished = brief('fills = [2, 3]\na_side = [1, 1]\nturns = ["valley in"]')
    for share, deg in ((0.25, 90.0), (0.5, 180.0)):
        one = replace(design.sections[1], at_share=share, at_deg=0.0)
        two = replace(one, at_share=None, at_length=share * frame_of(design).length)
        assert clock_place(design, one) == pytest.approx(deg)
        assert clock_place(design, two) == pytest.approx(deg)
    space = space_of(design, wished)
    shared = replace(design, sections=(design.sections[0], one))
    (options,) = every_option(space)
    built = assemble(design_of(shared, wished, space, options, 0))
    assert [round(c.frame_deg) for c in built.clusters if not c.along] == [0, 180]


def test_front_and_back_are_told_apart_where_a_turn_is_crooked(brief: Brief) -> None:
    layouts = []
    for wishes in (WISHES[0], WISHES[3]):
        layouts.append(layout_of(space_of(*brief(wishes)).shapes[0]))
    straight, crooked = layouts
    partner = front_and_back(straight.body)
    assert partner is not None
    assert (partner[partner] == np.arange(len(partner))).all()
    assert front_and_back(crooked.body) is None


def test_a_batch_does_not_change_what_is_in_it(brief: Brief) -> None:
    """The same option in another company has the same verdict."""
    design, wished = brief(WISHES[0], "26in")
    space = space_of(design, wished)
    judge = Judge(design, wished, space, fixed_part(design, wished))
    options = every_option(space)[-1]
    together = judge(options)
    for n in (0, len(options.fills) - 1):
        alone = judge(Options(options.shape, options.fills[n : n + 2]))
        assert alone.reason[0] == together.reason[n]
        if not np.isnan(together.room[n]):
            assert alone.room[0] == pytest.approx(together.room[n], abs=0.5)


def test_every_sequence_is_met_once_and_never_grows(brief: Brief) -> None:
    design, wished = brief("fills = [1, 2, 3, 4]\na_side = [0, 3]")
    space = space_of(design, wished)
    for options in every_option(space):
        length = space.shapes[options.shape].length
        assert len({tuple(row) for row in options.fills.tolist()}) == len(options.fills)
        assert (np.diff(options.fills, axis=1) >= 0).all()
        by_rank = [unranked(n, 4, length) for n in range(len(options.fills))]
        assert by_rank == options.fills.tolist()
