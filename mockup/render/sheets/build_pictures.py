"""The pictures of a build sheet: each kind of cluster with its colours, and the numbered piece."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from math import cos, radians, sin

from mockup.colour.srgb import luminance
from mockup.design.model import ColourUse
from mockup.packing.clusters import knot_radius, places
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.listing import Picture
from mockup.render.record import Circle, Group, Item, Point, Style, Text
from mockup.render.sheets.inks import INK, SOFT, THIN
from mockup.render.sheets.lettering import SMALL_SHEET, Hand
from mockup.render.sheets.listing_parts import ball
from mockup.render.sheets.scale import SCALES, scale_words

_CLUSTER = 16.0
_LETTER = 2.5
_NUMBER = 1.8
_DISC = Style("#ffffff", INK, THIN)
_DARK = 0.3
_BETWEEN = 8.0
_OVER_CAPTION = 2.5


def cluster_picture(letters: str, colours: Mapping[str, ColourUse], says: str) -> Picture:
    """A cluster as it is tied, seen along the tube, its first balloon at the top, then clockwise.

    All clusters are drawn to one size: what is shown is the order of the colours.
    """
    return Picture(partial(_cluster, letters, colours), _CLUSTER, _CLUSTER, says)


def _cluster(letters: str, colours: Mapping[str, ColourUse], corner: Point) -> tuple[Item, ...]:
    count = len(letters)
    reach = knot_radius(count, 1.0) if count > 1 else 0.0
    diameter = _CLUSTER / (2 * reach + 1.0)
    items: list[Item] = []
    for letter, phi in zip(letters, places(count, 0.0), strict=True):
        x = corner[0] + _CLUSTER / 2 + reach * diameter * sin(radians(phi))
        y = corner[1] + _CLUSTER / 2 - reach * diameter * cos(radians(phi))
        items += ball(colours[letter], (x, y), diameter / 2)
        items.append(_letter(letter, x, y, colours[letter].srgb))
    return tuple(items)


def _letter(letter: str, x: float, y: float, srgb: str) -> Text:
    ink = "#ffffff" if luminance(srgb) < _DARK else INK
    at = (x, y + _LETTER / 2)
    return Text(at, letter, _LETTER, "middle", "bold", ink, role="letter", ground=srgb)


def numbered_view(
    piece: Piece,
    width: float,
    height: float,
    numbers: Sequence[tuple[int, int]] = (),
    scales: Sequence[int] = SCALES,
) -> Picture:
    """The front view at the largest of ``scales`` within ``width`` x ``height`` mm.

    ``numbers`` are (cluster, number): each stands on a disc at its cluster's knot.
    """
    box = piece.extent
    scale = next(
        (n for n in scales if box.width / n <= width and box.height / n <= height), scales[-1]
    )
    says = f"{piece.design.title}: front view at {scale_words(scale)}"
    draw = partial(_numbered, piece, tuple(numbers), scale)
    return Picture(draw, box.width / scale, box.height / scale, says)


def views_in_a_row(pieces: Sequence[Piece], width: float, height: float) -> Picture:
    """The front views of several pieces side by side, each at its own preferred scale.

    Several bear their titles, and the scales: they differ, so that small pieces show well.
    """
    room = (width - _BETWEEN * (len(pieces) - 1)) / max(1, len(pieces))
    views = [numbered_view(piece, room, height) for piece in pieces]
    if len(views) > 1:
        views = [_captioned(view, room) for view in views]
    wide = sum(view.width for view in views) + _BETWEEN * (len(views) - 1)
    tall = max(view.height for view in views)
    return Picture(
        partial(_in_a_row, tuple(views), tall), wide, tall, "; ".join(view.says for view in views)
    )


def _captioned(view: Picture, room: float) -> Picture:
    """The view over its words, which may be wider than it is."""
    hand = Hand(SMALL_SHEET.small, colour=SOFT, role="caption")
    lines = hand.wrapped(view.says, room)
    wide = max(view.width, *(hand.width(line) for line in lines))

    def draw(corner: Point) -> tuple[Item, ...]:
        middle, foot = corner[0] + wide / 2, corner[1] + view.height + _OVER_CAPTION
        words, _ = hand.set(lines, (middle, foot), "middle")
        return (*view.draw((middle - view.width / 2, corner[1])), *words)

    tall = view.height + _OVER_CAPTION + len(lines) * hand.pitch
    return Picture(draw, wide, tall, view.says)


def _in_a_row(views: tuple[Picture, ...], tall: float, corner: Point) -> tuple[Item, ...]:
    items: list[Item] = []
    x = corner[0]
    for view in views:
        items += view.draw((x, corner[1] + tall - view.height))
        x += view.width + _BETWEEN
    return tuple(items)


def _numbered(
    piece: Piece, numbers: tuple[tuple[int, int], ...], scale: int, corner: Point
) -> tuple[Item, ...]:
    box = piece.extent
    origin = (corner[0] - box.x[0] / scale, corner[1] + box.y[1] / scale)
    marks: list[Item] = []
    for cluster, number in numbers:
        x, y, _ = piece.clusters[cluster].knot
        marks += _number(number, (origin[0] + x / scale, origin[1] - y / scale))
    return (front_view(piece, 1 / scale, origin), Group(tuple(marks), kind="numbers"))


def _number(number: int, at: tuple[float, float]) -> tuple[Item, ...]:
    x, y = at
    text = Text((x, y + _NUMBER / 2), str(number), _NUMBER, "middle", "bold", role="number")
    return (Circle(at, 2.1, _DISC), text)
