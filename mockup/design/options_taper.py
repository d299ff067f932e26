"""A section's listed clusters in another taper: their colours stay, their fills change."""

from __future__ import annotations

from typing import Any

from mockup.design.model import Design
from mockup.design.tapers import Taper, taper_from_words, tapered
from mockup.design.wishes_fills import Fill


def retapered(section: dict[str, Any], base: Design, index: int) -> None:
    """Lay the section's ``taper`` over its listed ``clusters``; one that is no taper stays as is.

    The middle keeps its fill unless the taper names another, and the count stays unless the
    section says ``a_side``. Clusters beyond the listed ones repeat the last two.
    """
    taper = taper_from_words(section["taper"]) if isinstance(section["taper"], str) else None
    listed = _listed(section["clusters"])
    spec = base.sections[index]
    first = spec.middle or (spec.right[0] if spec.right else None)
    if taper is None or not listed or first is None:
        section.pop("clusters")  # the reader tells what is wrong with the taper
        return
    outward = _outward(section, taper, len(listed))
    fills = tapered(taper, Fill(first.diameter, first.strokes), outward, base.pump, base.unit)
    section["clusters"] = [_refilled(_like(listed, k), fill) for k, fill in enumerate(fills)]
    for word in ("taper", "a_side"):
        section.pop(word, None)


def _listed(clusters: object) -> list[dict[str, Any]]:
    """The clusters one by one, those with ``times`` as often as they say."""
    every = clusters if isinstance(clusters, list) else []
    found: list[dict[str, Any]] = []
    for one in every:
        if isinstance(one, dict):
            times = one.get("times", 1)
            found += [one] * (times if isinstance(times, int) and 0 < times <= 2000 else 1)
    return found


def _outward(section: dict[str, Any], taper: Taper, listed: int) -> int:
    a_side = section.get("a_side")
    if taper.clusters or not isinstance(a_side, int):
        return max(taper.clusters, listed) - 1 if taper.clusters == 0 else taper.clusters - 1
    return a_side if section.get("middle", True) else a_side - 1


def _like(listed: list[dict[str, Any]], step: int) -> dict[str, Any]:
    last = len(listed) - 1
    if step <= last:
        return listed[step]
    return listed[last - (step - last) % min(2, len(listed))]


def _refilled(cluster: dict[str, Any], fill: Fill) -> dict[str, Any]:
    kept = {k: v for k, v in cluster.items() if k not in ("strokes", "fill", "times")}
    if fill.strokes is not None:
        return {**kept, "strokes": fill.strokes}
    return {**kept, "fill": f"{fill.diameter:.6g}mm"}
