"""Laws of a whole piece: mirror, scale, and what settling may leave behind."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import dist

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from mockup.design.model import ClusterSpec, ColourUse, Design, FrameSpec, PanelSpec, SectionSpec
from mockup.packing.clusters import turn_for
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece

COLOURS = {letter: ColourUse(letter, letter, "#808080", "matte") for letter in "ABC"}
KINDS = {1: ("single", "A"), 2: ("pair", "AB"), 3: ("trio", "ABC"), 4: ("quad", "ABAB")}


def cluster(count: int, diameter: float, turn: float | None = None) -> ClusterSpec:
    kind, letters = KINDS[count]
    return ClusterSpec(kind, 127.0, diameter, None, letters, turn)  # type: ignore[arg-type]  # one of KINDS


@st.composite
def designs(draw: st.DrawFn) -> Design:
    """Rings with two crescents of a few clusters each, small enough to keep apart."""
    sizes = st.floats(60.0, 115.0)
    sections = []
    for name, at in (("top", 0.0), ("bottom", 180.0)):
        count = draw(st.sampled_from([3, 4]))
        turn = draw(st.sampled_from([turn_for("valley in", count), turn_for("point in", count)]))
        side = tuple(cluster(count, draw(sizes)) for _ in range(draw(st.integers(0, 3))))
        cap = draw(st.one_of(st.none(), st.builds(cluster, st.just(2), st.floats(55.0, 80.0))))
        middle = cluster(count, draw(sizes), turn)
        sections.append(SectionSpec(name, at, middle, side, side, cap, cap))
    panel = PanelSpec(draw(st.sampled_from(["7", "30", "100"])), draw(st.floats(150.0, 420.0)))
    frame = FrameSpec("ring", draw(st.floats(600.0, 900.0)), 12.7)
    return Design("law", frame, tuple(sections), COLOURS, panel=panel)


def centres(piece: Piece) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    return np.array([b.centre for b in piece.balloons]).reshape(-1, 3)


@settings(max_examples=25, deadline=None)
@given(designs())
def test_a_mirrored_design_settles_mirrored(design: Design) -> None:
    piece = assemble(design)
    spots = {tuple(np.round(c, 6)) for c in centres(piece) * (1, 1, 1)}
    flat = [shapely.Point(c) for c in centres(piece)]
    turned = [affinity.scale(p, xfact=-1, origin=(0, 0, 0)) for p in flat]
    got = {tuple(np.round([p.x + 0.0, p.y + 0.0, p.z + 0.0], 6)) for p in turned}
    near = np.array(sorted(got))[:, None, :] - np.array(sorted(spots))[None, :, :]
    assert float(np.linalg.norm(near, axis=2).min(axis=1).max()) < 1e-5


def scaled(design: Design, k: float) -> Design:
    def grow(spec: ClusterSpec | None) -> ClusterSpec | None:
        return spec and replace(spec, nominal=spec.nominal * k, diameter=spec.diameter * k)

    def side(run: tuple[ClusterSpec, ...]) -> tuple[ClusterSpec, ...]:
        return tuple(replace(s, nominal=s.nominal * k, diameter=s.diameter * k) for s in run)

    sections = tuple(
        replace(
            s,
            middle=grow(s.middle),
            right=side(s.right),
            left=side(s.left),
            end_right=grow(s.end_right),
            end_left=grow(s.end_left),
        )
        for s in design.sections
    )
    frame = replace(design.frame, outside=design.frame.outside * k, tube=design.frame.tube * k)
    panel = design.panel and replace(
        design.panel,
        height=(design.panel.height or 0) * k,
        gap=design.panel.gap * k,
        thickness=design.panel.thickness * k,
    )
    return replace(design, frame=frame, sections=sections, panel=panel)


@settings(max_examples=20, deadline=None)
@given(designs(), st.floats(0.5, 2.0))
def test_scaling_the_piece_scales_every_answer(design: Design, k: float) -> None:
    one, other = assemble(design), assemble(scaled(design, k))
    # Settling stops at forces of 1e-3 diameters, so places agree to a few times that.
    assert np.allclose(centres(other), centres(one) * k, rtol=0, atol=0.4 * k)
    assert other.nestling.crossing == pytest.approx(one.nestling.crossing, abs=1e-9)
    assert other.extent.width == pytest.approx(one.extent.width * k, rel=1e-4)
    assert one.fit is not None
    assert other.fit is not None
    assert other.fit.largest_height == pytest.approx(one.fit.largest_height * k, abs=1.0 + 2 * k)


@settings(max_examples=25, deadline=None)
@given(designs())
def test_settled_balloons_never_cross_by_more_than_is_reported(design: Design) -> None:
    piece = assemble(design)
    worst = 0.0
    for a, b in combinations(piece.balloons, 2):
        over = a.radius + b.radius - dist(a.centre, b.centre)
        worst = max(worst, over / min(a.diameter, b.diameter))
    assert worst == pytest.approx(piece.nestling.pressed, abs=1e-9)


@settings(max_examples=15, deadline=None)
@given(designs(), st.floats(1.02, 1.15))
def test_the_opening_shrinks_when_the_balloons_in_it_grow(design: Design, k: float) -> None:
    """Only the middle clusters grow: they face the centre, so the opening loses height."""

    def grow(spec: ClusterSpec | None) -> ClusterSpec | None:
        return spec and replace(spec, diameter=spec.diameter * k)

    bare = tuple(
        replace(s, right=(), left=(), end_right=None, end_left=None) for s in design.sections
    )
    before = assemble(replace(design, sections=bare))
    after = assemble(
        replace(design, sections=tuple(replace(s, middle=grow(s.middle)) for s in bare))
    )
    assert before.opening is not None
    assert after.opening is not None
    assert after.opening.height <= before.opening.height + 1e-6
