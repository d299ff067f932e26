"""A cluster tied to the frame: where its knot goes, and how it sits there."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.packing.clusters import turn_for
from mockup.packing.frames import Frame
from mockup.packing.nesting import ClusterShape, next_turn, pitch
from mockup.piece.placed import Side
from mockup.records import dataclass

# An end pair has a neighbour on one side only: set one in front and one behind the tube it hides
# the knot, lets a foil slip between, and swings least (measured over crescents of quads: 28-46
# degrees, against 53-78 in any other turn).
_END_PAIR_TURN = 90.0


@dataclass(frozen=True)
class Tied:
    """A cluster with the place of its knot: ``s`` along the frame's centre line, mm."""

    section: SectionSpec
    spec: ClusterSpec
    step: int
    side: Side
    end_cap: bool
    s: float
    along: float
    shape: ClusterShape


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


def mark_of(section: SectionSpec, frame: Frame) -> float:
    """The arc length of a section's middle on the frame, mm."""
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
