"""Where pressed balloons meet in the picture: against closed forms, z-buffers and two painters."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PIL import Image
from shapely import Polygon

from mockup.design.wish import Wish, design_from_wish
from mockup.piece.assemble import assemble
from mockup.render.outline import crease, outline, outlines
from mockup.render.pressed import HORIZON, back_to_front, bows, cuts_of
from mockup.render.viewpoint import ABOVE, FRONT, RIGHT, Viewpoint

Floats = NDArray[np.float64]
DATA = Path(__file__).parents[1] / "data"


def every_pair(count: int) -> NDArray[np.intp]:
    return np.argwhere(np.triu(np.ones((count, count), dtype=bool), 1))


def owners(centres: Floats, radii: Floats, pixels: int, size: float) -> NDArray[np.int64]:
    """Brute force: at every pixel's middle the sphere whose front is nearest, or -1."""
    marks = (np.arange(pixels) + 0.5) * size / pixels
    x, y = np.meshgrid(marks, -marks)
    rise = radii**2 - (x[..., None] - centres[:, 0]) ** 2 - (y[..., None] - centres[:, 1]) ** 2
    front = np.where(rise > 0, centres[:, 2] + np.sqrt(np.maximum(rise, 0)), -np.inf)
    return np.where(front.max(axis=-1) > -np.inf, front.argmax(axis=-1), -1)


def painted(centres: Floats, radii: Floats, pixels: int, size: float) -> NDArray[np.int64]:
    """The same from the outlines, painted back to front in plain colours by CairoSVG."""
    cairosvg = pytest.importorskip("cairosvg")
    cuts = cuts_of(centres, radii, every_pair(len(radii)))
    paths = [
        f'<path d="{data}" fill="#{k + 1:02x}0000"/>'
        for k in back_to_front(centres[:, 2])
        if (data := outline(bows(cuts[k]), (centres[k, 0], -centres[k, 1]), radii[k]))
    ]
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{pixels}" height="{pixels}" '
        f'viewBox="0 0 {size} {size}" shape-rendering="crispEdges">{"".join(paths)}</svg>'
    )
    image = Image.open(io.BytesIO(cairosvg.svg2png(bytestring=svg.encode(), dpi=96)))
    picture = np.asarray(image.convert("RGBA")).astype(int)
    return np.where(picture[..., 3] > 127, picture[..., 0] - 1, -1)


def heap(seed: int, flat: bool) -> tuple[Floats, Floats]:
    """Fourteen spheres thrown together, some of them far inside one another."""
    rng = np.random.default_rng(seed)
    xy = rng.uniform(25, 75, (14, 2)) * (1, -1)
    z = np.zeros(14) if flat else rng.uniform(-20, 20, 14)
    return np.column_stack([xy, z]), rng.uniform(8, 18, 14)


@pytest.mark.parametrize("flat", [False, True])
@pytest.mark.parametrize("seed", range(4))
def test_every_pixel_has_the_owner_a_z_buffer_gives_it(seed: int, flat: bool) -> None:
    centres, radii = heap(seed, flat)
    judged, found = owners(centres, radii, 500, 100.0), painted(centres, radii, 500, 100.0)
    seen = (judged >= 0) | (found >= 0)
    assert (judged == found)[seen].mean() > 0.999


@pytest.mark.parametrize("viewpoint", [FRONT, RIGHT, ABOVE])
def test_a_settled_piece_is_cut_right_from_every_side(viewpoint: Viewpoint) -> None:
    crescent = "3, 2, 2, end 1"
    wish = Wish(ring="24in", numerals="75", height="13in", top=crescent, bottom=crescent)
    piece = assemble(design_from_wish(wish))
    centres = viewpoint.turned(np.array([b.centre for b in piece.balloons]))
    radii = np.array([b.radius for b in piece.balloons])
    centres[:, :2] += (500.0, -500.0)
    judged, found = owners(centres, radii, 600, 1000.0), painted(centres, radii, 600, 1000.0)
    seen = (judged >= 0) | (found >= 0)
    assert (judged == found)[seen].mean() > 0.995


def test_the_z_buffer_would_catch_discs_pasted_on_one_another() -> None:
    """The comparison can fail: whole discs in order of depth agree far less."""
    centres, radii = heap(1, False)
    judged = owners(centres, radii, 300, 100.0)
    marks = (np.arange(300) + 0.5) / 3
    x, y = np.meshgrid(marks, -marks)
    pasted = np.full((300, 300), -1)
    for k in back_to_front(centres[:, 2]):
        inside = (x - centres[k, 0]) ** 2 + (y - centres[k, 1]) ** 2 < radii[k] ** 2
        pasted[inside] = k
    seen = judged >= 0
    assert (judged == pasted)[seen].mean() < 0.97


def flattened(data: str) -> list[Floats]:
    """Path data of M, L, A and Z as polylines, by the standard's own way from end points to
    centre: SVG 1.1, appendix F.6.5."""
    rings: list[list[tuple[float, float]]] = []
    for letter, rest in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        numbers = [float(each) for each in rest.split()]
        if letter == "M":
            rings.append([(numbers[0], numbers[1])])
        elif letter == "L":
            rings[-1].append((numbers[0], numbers[1]))
        elif letter == "A":
            rings[-1].extend(arc_points(rings[-1][-1], numbers))
    return [np.array(ring) for ring in rings]


def arc_points(start: tuple[float, float], numbers: list[float]) -> Iterator[tuple[float, float]]:
    rx, ry, turn, large, sweep, x, y = numbers
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    half = np.array([start[0] - x, start[1] - y]) / 2
    x1, y1 = c * half[0] + s * half[1], -s * half[0] + c * half[1]
    grow = math.sqrt(max(1.0, x1**2 / rx**2 + y1**2 / ry**2))
    rx, ry = rx * grow, ry * grow
    under = rx**2 * ry**2 - rx**2 * y1**2 - ry**2 * x1**2
    root = math.sqrt(max(0.0, under / (rx**2 * y1**2 + ry**2 * x1**2)))
    root *= -1 if large == sweep else 1
    cx1, cy1 = root * rx * y1 / ry, -root * ry * x1 / rx
    begin = math.atan2((y1 - cy1) / ry, (x1 - cx1) / rx)
    end = math.atan2((-y1 - cy1) / ry, (-x1 - cx1) / rx)
    if sweep and end < begin:
        end += 2 * math.pi
    if not sweep and end > begin:
        end -= 2 * math.pi
    middle = np.array([start[0] + x, start[1] + y]) / 2
    for angle in np.linspace(begin, end, 200)[1:]:
        a, b = cx1 + rx * math.cos(angle), cy1 + ry * math.sin(angle)
        yield c * a - s * b + middle[0], s * a + c * b + middle[1]


def lens_rows() -> list[dict[str, str]]:
    """E. Weisstein, MathWorld, "Circle-Circle Intersection": areas of two discs' union."""
    lines = (DATA / "lens_area.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", lens_rows())
def test_two_spheres_of_one_depth_show_the_union_of_their_discs(row: dict[str, str]) -> None:
    r, other, apart = 1000 * float(row["r"]), 1000 * float(row["R"]), 1000 * float(row["d"])
    cuts = cuts_of(np.array([[0.0, 0, 0], [apart, 0, 0]]), np.array([r, other]), every_pair(2))
    (first,) = flattened(outline(bows(cuts[0]), (0.0, 0.0), r))
    (second,) = flattened(outline(bows(cuts[1]), (apart, 0.0), other))
    union = Polygon(first).union(Polygon(second)).area
    assert union == pytest.approx(1e6 * float(row["union"]), rel=2e-4)
    # The second is cut along the radical line, by a segment of its own disc.
    far = (apart**2 + other**2 - r**2) / (2 * apart)
    segment = other**2 * math.acos(far / other) - far * math.sqrt(other**2 - far**2)
    assert Polygon(second).area == pytest.approx(math.pi * other**2 - segment, rel=2e-4)


def test_the_crease_of_two_equal_spheres_side_by_side_is_their_common_chord() -> None:
    """Closed form: a straight line half way, half as long as sqrt(r^2 - (d/2)^2) to each side."""
    centres, radii = np.array([[0.0, 0, 0], [16.0, 0, 0]]), np.array([10.0, 10.0])
    shown = bows(cuts_of(centres, radii, every_pair(2))[1])
    (line,) = [bow for bow in shown if bow.cut.other != HORIZON]
    assert crease(line, (16.0, 0.0), 10.0) in ("M8 6L8 -6", "M8 -6L8 6")


depth = st.floats(-0.95, 0.95)


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 2 * math.pi), depth, st.floats(0.5, 2.0), st.floats(0.05, 0.95))
def test_a_crease_lies_on_both_spheres_fronts(
    heading: float, rise: float, ratio: float, closeness: float
) -> None:
    """Closed form: each point satisfies both spheres' equations, no farther than the centres."""
    radii = np.array([1.0, ratio])
    apart = abs(1 - ratio) + closeness * (1 + ratio - abs(1 - ratio))
    across = math.sqrt(1 - rise * rise)
    step = np.array([across * math.cos(heading), across * math.sin(heading), rise])
    centres = np.array([[0.0, 0, 0], step * apart])
    behind, front = back_to_front(centres[:, 2])
    for bow in bows(cuts_of(centres, radii, every_pair(2))[front]):
        if bow.cut.other == HORIZON:
            continue
        for angle in np.linspace(bow.start, bow.end, 7):
            point = centres[front] + radii[front] * np.array(bow.cut.point(float(angle)))
            for k in (behind, front):
                assert np.linalg.norm(point - centres[k]) == pytest.approx(radii[k], rel=1e-6)
                assert point[2] >= centres[k, 2] - 1e-6


def test_a_sphere_inside_another_shows_nothing() -> None:
    centres, radii = np.array([[0.0, 0, 0], [1.0, 0, 1.0]]), np.array([10.0, 2.0])
    cuts = cuts_of(centres, radii, every_pair(2))
    # Its plane lies beyond its front, so that no arc of it is left.
    assert len(bows(cuts[0])) == 1
    assert outline(bows(cuts[1]), (0.0, 0.0), 2.0) == ""


def test_a_clip_swings_wide_of_the_silhouette_only() -> None:
    centres, radii = np.array([[0.0, 0, 0], [16.0, 0, 3.0]]), np.array([10.0, 10.0])
    shown = bows(cuts_of(centres, radii, every_pair(2))[1])
    told = outlines(shown, (16.0, 0.0), 10.0, (1.0, 1.1))
    assert told == [outline(shown, (16.0, 0.0), 10.0, margin) for margin in (1.0, 1.1)]
    exact, wide = (Polygon(flattened(data)[0]) for data in told)
    assert wide.buffer(1e-6).contains(exact)
    assert wide.bounds[2] == pytest.approx(27.0, abs=1e-3)
    assert wide.bounds[0] == pytest.approx(exact.bounds[0], abs=1.0)
