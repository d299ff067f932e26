"""The climate of a piece as its file gives it."""

from __future__ import annotations

from mockup.design.model import Air, Climate
from mockup.design.tables import Given

_HPA = 100.0


def climate_spec(table: Given | None) -> Climate | None:
    """The air where balloons are filled and where they stand; None where nothing is said."""
    if table is None:
        return None
    return Climate(_air(table.table("filled")), _air(table.table("stands")))


def _air(table: Given | None) -> Air:
    if table is None:
        return Air()
    usual = Air()
    pressure: float | None = table.get("pressure", None)
    return Air(
        table.get("temperature", usual.kelvin),
        table.get("altitude", usual.altitude),
        None if pressure is None else pressure * _HPA,
    )
