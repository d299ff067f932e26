"""Clusters from end to end of an open frame: as many as fit, spread to cover its ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.packing.frames import Frame
from mockup.packing.nesting import ClusterShape, pitch
from mockup.piece.placed import Side
from mockup.piece.tying import Tied, chain, mark_of, shape_of, way_of


def tie_to_the_ends(design: Design, section: SectionSpec, frame: Frame) -> list[Tied]:
    """The section's run of clusters repeated from its mark to both ends of the frame.

    A mark nearer to an end than a cluster needs there has no room for one on it: the run begins
    further in. On each side the count is the one whose nestled length comes nearest to the room
    there is, then spread evenly so that the last balloons end about where the frame does.
    """
    run = [spec for spec in (section.middle, *(section.right or section.left)) if spec]
    # A turn by hand is that of the first cluster: those that repeat it nestle on.
    again = [replace(spec, turn_deg=None) for spec in run]
    first = shape_of(run[0], None)
    mark, half = mark_of(section, frame), _END_ROOM * first.diameter
    starts_inside = min(mark, frame.length - mark) >= half and section.middle is not None
    tied = [Tied(section, run[0], 0, "middle", False, mark, 0.0, first)] if starts_inside else []
    for side in [each for each in _SIDES if section.only in ("", each)]:
        way = way_of(section, frame, side)
        room = frame.length - mark if way > 0 else mark
        later = run[1:] if starts_inside else run
        steps = _steps(design, (later, again), first if starts_inside else None, room)
        for step, (spec, shape, out) in enumerate(steps, start=1):
            along = way * out
            tied.append(Tied(section, spec, step, side, False, mark + along, along, shape))
    return tied


Runs = tuple[list[ClusterSpec], list[ClusterSpec]]
"""What comes first outward, and what is then repeated."""

# From the last knot to the frame's end, in diameters: half a balloon, and the third of one by
# which a cluster with a neighbour on one side only leans out as it settles (measured over
# columns and arches of quads at a squeeze of 10 %: 0.27-0.34).
_END_ROOM = 0.85
_LEAST_PITCH = 0.05
_SIDES: tuple[Side, ...] = ("right", "left")


def _steps(
    design: Design, run: Runs, before: ClusterShape | None, room: float
) -> list[tuple[ClusterSpec, ClusterShape, float]]:
    """What goes on one side, each with its distance from the mark, spread to fill the room."""
    best: list[tuple[ClusterSpec, ClusterShape, float]] = []
    ends, tried = 0.0, list(_outward(design, run, before, room))
    for count in range(1, len(tried) + 1):
        _, shape, out = tried[count - 1]
        end = out + _END_ROOM * shape.diameter
        if not best or abs(end - room) < abs(ends - room):
            best, ends = tried[:count], end
    least = _END_ROOM * before.diameter if before else 0.0
    if not best or (abs(least - room) <= abs(ends - room) and (before or room < ends / 2)):
        return []
    return [(spec, shape, out * room / ends) for spec, shape, out in best]


def _outward(
    design: Design, run: Runs, before: ClusterShape | None, room: float
) -> Iterator[tuple[ClusterSpec, ClusterShape, float]]:
    """The run outward by the straight pitch, to one cluster past the room."""
    out, squeeze = 0.0, design.limits.squeeze
    first, again = run
    least = _LEAST_PITCH * min(spec.diameter for spec in again)
    many = (*first, *again * (int(room / least / len(again)) + 1))
    for spec, shape in chain(many, before):
        gap = pitch(before, shape, squeeze) if before else _END_ROOM * shape.diameter
        out, before = out + max(gap, least), shape
        yield spec, shape, out
        if out > room:
            return
