"""The drawn piece: what lies over what, names, colours, letters, and how large the file is."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from math import hypot, isfinite

import numpy as np
import pytest

from mockup.colour.srgb import contrast, grey, parse_hex
from mockup.design.model import ColourUse, FrameSpec, StandSpec
from mockup.design.wish import Wish, design_from_wish
from mockup.packing.frames import Arc
from mockup.piece.assemble import assemble, panel_plane
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.letters import clear_spots
from mockup.render.necks import necks, showing
from mockup.render.record import (
    Circle,
    Group,
    Item,
    Linear,
    Path,
    Place,
    Point,
    Radial,
    Rect,
    Sheet,
    Symbol,
    Text,
    walk,
)
from mockup.render.side_view import plan_view, side_view
from mockup.render.svg import svg_text
from mockup.render.tube import centre_line
from mockup.render.viewpoint import ABOVE, FRONT, RIGHT, Eye, ViewOptions, Viewpoint

ORIGIN, SCALE = (60.0, 60.0), 0.1
COLOURS = {
    "A": ColourUse("A", "deep teal", "#116a6e", "gloss"),
    "B": ColourUse("B", "oat", "#e8dcc0", "matte"),
}


@pytest.fixture(scope="module")
def piece() -> Piece:
    crescent = "3, 2, 2, end 1"
    wish = Wish(ring="24in", numerals="33", height="13in", top=crescent, bottom=crescent)
    return assemble(replace(design_from_wish(wish), stand=StandSpec(), colours=COLOURS))


def groups(view: Group, kind: str) -> list[Group]:
    return [each for each in view.items if isinstance(each, Group) and each.kind == kind]


def everything(items: tuple[Item, ...]) -> list[Item]:
    """Every item, going into symbols too."""
    found: list[Item] = []
    for item in walk(items):
        found.append(item)
        if isinstance(item, Place):
            found += everything(item.symbol.items)
    return found


def paints(item: Item) -> set[str]:
    style = getattr(item, "style", None)
    used = [style.fill, style.stroke] if style else []
    colours = {each for each in used if isinstance(each, str) and each != "none"}
    for each in used:
        if isinstance(each, Radial | Linear):
            colours |= {stop.colour for stop in each.stops}
    if isinstance(item, Text):
        colours |= {item.colour}
    return colours


def colours_in(view: Group) -> set[str]:
    return {colour for item in everything(view.items) for colour in paints(item)}


def discs(group: Group) -> list[tuple[Point, float]]:
    """Where the symbols of a balloon's group are placed, and how large."""
    return [(i.at, i.scale) for i in walk(group.items) if isinstance(i, Place)]


def test_every_balloon_lands_where_the_scale_puts_it(piece: Piece) -> None:
    view = front_view(piece, SCALE, ORIGIN)
    drawn = {group.name: discs(group)[0] for group in groups(view, "balloon")}
    assert len(drawn) == len(piece.balloons)
    for balloon in piece.balloons:
        (x, y), radius = drawn[balloon.id]
        assert (x, y) == pytest.approx(
            (60 + 0.1 * balloon.centre[0], 60 - 0.1 * balloon.centre[1]), abs=1e-9
        )
        assert radius == pytest.approx(0.05 * balloon.diameter)


def test_what_is_nearer_is_drawn_later(piece: Piece) -> None:
    """Back balloons, the tube, then balloons level with it and before it; numerals in between."""
    kinds = [
        (i.kind, i.name) for i in front_view(piece, SCALE, ORIGIN).items if isinstance(i, Group)
    ]
    depth = {balloon.id: balloon.centre[2] for balloon in piece.balloons}
    order = [depth[name] for kind, name in kinds if kind == "balloon"]
    assert order == sorted(order, key=lambda z: round(z, 6))
    assert piece.design.panel is not None
    for kind, plane in (
        ("frame", -piece.frame.tube / 2),
        ("numeral", panel_plane(piece.design.panel, piece.frame)),
    ):
        at = next(k for k, (found, _) in enumerate(kinds) if found == kind)
        before = [depth[name] for found, name in kinds[:at] if found == "balloon"]
        after = [depth[name] for found, name in kinds[at:] if found == "balloon"]
        assert before
        assert max(before) <= plane <= min(after)


def test_balloons_bear_their_words_and_their_colour(piece: Piece) -> None:
    first = groups(front_view(piece, SCALE, ORIGIN), "balloon")[0]
    number = next(b.index for b in piece.balloons if b.id == first.name)
    colour = COLOURS[piece.balloons[number].letter].name
    assert first.title == f"{piece.balloon_words(number)}, {colour}"


def test_pressed_balloons_are_clipped_and_shaded(piece: Piece) -> None:
    view = front_view(piece, SCALE, ORIGIN)
    clipped = [g for b in groups(view, "balloon") for g in b.items if isinstance(g, Group)]
    assert clipped
    assert all(group.clip.startswith("M") and group.clip.endswith("Z") for group in clipped)
    plain = front_view(piece, SCALE, ORIGIN, ViewOptions(shadows=False))
    assert len(everything(plain.items)) < len(everything(view.items))


def test_the_same_piece_is_the_same_drawing(piece: Piece) -> None:
    assert front_view(piece, SCALE, ORIGIN) == front_view(piece, SCALE, ORIGIN)


def test_every_figure_of_the_drawing_is_finite(piece: Piece) -> None:
    number = re.compile(r"[-\d.e]+")
    for draw in (front_view, side_view, plan_view):
        for item in everything(draw(piece, SCALE, ORIGIN).items):
            if isinstance(item, Path):
                assert all(isfinite(float(each)) for each in number.findall(item.d))
            for field in fields(item):
                value = getattr(item, field.name)
                if isinstance(value, float):
                    assert isfinite(value)


def test_a_grey_view_is_grey_all_through(piece: Piece) -> None:
    view = front_view(piece, SCALE, ORIGIN, ViewOptions(letters=True, recolour=grey))
    assert all(len(set(parse_hex(colour))) == 1 for colour in colours_in(view))
    assert not all(
        len(set(parse_hex(colour))) == 1 for colour in colours_in(front_view(piece, SCALE, ORIGIN))
    )


def test_a_colourway_takes_the_place_of_the_designs_colours(piece: Piece) -> None:
    swapped = {"A": COLOURS["B"], "B": COLOURS["A"]}
    foil = ColourUse("", "rose", "#c8878c", "matte")
    view = front_view(piece, SCALE, ORIGIN, ViewOptions(colours=swapped, foil=foil))
    before, after = (
        {g.name: g.title.split(", ")[-1] for g in groups(v, "balloon")}
        for v in (front_view(piece, SCALE, ORIGIN), view)
    )
    assert {before[name]: after[name] for name in before} == {
        "deep teal": "oat",
        "oat": "deep teal",
    }
    assert "#c8878c" not in colours_in(front_view(piece, SCALE, ORIGIN))


def test_from_the_side_a_foil_is_a_pillow_with_its_weld_in_the_middle(piece: Piece) -> None:
    """A stroke is blown up as thick as it is wide between its welds: common practice, no source."""
    assert piece.fit is not None
    assert piece.design.panel is not None
    shape = piece.fit.numerals[0]
    middle = ORIGIN[0] - panel_plane(piece.design.panel, piece.frame) * SCALE
    for group in groups(side_view(piece, SCALE, ORIGIN), "numeral"):
        weld, blown, seam = (each for each in group.items if isinstance(each, Rect))
        for each in (weld, blown, seam):
            assert each.x + each.width / 2 == pytest.approx(middle)
        assert weld.width == pytest.approx(piece.design.panel.thickness * SCALE)
        assert weld.height == pytest.approx(shape.height * SCALE)
        flat = min(6.0, 0.2 * shape.half_width)
        assert blown.width == pytest.approx(2 * (shape.half_width - flat) * SCALE)
        assert blown.corner == pytest.approx(blown.width / 2)
        assert blown.y - weld.y == pytest.approx(flat * SCALE, abs=0.1 * SCALE)
        assert seam.width < weld.width < blown.width


def test_strokes_that_lie_apart_are_pillows_of_their_own() -> None:
    wish = Wish(ring="30in", numerals="!", height="13in", top="2, end 1", bottom="2, end 1")
    piece = assemble(design_from_wish(wish))
    side = groups(side_view(piece, SCALE, ORIGIN), "numeral")[0]
    assert len([each for each in side.items if isinstance(each, Rect)]) == 4


def test_the_depth_over_all_holds_the_foils() -> None:
    wish = Wish(ring="60in", numerals="8", height="50in", top="end 1", bottom="end 1")
    piece = assemble(design_from_wish(wish))
    assert piece.fit is not None
    thick = 2 * piece.fit.numerals[0].bulge
    assert piece.extent.depth >= thick > max((b.diameter for b in piece.balloons), default=0.0)


def test_equal_digits_share_their_drawing(piece: Piece) -> None:
    numerals = groups(front_view(piece, SCALE, ORIGIN), "numeral")
    symbols: list[set[str]] = [
        {item.symbol.id for item in group.items if isinstance(item, Place)} for group in numerals
    ]
    assert [group.title for group in numerals] == ["3", "3"]
    assert symbols[0] == symbols[1]
    assert len(symbols[0]) == 2


def test_ids_hold_one_thing_each_over_grey_and_coloured_pages(piece: Piece) -> None:
    pages = [
        front_view(piece, scale, ORIGIN, ViewOptions(recolour=recolour))
        for scale in (0.1, 0.2)
        for recolour in (grey, lambda colour: colour)
    ]
    known: dict[str, Symbol | Radial | Linear] = {}
    for item in everything(tuple(pages)):
        style = getattr(item, "style", None)
        for thing in (getattr(item, "symbol", None), getattr(style, "fill", None)):
            if isinstance(thing, Symbol | Radial | Linear):
                assert known.setdefault(thing.id, thing) == thing
    assert len(known) > 20


def test_letters_stand_on_their_balloon_and_can_be_read(piece: Piece) -> None:
    """WCAG 2.2, 1.4.3: a contrast of at least 4.5; ISO 3098-1: no lettering under 1.8 mm."""
    for recolour in (grey, lambda colour: colour):
        view = front_view(piece, SCALE, ORIGIN, ViewOptions(letters=True, recolour=recolour))
        lettered = {
            group.name: [i for i in group.items if isinstance(i, Text)]
            for group in groups(view, "balloon")
        }
        assert sum(map(len, lettered.values())) > len(piece.balloons) / 3
        for balloon in piece.balloons:
            for text in lettered[balloon.id]:
                assert text.text == balloon.letter
                assert text.height >= 1.8
                assert contrast(text.colour, text.ground) >= 4.5
                x, y = text.at[0] - 60, 60 - (text.at[1] - text.height / 2)
                gap = hypot(x - 0.1 * balloon.centre[0], y - 0.1 * balloon.centre[1])
                assert gap < 0.05 * balloon.diameter


def test_a_letter_keeps_clear_of_what_is_in_front() -> None:
    centres = np.array([[0.0, 0, -60], [55.0, 0, 60]])
    spots, room = clear_spots(centres, np.array([50.0, 50.0]))
    assert spots[0, 0] < -10
    assert hypot(spots[0, 0] - 55, spots[0, 1]) > 50 + 0.7 * room[0]
    assert spots[1].tolist() == [55.0, 0.0]


def test_lettering_is_mirrored_with_the_piece(piece: Piece) -> None:
    centres = np.array([b.centre for b in piece.balloons])
    radii = np.array([b.radius for b in piece.balloons])
    spots, room = clear_spots(centres, radii)
    flipped, again = clear_spots(centres * (-1, 1, 1), radii)
    assert np.allclose(room, again, atol=1e-9)
    off_axis = np.abs(centres[:, 0]) > 1
    assert np.allclose(spots[off_axis], (flipped * (-1, 1))[off_axis], atol=1e-6)


def test_only_necks_that_peep_are_drawn() -> None:
    """A balloon in front of its own knot hides its neck; one beside it does not."""
    ball = np.array([[0.0, 0.0, 30.0], [60.0, 0.0, 0.0]])
    radii = np.array([20.0, 20.0])
    starts, ends = necks(ball, np.zeros((2, 3)), radii)
    assert showing(starts, ends, ball, radii) == [1]
    lifted = np.vstack([ball, [[35.0, 0.0, 50.0]]])
    assert showing(starts, ends, lifted, np.array([20.0, 20.0, 20.0])) == []


@pytest.mark.parametrize(
    ("draw", "viewpoint"), [(front_view, FRONT), (side_view, RIGHT), (plan_view, ABOVE)]
)
def test_views_stand_within_the_extent_of_the_piece(
    piece: Piece, draw: object, viewpoint: Viewpoint
) -> None:
    """Silhouettes reach just as far as the box round everything says, at the same scale."""
    assert callable(draw)
    view = draw(piece, SCALE, ORIGIN)
    e = piece.extent
    corners = np.array([[x, y, z] for x in e.x for y in e.y for z in e.z])
    turned = viewpoint.turned(corners)
    balls = [discs(group)[0] for group in groups(view, "balloon")]
    rects = [i for i in walk(view.items) if isinstance(i, Rect)]
    circles = [
        i
        for i in walk(view.items)
        if isinstance(i, Circle) and i.style.fill == "none" and i.style.opacity == 1.0
    ]
    left = [at[0] - r for at, r in balls] + [i.x for i in rects]
    right = [at[0] + r for at, r in balls] + [i.x + i.width for i in rects]
    for ring in circles:
        left.append(ring.centre[0] - ring.r - ring.style.stroke_width / 2)
        right.append(ring.centre[0] + ring.r + ring.style.stroke_width / 2)
    low, high = turned[:, 0].min() * SCALE + 60, turned[:, 0].max() * SCALE + 60
    assert min(left) == pytest.approx(low, abs=0.45)
    assert max(right) == pytest.approx(high, abs=0.45)


def test_the_front_lies_toward_the_front_view_from_the_side_and_from_above(piece: Piece) -> None:
    """Third-angle places (ISO 5456-2): the view from the right stands to the right of the front
    view with the front on its left, the plan stands over it with the front at its foot."""
    front = max(piece.balloons, key=lambda b: b.centre[2])
    side = {g.name: discs(g)[0][0] for g in groups(side_view(piece, SCALE, ORIGIN), "balloon")}
    plan = {g.name: discs(g)[0][0] for g in groups(plan_view(piece, SCALE, ORIGIN), "balloon")}
    if front.id in side:
        assert side[front.id][0] == pytest.approx(60 - 0.1 * front.centre[2])
    assert plan[front.id][1] == pytest.approx(60 + 0.1 * front.centre[2])


def test_an_arc_is_drawn_as_curves_on_its_circle() -> None:
    """Every point of the curves lies on the circle of the centre line within 1 um of sheet."""
    arc = Arc(outside=762.0, tube=12.7, start_deg=240.0, end_deg=120.0)
    points = centre_line(arc, Eye(FRONT, 0.1, (0.0, 0.0))).points
    for k in range(0, len(points) - 1, 3):
        start, first, second, end = points[k : k + 4]
        for t in np.linspace(0, 1, 9):
            at = (1 - t) ** 3 * start + 3 * t * (1 - t) ** 2 * first
            at = at + 3 * t**2 * (1 - t) * second + t**3 * end
            assert np.hypot(*at) == pytest.approx(0.1 * arc.radius, abs=2e-3)


def test_frames_of_every_kind_and_bare_ones_are_drawn(piece: Piece) -> None:
    bare = replace(piece.design, sections=(), panel=None, stand=None)
    for kind in ("ring", "arc"):
        spec = FrameSpec(kind="ring" if kind == "ring" else "arc", start_deg=240, end_deg=120)
        made = assemble(replace(bare, frame=spec))
        for draw in (front_view, side_view, plan_view):
            assert draw(made, SCALE, ORIGIN).items


def test_a_hundred_balloons_stay_well_under_a_megabyte(piece: Piece) -> None:
    section = piece.design.sections[0]
    assert section.middle is not None
    small = replace(section.middle, diameter=76.2, strokes=None, turn_deg=None)
    run = tuple(replace(small) for _ in range(11))
    top, foot = (
        replace(
            section,
            name=name,
            at_deg=at,
            middle=replace(small, turn_deg=45.0),
            right=run,
            left=run,
            end_right=None,
            end_left=None,
        )
        for name, at in (("top", 0.0), ("foot", 180.0))
    )
    frame = replace(piece.design.frame, outside=1016.0)
    large = assemble(replace(piece.design, frame=frame, sections=(top, foot)))
    assert len(large.balloons) >= 100
    view = front_view(large, SCALE, ORIGIN)
    assert len(svg_text(Sheet(120.0, 180.0, (view,)))) < 500_000
