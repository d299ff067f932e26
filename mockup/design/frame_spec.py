"""From a frame's table to the frame's figures: each kind takes its own keys and no others."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from mockup.design.drawings import path_in
from mockup.design.faults import FaultList
from mockup.design.frame_keys import GOES_WITH
from mockup.design.model import FrameSpec
from mockup.design.tables import Given
from mockup.records import dataclass

THICKEST_TUBE = 0.25
"""The thickest tube, as a share of the frame's outside measure."""

_RING = FrameSpec()
_ARC_FROM, _ARC_TO = 270.0, 90.0
_INCH, _FOOT = 25.4, 304.8
_UNIT = 1.0
WALL_FRAME = FrameSpec("wall", width=8 * _FOOT, height=6 * _FOOT)
"""The usual frame of a wall, where the file has no table for it."""


@dataclass(frozen=True)
class _Asked:
    """A frame's table, where its faults go, and the folder that a drawing is looked for in."""

    table: Given
    faults: FaultList
    folder: Path | None


def frame_spec(table: Given | None, faults: FaultList, folder: Path | None = None) -> FrameSpec:
    """The frame; without a table the usual ring. A drawing is looked for in ``folder``."""
    if table is None:
        return _RING
    kind = table.get("kind", "ring")
    _refuse_strangers(table, kind, faults)
    spec = _KINDS[kind](_Asked(table, faults, folder))
    across = {"pole": 4 * spec.height, "arch": spec.width, "heart": spec.width}
    across["wall"] = min(spec.width, spec.height)
    _check_tube(table, spec.tube, across.get(kind, spec.outside), kind, faults)
    return spec


def _refuse_strangers(table: Given, kind: str, faults: FaultList) -> None:
    """Keys of another kind of frame."""
    others = {key for keys in GOES_WITH.values() for key in keys} - set(GOES_WITH[kind])
    for key in sorted(others & table.written):
        if faults.touches(table.at("kind")):
            return
        fits = [word for word, keys in GOES_WITH.items() if key in keys]
        article = "an" if kind[0] in "aeiou" else "a"
        choice = " or ".join(f'kind = "{word}"' for word in fits[:2])
        faults.add(
            table.at(key), f"{article} {kind} has no '{key}'", f"take it out, or write {choice}"
        )


def _check_tube(table: Given, tube: float, across: float, kind: str, faults: FaultList) -> None:
    if kind == "path" or tube <= THICKEST_TUBE * across:
        return
    if not faults.touches(*(table.at(key) for key in (*GOES_WITH[kind], "tube"))):
        what = "the tube is thicker than a quarter of the frame"
        faults.add(table.at("tube"), what, "write a thinner tube or a larger frame")


def _tube(table: Given) -> float:
    return table.get("tube", _RING.tube)


def _outside(table: Given) -> float:
    return table.get("outside", _RING.outside)


def _ring(asked: _Asked) -> FrameSpec:
    table = asked.table
    return FrameSpec("ring", _outside(table), _tube(table))


def _arc(asked: _Asked) -> FrameSpec:
    """An arc ends at an angle above its start."""
    table, faults = asked.table, asked.faults
    start, end = table.get("from", _ARC_FROM), table.get("to", _ARC_TO)
    span = (end - start) % 360
    if not span and not faults.touches(table.at("from"), table.at("to")):
        at = table.at("to" if "to" in table.written else "from")
        what = "the arc begins and ends at the same place"
        faults.add(at, what, 'write another hour, or kind = "ring" for a whole ring')
    return FrameSpec("arc", _outside(table), _tube(table), start, start + (span or 180.0))


def _pole(asked: _Asked) -> FrameSpec:
    table = asked.table
    return FrameSpec("pole", tube=_tube(table), height=table.get("height", 6 * _FOOT))


def _arch(asked: _Asked) -> FrameSpec:
    table, faults = asked.table, asked.faults
    height = table.get("height", 7 * _FOOT)
    legs = table.get("legs", height / 3)
    tube = _tube(table)
    if legs > height - 2 * tube and not faults.touches(table.at("legs"), table.at("height")):
        what = "the legs leave no height for the bend of the arch"
        faults.add(table.at("legs"), what, "write shorter legs or a greater height")
    return FrameSpec(
        "arch", tube=tube, width=table.get("width", 8 * _FOOT), height=height, legs=legs
    )


def _cornered(asked: _Asked) -> FrameSpec:
    table, faults = asked.table, asked.faults
    kind = table.get("kind", "square")
    outside, tube, corner = _outside(table), _tube(table), table.get("corner", 2 * _INCH)
    most = (outside - tube) / 2
    if corner > most and not faults.touches(table.at("corner"), table.at("outside")):
        what = f"the corners are bent wider than half the {kind}"
        faults.add(table.at("corner"), what, "write a smaller radius, or a larger frame")
    return FrameSpec("hexagon" if kind == "hexagon" else "square", outside, tube, corner=corner)


def _heart(asked: _Asked) -> FrameSpec:
    table = asked.table
    return FrameSpec(
        "heart",
        tube=_tube(table),
        width=table.get("width", 36 * _INCH),
        height=table.get("height", 36 * _INCH),
        corner=table.get("corner", 2 * _INCH),
    )


def _wall(asked: _Asked) -> FrameSpec:
    table = asked.table
    return FrameSpec(
        "wall",
        tube=_tube(table),
        width=table.get("width", WALL_FRAME.width),
        height=table.get("height", WALL_FRAME.height),
    )


def _spiral(asked: _Asked) -> FrameSpec:
    table = asked.table
    outside = _outside(table)
    inner, turns = table.get("inner", outside / 4), table.get("turns", 2.0)
    return FrameSpec("spiral", outside, _tube(table), inner=inner, turns=turns)


def _path(asked: _Asked) -> FrameSpec:
    table, faults, folder = asked.table, asked.faults, asked.folder
    line: str | None = table.get("line", None)
    drawing: str | None = table.get("drawing", None)
    if drawing is not None:
        line = path_in(drawing, folder, table.at("drawing"), faults)
    elif line is None and not faults.touches(table.at("line")):
        what = "a path has neither a 'line' nor a 'drawing'"
        faults.add(table.at("line"), what, 'write line = "M 0 0 ...", or drawing = "garland.svg"')
    if drawing is not None and "unit" not in table.written:
        what = "a drawing does not say what its unit measures"
        faults.add(table.at("drawing"), what, 'add unit = "1mm", or what one unit of it stands for')
    return FrameSpec(
        "path",
        tube=_tube(table),
        line=" ".join((line or "").split()),
        unit=table.get("unit", _UNIT),
        must_close=table.get("closed", False),
    )


_KINDS: dict[str, Callable[[_Asked], FrameSpec]] = {
    "ring": _ring,
    "arc": _arc,
    "pole": _pole,
    "arch": _arch,
    "square": _cornered,
    "hexagon": _cornered,
    "heart": _heart,
    "spiral": _spiral,
    "path": _path,
    "wall": _wall,
}
