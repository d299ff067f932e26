"""How far balloons are filled, in the words a decorator uses: strokes, or a size with its unit."""

from __future__ import annotations

from typing import NamedTuple

from mockup.design.clusters import diameter_of
from mockup.design.model import Pump
from mockup.errors import Fault, FaultsFound
from mockup.lengths import NotALength, Unit, format_length, parse_length
from mockup.packing.inflation import strokes_for_diameter

LEAST_STROKES, MOST_STROKES = 0.25, 200.0
FORM = "write strokes such as 3, or a size such as 4 1/2in"


class Fill(NamedTuple):
    """A fill: ``diameter`` in mm, and the strokes where it was told in strokes."""

    diameter: float
    strokes: float | None = None

    def words(self, unit: Unit) -> str:
        """The fill as it is said.

        >>> Fill(114.3, 4.0).words("in"), Fill(101.6).words("in")
        ('4 strokes (4 1/2 in)', '4 in')
        """
        size = format_length(self.diameter, unit)
        if self.strokes is None:
            return size
        plural = "" if self.strokes == 1 else "s"
        return f"{self.strokes:g} stroke{plural} ({size})"


def stroked(strokes: float, pump: Pump) -> Fill:
    """The fill that so many strokes of the pump give.

    >>> stroked(4, Pump()).diameter
    114.3
    """
    return Fill(diameter_of(strokes, pump), strokes)


def strokes_near(diameter: float, pump: Pump) -> float:
    """How many strokes of the pump come to ``diameter`` (mm), to a hundredth.

    >>> strokes_near(114.3, Pump())
    4.0
    """
    exact = strokes_for_diameter(diameter, ref_strokes=pump.strokes, ref_diameter=pump.gives)
    return round(exact, 2)


def fill_from_words(text: str, pump: Pump, where: str) -> Fill:
    """``"3"`` as strokes, ``"4in"`` as a size; raises ``FaultsFound`` at ``where`` otherwise.

    >>> fill_from_words("4", Pump(), "--fill").diameter, fill_from_words("4in", Pump(), "").strokes
    (114.3, None)
    """
    try:
        strokes = float(text)
    except ValueError:
        return Fill(_size(text, where))
    if not LEAST_STROKES <= strokes <= MOST_STROKES:
        what = f"{text.strip()} strokes is out of reach"
        raise FaultsFound([Fault(where, what, f"write {LEAST_STROKES:g} to {MOST_STROKES:g}")])
    return stroked(strokes, pump)


def _size(text: str, where: str) -> float:
    try:
        size = parse_length(text)
    except NotALength as wrong:
        what = f"'{text}' is neither strokes nor a size: {wrong.what}"
        raise FaultsFound([Fault(where, what, FORM)]) from wrong
    if size <= 0:
        raise FaultsFound([Fault(where, f"'{text}' is nothing", FORM)])
    return size
