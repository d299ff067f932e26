"""Crescents that meet: what is between them, and how they settle as one body."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np
from numpy.typing import NDArray

from mockup.packing.settling import settle
from mockup.suggest.crescents import ENDS, Body, Layout, Pairs, Placed, pairs_of

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

# Nearer than this share of their radii when placed, balloons may touch while they settle.
_REACH = 0.2
_UNDER = np.array([1.0, -1.0, 1.0])[:, None, None]


@dataclass(frozen=True)
class Lain:
    """Balloons of m options in their places on the frame: ``xyz`` (3, k, m), ``radii`` (k, m)."""

    xyz: Floats
    radii: Floats


def near(groups: Sequence[Lain], *, placed: bool) -> Bools:
    """Whether balloons of two groups touch, or ``placed`` are so near that they may come to."""
    reach = 1 + _REACH if placed else 1.0
    return np.asarray(np.max(list(_shares(groups, reach)), axis=0) > 0)


def within(groups: Sequence[Lain], reach: Floats) -> Bools:
    """Whether balloons of two groups are at most ``reach`` (m,) mm apart, skin to skin."""
    gaps = [(apart - a - b).min(axis=(0, 1)) for apart, a, b in _pairs(groups)]
    return np.asarray(np.min(gaps, axis=0) <= reach)


def crossing_between(groups: Sequence[Lain]) -> Floats:
    """The worst overlap of two groups, as a share of the smaller balloon's diameter, (m,)."""
    return np.asarray(np.max(list(_shares(groups, 1.0)), axis=0))


def _shares(groups: Sequence[Lain], reach: float) -> Iterator[Floats]:
    for apart, a, b in _pairs(groups):
        yield ((reach * (a + b) - apart) / (2 * np.minimum(a, b))).max(axis=(0, 1))


def _pairs(groups: Sequence[Lain]) -> Iterator[tuple[Floats, Floats, Floats]]:
    """Of each two groups how far apart (k, l, m) their centres are, and both radii."""
    for one, other in combinations(groups, 2):
        gap = one.xyz[:, :, None] - other.xyz[:, None]
        yield np.sqrt((gap * gap).sum(axis=0)), one.radii[:, None], other.radii[None]


def one_body(layouts: Sequence[Layout], fixed: Body, *, facing: bool) -> Body:
    """The crescents of every length and what is ``fixed``, as the full settling moves them: as one.

    Of two that are ``facing`` the second lies upside down, so that one side of both is moved and
    their ends may touch.
    """
    bodies = [*(layout.body for layout in layouts), fixed]
    starts = np.cumsum([0, *(len(body.phi) for body in bodies)]).tolist()
    touching = [
        Pairs(body.touching.i + start, body.touching.j + start, body.touching.flip)
        for body, start in zip(bodies, starts, strict=False)
    ]
    if facing and len(layouts) == 2:
        touching.append(_ends(layouts, starts[1]))
    return Body(
        np.concatenate([body.cluster + start for body, start in zip(bodies, starts, strict=False)]),
        np.concatenate([body.phi for body in bodies]),
        np.concatenate([body.on_mirror for body in bodies]),
        np.concatenate([body.weight for body in bodies]),
        Pairs(
            np.concatenate([pairs.i for pairs in touching]),
            np.concatenate([pairs.j for pairs in touching]),
            np.hstack([pairs.flip for pairs in touching]),
        ),
    )


def _ends(layouts: Sequence[Layout], second: int) -> Pairs:
    """Balloons at the ends of two crescents that face each other."""
    one, other = layouts
    mine, theirs = (np.flatnonzero(~each.body.on_mirror).tolist() for each in layouts)
    return pairs_of(
        (i, second + j, 1, 1)
        for i, j in product(mine, theirs)
        if one.ends[i] + other.ends[j] <= ENDS
    )


def all_placed(placed: Sequence[Placed], *, facing: bool) -> Placed:
    """Where the balloons of ``one_body`` are placed: those of each length, and the fixed ones."""
    return Placed(
        np.concatenate(_under([each.centres for each in placed], facing), axis=1),
        np.concatenate(_under([each.knots for each in placed], facing), axis=1),
        np.concatenate([each.radii for each in placed]),
        np.concatenate([each.along for each in placed]),
    )


def apart_again(points: Floats, layouts: Sequence[Layout], *, facing: bool) -> list[Floats]:
    """Points (3, k, m) of one body as those of each length, over 12 o'clock, and the fixed ones."""
    cuts = np.cumsum([len(layout.phi) for layout in layouts])
    return _under(np.split(points, cuts, axis=1), facing)


def _under(rows: list[Floats], facing: bool) -> list[Floats]:
    """The second of two crescents upside down, or upright again."""
    if not facing or len(rows) < 3:
        return rows
    return [rows[0], rows[1] * _UNDER, *rows[2:]]


def fully(placed: Lain, knots: Floats) -> tuple[Floats, Floats]:
    """Options settled one by one as whole pieces: centres (3, k, m), and swings (k, m) degrees."""
    centres, turned = np.empty_like(placed.xyz), np.empty_like(placed.radii)
    for n in range(placed.radii.shape[1]):
        found = settle(placed.xyz[:, :, n].T, 2 * placed.radii[:, n], knots[:, :, n].T)
        centres[:, :, n], turned[:, n] = found.centres.T, found.swing_deg
    return centres, turned
