"""The frames there are, by their word in a piece file."""

from __future__ import annotations

from collections.abc import Callable
from inspect import signature

from mockup.packing.bars import Straight
from mockup.packing.hoops import Arc, Ring
from mockup.packing.paths import Frame, NotAFrame

__all__ = ["FRAMES", "Arc", "Frame", "NotAFrame", "Ring", "Straight", "frame_from"]

FRAMES: dict[str, Callable[..., Frame]] = {one.kind: one for one in (Ring, Arc, Straight)}
"""Every kind of frame by its word; a new one joins by adding itself here."""


def frame_from(kind: str, **sizes: float) -> Frame:
    """The frame of that kind, built from those of ``sizes`` (mm, degrees) that it has.

    Figures that the kind has no use for are left aside, so that one set serves every kind.
    Raises ``NotAFrame`` for an unknown kind, a missing figure or one that makes no sense.

    >>> frame_from("ring", outside=762.0, tube=12.7, start_deg=0.0, end_deg=360.0)
    Ring(outside=762.0, tube=12.7)
    """
    if kind not in FRAMES:
        raise NotAFrame(f"'{kind}' is not a frame; the kinds are {', '.join(FRAMES)}")
    wanted = signature(FRAMES[kind]).parameters
    missing = [name for name in wanted if name not in sizes]
    if missing:
        raise NotAFrame(f"a frame of kind '{kind}' needs {' and '.join(missing)}")
    return FRAMES[kind](**{name: sizes[name] for name in wanted})
