"""Where everything is on the drawing, as data: what a pointer meets and what a voice can say."""

from __future__ import annotations

from typing import Any

from mockup.bench.looks import Ground
from mockup.design.model import SectionSpec
from mockup.lengths import format_length
from mockup.piece.assemble import panel_plane
from mockup.piece.findings.numerals import fit_words
from mockup.piece.placed import Cluster, Piece
from mockup.piece.tying import mark_of

_OTHER = {"left": "right", "right": "left"}


def places(piece: Piece, ground: Ground) -> dict[str, Any]:
    """Balloons as [x, y, radius, depth, cluster, letter] in sheet mm; clusters; ends; numerals."""
    return {
        "balloons": [
            [
                *_at(ground, b.centre),
                _n(b.radius * ground.scale),
                _n(b.centre[2]),
                b.cluster,
                b.letter,
            ]
            for b in piece.balloons
        ],
        "clusters": _clusters(piece, ground),
        "sections": [
            _section(piece, number, ground) for number in range(len(piece.design.sections))
        ],
        "numerals": _numerals(piece, ground),
    }


def _n(value: float) -> float:
    return round(value, 2)


def _at(ground: Ground, point: tuple[float, float, float]) -> list[float]:
    return [_n(v) for v in ground.at(point[0], point[1])]


def _clusters(piece: Piece, ground: Ground) -> list[dict[str, Any]]:
    known: dict[tuple[str, int, str], int] = {}
    for one in piece.clusters:
        known.setdefault((one.section, one.step, one.side), one.index)
    twins = (known.get((one.section, one.step, _OTHER.get(one.side, ""))) for one in piece.clusters)
    return [
        _cluster(piece, one, ground, twin) for one, twin in zip(piece.clusters, twins, strict=True)
    ]


def _cluster(piece: Piece, one: Cluster, ground: Ground, twin: int | None) -> dict[str, Any]:
    """A cluster; ``twin`` is the one at the same step on the other side of its section."""
    return {
        "path": list(one.path),
        "section": _section_of(piece, one),
        "step": one.step,
        "side": one.side,
        "cap": one.end_cap,
        "words": piece.cluster_words(one.index),
        "size": format_length(one.diameter, piece.design.unit),
        "strokes": one.strokes,
        "kind": one.kind,
        "letters": one.letters,
        "balloons": list(one.balloons),
        "at": _at(ground, one.knot),
        "twin": twin,
    }


def _section_of(piece: Piece, one: Cluster) -> int | None:
    """The number of its section; None for what stands beside the sections, such as a topper."""
    names = [section.name for section in piece.design.sections]
    return names.index(one.section) if one.section in names else None


def _section(piece: Piece, number: int, ground: Ground) -> dict[str, Any]:
    spec = piece.design.sections[number]
    own = [each for each in piece.clusters if each.section == spec.name]
    return {
        "name": spec.name,
        "path": list(spec.path),
        "middle": _middle(piece, spec, own, ground),
        "whole": spec.whole,
        "count": len(own) if spec.whole else None,
        "a_side": {"right": len(spec.right), "left": len(spec.left)},
        "ends": {} if spec.whole else {side: _end(own, side, ground) for side in ("left", "right")},
    }


def _middle(piece: Piece, spec: SectionSpec, own: list[Cluster], ground: Ground) -> list[float]:
    """Where the section's mark is on the frame; on the stand, where its first cluster is tied."""
    if spec.on and own:
        return _at(ground, min(own, key=lambda each: each.step).knot)
    x, y = piece.frame.at(mark_of(spec, piece.frame))
    return _at(ground, (float(x), float(y), 0.0))


def _end(own: list[Cluster], side: str, ground: Ground) -> list[float] | None:
    """Where the last tied cluster of a side is; the middle one's where there is none."""
    run = [c for c in own if c.side in (side, "middle")]
    return _at(ground, max(run, key=lambda c: c.step).knot) if run else None


def _numerals(piece: Piece, ground: Ground) -> dict[str, Any] | None:
    panel, fit = piece.design.panel, piece.fit
    if panel is None or fit is None or not fit.numerals:
        return None
    left = min(n.x - n.width / 2 for n in fit.numerals)
    right = max(n.x + n.width / 2 for n in fit.numerals)
    low = min(n.y - n.height / 2 for n in fit.numerals)
    high = max(n.y + n.height / 2 for n in fit.numerals)
    (x0, y0), (x1, y1) = ground.at(left, high), ground.at(right, low)
    return {
        "box": [_n(v) for v in (x0, y0, x1, y1)],
        "depth": _n(panel_plane(panel, piece.frame)),
        "raised": round(fit.raised, 2),
        "chosen": panel.raised is None,
        "verdict": fit.verdict,
        "says": fit_words(piece, fit),
        "touches": sorted({touch.balloon for touch in fit.touches}),
    }
