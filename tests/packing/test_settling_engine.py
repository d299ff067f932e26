"""Settling judged by a general physics engine that knows nothing of ours: MuJoCo.

What is matched: each balloon is a ball of mass 1 that only slides (a sphere's turning changes
nothing); its neck a spatial tendon that is slack up to the balloon's radius and beyond it a linear
spring of stiffness 0.3; two balloons press each other as a linear spring of stiffness 1. By
MuJoCo's documentation (Computation, "Constraint model" and "Solver parameters") a contact at rest
bears k r / R with R = (1 - d) / d times the inverse mass of the pair, here 2, and k the given
stiffness over d: so that stiffness is 2 (1 - d) for a force equal to the overlap. Friction and
gravity are off. Time steps, damping, contact search and solver are the engine's own.
"""

from __future__ import annotations

from pathlib import Path

import mujoco
import numpy as np
import pytest
from numpy.typing import NDArray

from mockup.design.reading import read_design
from mockup.packing.settling import settle
from mockup.piece.assemble import assemble

Floats = NDArray[np.float64]
SAMPLES = Path(__file__).parents[2] / "samples"
NECK, WIDTH = 0.3, 0.9
# One of the engine's lengths, mm: its figures are made for things of about 1.
LENGTH = 100.0


def engine(centres: Floats, diameters: Floats, knots: Floats, neck: float = NECK) -> Floats:
    """Where the engine lets the balloons come to rest, (k, 3) mm."""
    bodies, necks = [], []
    for k, (at, knot) in enumerate(zip(centres / LENGTH, knots / LENGTH, strict=True)):
        radius = diameters[k] / 2 / LENGTH
        slides = "".join(
            f'<joint type="slide" axis="{axis}"/>' for axis in ("1 0 0", "0 1 0", "0 0 1")
        )
        bodies.append(
            f'<site name="k{k}" pos="{knot[0]} {knot[1]} {knot[2]}"/>'
            f'<body pos="{at[0]} {at[1]} {at[2]}">{slides}'
            f'<geom type="sphere" size="{radius}" mass="1"/><site name="c{k}"/></body>'
        )
        necks.append(
            f'<spatial stiffness="{neck}" springlength="0 {radius}">'
            f'<site site="k{k}"/><site site="c{k}"/></spatial>'
        )
    model = mujoco.MjModel.from_xml_string(
        f'<mujoco><option gravity="0 0 0" timestep="0.15" integrator="implicitfast"/>'
        f'<default><joint damping="0.6"/><geom condim="1" solref="-{2 * (1 - WIDTH)} -0.2" '
        f'solimp="{WIDTH} {WIDTH} 1"/></default><worldbody>{"".join(bodies)}</worldbody>'
        f"<tendon>{''.join(necks)}</tendon></mujoco>"
    )
    data = mujoco.MjData(model)
    for step in range(3000):
        mujoco.mj_step(model, data)
        if step % 25 == 24 and np.abs(data.qvel).max() < 1e-5:
            break
    return np.asarray(centres + data.qpos.reshape(-1, 3) * LENGTH)


def pressed(centres: Floats, diameters: Floats, least: float) -> set[tuple[int, int]]:
    """Pairs that press each other by more than ``least`` mm, by brute force."""
    gap = np.sqrt(((centres[:, None] - centres[None]) ** 2).sum(axis=2))
    overlap = (diameters[:, None] + diameters[None]) / 2 - gap
    first, second = np.nonzero(np.triu(overlap > least, 1))
    return set(zip(first.tolist(), second.tolist(), strict=True))


def placed(sample: str) -> tuple[Floats, Floats, Floats]:
    piece = assemble(read_design(SAMPLES / f"{sample}.toml"))
    return (
        np.array([b.placed for b in piece.balloons]),
        np.array([b.diameter for b in piece.balloons]),
        np.array([b.knot for b in piece.balloons]),
    )


def test_the_engines_springs_are_ours() -> None:
    # Two balloons tied at one knot 30 mm off on either side, pressed apart against their necks:
    # the overlap o and the stretch t of each neck balance at o = 0.3 t, with t + o / 2 = 30.
    centres, diameters = np.array([[60.0, 0, 0], [-60.0, 0, 0]]), np.array([100.0, 100.0])
    knots = np.array([[-30.0, 0, 0], [30.0, 0, 0]])
    apart = engine(centres, diameters, knots)
    stretch = 30.0 / (1.0 + NECK / 2)
    assert apart[0, 0] == pytest.approx(20.0 + stretch, rel=1e-3)
    assert settle(centres, diameters, knots).centres[0, 0] == pytest.approx(apart[0, 0], rel=2e-3)


@pytest.mark.parametrize("sample", ["ruby-thirty", "juniper-two", "lamplight-column"])
def test_a_general_engine_settles_alike(sample: str) -> None:
    centres, diameters, knots = placed(sample)
    mean = float(diameters.mean())
    ours = settle(centres, diameters, knots, tolerance=1e-4).centres
    theirs = engine(centres, diameters, knots)
    off = float(np.linalg.norm(ours - theirs, axis=1).mean()) / mean
    moved = float(np.linalg.norm(ours - centres, axis=1).mean()) / mean
    # Pairs that barely touch are decided by rounding: those count that press by a 500th or more.
    one, other = (pressed(each, diameters, mean / 500) for each in (ours, theirs))
    differ = len(one ^ other) / len(one | other)
    print(
        f"{sample}: {off:.2%} of a diameter off after {moved:.0%}, {differ:.1%} of contacts differ"
    )
    assert moved > 0.05
    assert off <= 0.03
    assert differ <= 0.05


def test_the_judge_tells_other_springs_apart() -> None:
    centres, diameters, knots = placed("juniper-two")
    ours = settle(centres, diameters, knots).centres
    theirs = engine(centres, diameters, knots, neck=10 * NECK)
    assert float(np.linalg.norm(ours - theirs, axis=1).mean()) / diameters.mean() > 0.03
