"""How many options a second are judged, against solving each one's nestling by scipy's SLSQP.

Targets, beside a sort that takes about 18 ms: 1,000 options in 1 s, 10,000 end to end in 15 s on
two cores; at most 0.02 of SLSQP's time an option; the window's height as in the full settling to
2 %. Memory stays flat.
"""

from __future__ import annotations

import tracemalloc
from dataclasses import replace
from os import times
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize

from mockup.design.model import Design
from mockup.design.wishes import Wishes, read_wishes
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.suggest.comparing import Expense
from mockup.suggest.crew import fixed_part
from mockup.suggest.designs import design_of
from mockup.suggest.judging import ROOM_MARGIN, Judge
from mockup.suggest.searching import BATCH, suggested
from mockup.suggest.space import Options, Space, chunks, every_option, space_of
from tests.benchmarks.ratios import NUMBERS, by_turns, once, tell, yards

Floats = NDArray[np.float64]
SAMPLE = Path(__file__).parents[2] / "samples" / "wishes-hundred.toml"
NECK = 0.3


def brief(folder: Path, wishes: str, ring: str = "24in") -> tuple[Design, Wishes, Space]:
    text = SAMPLE.read_text("utf-8").split("[wishes]")[0].replace("24in", ring)
    file = folder / "brief.toml"
    file.write_text(f"{text}[wishes]\n{wishes}", "utf-8")
    design, wished = read_wishes(file)
    return design, wished, space_of(design, wished)


def judge_all(judge: Judge, space: Space) -> None:
    for options in every_option(space):
        for part in chunks(len(options.fills), BATCH):
            judge(Options(options.shape, options.fills[part]))


@pytest.mark.parametrize(
    "wishes",
    [
        "a_side = [1, 4]\n",
        "a_side = [1, 3]\nalike = false\n",
        'a_side = [1, 4]\nsections = ["top"]\n',
    ],
    ids=["alike", "unlike", "beside a fixed one"],
)
def test_a_thousand_options_a_second(
    tmp_path: Path, wishes: str, request: pytest.FixtureRequest
) -> None:
    """Both turns, as nothing says them."""
    design, wished, space = brief(tmp_path, wishes)
    judge_all(Judge(design, wished, space, fixed_part(design, wished)), space)
    fresh = [Judge(design, wished, space, fixed_part(design, wished)) for _ in range(4)]
    ratio = yards(lambda: judge_all(fresh.pop(), space), rounds=3) * 1000 / space.total
    name = request.node.callspec.id
    tell(f"judging a thousand options ({name}) over a sort", ratio, 56.0)


def test_ten_thousand_options_end_to_end(tmp_path: Path) -> None:
    """A ring in which none fits, so that every option is looked at."""
    wishes = 'room = "3in"\nfills = [2, 2.25, 2.5, 2.75, 3, 3.5, 4, 4.5]\na_side = [2, 5]\n'
    wishes += 'turns = ["valley in", "point in"]\nend_caps = ["half", 1]\n'
    design, wished, space = brief(tmp_path, wishes, "23in")
    used = sum(times()[:4])
    outcome = suggested(design, wished, lambda piece: Expense(float(len(piece.balloons))), cores=2)
    busy = (sum(times()[:4]) - used) / 2
    assert outcome.best == ()
    assert outcome.looked_at == space.total >= 10_000
    yard = min(once(lambda: sorted(NUMBERS)) for _ in range(5))
    ratio = busy / yard * 10_000 / outcome.looked_at
    tell("10,000 options end to end, the work of one of two cores, over a sort", ratio, 850.0)


def test_memory_is_flat(tmp_path: Path) -> None:
    peaks = []
    for most in (3, 5):
        design, wished, space = brief(tmp_path, f"a_side = [{most}, {most}]\n")
        judge = Judge(design, wished, space, fixed_part(design, wished))
        tracemalloc.start()
        judge_all(judge, space)
        peaks.append(tracemalloc.get_traced_memory()[1] / 2**20)
        tracemalloc.stop()
    tell("peak memory of 1,716 options over that of 330", peaks[1] / peaks[0], 2.5)


def energy(flat: Floats, piece: Piece, pairs: NDArray[np.intp]) -> tuple[float, Floats]:
    """Soft spheres on stretchy necks, with its slope."""
    centres = flat.reshape(-1, 3)
    radii = np.array([b.radius for b in piece.balloons])
    gap = centres[pairs[:, 0]] - centres[pairs[:, 1]]
    apart = np.linalg.norm(gap, axis=1)
    over = np.maximum(radii[pairs].sum(axis=1) - apart, 0.0)
    push = gap * (over / np.maximum(apart, 1e-9))[:, None]
    neck = centres - np.array([b.knot for b in piece.balloons])
    length = np.linalg.norm(neck, axis=1)
    stretch = np.maximum(length - radii, 0.0)
    slope = neck * (NECK * stretch / np.maximum(length, 1e-9))[:, None]
    np.add.at(slope, pairs[:, 0], -push)
    np.add.at(slope, pairs[:, 1], push)
    return float((over**2).sum() + NECK * (stretch**2).sum()) / 2, slope.ravel()


def by_slsqp(piece: Piece) -> Floats:
    """The crescent at the top settled by a general solver: scipy.optimize, SLSQP."""
    top = [b for b in piece.balloons if b.section == "top"]
    start = np.array([b.placed for b in top])
    part = replace(piece, balloons=tuple(top))
    pairs = np.array([(i, j) for i in range(len(top)) for j in range(i + 1, len(top))])
    found = minimize(
        energy,
        start.ravel(),
        args=(part, pairs),
        jac=True,
        method="SLSQP",
        options={"ftol": 1e-6, "maxiter": 200},
    )
    return np.asarray(found.x).reshape(-1, 3)


def test_against_slsqp_in_one_run(tmp_path: Path) -> None:
    design, wished, space = brief(tmp_path, "a_side = [3, 3]\n")
    judge = Judge(design, wished, space, fixed_part(design, wished))
    every = [Options(one.shape, one.fills[:BATCH]) for one in every_option(space)]
    numbers = [(options, n) for options in every for n in (60, 200)]
    pieces = [assemble(design_of(design, wished, space, *one)) for one in numbers]
    one = by_turns(lambda: [judge(each) for each in every], lambda: list(map(by_slsqp, pieces)), 7)
    ratio = one * len(pieces) / sum(len(each.fills) for each in every)
    tell("judging an option against settling it by SLSQP", ratio, 0.02)


@pytest.mark.parametrize("ring", ["22in", "24in", "30in"])
@pytest.mark.parametrize(
    "wishes",
    [
        "a_side = [1, 4]\n",
        "a_side = [1, 4]\nalike = false\n",
        'a_side = [1, 4]\nsections = ["top"]\n',
        'a_side = [1, 4]\nplaces = [["3", "9"], ["12", "4"]]\nend_caps = ["none", 1]\n',
    ],
    ids=["alike", "unlike", "beside a fixed one", "elsewhere"],
)
def test_coarse_and_full_agree_on_the_window(
    tmp_path: Path, ring: str, wishes: str, request: pytest.FixtureRequest
) -> None:
    """In both turns; options that swing too far, and numerals that miss by inches, do not count."""
    design, wished, space = brief(tmp_path, wishes, ring)
    judge = Judge(design, wished, space, fixed_part(design, wished))
    off, rooms = [], [0.0]
    for options in every_option(space):
        few = Options(options.shape, options.fills[:: max(1, len(options.fills) // 6)])
        verdicts = judge(few)
        for n in np.flatnonzero(~np.isnan(verdicts.window)).tolist():
            piece = assemble(design_of(design, wished, space, few, n))
            if max(piece.nestling.swings_deg) <= design.limits.swing_deg and piece.opening:
                off.append(abs(verdicts.window[n] / piece.opening.height - 1))
            if piece.fit and piece.fit.room > -25.4:
                rooms.append(piece.fit.room - verdicts.room[n])
    name = request.node.callspec.id.replace(f"{ring}-", "").replace(f"-{ring}", "")
    tell(f"window of {len(off)} options ({name}) on a {ring} ring off by", max(off), 0.02, "of it")
    tell(
        f"room ({name}) told short on a {ring} ring over its margin", max(rooms) / ROOM_MARGIN, 1.0
    )
