"""Many options settled at once against each settled as the whole piece that it is.

The full settling is the one that ``packing`` is tested for; nothing outside the project settles
these, so the two ways here are each other's judge.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.suggest import remembering
from mockup.suggest.crescents import layout_of, place
from mockup.suggest.crew import fixed_part
from mockup.suggest.designs import design_of
from mockup.suggest.easing import eased
from mockup.suggest.judging import CROSSING, LENGTH, Judge, Verdicts
from mockup.suggest.space import Options, diameters_of, every_option, space_of

Brief = Callable[..., Any]
Asked = tuple[Judge, Options, Verdicts, Callable[[int], Piece]]
THIRD = """[[section]]
at = "3"
colours = "AB"
clusters = [{ strokes = 3 }, { strokes = 2 }]
"""


def asked(brief: Brief, wishes: str, ring: str, rows: list[list[int]]) -> Asked:
    """Options of the first shape with these fills, their verdicts, and each as a whole piece."""
    design, wished = brief(wishes, ring)
    space = space_of(design, wished)
    options = Options(0, np.array(rows, dtype=np.intp))
    judge = Judge(design, wished, space, fixed_part(design, wished))
    return (
        judge,
        options,
        judge(options),
        lambda n: assemble(design_of(design, wished, space, options, n)),
    )


USUAL = 'turns = ["{}"]\nfills = [4, 3.5, 3, 2.5, 2, 1.5, 1, 4.5]\n'


@pytest.mark.parametrize(
    ("turn", "sides", "ring", "rows"),
    [
        # Flat ridges: where the balloons end is where the motion to it stops.
        ("point in", "a_side = [4, 4]", "24in", [[1, 1, 4, 4, 6], [2, 2, 6, 7, 7]]),
        ("point in", "a_side = [4, 4]", "22in", [[1, 1, 4, 4, 6], [2, 5, 7, 7, 7]]),
        ("point in", "a_side = [3, 3]", "30in", [[0, 0, 0, 0], [4, 4, 4, 6]]),
        ("point in", "a_side = [4, 4]", "30in", [[1, 1, 2, 5, 6], [0, 0, 0, 1, 4]]),
        ("valley in", "a_side = [4, 4]", "24in", [[0, 0, 3, 7, 7], [4, 5, 5, 6, 6]]),
    ],
)
def test_the_window_is_that_of_the_full_settling(
    brief: Brief, turn: str, sides: str, ring: str, rows: list[list[int]]
) -> None:
    judge, _, verdicts, piece = asked(brief, USUAL.format(turn) + sides, ring, rows)
    for n in range(len(rows)):
        opening = piece(n).opening
        assert opening is not None
        assert verdicts.window[n] == pytest.approx(opening.height, rel=0.006)
    assert judge.design.frame.kind == "ring"


def test_a_cap_that_swings_far_meets_what_it_comes_to(brief: Brief) -> None:
    """It touches what lay more than half its size away; unseen, the window was 2 % off."""
    wishes = 'a_side = [4, 4]\nend_caps = [1]\nplaces = [["3", "9"]]\n'
    _, _, verdicts, piece = asked(brief, USUAL.format("point in") + wishes, "24in", [[0] * 5])
    opening = piece(0).opening
    assert opening is not None
    assert verdicts.window[0] == pytest.approx(opening.height, rel=0.002)


def test_what_is_fixed_takes_part_in_every_step(brief: Brief) -> None:
    """Settled beforehand, it left the window of these 16 % off."""
    wishes = 'a_side = [3, 3]\nsections = ["top", "bottom"]\n'
    design, wished = brief(USUAL.format("point in") + wishes, "26in", sections=THIRD)
    space = space_of(design, wished)
    options = Options(0, np.array([[1, 1, 2, 5]], dtype=np.intp))
    opening = assemble(design_of(design, wished, space, options, 0)).opening
    judge = Judge(design, wished, space, fixed_part(design, wished))
    assert opening is not None
    assert judge(options).window[0] == pytest.approx(opening.height, rel=0.002)


UNLIKE = 'alike = false\na_side = [{}, {}]\nplaces = [["12", "6"]]\n'


@pytest.mark.parametrize(
    ("turn", "sides", "ring", "fills"),
    [
        ("point in", (3, 4), "30in", [2, 2, 2, 3, 3]),
        ("point in", (3, 4), "24in", [0, 0, 2, 4, 7]),
        ("valley in", (1, 3), "22in", [1, 1, 2, 3]),
    ],
)
def test_unlike_crescents_lie_as_in_the_whole_piece(
    brief: Brief, turn: str, sides: tuple[int, int], ring: str, fills: list[int]
) -> None:
    """Each by itself, as the full settling does; a long one and a short one are remembered."""
    design, wished = brief(USUAL.format(turn) + UNLIKE.format(*sides), ring)
    space = space_of(design, wished)
    judge = Judge(design, wished, space, fixed_part(design, wished))
    windows = []
    for number, shape in enumerate(space.shapes):
        if sorted(shape.sides) == list(sides):
            options = Options(number, np.array([fills], dtype=np.intp))
            opening = assemble(design_of(design, wished, space, options, 0)).opening
            assert opening is not None
            windows.append(judge(options).window[0])
            assert windows[-1] == pytest.approx(opening.height, rel=0.006)
    assert len(windows) == 2
    assert sum(len(kept) for kept in judge.settling.memory.known.values()) == 2
    assert windows[0] == pytest.approx(windows[1])


def apart(piece: Piece, *, placed: bool) -> float:
    """The least distance of balloons of different sections, skin to skin, mm."""
    every = piece.balloons
    at = np.array([b.placed if placed else b.centre for b in every])
    radii, names = np.array([b.radius for b in every]), np.array([b.section for b in every])
    skins = np.linalg.norm(at[:, None] - at[None], axis=2) - radii[:, None] - radii[None]
    return float(skins[names[:, None] != names[None]].min())


FEW = 'fills = [4, 3.5, 3, 2.5, 2.25, 2]\nturns = ["point in"]\n'
MEETING = {
    "facing": ("a_side = [4, 4]", (4, 4), "22in", [0, 0, 2, 3, 5]),
    "unlike": ("a_side = [2, 4]\nalike = false", (4, 2), "20in", [1, 1, 1, 1, 1]),
    "aside": ('a_side = [2, 2]\nplaces = [["12", "4"]]', (2, 2), "22in", [0, 1, 3]),
    "fixed": ('a_side = [2, 2]\nsections = ["top", "bottom"]', (2, 2), "22in", [0, 0, 0]),
}


@pytest.mark.parametrize("case", MEETING)
def test_crescents_that_come_to_touch_settle_as_one(brief: Brief, case: str) -> None:
    """Placed centimetres apart, they lean out until they touch: eased apart they would cross."""
    wishes, sides, ring, fills = MEETING[case]
    design, wished = brief(FEW + wishes, ring, sections=THIRD if case == "fixed" else "")
    space = space_of(design, wished)
    (number,) = (n for n, shape in enumerate(space.shapes) if shape.sides == sides)
    options = Options(number, np.array([fills], dtype=np.intp))
    piece = assemble(design_of(design, wished, space, options, 0))
    assert apart(piece, placed=True) > 10.0
    assert apart(piece, placed=False) < 0.0
    verdicts = Judge(design, wished, space, fixed_part(design, wished))(options)
    assert piece.opening is not None
    assert verdicts.window[0] == pytest.approx(piece.opening.height, rel=0.002)


def test_ends_that_cross_when_placed_are_cut_exactly(brief: Brief) -> None:
    """Crescents so long that their ends run into one another, by the rule of the full check."""
    design, wished = brief("fills = [3, 3.5]\na_side = [3, 4]\nalike = false\n", "19in")
    space = space_of(design, wished)
    judge = Judge(design, wished, space, fixed_part(design, wished))
    between = 0
    for options in every_option(space):
        few = Options(options.shape, options.fills[:: max(1, len(options.fills) // 3)])
        for n, reason in enumerate(judge(few).reason.tolist()):
            if reason == LENGTH:
                continue
            piece = assemble(design_of(design, wished, space, few, n))
            assert (reason == CROSSING) == (piece.nestling.crossing > design.limits.crossing)
            two = piece.nestling.crossing_pair or (0, 0)
            names = {piece.balloons[k].section for k in two}
            between += reason == CROSSING and len(names) == 2
    assert between > 2


def test_what_an_option_is_settled_with_changes_nothing(brief: Brief) -> None:
    """To the last bit: so the answer does not depend on how the work is shared out."""
    design, wished = brief("fills = [2, 2.5, 3, 4]\na_side = [3, 3]", "26in")
    space = space_of(design, wished)
    (layout, *_) = Judge(design, wished, space, fixed_part(design, wished)).layout(1)
    fills = every_option(space)[1].fills
    placed = place(layout, diameters_of(space, layout.shape, fills), 320.0, 0.1)
    together = eased(layout.body, placed)
    for n in (0, 7, len(fills) - 1):
        alone = eased(layout.body, placed.only(np.array([n])))
        assert np.array_equal(alone[:, :, 0], together[:, :, n])
    backwards = eased(layout.body, placed.only(np.arange(len(fills))[::-1]))
    assert np.array_equal(backwards[:, :, ::-1], together)


def test_what_is_remembered_is_what_is_worked_out(
    brief: Brief, monkeypatch: pytest.MonkeyPatch
) -> None:
    design, wished = brief("fills = [2, 2.5, 3, 4]\na_side = [1, 2]\nalike = false", "26in")
    space = space_of(design, wished)
    fixed = fixed_part(design, wished)
    judge = Judge(design, wished, space, fixed)
    told = [judge(options) for options in every_option(space)]
    monkeypatch.setattr(remembering, "MOST_KEPT", 3)
    forgetful = Judge(design, wished, space, fixed)
    for options, before in zip(every_option(space), told, strict=True):
        for again in (judge(options), forgetful(options)):
            assert np.array_equal(again.reason, before.reason)
            assert np.array_equal(again.window, before.window, equal_nan=True)
            assert np.array_equal(again.room, before.room, equal_nan=True)
    assert max(len(kept) for kept in forgetful.settling.memory.known.values()) == 3
    assert max(len(kept) for kept in judge.settling.memory.known.values()) == 20


def test_a_single_that_touches_nothing_stays(brief: Brief) -> None:
    design, wished = brief('fills = [2]\na_side = [1, 1]\nend_caps = ["none"]', "26in")
    (shape, *_) = space_of(design, wished).shapes
    layout = layout_of(replace(shape, count=1))
    placed = place(layout, np.full((3, 2), 100.0), 320.0, -2.0)
    assert np.array_equal(eased(layout.body, placed), placed.centres)
