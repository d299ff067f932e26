"""Foil numerals: their form, that no tone steps show, and that nothing leaves the outline."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString, MultiLineString, Point, Polygon, contains_xy

from mockup.colour.srgb import oklab
from mockup.colour.tones import tone
from mockup.design.model import FINISHES, ColourUse
from mockup.panel.numerals import WELD, NumeralShape, numeral_row
from mockup.render import foil
from mockup.render.curve_fit import fitted
from mockup.render.flanks import Flank, crescents
from mockup.render.foil import LOOKS, foil_symbol, numeral
from mockup.render.puckers import folds
from mockup.render.record import Path, Place
from mockup.render.rounded import STEP, at, steps
from mockup.render.tones import as_it_is
from mockup.render.tracks import Track, joined, lines, number
from mockup.render.viewpoint import FRONT, Eye, ViewOptions

SCALE = 0.1
NUMBER = re.compile(r"-?[\d.]+(?:e-?\d+)?")


@cache
def shape_of(char: str) -> NumeralShape:
    shape = numeral_row(char, 330.0, {}, 0.0)[0]
    return shape.moved(-shape.x, -shape.y)


def paths(char: str, finish: str = "mirror") -> list[Path]:
    items = foil_symbol(shape_of(char), SCALE, "#c08a3e", finish, as_it_is).items
    return [item for item in items if isinstance(item, Path)]


def points(data: str) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Every number pair of path data: for Bezier curves the control points, which bound them."""
    return np.array([float(each) for each in NUMBER.findall(data)]).reshape(-1, 2)


def on_sheet(char: str) -> Polygon:
    """The numeral's outline in sheet mm, y down, laid by shapely as the outside judge."""
    shape = shape_of(char)
    strokes = [stroke * (SCALE, -SCALE) for stroke in shape.strokes]
    return MultiLineString(strokes).buffer(shape.half_width * SCALE, quad_segs=64)


@pytest.mark.parametrize("char", "0123456789&")
def test_nothing_of_a_foil_leaves_its_outline(char: str) -> None:
    outline = on_sheet(char).buffer(0.03)
    spine = MultiLineString([stroke * (SCALE, -SCALE) for stroke in shape_of(char).strokes])
    half = shape_of(char).half_width * SCALE
    for path in paths(char):
        xy = points(path.d)
        if path.style.stroke == "none":
            assert contains_xy(outline, xy[:, 0], xy[:, 1]).all()
        elif "C" not in path.d:
            # A stroke reaches as far as its centre-line's farthest point lies off, and its half.
            off = max(spine.distance(Point(each)) for each in xy)
            assert off + path.style.stroke_width / 2 <= half + 0.03
    assert paths(char)[0].style.stroke_width == pytest.approx(2 * half, abs=1e-3)


@pytest.mark.parametrize("char", "02358")
def test_curves_keep_to_the_centre_line(char: str) -> None:
    """Judged by distance to the polyline: within 0.02 mm on the sheet, 0.15 mm of true size."""
    for stroke in shape_of(char).strokes:
        line = stroke * (SCALE, -SCALE)
        track = fitted(line, 0.02)
        true, legs = LineString(line), iter(track.points[1:])
        pen = track.points[0]
        for command in re.findall("[CL]", track.form):
            if command == "L":
                pen = next(legs)
                continue
            first, second, end = next(legs), next(legs), next(legs)
            for t in np.linspace(0, 1, 12):
                spot = (1 - t) ** 3 * pen + 3 * t * (1 - t) ** 2 * first
                spot = spot + 3 * t**2 * (1 - t) * second + t**3 * end
                assert true.distance(Point(spot)) < 0.03
            pen = end
        assert len(track.points) < 1.2 * len(line)


def test_corners_stay_corners() -> None:
    corner = np.array([[0.0, 0.0], [5.0, 0.0], [5.0, 5.0]])
    assert fitted(corner, 0.1).data() == "M0 0L5 0L5 5"


@pytest.mark.parametrize("finish", FINISHES)
@pytest.mark.parametrize("colour", ["#c08a3e", "#b9bcc4", "#111111", "#ffffff", "#d2232a"])
@pytest.mark.parametrize("half", [0.8, 3.3, 12.0])
def test_no_step_of_tone_is_wide_and_strong_enough_to_show(
    finish: str, colour: str, half: float
) -> None:
    """At 600 dpi a dot is 0.042 mm: a step is narrower, or under 1/100 in OKLab lightness."""
    made = steps(colour, LOOKS[finish].rise, half)
    for low, high in pairwise(made):
        jump = abs(oklab(high.colour)[0] - oklab(low.colour)[0])
        # A colour is rounded to 1/255 a channel, which is up to 0.004 of lightness.
        assert jump < STEP + 0.006 or (high.rise - low.rise) * half < 0.042


def test_steps_end_short_of_the_ridge_and_follow_the_profile() -> None:
    profile = ((0.0, -0.5), (0.5, 0.1), (1.0, 0.6))
    made = steps("#c08a3e", profile, 4.0)
    assert made[0].colour == tone("#c08a3e", -0.5)
    assert made[-1].rise < 1.0
    assert at(profile, 0.25) == pytest.approx(-0.2)
    assert [step.rise for step in made] == sorted(step.rise for step in made)


def test_soft_layers_step_by_less_than_shows() -> None:
    """Crescents and hanging shade are laid on in layers of at most a few per cent."""
    for look in LOOKS.values():
        for flank in look.flanks:
            each = 1 - (1 - flank.peak) ** (1 / flank.layers)
            assert each < 0.1 or flank.outer <= 0.1
    (shade, _) = numeral(shape_of("5"), ColourUse("", "x", "#c08a3e", "mirror"), eye())
    assert isinstance(shade, Place)
    layers = [item for item in shade.symbol.items if isinstance(item, Path)]
    assert all(layer.style.opacity < 0.012 for layer in layers)


def eye(shadows: bool = True) -> Eye:
    return Eye(FRONT, SCALE, (50.0, 50.0), ViewOptions(shadows=shadows))


def test_light_lies_on_the_lit_flank_only() -> None:
    """Of a level bar the light falls on the upper edge: every crescent lies above its middle."""
    bar = MultiLineString([[(0.0, 0.0), (20.0, 0.0)]])
    lit = list(crescents(bar, 3.0, Flank(1.0, 0.6, 0.1, 0.04, 0.8, 4), 0.01))
    dark = list(crescents(bar, 3.0, Flank(-0.7, -1.0, 0.0, 0.8, 0.4, 4), 0.01))
    assert len(lit) == len(dark) == 4
    between = [points(data)[(points(data)[:, 0] > 1) & (points(data)[:, 0] < 19)] for data in lit]
    assert all((each[:, 1] < 0.3).all() for each in between)
    assert all(points(data)[:, 1].max() == pytest.approx(3.0, abs=0.02) for data in dark)


def test_a_crescent_is_as_thick_as_the_cosine_of_the_light() -> None:
    """A level bar faces the light (-0.6, -0.8) by 0.8: its crescent is 0.8 of the full shift."""
    bar = MultiLineString([[(0.0, 0.0), (40.0, 0.0)]])
    (data,) = crescents(bar, 1.0, Flank(1.0, 0.5, 0.25, 0.25, 0.8, 1), 0.0)
    ring = Polygon(points(data))
    cut = ring.intersection(LineString([(20.0, -5.0), (20.0, 5.0)]))
    assert cut.length == pytest.approx(0.8 * 0.5, rel=0.02)


@pytest.mark.parametrize("inside", [True, False])
def test_folds_point_into_the_foil(inside: bool) -> None:
    turn = np.linspace(0, 2 * np.pi, 80)
    ring = 10 * np.column_stack([np.cos(turn), np.sin(turn)])
    for line in (ring, ring[::-1]):
        found = folds(line, 3.0, inside)
        tips = found.feet + found.inward * found.long[:, None]
        grew = np.hypot(*tips.T) > np.hypot(*found.feet.T)
        assert (grew != inside).all()
        assert (found.long < 1.5).all()
        assert len(found.feet) > 30


def test_each_digit_has_its_own_drawing_and_equal_ones_share_it() -> None:
    foil = ColourUse("", "brass", "#c08a3e", "mirror")
    placed = [numeral(shape, foil, eye()) for shape in numeral_row("373", 330.0, {}, 12.0)]
    ids = [tuple(i.symbol.id for i in each if isinstance(i, Place)) for each in placed]
    assert ids[0] == ids[2] != ids[1]
    assert len(numeral(shape_of("3"), foil, eye(shadows=False))) == 1


@pytest.mark.parametrize("char", "08")
def test_a_digit_is_at_most_120_kb(char: str) -> None:
    assert sum(len(path.d) + 80 for path in paths(char)) < 120_000


def test_the_weld_is_narrow_on_small_foils() -> None:
    assert min(WELD * SCALE, 0.2 * 0.5) == 0.1
    small = numeral_row("1", 30.0, {}, 0.0)[0].moved(0.0, 0.0)
    assert foil_symbol(small, SCALE, "#c08a3e", "pearl", as_it_is).items


def test_path_data_is_short_and_moves() -> None:
    square = lines(np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]]), closed=True)
    assert square.data(1.0, 2.0) == "M1 2L2 2L2 3Z"
    assert joined([square, Track("M%g %g", np.zeros((1, 2)))]).data() == "M0 0L1 0L1 1ZM0 0"
    assert joined([]).data() == ""
    assert [number(v) for v in (1234.5678, -0.0001, 12.30)] == ["1234.57", "0", "12.3"]


def test_where_a_numeral_hung_before_does_not_show_in_its_drawing() -> None:
    """The last digits of its strokes depend on where it hangs; its drawing may not."""
    (shape,) = numeral_row("3", 381.0, {}, 0.0)
    symbols = set()
    for x, y in ((0.0, 0.0), (101.3, -7.7), (-0.1, 1 / 3)):
        foil._blank.cache_clear()
        foil.foil_symbol.cache_clear()
        own = foil._on_its_own(shape.moved(x, y))
        symbols.add(foil.foil_symbol(own, 0.1, "#b8893c", "mirror", as_it_is).id)
    assert len(symbols) == 1
