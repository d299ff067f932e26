"""The frame's tube seen from the front, shaded round with the light from the upper left."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from mockup.packing.frames import Arc, Frame, Ring, Straight
from mockup.packing.joined import Joined
from mockup.render.edge_on import METAL, tube_edge_on
from mockup.render.record import Circle, Group, Item, Path, Style
from mockup.render.rounded import TOWARD_LIGHT, Profile, steps
from mockup.render.tones import SHADE
from mockup.render.tracks import Track
from mockup.render.tracks import lines as polyline
from mockup.render.viewpoint import FRONT, TUBE, Eye, Layer

_ACROSS: Profile = (
    (0.0, -0.62),
    (0.10, -0.46),
    (0.30, -0.16),
    (0.50, 0.08),
    (0.68, 0.38),
    (0.84, 0.70),
    (1.0, 0.92),
)
_LEAN = 0.34
_BENDS, _BENDS_OF_OTHERS, _LEG = 16, 96, 6
_SHADE_LAYERS, _SHADE_EACH = 16, 0.014
_ROUNDING = 1e-9
"""So that a step of a whole part of the length gives that many parts and not one more."""


def frame_layers(frame: Frame, eye: Eye) -> list[Layer]:
    """The tube. It lies in the plane z = 0; balloons whose centres are level with it cover it."""
    if eye.viewpoint is not FRONT:
        return tube_edge_on(frame, eye)
    tube = Group(tuple(_tube(frame, eye)), "frame", frame.kind)
    return [Layer(-frame.tube / 2, TUBE, tube)]


def _tube(frame: Frame, eye: Eye) -> Iterator[Item]:
    half = frame.tube / 2 * eye.scale
    # Every stroke follows the one centre line, which costs much on a frame drawn freehand.
    line = _ring(frame, eye) if isinstance(frame, Ring) else centre_line(frame, eye)
    if eye.options.shadows:
        yield from _shade(line, half, eye)
    for step in steps(METAL, _ACROSS, half):
        colour, wide = eye.recolour(step.colour), 2 * half * (1 - step.rise)
        yield _along(line, _LEAN * half * step.rise, _style(colour, wide))


def _shade(line: Circle | Track, half: float, eye: Eye) -> Iterator[Item]:
    """What the tube throws on what hangs behind it, softened by laying it on many times."""
    for k in range(_SHADE_LAYERS):
        wide = 2 * half * (1.5 - 0.9 * k / _SHADE_LAYERS)
        yield _along(line, -0.55 * half, _style(eye.recolour(SHADE), wide, _SHADE_EACH))


def _style(colour: str, wide: float, opacity: float = 1.0) -> Style:
    return Style(stroke=colour, stroke_width=round(wide, 3), opacity=opacity, round_ends=True)


def _ring(frame: Ring, eye: Eye) -> Circle:
    return Circle(eye.origin, frame.radius * eye.scale, Style())


def _along(line: Circle | Track, toward_light: float, style: Style) -> Circle | Path:
    """A stroke along the centre line, moved toward the light on the sheet, mm."""
    dx, dy = TOWARD_LIGHT[0] * toward_light, TOWARD_LIGHT[1] * toward_light
    if isinstance(line, Circle):
        return Circle((line.centre[0] + dx, line.centre[1] + dy), line.r, style)
    return Path(line.data(dx, dy, places=3), style)


def centre_line(frame: Frame, eye: Eye) -> Track:
    """The tube's centre line on the sheet: cubic curves that follow its points and tangents."""
    if isinstance(frame, Joined) and frame.kind == "wall":
        return _from_legs(frame, eye)
    bends = _BENDS if isinstance(frame, Ring | Arc | Straight) else _BENDS_OF_OTHERS
    s = np.linspace(0.0, frame.length, bends + 1)
    points = frame.sample(frame.length / bends * (1 + _ROUNDING))
    normals = np.array([frame.normal(each) for each in s.tolist()])
    third = np.column_stack([normals[:, 1], -normals[:, 0]]) * (frame.length / bends / 3)
    legs = np.stack([(points + third)[:-1], (points - third)[1:], points[1:]], axis=1)
    on_sheet = np.vstack([points[:1], legs.reshape(-1, 2)]) * (eye.scale, -eye.scale)
    return Track("M%g %g" + "C%g %g %g %g %g %g" * bends, on_sheet + np.array(eye.origin))


def _from_legs(frame: Joined, eye: Eye) -> Track:
    """The centre line of a frame of straight legs and tight bends, leg by leg."""
    ends = [0.0, *frame.ends]
    s = np.unique(np.concatenate([np.linspace(a, b, _LEG + 1) for a, b in pairwise(ends)]))
    points = np.array([frame.at(each) for each in s.tolist()]) * (eye.scale, -eye.scale)
    return polyline(points[:-1] + np.array(eye.origin), closed=True)
