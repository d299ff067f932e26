"""How well a section covers its stretch of frame: daylight through it, and frame left bare.

Both are asked on every check, so they are computed from discs and points rather than from the
picture, which costs more.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from mockup.piece.placed import Balloon, Piece
from mockup.piece.silhouette import Disc, Unclear, area, holds, loops
from mockup.piece.squares import Squares
from mockup.piece.tying import mark_of, member_of


def daylight_share(balloons: Iterable[Balloon]) -> float:
    """The holes through a run of balloons seen from the front, as a share of its silhouette.

    The silhouette is the union of the discs with its holes filled; exact, but where discs meet in
    one point, too close to call: there polygons of 64 sides stand for them. The opening of a whole
    ring, which holds the ring's centre, is no daylight.

    >>> daylight_share([])
    0.0
    """
    discs = [(b.centre[0], b.centre[1], b.radius) for b in balloons]
    try:
        outlines = loops(discs)
    except Unclear:
        return _by_polygons(discs)
    areas = [(area(discs, loop), loop) for loop in outlines]
    filled = sum(a for a, _ in areas if a > 0)
    holes = sum(-a for a, loop in areas if a < 0 and not holds(discs, loop, (0.0, 0.0)))
    return holes / filled if holes else 0.0


def _by_polygons(discs: Sequence[Disc]) -> float:
    import shapely  # seldom needed

    x, y, radius = np.array(discs).T
    union = shapely.union_all(shapely.buffer(shapely.points(x, y), radius, quad_segs=16))
    rings = [ring for part in shapely.get_parts(union) for ring in part.interiors]
    inside = [shapely.Polygon(ring) for ring in rings]
    holes = sum(p.area for p in inside if not p.contains(shapely.Point(0.0, 0.0)))
    return float(holes / (union.area + sum(p.area for p in inside))) if holes else 0.0


def bare_share(piece: Piece, section: str, *, step: float = 4.0) -> float:
    """The share of the frame between a section's outermost knots that no balloon covers.

    The centre line is looked at every ``step`` mm: it is bare where no balloon's surface lies in
    front of the tube.
    """
    points = np.array(list(_stretch(piece, section, step))).reshape(-1, 2)
    if not len(points):
        return 0.0
    covered = np.zeros(len(points), dtype=np.bool_)
    squares = Squares(
        ((float(x), float(y)) for x, y in points),
        max((b.radius for b in piece.balloons), default=1.0),
    )
    for balloon in piece.balloons:
        x, y, z = balloon.centre
        near = squares.around(x, y)
        inside = balloon.radius**2 - (points[near, 0] - x) ** 2 - (points[near, 1] - y) ** 2
        hides = (inside > 0) & (z + np.sqrt(np.maximum(inside, 0.0)) > piece.frame.tube / 2)
        covered[near] |= hides
    return float(1.0 - covered.mean())


def _stretch(piece: Piece, section: str, step: float) -> Iterator[tuple[float, float]]:
    spec = next(s for s in piece.design.sections if s.name == section)
    along = [c.along for c in piece.clusters if c.section == section]
    if not along:
        return
    member = member_of(piece.design, spec, piece.frame)
    centre, least, most = mark_of(spec, member), min(along), max(along)
    if spec.whole and member.closed:
        least = most - member.length
    if most - least < step:
        return
    for off in np.linspace(least, most, max(2, int((most - least) / step) + 1)):
        x, y = member.at(centre + float(off))
        yield float(x), float(y)
