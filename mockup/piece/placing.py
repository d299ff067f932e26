"""Where each cluster's knot goes: sections stepped out along the frame by the straight pitch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.errors import Fault, FaultsFound
from mockup.lengths import format_length
from mockup.packing.frames import Frame
from mockup.packing.nesting import ClusterShape, pitch
from mockup.piece.filling_in import tie_to_the_ends
from mockup.piece.patterning import lettered
from mockup.piece.placed import Side, WholeRing
from mockup.piece.tying import (
    Tied,
    chain,
    half_pitch,
    mark_of,
    member_of,
    shape_of,
    topper_of,
    way_of,
    with_doubles,
)

__all__ = ["Tied", "tie_all"]

# Two sections whose end knots are nearer than this share of their nestled pitch cannot both be
# tied; between this and the full pitch they crowd, which the nestle finding measures.
_CROWDED = 0.5


def _loose(design: Design, frame: Frame) -> Iterator[Tied]:
    """The balloons of the garlands; growing them is imported for pieces that have one."""
    if design.garlands:
        from mockup.piece.garland import tie_garlands

        yield from tie_garlands(design, frame)


def _on_a_mesh(design: Design) -> Iterator[Tied]:
    """The balloons of a wall, imported for pieces that are one."""
    if design.wall is not None:
        from mockup.piece.wall import tie_wall

        yield from tie_wall(design)


def tie_all(design: Design, frame: Frame) -> tuple[tuple[Tied, ...], tuple[WholeRing, ...]]:
    """Every cluster of the design with its knot's place, and how whole rings close.

    Raises ``FaultsFound`` naming every section that is longer than the frame, runs off an end of
    it, or runs into another one.
    """
    tied: list[list[Tied]] = []
    wholes: list[WholeRing] = []
    for section in design.sections:
        member = member_of(design, section, frame)
        if section.whole and not member.closed:
            clusters = tie_to_the_ends(design, section, member)
        elif section.whole:
            clusters, whole = _tie_whole(design, section, member)
            wholes.append(whole)
        else:
            clusters = _tie_section(design, section, member)
        tied.append([replace(one, member=member) for one in clusters] if section.on else clusters)
    upright = [clusters for clusters in tied if clusters and clusters[0].member is not None]
    along = [clusters for clusters in tied if clusters and clusters[0].member is None]
    faults = [
        *_ends(design, frame, along),
        *_meetings(design, frame, along),
        *_on_the_stand(design, upright),
    ]
    if faults:
        raise FaultsFound(faults)
    every = list(with_doubles(design, lettered(design, [o for own in tied for o in own])))
    topper = topper_of(design, frame)
    beside = (*_loose(design, frame), *_on_a_mesh(design), *([topper] if topper else []))
    return (*every, *beside), tuple(wholes)


def _on_the_stand(design: Design, tied: list[list[Tied]]) -> Iterator[Fault]:
    """What does not go on the stand's pole; judged by what only such pieces import."""
    post = tied[0][0].member if tied else None
    if post is not None:
        from mockup.piece.posts import post_faults

        for clusters in tied:
            yield from post_faults(design, post, clusters)
        yield from _meetings(design, post, tied)


def _tie_section(design: Design, section: SectionSpec, frame: Frame) -> list[Tied]:
    middle = shape_of(section.middle, None) if section.middle else None
    right = _tie_side(design, section, frame, "right", middle)
    left = _tie_side(design, section, frame, "left", middle)
    centre = mark_of(section, frame)
    heart = (
        [Tied(section, section.middle, 0, "middle", False, centre, 0.0, middle)]
        if section.middle and middle
        else []
    )
    return [*heart, *right, *left]


def _tie_side(
    design: Design, section: SectionSpec, frame: Frame, side: Side, middle: ClusterShape | None
) -> list[Tied]:
    specs = section.right if side == "right" else section.left
    cap = section.end_right if side == "right" else section.end_left
    if not (specs or middle):
        cap = None
    sign = way_of(section, frame, side)
    centre, out, before = mark_of(section, frame), 0.0, middle
    tied: list[Tied] = []
    for step, (spec, shape) in enumerate(chain(specs, middle, cap), start=1):
        # Without a middle cluster the two sides meet as twins, each half a pitch off the mark.
        gap = pitch(before, shape, design.limits.squeeze) if before else half_pitch(design, shape)
        out, before = out + gap, shape
        is_cap = step > len(specs)
        along = sign * out
        tied.append(Tied(section, spec, step, side, is_cap, centre + along, along, shape))
    return tied


def _tie_whole(design: Design, section: SectionSpec, frame: Frame) -> tuple[list[Tied], WholeRing]:
    run = tuple(spec for spec in (section.middle, *section.right) if spec)
    count = section.whole_count or _best_count(design, section, run, frame)
    shapes = _round_shapes(run, count)
    squeeze = _closing_squeeze(design, shapes, frame, section)
    gaps = _round_gaps(shapes, squeeze)
    stretch = frame.length / sum(gaps)
    centre, along, tied = mark_of(section, frame), 0.0, []
    half = count // 2
    for step in range(half + 1):
        spec, shape = run[step % len(run)], shapes[step]
        sides: tuple[Side, ...] = ("middle",) if step in (0, half) else ("right", "left")
        for side in sides:
            out = along if side == "middle" else along * way_of(section, frame, side)
            tied.append(Tied(section, spec, step, side, False, centre + out, out, shape))
        if step < half:
            along += gaps[step] * stretch
    return tied, WholeRing(section.name, count, squeeze)


def _round_shapes(run: tuple[ClusterSpec, ...], count: int) -> list[ClusterShape]:
    """The shapes from the centre mark to the far side: the other half is their mirror.

    A turn written for the run counts where the run begins, not again at each repeat: there the
    clusters nestle on.
    """
    again = tuple(replace(spec, turn_deg=None) for spec in run)
    specs = (*run, *(again * (count // len(run) + 1)))[: count // 2 + 1]
    return [shape for _, shape in chain(specs, None)]


def _round_gaps(shapes: list[ClusterShape], squeeze: float) -> list[float]:
    half = [pitch(a, b, squeeze) for a, b in pairwise(shapes)]
    return half + half[::-1]


def _best_count(
    design: Design, section: SectionSpec, run: tuple[ClusterSpec, ...], frame: Frame
) -> int:
    """The even number of clusters whose nestled length comes nearest to the frame's."""
    mean = sum(_round_gaps(_round_shapes(run, 2 * len(run)), design.limits.squeeze)) / len(run) / 2
    if mean <= 0.0:
        what = "its clusters slip into each other, so that no number of them goes round the frame"
        fault = Fault(design.where(section.path), what, "choose sizes that differ less")
        raise FaultsFound([fault])
    guess = max(4, 2 * round(frame.length / mean / 2))

    def misfit(count: int) -> float:
        gaps = _round_gaps(_round_shapes(run, count), design.limits.squeeze)
        return abs(sum(gaps) - frame.length)

    return min((guess + off for off in (-4, -2, 0, 2, 4) if guess + off >= 4), key=misfit)


def _closing_squeeze(
    design: Design, shapes: list[ClusterShape], frame: Frame, section: SectionSpec
) -> float:
    """The squeeze at which the round of clusters is just as long as the ring (bisection)."""
    least, most = -0.5, 0.45
    loose, tight = (sum(_round_gaps(shapes, s)) for s in (least, most))
    if not tight <= frame.length <= loose:
        fewer = tight > frame.length
        round_it = format_length(frame.length, design.unit)
        trouble = "cannot be pressed into" if fewer else "leave gaps on"
        fault = Fault(
            design.where(section.path),
            f"{2 * (len(shapes) - 1)} clusters {trouble} a ring of {round_it} round",
            f"write {'a smaller' if fewer else 'a larger'} 'count', or leave it out",
        )
        raise FaultsFound([fault])
    for _ in range(60):
        mid = (least + most) / 2
        if sum(_round_gaps(shapes, mid)) > frame.length:
            least = mid
        else:
            most = mid
    return (least + most) / 2


def _ends(design: Design, frame: Frame, tied: list[list[Tied]]) -> Iterator[Fault]:
    if frame.closed:
        return
    for clusters in tied:
        over = max((max(-one.s, one.s - frame.length) for one in clusters), default=0.0)
        if over > 1e-6:
            yield Fault(
                design.where(clusters[0].section.path),
                f"section '{clusters[0].section.name}' runs off the end of the frame by "
                f"{format_length(over, design.unit)}",
                "take out a cluster, fill them smaller, or move its 'at'",
            )


def _meetings(design: Design, frame: Frame, tied: list[list[Tied]]) -> Iterator[Fault]:
    """Sections that cover the same stretch of frame, each pair told once."""
    whole = [clusters for clusters in tied if clusters]
    if frame.closed:
        for clusters in whole:
            yield from _too_long(design, frame, clusters)
    for index, first in enumerate(whole):
        for second in whole[index + 1 :]:
            short = _shortfall(design, frame, first, second)
            if short > 0:
                yield Fault(
                    design.where(second[0].section.path),
                    f"section '{second[0].section.name}' runs into section "
                    f"'{first[0].section.name}' by {format_length(short, design.unit)}",
                    "take out a cluster of one of them, or move its 'at'",
                )


def _too_long(design: Design, frame: Frame, clusters: list[Tied]) -> Iterator[Fault]:
    if clusters[0].section.whole or len(clusters) < 2:
        return
    first, last = _span(clusters)
    spare = frame.length - (last.s - first.s) - _needed(design, last, first)
    if spare < 0:
        yield Fault(
            design.where(clusters[0].section.path),
            f"section '{clusters[0].section.name}' is longer than the ring by "
            f"{format_length(-spare, design.unit)}",
            "take out clusters, fill them smaller, or write 'whole = true' for a full ring",
        )


def _span(clusters: list[Tied]) -> tuple[Tied, Tied]:
    return min(clusters, key=lambda one: one.s), max(clusters, key=lambda one: one.s)


def _needed(design: Design, a: Tied, b: Tied) -> float:
    return _CROWDED * pitch(a.shape, b.shape, design.limits.squeeze)


def _shortfall(design: Design, frame: Frame, first: list[Tied], second: list[Tied]) -> float:
    """How much length two sections lack, mm: negative when they keep apart."""
    (a0, a1), (b0, b1) = _span(first), _span(second)
    if not frame.closed:
        a, b = (a1, b0) if a0.s <= b0.s else (b1, a0)
        return _needed(design, a, b) - (b.s - a.s)
    turns = frame.length
    # Both gaps are read round the ring from the first section's start, so that they add up to
    # what the two sections leave free.
    start = (b0.s - a0.s) % turns
    gap_on = start - (a1.s - a0.s)
    gap_back = turns - start - (b1.s - b0.s)
    return max(_needed(design, a1, b0) - gap_on, _needed(design, b1, a0) - gap_back)
