"""Loose garlands on the piece: grown, coloured, and cut into the stretches they are tied in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import atan2, degrees

import numpy as np

from mockup.design.model import ClusterSpec, Design, GarlandSpec, Kind, PlaceSpec, SectionSpec
from mockup.errors import Fault, FaultsFound
from mockup.lengths import format_length
from mockup.packing.frames import Frame
from mockup.packing.growing import Floats, Grown, Growth, Portion, grow
from mockup.packing.inflation import NotASize
from mockup.packing.neighbours import touching_pairs
from mockup.packing.nesting import ClusterShape
from mockup.piece.tying import Tied
from mockup.symmetry.mixing import mixed_letters

_KINDS: dict[int, Kind] = {1: "single", 2: "pair", 3: "trio", 4: "quad", 5: "five"}
_METRE, _THREE_FEET = 1000.0, 914.4
# Balloons this near, as a share of the smallest diameter, count as touching to the eye.
_NEAR = 0.06


def tie_garlands(design: Design, frame: Frame) -> Iterator[Tied]:
    """Every garland's balloons in the order of the frame; raises ``FaultsFound``."""
    for garland in design.garlands:
        growth = growth_of(garland, frame)
        try:
            grown = grow(frame, growth)
        except NotASize as wrong:
            instead = "change its width, its recipe or its ends"
            raise FaultsFound([Fault(design.where(garland.path), str(wrong), instead)]) from wrong
        yield from _tied(design, garland, growth, grown, frame)


def growth_of(garland: GarlandSpec, frame: Frame) -> Growth:
    """What a garland asks of the geometry."""
    start, end = _mark(garland.begins, frame), _mark(garland.ends, frame)
    if frame.closed and end <= start:
        end += frame.length
    starts_left = frame.at(start)[0] <= frame.at(end)[0]
    heavy = {"even": 0.0, "left": 1.0, "right": -1.0}[garland.balance]
    return Growth(
        tuple(Portion(one.diameter, one.share) for one in garland.recipe),
        start,
        end,
        garland.width,
        garland.coverage,
        garland.seed,
        heavy if starts_left else -heavy,
    )


def _mark(place: PlaceSpec, frame: Frame) -> float:
    if place.deg is not None:
        return frame.s_at_deg(place.deg)
    return place.mm if place.mm is not None else (place.share or 0.0) * frame.length


def stretch_length(design: Design) -> float:
    """The length of the stretches a garland is tied in, mm: a metre, or three feet."""
    return _THREE_FEET if design.unit == "in" else _METRE


def _tied(
    design: Design, garland: GarlandSpec, growth: Growth, grown: Grown, frame: Frame
) -> Iterator[Tied]:
    """Group by group along the frame: the large ones of a stretch first, as they are tied."""
    letters = _letters(garland, grown)
    recipe = sorted(garland.recipe, key=lambda one: -one.diameter)
    groups = [np.flatnonzero(grown.group == g) for g in range(int(grown.group.max()) + 1)]
    along = [float(grown.along[own].mean()) for own in groups]
    long = stretch_length(design)
    order = sorted(
        (int((along[g] - growth.start) // long), int(grown.portion[own[0]]), along[g], g)
        for g, own in enumerate(groups)
    )
    steps: Counter[int] = Counter()
    for stretch, size, s, g in order:
        steps[stretch] += 1
        own, portion = groups[g], recipe[size]
        spec = ClusterSpec(
            _KINDS[len(own)],
            portion.nominal,
            portion.diameter,
            portion.strokes,
            "".join(letters[k] for k in own.tolist()),
            path=garland.path,
        )
        yield Tied(
            _stretch(design, garland, growth, stretch),
            spec,
            steps[stretch],
            "middle",
            False,
            s,
            s - growth.start,
            ClusterShape(len(own), portion.diameter, _turn(frame, s, grown.centres[own[0]])),
            spots=tuple(tuple(row) for row in grown.centres[own].tolist()),
            ties=tuple(tuple(row) for row in grown.ties[own].tolist()),
        )


def _letters(garland: GarlandSpec, grown: Grown) -> str:
    every = "".join(dict.fromkeys(garland.letters))
    near = touching_pairs(grown.centres, grown.diameters / 2, _NEAR * float(grown.diameters.min()))
    weights = [float(garland.letters.count(letter)) for letter in every]
    pairs = [(int(a), int(b)) for a, b in near.tolist()]
    return mixed_letters(len(grown.centres), pairs, every, weights)


def _stretch(design: Design, garland: GarlandSpec, growth: Growth, number: int) -> SectionSpec:
    long = stretch_length(design)
    ends = number * long, min((number + 1) * long, growth.end - growth.start)
    low, high = (format_length(mm, design.unit) for mm in ends)
    name = f"{garland.name}, {low} to {high}"
    return SectionSpec(name, 0.0, None, (), (), pattern="any", path=garland.path)


def _turn(frame: Frame, s: float, centre: Floats) -> float:
    """The angle round the frame at which a balloon lies, degrees."""
    (x, y), (nx, ny) = frame.at(s), frame.normal(s)
    out = (float(centre[0]) - x) * nx + (float(centre[1]) - y) * ny
    return degrees(atan2(float(centre[2]), out)) % 360.0
