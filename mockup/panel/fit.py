"""Do these numerals fit? The verdict, the room to spare, the best shift and the largest height."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from functools import cached_property, lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import ArrayLike

from mockup.panel.capsules import Around, Row, around, row_of
from mockup.panel.heights import largest_height
from mockup.panel.numerals import NotANumeral, NumeralShape, numeral_row
from mockup.panel.outline import Floats, Outline, outline_of
from mockup.panel.shifts import best_shift
from mockup.panel.touches import Contacts, Touch, contacts
from mockup.panel.window import (
    Point,
    blocked_radii,
    centre_depths,
    require_opening,
    window,
    window_spans,
)
from mockup.records import dataclass

if TYPE_CHECKING:
    import shapely

Verdict = Literal["clear", "tucks", "clashes", "overhangs"]

_ROUNDING = 1e-9
"""Share of the opening's radius below which a clearance counts as touching, not crossing."""


@dataclass(frozen=True)
class Fit:
    """How a row of numerals stands in its window; all lengths in mm, places in the piece.

    ``verdict``: "clashes" where a numeral runs into a disc that a balloon blocks, or where a
    balloon covers the centre so that there is no window; else "overhangs" where one reaches
    over the opening's edge; else "tucks" where one goes under the silhouette of a balloon in
    front; else "clear". ``room`` is the least clearance to blocked discs and opening (and, when
    clear, to the silhouettes in front): what is to spare, or below 0 by how much it fails.
    ``touches`` are the clashes, or where there are none the tucks. ``attach`` are the points of the
    numerals' outlines that come nearest to a blocked disc or the opening's edge: one for the
    upper and one for the lower half of each. ``opening`` is what the window is cut from.
    """

    verdict: Verdict
    room: float
    raised: float
    height: float
    width: float
    window_width: float
    window_height: float
    numerals: tuple[NumeralShape, ...]
    touches: tuple[Touch, ...]
    overhang: float
    attach: tuple[Point, ...]
    opening: _Opening = field(compare=False, repr=False)

    # What costs most is reckoned only for those who ask: a check that holds does not.

    @cached_property
    def largest_height(self) -> float:
        """The largest filled height of these numerals that is clear or tucks, mm; 0 for none."""
        if not self.window_width:
            return 0.0
        return largest_height(self.opening.row, self.height, self.opening.around)

    @cached_property
    def window_area(self) -> float:
        """The window's area, mm2."""
        return float(self.opening.window.area)

    @cached_property
    def window(self) -> tuple[Point, ...]:
        """The outer outline of the window, closed; empty where there is none."""
        (x, y), outer = self.opening.centre, self.opening.window.exterior
        return tuple((float(a) + x, float(b) + y) for a, b in outer.coords)


@dataclass(frozen=True)
class _Opening:
    """What a window is cut from: everything about the opening's centre, mm."""

    centre: Point
    radius: float
    xyz: Floats
    diameters: Floats
    slab: tuple[float, float]
    row: Row
    around: Around

    @cached_property
    def window(self) -> shapely.Polygon:
        """The window about the opening's centre."""
        return window(self.radius, self.xyz, self.diameters, *self.slab)


@dataclass(frozen=True)
class _Balloons:
    """Balloons about the opening's centre: where, how they block the slab, what they hide of it."""

    xy: Floats
    blocked: Floats
    silhouettes: Floats
    depths: Floats


@dataclass(frozen=True)
class _Answer:
    verdict: Verdict
    room: float
    touches: tuple[Touch, ...]


def fit_numerals(
    text: str,
    height: float,
    *,
    widths: Mapping[str, float],
    gap: float,
    thickness: float,
    z0: float,
    opening_radius: float,
    centres: ArrayLike,
    diameters: ArrayLike,
    raised: float | None = None,
    opening_centre: Point = (0.0, 0.0),
) -> Fit:
    """Fit ``text`` at the filled ``height`` into an opening among balloons, all mm.

    ``widths`` are measured widths at this height, ``gap`` stands between the numerals and does not
    grow with them. ``centres`` (k, 3) and ``diameters`` (k,) are the balloons, ``thickness`` and
    ``z0`` the slab of the numerals. The row is centred on ``opening_centre`` and ``raised`` from
    there; None takes the shift with the greatest least clearance. Contact is decided from
    distances between centres and centre-lines. Raises ``UnknownCharacter``, ``NotANumeral`` or
    ``NotAnOpening``.

    >>> fit = fit_numerals("1", 100.0, widths={}, gap=0.0, thickness=8.0, z0=0.0,
    ...                    opening_radius=200.0, centres=[[0, 200, 0]], diameters=[200.0])
    >>> fit.verdict, round(fit.raised, 1), round(fit.room, 1)
    ('clear', -49.7, 99.9)
    """
    require_opening(opening_radius, thickness, z0)
    shapes, outline, row = _hung(text, height, tuple(widths.items()), gap)
    xyz = np.asarray(centres, dtype=np.float64).reshape(-1, 3) - (*opening_centre, 0.0)
    sizes = np.asarray(diameters, dtype=np.float64).reshape(-1)
    balloons = _balloons(xyz, sizes, thickness, z0)
    near = around(opening_radius, balloons.xy, balloons.blocked)
    shift = best_shift(row, near) if raised is None else _finite(raised)
    found = contacts(outline.raised(shift), opening_radius, balloons.xy)
    answer = _answer(found, balloons, _ROUNDING * opening_radius)
    spans = window_spans(opening_radius, balloons.xy, balloons.blocked)
    fit = Fit(
        verdict=answer.verdict,
        room=answer.room,
        raised=shift,
        height=height,
        width=_edges(shapes[-1])[1] - _edges(shapes[0])[0],
        window_width=spans[0],
        window_height=spans[1],
        numerals=tuple(shape.moved(0.0, shift) for shape in shapes),
        touches=answer.touches,
        overhang=max(0.0, -float(found.edge.min())),
        attach=found.glue_points(balloons.blocked),
        opening=_Opening((0.0, 0.0), opening_radius, xyz, sizes, (thickness, z0), row, near),
    )
    return fit if opening_centre == (0.0, 0.0) else _in_piece(fit, *opening_centre)


@lru_cache(maxsize=64)
def _hung(
    text: str, height: float, widths: tuple[tuple[str, float], ...], gap: float
) -> tuple[tuple[NumeralShape, ...], Outline, Row]:
    """The row by itself: the same numerals are fitted among many balloons."""
    shapes = _row(text, height, dict(widths), gap)
    outline = outline_of(shapes, _fixed_x(text, shapes, dict(widths)))
    return shapes, outline, row_of(outline)


def _row(
    text: str, height: float, widths: Mapping[str, float], gap: float
) -> tuple[NumeralShape, ...]:
    shapes = numeral_row(text, height, widths, gap)
    if not shapes:
        raise NotANumeral("there is no numeral to fit; write at least one, such as 7")
    return shapes


def _fixed_x(
    text: str, shapes: tuple[NumeralShape, ...], widths: Mapping[str, float]
) -> list[float]:
    """The part of each numeral's x that the gaps make."""
    closed = numeral_row(text, shapes[0].height, widths, 0.0)
    return [shape.x - near.x for shape, near in zip(shapes, closed, strict=True)]


def _balloons(xyz: Floats, diameters: ArrayLike, thickness: float, z0: float) -> _Balloons:
    xy, blocked = xyz[:, :2], blocked_radii(xyz, diameters, thickness, z0)
    radii = np.asarray(diameters, dtype=np.float64).reshape(-1) / 2
    silhouettes = np.where(xyz[:, 2] > z0, radii, 0.0)
    return _Balloons(xy, blocked, silhouettes, centre_depths(xy, blocked))


def _answer(found: Contacts, balloons: _Balloons, rounding: float) -> _Answer:
    solid, edge = found.least(balloons.blocked), float(found.edge.min())
    covered = float(balloons.depths.max(initial=-np.inf))
    room = min(solid, edge, -covered if covered > 0.0 else np.inf)
    tucks = found.touches(balloons.silhouettes, rounding)
    if solid < -rounding:
        return _Answer("clashes", room, found.touches(balloons.blocked, rounding))
    if covered > 0.0:
        return _Answer("clashes", room, found.covering(balloons.depths))
    if edge < -rounding:
        return _Answer("overhangs", room, tucks)
    if tucks:
        return _Answer("tucks", room, tucks)
    return _Answer("clear", min(room, found.least(balloons.silhouettes)), ())


def _in_piece(fit: Fit, x: float, y: float) -> Fit:
    """The same fit about an opening with its centre at (x, y)."""
    return replace(
        fit,
        opening=replace(fit.opening, centre=(x, y)),
        numerals=tuple(shape.moved(x, y) for shape in fit.numerals),
        touches=tuple(replace(t, at=(t.at[0] + x, t.at[1] + y)) for t in fit.touches),
        attach=tuple((a + x, b + y) for a, b in fit.attach),
    )


def _edges(shape: NumeralShape) -> Point:
    return shape.x - shape.width / 2, shape.x + shape.width / 2


def _finite(raised: float) -> float:
    if not isfinite(raised):
        raise NotANumeral(f"the row cannot be raised by {raised:g} mm")
    return raised
