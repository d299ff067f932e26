"""The clear widths that people have between the pieces, below head height."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from mockup.design.setting import DOOR_CLEAR, HEAD_ROOM, ROUTE_CLEAR, SettingSpec
from mockup.piece.elevation.solids import Solids
from mockup.piece.elevation.standing import Elevation
from mockup.records import dataclass

Span = tuple[float, float]
_LEAST = 1.0


@dataclass(frozen=True)
class Way:
    """A clear stretch of the setting from ``low`` to ``high``, mm, under what name and limit.

    ``limit`` is the least clear width, mm, and ``source`` where that comes from; ``must`` says
    that people have to pass there.
    """

    name: str
    low: float
    high: float
    limit: float
    source: str
    must: bool

    @property
    def width(self) -> float:
        """How wide it is, mm."""
        return self.high - self.low


def blocked(elevation: Elevation) -> list[Span]:
    """The stretches that something fills between the ground people walk on and head height.

    What stands before or behind counts as well: the widths are those seen from the front.
    """
    setting, solids = elevation.setting, Solids()
    ground = setting.top if setting.kind == "stage" else 0.0
    spans: list[Span] = []
    if setting.kind == "table":
        spans.append((-setting.width / 2, setting.width / 2))
    for one in elevation.standings:
        x, y, _, r = solids.of(one).T
        # A ball whose middle is above the head is in the way by what of it hangs lower.
        off = np.maximum(y - (ground + HEAD_ROOM), 0.0) + np.maximum(ground - y, 0.0)
        half = np.sqrt(np.maximum(r * r - off * off, 0.0))
        hit = half > 0.0
        spans += zip((x - half)[hit].tolist(), (x + half)[hit].tolist(), strict=True)
    return _merged(spans)


def free(spans: Iterable[Span], low: float, high: float) -> list[Span]:
    """What sorted stretches leave free between two places.

    >>> free([(-1.0, 2.0), (4.0, 5.0)], 0.0, 9.0)
    [(2.0, 4.0), (5.0, 9.0)]
    """
    left: list[Span] = []
    for start, end in spans:
        if start > low + _LEAST and low < high:
            left.append((low, min(start, high)))
        low = max(low, end)
    return [*left, (low, high)] if high > low + _LEAST else left


def ways(elevation: Elevation) -> tuple[Way, ...]:
    """What is left of a doorway and of each exit, and the clear stretches of a stage or floor."""
    filled = blocked(elevation)
    return tuple(_ways(elevation.setting, filled))


def _ways(setting: SettingSpec, filled: list[Span]) -> Iterator[Way]:
    half = setting.width / 2
    asked = "as the job asks"
    door = (setting.clear or DOOR_CLEAR, asked if setting.clear else "ADA Standards 404.2.3")
    route = (setting.clear or ROUTE_CLEAR, asked if setting.clear else "ADA Standards 403.5.1")
    if setting.kind == "doorway":
        yield Way("doorway", *_widest(filled, -half, half), *door, must=True)
    elif setting.kind in ("stage", "floor"):
        for low, high in free(filled, -half, half):
            yield Way("clear", low, high, *route, must=False)
    for one in setting.exits:
        span = _widest(filled, one.at - one.width / 2, one.at + one.width / 2)
        yield Way(one.name, *span, *door, must=True)


def _widest(filled: list[Span], low: float, high: float) -> Span:
    middle = (low + high) / 2
    return max(free(filled, low, high), key=lambda s: s[1] - s[0], default=(middle, middle))


def _merged(spans: list[Span]) -> list[Span]:
    merged: list[Span] = []
    for low, high in sorted(spans):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged
