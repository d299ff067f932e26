"""A section's clusters from the taper it names."""

from __future__ import annotations

from mockup.design.clusters import USUAL_FILL, Ground, cluster_spec, diameter_of
from mockup.design.faults import FaultList
from mockup.design.model import ClusterSpec
from mockup.design.tables import Given
from mockup.design.tapers import A_SIDE, Taper, tapered
from mockup.design.wishes_fills import Fill

_ASK = 'write clusters = [{ strokes = 3 }], or taper = "gentle"'


def check_run(table: Given, faults: FaultList) -> None:
    """A section lists its clusters or names a taper; words that go with a taper need one."""
    has_taper = "taper" in table.written
    if "clusters" not in table.written and not has_taper:
        if not faults.touches(table.at("clusters")):
            faults.add(table.at("clusters"), "a section has no 'clusters'", _ASK)
    elif "a_side" in table.written and not has_taper:
        what = "'a_side' goes with a taper"
        faults.add(table.at("a_side"), what, 'write taper = "gentle", or list the clusters')


def taper_of(table: Given) -> Taper | None:
    """The taper a section names."""
    taper = table.values.get("taper")
    return taper if isinstance(taper, Taper) else None


def taper_length(table: Given) -> int:
    """How many clusters the taper of a section has from its middle outward, 0 without one."""
    taper = taper_of(table)
    if taper is None:
        return 0
    return taper.clusters or int(table.get("a_side", A_SIDE)) + int(table.get("middle", True))


def taper_run(table: Given, ground: Ground) -> list[ClusterSpec]:
    """The clusters from the middle outward; the section's own fill is that of the first."""
    taper = taper_of(table)
    if taper is None:
        return []
    first = _first(table, ground)
    fills = tapered(taper, first, taper_length(table) - 1, ground.pump, ground.unit)
    return [
        cluster_spec(Given(table.at("taper"), _said(fill)), table, step, ground)
        for step, fill in enumerate(fills)
    ]


def _said(fill: Fill) -> dict[str, object]:
    return {"strokes": fill.strokes} if fill.strokes is not None else {"fill": fill.diameter}


def _first(table: Given, ground: Ground) -> Fill:
    strokes: float | None = table.get("strokes", None)
    if strokes is not None:
        return Fill(diameter_of(strokes, ground.pump), strokes)
    nominal = table.get("size", ground.size)
    return Fill(table.get("fill", USUAL_FILL * nominal))
