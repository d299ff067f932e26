"""A cluster tied to the frame: where its knot goes, and how it sits there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import cos, radians, sin, sqrt

import numpy as np

from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.packing.clusters import knot_radius, turn_for
from mockup.packing.frames import Frame
from mockup.packing.nesting import ClusterShape, contact_share, next_turn, pitch
from mockup.piece.placed import Side
from mockup.records import dataclass

# An end pair has a neighbour on one side only: set one in front and one behind the tube it hides
# the knot, lets a foil slip between, and swings least (measured over crescents of quads: 28-46
# degrees, against 53-78 in any other turn).
_END_PAIR_TURN = 90.0


Spots = tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Tied:
    """A cluster with the place of its knot: ``s`` along the frame's centre line, mm.

    ``out`` is how far its balloons' centres lie from the knot, mm, where not as in a cluster by
    itself; ``toward`` the way that counts as outward there, where not the frame's normal;
    ``after`` how many balloons were tied at the same knot before it.
    ``spots`` and ``ties`` say of a loose balloon where it lies and where it is held, ``knot`` of
    a cluster on a mesh where its knot is, which is off the frame's line. ``member`` is what it is
    tied round where that is not the frame.
    """

    section: SectionSpec
    spec: ClusterSpec
    step: int
    side: Side
    end_cap: bool
    s: float
    along: float
    shape: ClusterShape
    out: float | None = None
    toward: tuple[float, float] | None = None
    after: int = 0
    spots: Spots = ()
    ties: Spots = ()
    knot: tuple[float, float, float] | None = None
    member: Frame | None = None


def shape_of(
    spec: ClusterSpec, before: ClusterShape | None, *, end_cap: bool = False
) -> ClusterShape:
    """How a cluster sits: turned by hand, as an end pair, or nestled into the one before."""
    turn = spec.turn_deg
    if turn is None and end_cap and spec.count == 2:
        turn = _END_PAIR_TURN
    if turn is None:
        turn = next_turn(before) if before else turn_for("valley in", spec.count)
    return ClusterShape(spec.count, spec.diameter, turn)


def chain(
    specs: tuple[ClusterSpec, ...], before: ClusterShape | None, cap: ClusterSpec | None = None
) -> Iterator[tuple[ClusterSpec, ClusterShape]]:
    """Clusters outward, each in the valleys of the one before; the end cap is the last."""
    every = (*specs, cap) if cap else specs
    for number, spec in enumerate(every, start=1):
        before = shape_of(spec, before, end_cap=number > len(specs))
        yield spec, before


def member_of(design: Design, section: SectionSpec, frame: Frame) -> Frame:
    """What a section is tied round: the frame, or the stand's pole."""
    if section.on != "stand":
        return frame
    from mockup.piece.posts import post_of  # few pieces tie any cluster there

    return post_of(design, frame, section)


def mark_of(section: SectionSpec, frame: Frame) -> float:
    """The arc length of a section's middle on the member it is tied round, mm."""
    if section.at_length is not None:
        return section.at_length
    if section.at_share is not None:
        return section.at_share * frame.length
    return frame.s_at_deg(section.at_deg)


def way_of(section: SectionSpec, frame: Frame, side: Side) -> float:
    """+1 where that side, as seen from the front, lies further on along the frame.

    On the lower half of a ring, clockwise leads to the left. Where neither side lies right (at 3
    and 9 o'clock, on a pole), the side further on is called the right.
    """
    onward_is_right = frame.normal(mark_of(section, frame))[1] > -1e-9
    return 1.0 if (side == "right") == onward_is_right else -1.0


def half_pitch(design: Design, shape: ClusterShape) -> float:
    """Half the pitch of clusters of one shape, mm."""
    return pitch(shape, shape, design.limits.squeeze) / 2


def with_doubles(design: Design, tied: Sequence[Tied]) -> Iterator[Tied]:
    """Every cluster, and after each doubled one its second ring in the valleys of the first."""
    for one in tied:
        yield one
        if one.spec.double is not None:
            yield _second_ring(one, one.spec.double, design.limits.squeeze)


def _second_ring(one: Tied, spec: ClusterSpec, squeeze: float) -> Tied:
    """Balloons pressed between two of the first ring each, as far out as these let them in."""
    shape = ClusterShape(spec.count, spec.diameter, next_turn(one.shape))
    radius, half = knot_radius(one.spec.count, one.spec.diameter), 180.0 / one.spec.count
    contact = contact_share(squeeze) * (one.spec.diameter + spec.diameter) / 2
    aside, along = radius * sin(radians(half)), radius * cos(radians(half))
    out = max(spec.diameter / 2, along + sqrt(max(0.0, contact**2 - aside**2)))
    return replace(one, spec=spec, shape=shape, out=out, after=one.spec.count)


def topper_of(design: Design, frame: Frame) -> Tied | None:
    """The large balloon on a pole's end, or outside another frame at its highest point."""
    if design.topper is None:
        return None
    line = frame.sample(2.0)
    s = float(np.argmax(line[:, 1])) / (len(line) - 1) * frame.length
    nx, ny = frame.normal(s)
    toward = (ny, -nx) if abs(nx) > 0.9 else (nx, ny)
    if toward[1] < 0:
        toward = (-toward[0], -toward[1])
    section = SectionSpec("topper", 0.0, design.topper, (), (), path=design.topper.path)
    shape = ClusterShape(1, design.topper.diameter, 0.0)
    return Tied(section, design.topper, 0, "middle", False, s, 0.0, shape, toward=toward)
