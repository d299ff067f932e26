"""What warmth and altitude do to balloons between where they are filled and where they stand."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mockup.design.model import Air, Design
from mockup.lengths import format_length, format_spare
from mockup.packing.climate import growth, standard_pressure
from mockup.packing.inflation import fill_share, strokes_for_diameter
from mockup.packing.settling import settle
from mockup.panel.fit import Fit, fit_numerals
from mockup.piece.assemble import filled_height, panel_plane
from mockup.piece.finding import Finding
from mockup.piece.placed import Balloon, Piece

_MM_PER_M = 1000.0
# A change under this share of a diameter is less than a sizing gauge tells.
_UNNOTICED = 0.005
# Full size: past its nominal diameter a balloon bursts (common practice, no source).
_FULL = 1.0
# Common practice, no source; that both gases swell alike is the gas law.
_AIR = "Reckoned for air, as framed work is filled; helium swells alike, but it would lift."


def climate(piece: Piece) -> Iterator[Finding]:
    """Whether the balloons, grown or shrunk, stay within their size, and the numerals still fit.

    Says nothing where the file gives no ``[climate]``. The latex grows; the foil keeps its size,
    as its skin does not stretch.
    """
    if piece.design.climate is None or not piece.balloons:
        return
    share = growth_of(piece.design)
    yield _size(piece, share)
    if piece.fit is not None and abs(share - 1) > _UNNOTICED:
        yield _numerals(piece, share)


def growth_of(design: Design) -> float:
    """The diameter where the piece stands over that where it is filled; 1 without a climate."""
    if design.climate is None:
        return 1.0
    filled, stands = design.climate.filled, design.climate.stands
    return growth(filled.kelvin, pressure_of(filled), stands.kelvin, pressure_of(stands))


def pressure_of(air: Air) -> float:
    """The measured pressure, or that of the standard atmosphere at the altitude, Pa."""
    if air.pressure is not None:
        return air.pressure
    return standard_pressure(air.altitude / _MM_PER_M)


def _size(piece: Piece, share: float) -> Finding:
    limits = piece.design.limits
    fullest = max(piece.balloons, key=lambda b: fill_share(b.diameter, b.nominal))
    there = share * fill_share(fullest.diameter, fullest.nominal)
    fails, over = there > _FULL, there > limits.fill_most + 1e-9
    return Finding(
        "climate",
        "fails" if fails else "look" if over else "holds",
        round(100 * there, 1),
        round(100 * limits.fill_most, 1),
        "%",
        f"{_change_words(share)}; the {piece.cluster_words(fullest.cluster)} then stands at "
        f"{there:.0%} of its nominal size{_burst_words(fails, over)}. {_AIR}",
        _fill_less(piece, fullest, share) if over else "",
        (fullest.index,),
    )


def _change_words(share: float) -> str:
    if abs(share - 1) <= _UNNOTICED:
        return "From where they are filled to where they stand the balloons keep their size"
    does = "grow" if share > 1 else "shrink"
    return (
        f"From where they are filled to where they stand the balloons {does} by "
        f"{abs(share - 1):.1%} in diameter"
    )


def _burst_words(fails: bool, over: bool) -> str:
    if fails:
        return ": past its full size it bursts"
    return ": it turns pear-shaped and bursts easily" if over else ""


def _fill_less(piece: Piece, balloon: Balloon, share: float) -> str:
    """What to fill it to, so that it is within its size where it stands."""
    design = piece.design
    most = min(balloon.diameter, design.limits.fill_most * balloon.nominal / share)
    return f"fill it to at most {_fill_words(design, most)} instead"


def _fill_words(design: Design, diameter: float) -> str:
    pump = design.pump
    strokes = strokes_for_diameter(diameter, ref_strokes=pump.strokes, ref_diameter=pump.gives)
    return f"{format_length(diameter, design.unit)} ({strokes:.1f} strokes)"


def _numerals(piece: Piece, share: float) -> Finding:
    there = fit_there(piece, share)
    fits = there.verdict in ("clear", "tucks")
    room = format_spare(there.room, piece.design.unit)
    grown = "grown" if share > 1 else "shrunk"
    had = f"have {room} to spare" if fits else f"press {room} into what stands round them"
    return Finding(
        "numerals in that climate",
        "holds" if fits else "fails",
        round(there.room, 1),
        0.0,
        "mm",
        f"With the balloons {grown} the numerals {had}.",
        ""
        if fits
        else f"fill every balloon to {1 / share:.1%} of the size drawn, so that it stands as drawn",
        tuple(sorted({touch.balloon for touch in there.touches})),
    )


def fit_there(piece: Piece, share: float) -> Fit:
    """The fit with every balloon ``share`` times as large: tied and glued where it was.

    Knots and numerals stay where they are, and the balloons settle anew.
    """
    panel, opening = piece.design.panel, None
    if panel is not None:
        opening = piece.frame.opening(panel.place)
    if panel is None or opening is None or piece.fit is None:
        raise ValueError("a piece without numerals in an opening has no fit")
    knots = np.array([b.knot for b in piece.balloons])
    placed = knots + share * (np.array([b.placed for b in piece.balloons]) - knots)
    diameters = share * np.array([b.diameter for b in piece.balloons])
    return fit_numerals(
        panel.text,
        filled_height(panel, piece.design.limits.foil_shrink),
        widths=panel.widths,
        gap=panel.gap,
        thickness=panel.thickness,
        z0=panel_plane(panel, piece.frame),
        opening_radius=opening[2],
        opening_centre=opening[:2],
        centres=settle(placed, diameters, knots).centres,
        diameters=diameters,
        raised=piece.fit.raised,
    )
