"""What the page is told: the text, its faults, the drawing, and what the form shows."""

from __future__ import annotations

import tomllib
from datetime import date
from typing import Any

from mockup.bench.desk import Desk, Kept
from mockup.bench.looks import Look, ground_of, picture
from mockup.bench.places import places
from mockup.design.model import ColourUse
from mockup.errors import Fault
from mockup.panel.fit import fit_numerals
from mockup.piece.assemble import filled_height, panel_plane
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.findings.numerals import fit_words
from mockup.piece.placed import Piece


def standing(desk: Desk) -> dict[str, Any]:
    """Where the visit stands: names, saved or not, steps to go back and forward."""
    return {
        "version": desk.version,
        "file": desk.file.name if desk.file else "",
        "started": desk.started,
        "saved": desk.is_saved,
        "undo": len(desk.steps.past),
        "redo": len(desk.steps.ahead),
    }


def full(desk: Desk, look: Look, have: frozenset[str]) -> dict[str, Any]:
    """Everything the page shows, but for the findings, which come after the picture."""
    with desk.lock:
        now, good = desk.now, desk.good
        told = {
            **standing(desk),
            "text": now.text,
            "faults": [_fault(each) for each in now.faults],
            "draft": desk.draft_text() if desk.version <= 1 else "",
        }
        piece = good.piece if good else None
        if piece is None:
            return told
        drawing = picture(piece, look, have) if not now.faults or desk.version <= 1 else None
        return {
            **told,
            "drawing": drawing,
            "places": places(piece, ground_of(piece, look)),
            "design": _design(piece),
            "given": given(now) if not now.faults else None,
        }


def given(kept: Kept) -> Any:
    """What the file says, as data that JSON can carry."""
    return _plain(tomllib.loads(kept.text))


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_plain(one) for one in value]
    return value.isoformat() if isinstance(value, date) else value


def _fault(fault: Fault) -> dict[str, Any]:
    _, _, line = fault.where.rpartition(":")
    return {
        "line": int(line) if line.isdigit() else 0,
        "what": fault.what,
        "instead": fault.instead,
    }


def _design(piece: Piece) -> dict[str, Any]:
    design = piece.design
    return {
        "title": design.title,
        "unit": design.unit,
        "count": len(piece.balloons),
        "colours": _shades(design.colours),
        "foil": design.panel.foil.srgb if design.panel else "",
        "ways": [way.name for way in design.colourways],
        "shades": [_shades(way.colours) for way in design.colourways],
    }


def _shades(colours: dict[str, ColourUse]) -> dict[str, dict[str, str]]:
    return {
        letter: {"name": use.name, "srgb": use.srgb, "finish": use.finish}
        for letter, use in colours.items()
    }


def findings(desk: Desk) -> dict[str, Any]:
    """The findings of the piece that is drawn."""
    with desk.lock:
        version, good = desk.version, desk.good
    found = find_all(good.piece) if good and good.piece else ()
    return {"version": version, "findings": [_finding(each) for each in found]}


def _finding(one: Finding) -> dict[str, Any]:
    return {
        "name": one.name,
        "verdict": one.verdict,
        "says": one.says,
        "remedy": one.remedy,
        "measured": one.measured,
        "limit": one.limit,
        "unit": one.unit,
        "balloons": list(one.balloons),
    }


def felt(piece: Piece, raised: float) -> dict[str, Any]:
    """How the numerals would stand if they were raised so far (mm): for a hand that drags them."""
    panel = piece.design.panel
    opening = piece.frame.opening(panel.place) if panel else None
    if panel is None or opening is None:
        return {"verdict": "none", "says": "", "touches": []}
    cx, cy, radius = opening
    fit = fit_numerals(
        panel.text,
        filled_height(panel, piece.design.limits.foil_shrink),
        widths=panel.widths,
        gap=panel.gap,
        thickness=panel.thickness,
        z0=panel_plane(panel, piece.frame),
        opening_radius=radius,
        opening_centre=(cx, cy),
        centres=[b.centre for b in piece.balloons],
        diameters=[b.diameter for b in piece.balloons],
        raised=raised,
    )
    touches = sorted({touch.balloon for touch in fit.touches})
    return {"verdict": fit.verdict, "says": fit_words(piece, fit), "touches": touches}
