"""The piece as plain data: what ``mockup layout --json`` and ``mockup fit --json`` promise."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from mockup.panel.fit import Fit
from mockup.panel.numerals import NumeralShape
from mockup.piece.finding import Finding
from mockup.piece.placed import Balloon, Cluster, Piece

VERSION = 1
_DECIMALS = 3
_BY_OUTSIDE = ("ring", "arc", "square", "hexagon", "spiral")

Plain = dict[str, Any]


def layout_data(piece: Piece, *, unsettled: bool = False) -> Plain:
    """Every cluster and balloon, mm; ``unsettled`` gives the placed state before settling."""
    return {
        "version": VERSION,
        "unit": "mm",
        "title": piece.design.title,
        "frame": _frame(piece),
        "clusters": [_cluster(c) for c in piece.clusters],
        "balloons": [_balloon(b, unsettled=unsettled) for b in piece.balloons],
        "panel": _panel(piece),
        "overall": {
            "width": _mm(piece.extent.width),
            "height": _mm(piece.extent.height),
            "depth": _mm(piece.extent.depth),
        },
    }


def findings_data(findings: Iterable[Finding]) -> Plain:
    """The findings under their promised keys."""
    return {
        "version": VERSION,
        "findings": [
            {
                "name": f.name,
                "verdict": f.verdict,
                "measured": f.measured,
                "limit": f.limit,
                "unit": f.unit,
                "says": f.says,
                "remedy": f.remedy,
            }
            for f in findings
        ],
    }


def fit_data(fit: Fit) -> Plain:
    """The numerals' fit, all lengths in mm."""
    return {
        "verdict": fit.verdict,
        "room": _mm(fit.room),
        "raised": _mm(fit.raised),
        "height": _mm(fit.height),
        "width": _mm(fit.width),
        "largest_height": _mm(fit.largest_height),
        "overhang": _mm(fit.overhang),
        "window_width": _mm(fit.window_width),
        "window_height": _mm(fit.window_height),
        "window_area": _mm(fit.window_area),
        "attach": [_point(p) for p in fit.attach],
    }


def _mm(value: float) -> float:
    return round(float(value), _DECIMALS) + 0.0


def _point(point: Sequence[float]) -> list[float]:
    return [_mm(c) for c in point]


def _frame(piece: Piece) -> Plain:
    spec = piece.design.frame
    data: Plain = {
        "kind": spec.kind,
        "outside": _mm(spec.outside),
        "tube": _mm(spec.tube),
        "length": _mm(piece.frame.length),
    }
    if spec.kind == "arc":
        data |= {"start_deg": spec.start_deg, "end_deg": spec.end_deg}
    if spec.kind not in _BY_OUTSIDE:
        del data["outside"]
        data |= {key: _mm(getattr(spec, key)) for key in ("width", "height") if getattr(spec, key)}
    return data


def _cluster(cluster: Cluster) -> Plain:
    return {
        "section": cluster.section,
        "step": cluster.step,
        "side": cluster.side,
        "kind": cluster.kind,
        "end_cap": cluster.end_cap,
        "knot": _point(cluster.knot),
        "turn_deg": _mm(cluster.turn_deg),
        "along_mm": _mm(cluster.along),
        "diameter": _mm(cluster.diameter),
        "nominal": _mm(cluster.nominal),
        "colours": cluster.letters,
    }


def _balloon(balloon: Balloon, *, unsettled: bool) -> Plain:
    x, y, z = balloon.placed if unsettled else balloon.centre
    return {
        "id": balloon.id,
        "section": balloon.section,
        "step": balloon.step,
        "side": balloon.side,
        "place": balloon.place,
        "x": _mm(x),
        "y": _mm(y),
        "z": _mm(z),
        "diameter": _mm(balloon.diameter),
        "colour": balloon.letter,
    }


def _panel(piece: Piece) -> Plain:
    fit = piece.fit
    seen = piece.opening
    opening: Plain = {
        "opening": {
            "outline": [_point(p) for p in seen.outline] if seen else [],
            "width": _mm(seen.width) if seen else 0.0,
            "height": _mm(seen.height) if seen else 0.0,
        }
    }
    if fit is None:
        return {"verdict": "no numerals"} | opening
    data = fit_data(fit)
    window: Plain = {
        "window": [_point(p) for p in fit.window],
        "width": data.pop("window_width"),
        "height": data.pop("window_height"),
        "area": data.pop("window_area"),
    }
    row = {"row_height": data.pop("height"), "row_width": data.pop("width")}
    return window | data | row | opening | {"numerals": [_numeral(n) for n in fit.numerals]}


def _numeral(shape: NumeralShape) -> Plain:
    return {
        "character": shape.char,
        "x": _mm(shape.x),
        "y": _mm(shape.y),
        "width": _mm(shape.width),
        "height": _mm(shape.height),
    }
