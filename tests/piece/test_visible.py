"""What shows from the front, against closed forms and a brute-force count of points."""

from __future__ import annotations

from dataclasses import replace
from math import acos, pi, sqrt

import numpy as np
import pytest
from shapely import contains_xy

from mockup.design.wish import Wish, design_from_wish
from mockup.piece.assemble import assemble, panel_plane
from mockup.piece.placed import Balloon, Piece
from mockup.piece.visible import FOIL, NOTHING, cells, seen_from_front, visible_shares


@pytest.fixture(scope="module")
def piece() -> Piece:
    crescent = "3, 2, 2, end 1"
    wish = Wish(ring="24in", numerals="38", height="13in", top=crescent, bottom=crescent)
    return assemble(design_from_wish(wish))


def with_balls(piece: Piece, *balls: tuple[float, float, float, float, str]) -> Piece:
    """The piece with these balloons (x, y, z, diameter, letter) only, and no numerals."""
    like = piece.balloons[0]
    made: tuple[Balloon, ...] = tuple(
        replace(like, index=k, centre=(x, y, z), diameter=d, letter=letter)
        for k, (x, y, z, d, letter) in enumerate(balls)
    )
    return replace(piece, balloons=made, fit=None)


def brute_shares(piece: Piece, rng: np.random.Generator, points: int) -> dict[str, float]:
    """Shares by looking along z at scattered points, each against every balloon and outline."""
    e, panel = piece.extent, piece.design.panel
    x, y = rng.uniform(*e.x, points), rng.uniform(*e.y, points)
    plane = panel_plane(panel, piece.frame) if panel else np.inf
    foil = np.zeros(points, dtype=bool)
    for shape in piece.fit.numerals if piece.fit else ():
        foil |= contains_xy(shape.polygon(), x, y)
    front, who = np.full(points, -np.inf), np.full(points, "", dtype=object)
    for b in piece.balloons:
        rise = b.radius**2 - (x - b.centre[0]) ** 2 - (y - b.centre[1]) ** 2
        skin = np.where(rise > 0, b.centre[2] + np.sqrt(np.maximum(rise, 0)), -np.inf)
        nearer = (skin > front) & ~(foil & (b.centre[2] <= plane))
        front, who = np.where(nearer, skin, front), np.where(nearer, b.letter, who)
    who = np.where(foil & (who == ""), FOIL, who)
    names, counts = np.unique(who[who != ""], return_counts=True)
    return dict(zip(names.tolist(), (counts / counts.sum()).tolist(), strict=True))


def test_shares_agree_with_a_count_of_scattered_points(piece: Piece) -> None:
    found, judged = visible_shares(piece), brute_shares(piece, np.random.default_rng(7), 400_000)
    assert found.keys() == judged.keys()
    assert max(abs(found[name] - judged[name]) for name in found) < 0.005
    assert sum(found.values()) == pytest.approx(1.0)


def test_two_crossing_balls_of_one_depth_share_the_union_of_two_discs(piece: Piece) -> None:
    """The lens of two circles: E. Weisstein, MathWorld, "Circle-Circle Intersection"."""
    r, apart = 60.0, 80.0
    lens = 2 * r * r * acos(apart / 2 / r) - apart / 2 * sqrt(4 * r * r - apart * apart)
    pair = with_balls(piece, (-40, 0, 0, 2 * r, "A"), (40, 0, 0, 2 * r, "B"))
    assert visible_shares(pair) == pytest.approx({"A": 0.5, "B": 0.5}, abs=1e-12)
    owner = seen_from_front(pair, step=1.0)
    assert (owner != NOTHING).sum() == pytest.approx(2 * pi * r * r - lens, rel=1e-3)


def test_a_ball_in_front_shows_whole(piece: Piece) -> None:
    """Of two discs one within the other, the front one shows all its area, the other the rest."""
    pair = with_balls(piece, (0, 0, -200, 200, "A"), (10, 20, 0, 100, "B"))
    assert visible_shares(pair)["B"] == pytest.approx(0.25, abs=1e-3)
    assert visible_shares(with_balls(piece)) == {}


def test_a_mirrored_piece_is_seen_mirrored(piece: Piece) -> None:
    flipped = replace(
        piece,
        fit=None,
        balloons=tuple(
            replace(b, centre=(-b.centre[0], b.centre[1], b.centre[2])) for b in piece.balloons
        ),
    )
    plain = replace(piece, fit=None)
    seen, mirrored = (seen_from_front(each, step=3.0) != NOTHING for each in (plain, flipped))
    assert (seen == mirrored[:, ::-1]).all()
    assert visible_shares(plain) == pytest.approx(visible_shares(flipped), abs=1e-9)


def test_cells_lie_evenly_to_both_sides() -> None:
    marks = cells((-10.0, 10.0), 0.7)
    assert np.allclose(marks, -marks[::-1])
