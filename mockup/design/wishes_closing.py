"""What is to be closed: a ring or a stretch, with which clusters; from a file or from options."""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import pi
from typing import Any

from mockup.design.measures import SHARE
from mockup.design.model import KIND_COUNTS, ClusterSpec, Design, Kind, Pump, SectionSpec
from mockup.design.wish import pump_from_words
from mockup.design.wishes_fills import Fill, fill_from_words
from mockup.errors import Fault, FaultsFound
from mockup.lengths import NotALength, Unit, parse_length
from mockup.records import dataclass

_MOST_SQUEEZE = 0.4


@dataclass(frozen=True)
class ClosingWish:
    """``length`` mm of centre line to fill with clusters of ``kind``; ``closed`` for a whole ring.

    ``radius`` is that of the ring's centre line (0 for a stretch), ``wanted`` the count wished for.
    """

    length: float
    closed: bool
    radius: float
    kind: Kind
    fills: tuple[Fill, ...]
    squeeze: float
    period: int
    wanted: int | None
    pump: Pump
    unit: Unit

    @property
    def balloons(self) -> int:
        """How many balloons a cluster has."""
        return KIND_COUNTS[self.kind]


def closing_wish(words: Mapping[str, Any]) -> ClosingWish:
    """The wish of the options' words; raises ``FaultsFound``."""
    pump = pump_from_words(words["pump"])
    fills = tuple(fill_from_words(text, pump, "--fill") for text in words["fills"] or ("4",))
    length, radius = _length(words)
    return ClosingWish(
        length=length,
        closed=not words["stretch"],
        radius=radius,
        kind=words["kind"],
        fills=fills,
        squeeze=_squeeze(words["squeeze"], 0.10),
        period=words["period"] or 1,
        wanted=words["count"],
        pump=pump,
        unit=words["unit"],
    )


def _length(words: Mapping[str, Any]) -> tuple[float, float]:
    if words["stretch"] and words["ring"]:
        raise FaultsFound([Fault("--stretch", "a ring and a stretch are both given", "keep one")])
    if words["stretch"]:
        return _parsed("--stretch", words["stretch"]), 0.0
    if not words["ring"]:
        what = "nothing is said of what to close"
        raise FaultsFound([Fault("", what, "name a piece file, or write --ring 30in")])
    outside, tube = _parsed("--ring", words["ring"]), _parsed("--tube", words["tube"])
    if tube * 4 > outside:
        what = "the tube is thicker than a quarter of the ring"
        raise FaultsFound([Fault("--tube", what, "write a thinner one")])
    radius = (outside - tube) / 2
    return 2 * pi * radius, radius


def _parsed(where: str, text: str) -> float:
    try:
        length = parse_length(text)
    except NotALength as wrong:
        raise FaultsFound([Fault(where, wrong.what, wrong.instead)]) from wrong
    if length <= 0:
        raise FaultsFound([Fault(where, f"'{text}' is nothing", "write a length above zero")])
    return length


def _squeeze(text: str | None, usual: float) -> float:
    if text is None:
        return usual
    found = re.fullmatch(SHARE, text)
    share = float(found[1]) / 100 if found else -1.0
    if not 0 <= share <= _MOST_SQUEEZE:
        what = f"'{text}' is no squeeze"
        raise FaultsFound([Fault("--squeeze", what, "write a share from 0% to 40%, such as 10%")])
    return share


def closing_wish_of(
    design: Design, length: float, *, closed: bool, words: Mapping[str, Any]
) -> ClosingWish:
    """The wish of a design whose frame's centre line has that ``length`` (mm) and is ``closed``.

    Its whole ring's first cluster is asked about, or else its first section's; a stretch among the
    ``words`` is filled instead of the frame.
    """
    section = next((s for s in design.sections if s.whole), design.sections[0])
    spec = _first(section)
    stretch = words["stretch"]
    if not closed and not stretch:
        what = f"the frame ({design.frame.kind}) has two ends and does not close"
        where = design.where(("frame", "kind"))
        raise FaultsFound([Fault(where, what, "write --stretch and the length to fill")])
    fills = tuple(fill_from_words(text, design.pump, "--fill") for text in words["fills"])
    ring = design.frame.kind == "ring" and not stretch
    return ClosingWish(
        length=_parsed("--stretch", stretch) if stretch else length,
        closed=not stretch,
        radius=length / (2 * pi) if ring else 0.0,
        kind=spec.kind,
        fills=fills or (Fill(spec.diameter, spec.strokes),),
        squeeze=_squeeze(words["squeeze"], design.limits.squeeze),
        period=words["period"] or (1 if stretch else _period(section)),
        wanted=words["count"] or (None if stretch else section.whole_count),
        pump=design.pump,
        unit=design.unit,
    )


def _period(section: SectionSpec) -> int:
    """After how many clusters a whole ring's run begins again."""
    run = len(section.right) + (1 if section.middle else 0)
    return run if section.whole else 1


def _first(section: SectionSpec) -> ClusterSpec:
    return section.middle or section.right[0]
