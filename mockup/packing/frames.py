"""The frames there are, by their word in a piece file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, fields
from importlib import import_module
from typing import Any

from mockup.packing.bars import Straight
from mockup.packing.hoops import Arc, Ring
from mockup.packing.paths import Frame, NotAFrame

__all__ = ["FRAMES", "Arc", "Frame", "NotAFrame", "Ring", "Straight", "frame_from", "frame_kind"]

FRAMES: dict[str, str | Callable[..., Frame]] = {
    "ring": "hoops.Ring",
    "arc": "hoops.Arc",
    "straight": "bars.Straight",
    "pole": "poles.Pole",
    "arch": "arches.Arch",
    "square": "polygons.Square",
    "hexagon": "polygons.Hexagon",
    "heart": "hearts.Heart",
    "spiral": "spirals.Spiral",
    "path": "drawn.DrawnPath",
    "wall": "walls.Wall",
}
"""Every kind of frame by its word: the module of this room and the class, or the class itself.

A new one joins by adding itself here; a module is imported only for a piece that uses it.
"""


def frame_kind(kind: str) -> Callable[..., Frame]:
    """The class of that kind of frame; raises ``NotAFrame`` for an unknown word.

    >>> frame_kind("pole")(height=1800.0, tube=20.0).closed
    False
    """
    if kind not in FRAMES:
        raise NotAFrame(f"'{kind}' is not a frame; the kinds are {', '.join(FRAMES)}")
    found = FRAMES[kind]
    if not isinstance(found, str):
        return found
    module, _, name = found.partition(".")
    made: Callable[..., Frame] = getattr(import_module(f"mockup.packing.{module}"), name)
    return made


def frame_from(kind: str, **sizes: float | str) -> Frame:
    """The frame of that kind, built from those of ``sizes`` (mm, degrees) that it has.

    Figures that the kind has no use for are left aside, so that one set serves every kind.
    Raises ``NotAFrame`` for an unknown kind, a missing figure or one that makes no sense.

    >>> frame_from("ring", outside=762.0, tube=12.7, start_deg=0.0, end_deg=360.0)
    Ring(outside=762.0, tube=12.7)
    """
    made: Any = frame_kind(kind)
    wanted = {one.name: one.default is MISSING for one in fields(made)}
    missing = [name for name, needed in wanted.items() if needed and name not in sizes]
    if missing:
        raise NotAFrame(f"a frame of kind '{kind}' needs {' and '.join(missing)}")
    frame: Frame = made(**{name: sizes[name] for name in wanted if name in sizes})
    return frame
