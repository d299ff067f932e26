"""The ways in which the detail of a tuck may be drawn, the best first, each clear in itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import hypot, log

from mockup.piece.placed import Piece
from mockup.render.record import Group, Item, Line, Point, Sheet, Text, walk
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.deepest_tuck import Tuck
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.sheets.measures import Printed
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.tuck_dimension import Depth, Way, depth_dimension, ways
from mockup.render.sheets.tuck_picture import Lens, picture
from mockup.render.text import bounds
from mockup.render.viewpoint import FRONT, Eye, ViewOptions

SCALES = (("5:1", 5.0), ("2:1", 2.0), ("1:1", 1.0), ("1:2", 0.5), ("1:5", 0.2), ("1:10", 0.1))
"""Preferred scales of ISO 5455 for a detail, in words and as a factor."""
RADII = (7.2, 6.0, 5.0, 4.0)
"""Radii of the field that are tried, in heights of the body lettering."""
_NAME = "behind the balloon"
_WELL, _MOST = 0.25, 1.1
"""A depth that takes this share of the field's radius shows best; over the other it leaves it."""
_AIR = 0.5
_FAR = 500.0


@dataclass(frozen=True)
class Shown:
    """A piece whose numeral tucks, and how its lengths, colours and words are printed."""

    piece: Piece
    tuck: Tuck
    letter: str
    printed: Printed
    lettering: Lettering
    options: ViewOptions


@dataclass(frozen=True)
class Detail:
    """One drawing of the detail: a field of ``radius`` mm at a scale, dimensioned in a way."""

    shown: Shown
    scale: tuple[str, float]
    radius: float
    way: Way
    named_below: bool

    def at(self, centre: Point) -> Group:
        """The detail with its field about ``centre``."""
        field = picture(Lens(self.shown.piece, self._eye(centre), self._middle, self.radius))
        items: tuple[Item, ...] = (field, *self.labels(centre))
        return Group(items, kind="detail", name=self.shown.letter, title=self._told())

    def labels(self, centre: Point) -> tuple[Item, ...]:
        """Its dimension and its name alone."""
        eye, tuck, hand = self._eye(centre), self.shown.tuck, self._hand
        depth = Depth(
            eye.at(*tuck.edge),
            eye.at(*tuck.tip),
            (tuck.way[0], -tuck.way[1]),
            self._figure,
            _NAME,
            self.shown.lettering,
        )
        left, lower = centre[0] - self.radius, centre[1] + self.radius + 1.8 * hand.height
        base = lower if self.named_below else centre[1] - self.radius - 0.8 * hand.height
        heading = hand.at((left, base), f"{self.shown.letter}, {self.scale[0]}")
        return (depth_dimension(depth, centre, self.radius, self.way), heading)

    def areas(self, centre: Point) -> tuple[Area, ...]:
        """The boxes of all that it inks."""
        r, (x, y) = self.radius, centre
        return (Area(x - r, y - r, 2 * r, 2 * r), *map(_box, _labels_of(self.labels(centre))))

    def is_clear(self) -> bool:
        """Whether its words keep off its lines, its field and each other."""
        middle = (_FAR, _FAR)
        labels = self.labels(middle)
        words = [_box(each) for each in _labels_of(labels) if isinstance(each, Text)]
        if any(_away(box, middle) < self.radius + _AIR for box in words):
            return False
        return not overlaps(Sheet(2 * _FAR, 2 * _FAR, labels))

    @property
    def _middle(self) -> Point:
        return self.shown.tuck.middle

    @property
    def _hand(self) -> Hand:
        return Hand(self.shown.lettering.body, "bold", role="detail")

    @property
    def _figure(self) -> str:
        return f"tucks {self.shown.printed.figure(self.shown.tuck.depth)}"

    def _eye(self, centre: Point) -> Eye:
        (x, y), (a, b), factor = centre, self._middle, self.scale[1]
        return Eye(FRONT, factor, (x - a * factor, y + b * factor), self.shown.options)

    def _told(self) -> str:
        return f"Detail {self.shown.letter}, {self.scale[0]}: the numeral {self._figure} {_NAME}"


def details(shown: Shown, larger_than: float) -> Iterator[Detail]:
    """The drawings that are clear in themselves, at scales over a factor, the best first."""
    depth, body = shown.tuck.depth, shown.lettering.body
    for radius in (each * body for each in RADII):
        fits = [s for s in SCALES if s[1] > larger_than and depth * s[1] <= _MOST * radius]
        for scale in sorted(fits, key=lambda s: abs(log(depth * s[1] / (_WELL * radius))))[:2]:
            yield from _drawn(shown, scale, radius)


def _drawn(shown: Shown, scale: tuple[str, float], radius: float) -> Iterator[Detail]:
    x, y = shown.tuck.way
    for way in ways((x, -y)):
        below = Detail(shown, scale, radius, way, named_below=True)
        clear = (each for each in (below, replace(below, named_below=False)) if each.is_clear())
        yield from clear


def size_of(detail: Detail) -> tuple[Point, Point]:
    """Width and height that it takes, and where its field's centre lies from its corner, mm."""
    box = hull(detail.areas((0.0, 0.0)))
    return (box.width, box.height), (-box.x, -box.y)


def _labels_of(items: tuple[Item, ...]) -> list[Text | Line]:
    return [each for each in walk(items) if isinstance(each, Text | Line)]


def _box(item: Text | Line) -> Area:
    if isinstance(item, Text):
        left, top, right, bottom = bounds(item)
        return Area(left, top, right - left, bottom - top)
    (x0, y0), (x1, y1) = item.start, item.end
    return Area(min(x0, x1), min(y0, y1), abs(x1 - x0), abs(y1 - y0)).inset(-0.2)


def _away(box: Area, point: Point) -> float:
    """From a point to the nearest of a box, mm."""
    across = max(box.x - point[0], 0.0, point[0] - box.right)
    down = max(box.y - point[1], 0.0, point[1] - box.bottom)
    return hypot(across, down)
