"""What shows from the front: whose each cell of the picture is, and each colour's share of it.

The picture is looked at on a fine grid of cells that lies evenly to both sides of the middle line,
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
