"""Which holes a sizing gauge needs: every diameter that a piece or a job is filled to."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from mockup.design.model import Design, Pump
from mockup.packing.inflation import strokes_for_diameter
from mockup.stock.picking import SIZE_DECIMALS, Kind, specs_of

_STROKE_PARTS = 4
"""Strokes are told to a quarter: a hand cannot stop a pump more finely."""


@dataclass(frozen=True)
class GaugeHole:
    """One hole: its ``diameter`` in mm, the strokes that fill to it, and what is filled to it.

    ``uses`` are kinds of balloon with how many of each, in order.
    """

    diameter: float
    strokes: tuple[float, ...]
    uses: tuple[tuple[Kind, int], ...]

    @property
    def count(self) -> int:
        """How many balloons are sized with it."""
        return sum(count for _, count in self.uses)


def gauge_holes(designs: Iterable[tuple[Design, int]]) -> tuple[GaugeHole, ...]:
    """A hole for every fill diameter, the smallest first; diameters agree to a tenth of a mm."""
    strokes: defaultdict[float, set[float]] = defaultdict(set)
    uses: Counter[tuple[float, Kind]] = Counter()
    for design, times in designs:
        for spec in specs_of(design):
            diameter = round(spec.diameter, SIZE_DECIMALS)
            strokes[diameter].add(strokes_for(design.pump, spec.strokes, spec.diameter))
            for letter in spec.letters:
                colour = design.colours[letter]
                uses[diameter, Kind.of(spec.nominal, colour.name, colour.finish)] += times
    return tuple(
        GaugeHole(
            diameter,
            tuple(sorted(strokes[diameter])),
            tuple(sorted((kind, n) for (own, kind), n in uses.items() if own == diameter)),
        )
        for diameter in sorted(strokes)
    )


def strokes_for(pump: Pump, written: float | None, diameter: float) -> float:
    """Strokes for a diameter in mm: as ``written``, or by the pump to a quarter of a stroke.

    >>> strokes_for(Pump(4.0, 114.3), None, 228.6)
    32.0
    """
    if written is not None:
        return written
    exact = strokes_for_diameter(diameter, ref_strokes=pump.strokes, ref_diameter=pump.gives)
    return round(exact * _STROKE_PARTS) / _STROKE_PARTS


def strokes_words(strokes: Iterable[float]) -> str:
    """Strokes as they are said.

    >>> strokes_words([3.0]), strokes_words([1.0]), strokes_words([2.25, 3.0])
    ('3 strokes', '1 stroke', '2.25 or 3 strokes')
    """
    said = " or ".join(f"{one:g}" for one in strokes)
    return f"{said} stroke" if said == "1" else f"{said} strokes"
