"""A figure for scale beside a front view: a person, or a table as a line on its legs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from mockup.lengths import Unit
from mockup.render.person import FIGURE_INK, person_outline
from mockup.render.record import Group, Item, Line, Path, Point, Rect, Style
from mockup.render.sheets.areas import Area, hull
from mockup.render.sheets.inks import SOFT
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.sheets.measures import Printed

ScaleFigure = Literal["person", "table"]

PERSON = 1700.0
"""How tall the person is, mm, and in words for each unit."""
_PERSON_SAYS: dict[Unit, str] = {"in": "5 ft 7 in", "cm": "1.70 m"}
PERSON_WIDE = 0.265 * PERSON
TABLE: dict[Unit, float] = {"in": 762.0, "cm": 750.0}
"""Height of a table, mm: 30 in or 75 cm (common practice, no source)."""
TABLE_WIDE = 1200.0
"""How wide it is drawn, mm (common practice, no source)."""
TABLE_LINE = 30.0
"""How thick its top and legs are drawn, mm."""

_AWAY = 6.0
_FLOOR = Style(stroke="#8a8e95", stroke_width=0.25)


@dataclass(frozen=True)
class Standing:
    """A scale figure where it stands: left end and height of the floor, sheet mm, at 1 : ``scale``.

    ``floor`` runs on to ``piece_right``, so that figure and piece stand on one line.
    """

    figure: ScaleFigure
    right: float
    floor: float
    piece_right: float
    scale: int
    printed: Printed
    hand: Hand

    @property
    def tall(self) -> float:
        """Its height as it is drawn, sheet mm."""
        real = PERSON if self.figure == "person" else TABLE[self.printed.unit]
        return real / self.scale

    @property
    def body(self) -> Area:
        """The box that its shape fills."""
        wide = (PERSON_WIDE if self.figure == "person" else TABLE_WIDE) / self.scale
        slot = max(wide, *(self.hand.width(line) for line in self.says))
        left = self.right - (slot + wide) / 2
        return Area(left, self.floor - self.tall, wide, self.tall)

    @property
    def says(self) -> tuple[str, str]:
        """What it is and how tall, on a line each."""
        if self.figure == "table":
            return self.figure, self.printed.figure(TABLE[self.printed.unit])
        own, other = _PERSON_SAYS[self.printed.unit], _other_words(self.printed.unit)
        return self.figure, f"{own} ({other})" if self.printed.units == "both" else own

    @property
    def areas(self) -> tuple[Area, ...]:
        """Its shape, and its words under the floor."""
        hand, body = self.hand, self.body
        wide = max(hand.width(line) for line in self.says)
        tall = self._base(1) + 0.4 * hand.height - self.floor
        return body, Area(body.x + (body.width - wide) / 2, self.floor, wide, tall)

    def items(self, recolour: Callable[[str], str]) -> tuple[Item, ...]:
        """The floor, the figure on it and its words."""
        middle = self.body.x + self.body.width / 2
        words = (
            self.hand.at((middle, self._base(k)), line, "middle")
            for k, line in enumerate(self.says)
        )
        left = hull(self.areas).x
        floor = Line((left, self.floor), (self.piece_right, self.floor), _FLOOR)
        shape = self._shape(Style(recolour(FIGURE_INK)))
        told = f"A {self.figure} {self.says[1]} tall, for scale"
        return (floor, Group(shape, "scale figure", self.figure, told), *words)

    def _base(self, line: int) -> float:
        """Base line of a line of its words."""
        return self.floor + 0.8 * self.hand.height + self.hand.height + line * self.hand.pitch

    def _shape(self, style: Style) -> tuple[Item, ...]:
        box, thick = self.body, TABLE_LINE / self.scale
        if self.figure == "person":
            foot = (box.x + box.width / 2, self.floor)
            return (Path(person_outline(foot, self.tall), style),)
        inset = 2 * thick
        legs = (box.x + inset, box.right - inset - thick)
        under = box.y + thick
        return (
            Rect(box.x, box.y, box.width, thick, style),
            *(Rect(x, under, thick, self.floor - under, style) for x in legs),
        )


def _other_words(unit: Unit) -> str:
    return next(words for each, words in _PERSON_SAYS.items() if each != unit)


def standing(
    figure: ScaleFigure,
    beside: Area,
    ground: Point,
    scale: int,
    *,
    printed: Printed,
    lettering: Lettering,
) -> Standing:
    """A figure left of all that a view inks (``beside``); ``ground`` is the piece's lower right."""
    hand = Hand(lettering.small, colour=SOFT, role="scale figure")
    return Standing(figure, beside.x - _AWAY, ground[1], ground[0], scale, printed, hand)
