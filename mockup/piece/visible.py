"""What shows from the front: each colour's share, daylight through a section, and bare frame.

Everything is looked at on a fine grid of cells that lies evenly to both sides of the middle line,
so that a mirrored piece gives mirrored answers.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from mockup.panel.numerals import NumeralShape
from mockup.piece.assemble import panel_plane
from mockup.piece.placed import Balloon, Piece

Floats = NDArray[np.float64]
Owners = NDArray[np.int32]
Bools = NDArray[np.bool_]

FOIL = "foil"
"""The key under which the numerals' share is told."""
NOTHING, NUMERALS = -1, -2
_STEP = 1.5


def visible_shares(piece: Piece, *, step: float = _STEP) -> dict[str, float]:
    """Each letter's share of the balloons and numerals seen from the front; they sum to 1.

    Tube and stand are left out of account. At 1.5 mm a share is right to about 0.1 % for balloons
    of 70 mm and more. Empty where there is nothing to see.
    """
    owner = seen_from_front(piece, step=step)
    letters = sorted({b.letter for b in piece.balloons})
    of_balloon = np.array([letters.index(b.letter) for b in piece.balloons], dtype=np.intp)
    counts = np.bincount(of_balloon[owner[owner >= 0]], minlength=len(letters))
    cells = dict(zip(letters, counts.tolist(), strict=True))
    foil = int((owner == NUMERALS).sum())
    if foil:
        cells[FOIL] = foil
    total = sum(cells.values())
    return {key: count / total for key, count in cells.items()} if total else {}


def seen_from_front(piece: Piece, *, step: float = _STEP) -> Owners:
    """Whose each cell is, (rows upward, columns): a balloon's index, NUMERALS or NOTHING.

    In each cell the balloon whose skin is nearest to the viewer shows. The numerals hide every
    balloon whose centre is no nearer than their plane, and the others hide them.
    """
    xs, ys = cells(piece.extent.x, step), cells(piece.extent.y, step)
    owner = np.full((len(ys), len(xs)), NOTHING, dtype=np.int32)
    front = np.full(owner.shape, -np.inf)
    panel = piece.design.panel
    plane = panel_plane(panel, piece.frame) if panel and piece.fit else np.inf
    _lay([b for b in piece.balloons if b.centre[2] <= plane], xs, ys, owner, front)
    for shape in piece.fit.numerals if piece.fit else ():
        _lay_numeral(shape, xs, ys, owner, front)
    _lay([b for b in piece.balloons if b.centre[2] > plane], xs, ys, owner, front)
    return owner


def cells(span: tuple[float, float], step: float) -> Floats:
    """Cell centres over a span, symmetric about 0.

    >>> cells((-2.0, 1.0), 1.0).tolist()
    [-1.5, -0.5, 0.5]
    """
    count = int(np.ceil(max(abs(span[0]), abs(span[1])) / step))
    every = (np.arange(-count, count, dtype=np.float64) + 0.5) * step
    return every[(every > span[0] - step / 2) & (every < span[1] + step / 2)]


def _span(marks: Floats, low: float, high: float) -> slice:
    return slice(int(np.searchsorted(marks, low)), int(np.searchsorted(marks, high)))


def _lay(balloons: Iterable[Balloon], xs: Floats, ys: Floats, owner: Owners, front: Floats) -> None:
    """Mark the cells where a balloon's skin is nearer than what was laid before."""
    for balloon in balloons:
        (x, y, z), r = balloon.centre, balloon.radius
        at = _span(ys, y - r, y + r), _span(xs, x - r, x + r)
        rise = r * r - ((ys[at[0]] - y) ** 2)[:, None] - (xs[at[1]] - x) ** 2
        skin = np.where(rise > 0, z + np.sqrt(np.maximum(rise, 0.0)), -np.inf)
        nearer = skin > front[at]
        front[at][nearer] = skin[nearer]
        owner[at][nearer] = balloon.index


def _lay_numeral(shape: NumeralShape, xs: Floats, ys: Floats, owner: Owners, front: Floats) -> None:
    """Mark the cells within half a stroke of a numeral's centre-line."""
    r = shape.half_width
    for stroke in shape.strokes:
        for (x0, y0), (x1, y1) in pairwise(stroke.tolist()):
            at = (
                _span(ys, min(y0, y1) - r, max(y0, y1) + r),
                _span(xs, min(x0, x1) - r, max(x0, x1) + r),
            )
            px, py, dx, dy = xs[at[1]] - x0, (ys[at[0]] - y0)[:, None], x1 - x0, y1 - y0
            along = np.clip((px * dx + py * dy) / (dx * dx + dy * dy), 0.0, 1.0)
            inside = (px - along * dx) ** 2 + (py - along * dy) ** 2 <= r * r
            owner[at][inside] = NUMERALS
            front[at][inside] = -np.inf


def daylight_share(balloons: Iterable[Balloon], *, step: float = _STEP) -> float:
    """How much of a section's band is daylight, seen from the front: 0 to 1.

    The band runs along the knots of the section, out to the centres of its outermost balloons and
    in to those of its innermost; what is not covered in it by a balloon is daylight. So gaps that
    open on the outside of a bend count, and the opening inside a whole ring does not.

    >>> daylight_share([])
    0.0
    """
    section = list(balloons)
    loops = _band(section)
    if not loops:
        return 0.0
    corners = np.concatenate(loops)
    (low, bottom), (high, top) = corners.min(axis=0).tolist(), corners.max(axis=0).tolist()
    xs, ys = cells((low, high), step), cells((bottom, top), step)
    inside = within(loops, xs, ys)
    total = int(inside.sum())
    if not total:
        return 0.0
    owner = np.full(inside.shape, NOTHING, dtype=np.int32)
    _lay(section, xs, ys, owner, np.full(inside.shape, -np.inf))
    return int((inside & (owner == NOTHING)).sum()) / total


def _band(section: list[Balloon]) -> list[Floats]:
    """The outline of a section's band in the picture: one loop, or two round a whole ring."""
    clusters: dict[int, list[Balloon]] = {}
    for balloon in sorted(section, key=_outward):
        clusters.setdefault(balloon.cluster, []).append(balloon)
    if len(clusters) < 2:
        return []
    knots = np.array([members[0].knot[:2] for members in clusters.values()])
    gaps = np.hypot(*np.diff(knots, axis=0).T)
    whole = len(knots) > 3 and float(np.hypot(*(knots[0] - knots[-1]))) < 1.5 * float(gaps.max())
    normals = _normals(knots, whole)
    reach = [
        [float((np.array(b.centre[:2]) - knot) @ normal) for b in members]
        for members, knot, normal in zip(clusters.values(), knots, normals, strict=True)
    ]
    one = knots + normals * np.array([[max(each)] for each in reach])
    other = knots + normals * np.array([[min(each)] for each in reach])
    return [one, other] if whole else [np.concatenate([one, other[::-1]])]


def _outward(balloon: Balloon) -> tuple[float, int]:
    """Clusters from a section's left end to its right; one that faces the middle comes last."""
    if balloon.side == "middle":
        return (0.0 if balloon.step == 0 else np.inf), balloon.index
    return (balloon.step if balloon.side == "right" else -balloon.step), balloon.index


def _normals(knots: Floats, whole: bool) -> Floats:
    """Unit vectors across the line of knots, (k, 2)."""
    padded = np.vstack(
        [knots[-1:] if whole else knots[:1], knots, knots[:1] if whole else knots[-1:]]
    )
    along = padded[2:] - padded[:-2]
    return np.asarray(np.column_stack([-along[:, 1], along[:, 0]]) / np.hypot(*along.T)[:, None])


def within(loops: Iterable[Floats], xs: Floats, ys: Floats) -> Bools:
    """Which cells lie inside closed loops (k, 2), by the even-odd rule; (rows, columns).

    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> within([square], np.array([-1.0, 1.0]), np.array([1.0, 3.0])).tolist()
    [[False, True], [False, False]]
    """
    inside = np.zeros((len(ys), len(xs)), dtype=bool)
    for loop in loops:
        for (x0, y0), (x1, y1) in pairwise([*loop.tolist(), loop[0].tolist()]):
            rows = _span(ys, min(y0, y1), max(y0, y1))
            if rows.start < rows.stop:
                crossing = x0 + (ys[rows] - y0) * (x1 - x0) / (y1 - y0)
                inside[rows] ^= xs[None, :] > crossing[:, None]
    return inside


def bare_share(piece: Piece, section: str, *, step: float = 1.0) -> float:
    """The share of the frame between a section's outermost knots that no balloon covers.

    The centre line is looked at every ``step`` mm: it is bare where no balloon that lies level
    with the tube or in front of it covers it.
    """
    points = np.array(_stretch(piece, section, step)).reshape(-1, 2)
    if not len(points):
        return 0.0
    covered = np.zeros(len(points), dtype=bool)
    for balloon in piece.balloons:
        if balloon.centre[2] >= -piece.frame.tube / 2:
            gap = points - np.array(balloon.centre[:2])
            covered |= (gap * gap).sum(axis=1) < balloon.radius**2
    return float((~covered).mean())


def _stretch(piece: Piece, section: str, step: float) -> list[tuple[float, float]]:
    """Points of the frame from a section's first knot to its last; all of it for a whole ring."""
    clusters = [c for c in piece.clusters if c.section == section]
    if not clusters:
        return []
    first = min(clusters, key=lambda c: c.along)
    whole = any(each.section == section for each in piece.wholes)
    length = piece.frame.length if whole else max(c.along for c in clusters) - first.along
    count = int(np.ceil(length / step))
    start = piece.frame.s_at_deg(first.frame_deg)
    return [piece.frame.at(start + (k + 0.5) * length / count) for k in range(count)]
