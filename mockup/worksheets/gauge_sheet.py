"""The sizing gauge in words: what each hole is called and what is filled to it."""

from __future__ import annotations

from mockup.lengths import Unit, format_length, format_true
from mockup.render.sheets.cautions import ALLERGY, CHOKING
from mockup.render.sheets.gauge import GaugeWords, gauge_document
from mockup.render.sheets.gauge_holes import Hole
from mockup.render.sheets.paper import Paper
from mockup.stock.gauging import GaugeHole, gauge_holes, strokes_words
from mockup.stock.order import Order

_MOST_USES = 6


def holes_of(order: Order) -> tuple[Hole, ...]:
    """The holes with their labels, the smallest first."""
    unit = order.job.unit
    return tuple(
        Hole(hole.diameter, hole_name(hole, unit), _uses(hole, unit))
        for hole in gauge_holes(order.designs)
    )


def hole_name(hole: GaugeHole, unit: Unit) -> str:
    """What a hole is called on every sheet: its diameter and its strokes."""
    return f"{format_true(hole.diameter, unit)}, {strokes_words(hole.strokes)}"


def _uses(hole: GaugeHole, unit: Unit) -> tuple[str, ...]:
    """What is filled to it; with many kinds the first few, and how many more."""
    said = tuple(
        f"{count:,} × {format_length(kind.size, unit)} {kind.colour}, {kind.finish}"
        for kind, count in hole.uses
    )
    more = len(said) - _MOST_USES
    return (*said[:_MOST_USES], f"and {more} kinds more") if more > 0 else said


def gauge_words(order: Order) -> GaugeWords:
    """The heading of every page."""
    about = f"{order.code}, revision {order.revision}"
    return GaugeWords(order.job.title, about, order.job.unit, (CHOKING, ALLERGY))


def gauge_sheets(order: Order, paper: Paper) -> int:
    """How many sheets of card the gauge takes."""
    return len(gauge_document(holes_of(order), paper, gauge_words(order)).sheets)
