"""The mark of a detail on the front view: a thin ring round the place, and its letter beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import cos, hypot, radians, sin
from operator import itemgetter

from mockup.design.model import Design
from mockup.render.record import Circle, Group, Item, Line, Point, Style, Text, walk
from mockup.render.sheets.areas import Area
from mockup.render.sheets.free_spots import Room
from mockup.render.sheets.inks import INK, PAPER
from mockup.render.sheets.lettering import Hand
from mockup.render.sheets.overlaps import LETTER
from mockup.render.text import bounds

_RING = Style(stroke=INK, stroke_width=0.25)
_HALO = Style(stroke=PAPER, stroke_width=0.8)
_DISC = Style(PAPER, INK, 0.18)
_OFF = (0.0, 2.0, 4.0, 8.0, 14.0, 22.0)
"""From the ring to the disc of its letter, mm; further off a thin line joins them."""
_ANGLES = (30, 150, 330, 210, 0, 180, 60, 120, 300, 240, 90, 270)
_CLEAR = 0.4


def mark_letter(design: Design) -> str:
    """A letter that stands for no colour and hangs in no numeral, from X on.

    >>> from mockup.design.reading import design_from_text
    >>> from mockup.design.starter import starter_text
    >>> mark_letter(design_from_text(starter_text("Ruby"), "ruby.toml"))
    'X'
    """
    used = {*design.colours, *(design.panel.text if design.panel else "")}
    return next((each for each in "XYZWVUTSRQPONMLKJIHGFEDCBA" if each not in used), "&")


@dataclass(frozen=True)
class Ring:
    """The ring on the sheet and the letter that it bears."""

    centre: Point
    radius: float
    letter: str
    hand: Hand

    @property
    def disc(self) -> float:
        """Radius of the white disc that carries the letter, mm."""
        return hypot(self.hand.width(self.letter), self.hand.height) / 2 + 0.45

    def crosses(self, box: Area) -> bool:
        """Whether the ring's line runs over a box; one wholly in it or out of it is left alone."""
        (x, y), near, far = self.centre, self.radius - _CLEAR, self.radius + _CLEAR
        across, down = (max(box.x - x, 0.0, x - box.right), max(box.y - y, 0.0, y - box.bottom))
        corners = [hypot(a - x, b - y) for a in (box.x, box.right) for b in (box.y, box.bottom)]
        return hypot(across, down) < far and max(corners) > near

    def at(self, angle: float, off: float) -> Group:
        """The mark with its letter at an angle (degrees anticlockwise from the right)."""
        way = (cos(radians(angle)), -sin(radians(angle)))
        rim = _moved(self.centre, way, self.radius)
        middle = _moved(rim, way, off + self.disc)
        base = (middle[0], middle[1] + self.hand.height / 2)
        out = _moved(rim, way, off)
        joins = (Line(rim, out, _HALO), Line(rim, out, _RING)) if off else ()
        items: tuple[Item, ...] = (
            Circle(self.centre, self.radius, _HALO),
            Circle(self.centre, self.radius, _RING),
            *joins,
            Circle(middle, self.disc, _DISC),
            self.hand.at(base, self.letter, "middle"),
        )
        return Group(items, kind="detail mark", name=self.letter)


def marked(
    ring: Ring,
    room: Room,
    picture: Sequence[Area],
    further: Sequence[Area],
    *,
    over_letters: bool = False,
) -> Group | None:
    """The mark where neither ring nor letter meets a text or a line of the sheet, or ``further``.

    Its letter keeps off the ``picture``'s balloons where it can; ``over_letters`` lets the ring
    cross the letters on them. None where there is no such place.
    """
    texts, lines = _boxes(room.sheet.items, (LETTER,) if over_letters else ())
    if any(ring.crosses(each) for each in texts):
        return None
    texts, lines = _boxes(room.sheet.items, ())
    best: tuple[int, Group] | None = None
    for off, angle in product(_OFF, _ANGLES):
        mark = ring.at(angle, off)
        if _is_free(mark, (*texts, *further), lines, room.area):
            covered = sum(_disc(mark).meets(each) for each in picture)
            if not covered:
                return mark
            best = min(best or (covered, mark), (covered, mark), key=itemgetter(0))
    return best[1] if best else None


def _is_free(mark: Group, texts: Sequence[Area], lines: Sequence[Area], page: Area) -> bool:
    """Whether the letter's disc meets no text or line, and what joins it to the ring no text."""
    disc, joins = _disc(mark), [_line(each) for each in walk(mark.items) if isinstance(each, Line)]
    if not page.holds(disc) or any(disc.meets(each) for each in (*texts, *lines)):
        return False
    return not any(a.meets(b) for a in joins for b in texts)


def _disc(mark: Group) -> Area:
    disc = mark.items[-2]
    return _round(disc.centre, disc.r + _CLEAR) if isinstance(disc, Circle) else Area(0, 0, 0, 0)


def _boxes(items: Sequence[Item], but: Sequence[str]) -> tuple[list[Area], list[Area]]:
    """The boxes of all texts except those of some roles, and of all lines."""
    every = list(walk(tuple(items)))
    texts = [_area(*bounds(t)) for t in every if isinstance(t, Text) and t.role not in but]
    return texts, [_line(each) for each in every if isinstance(each, Line)]


def _line(line: Line) -> Area:
    (x0, y0), (x1, y1) = line.start, line.end
    return _area(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)).inset(-0.2)


def _area(left: float, top: float, right: float, bottom: float) -> Area:
    return Area(left, top, right - left, bottom - top)


def _round(centre: Point, radius: float) -> Area:
    return Area(centre[0] - radius, centre[1] - radius, 2 * radius, 2 * radius)


def _moved(point: Point, way: Point, by: float) -> Point:
    return point[0] + by * way[0], point[1] + by * way[1]
