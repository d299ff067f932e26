"""Places on a frame: a clock position, a length from its start, or a share of its length."""

from __future__ import annotations

import re
from typing import NamedTuple

from mockup.design.clock import CLOCK, clock_degrees, place_name
from mockup.design.faults import At, shown
from mockup.design.kinds import Schema
from mockup.design.measures import LENGTH_PATTERN, Clock, Length
from mockup.lengths import Unit, format_length

# Compiled where a piece has them: a start pays for no pattern that its file does not use.
_SHARE = r"\s*(?:(\d{1,3})\s*/\s*(\d{1,3})|(\d{1,3}(?:\.\d{1,6})?)\s*%)\s*"
_LENGTH = Length(0.0, 3280 * 304.8, example='"3ft"')
_HAS_UNIT = r"\d.*[A-Za-z\"'’”]"


class Along(NamedTuple):
    """A place by its distance from the frame's start: a ``share`` of its length, or ``mm``."""

    share: float | None
    mm: float | None = None

    @property
    def laid_deg(self) -> float:
        """The clock position of a share where the clock is laid evenly along the frame."""
        return ((self.share or 0.0) - 0.5) * 360.0 % 360.0


class Place(NamedTuple):
    """A clock position such as "10:30", a share such as "1/2" or "25%", or a length: "3ft"."""

    example: str = '"12"'

    def takes(self, written: object) -> bool:
        """Strings and integers."""
        return Clock().takes(written)

    def read(self, written: object, at: At) -> float | Along | None:
        """Degrees clockwise from 12, or the distance along the frame."""
        if isinstance(written, str) and len(written) <= 40:
            share = re.fullmatch(_SHARE, written) if "/" in written or "%" in written else None
            if share:
                return _share(share, written, at)
            if clock_degrees(written) is None and re.search(_HAS_UNIT, written):
                mm = _LENGTH.read(written, at)
                return None if mm is None else Along(None, mm)
        return Clock(self.example).read(written, at)

    def schema(self) -> Schema:
        """A clock position, a share or a length."""
        forms = [rf"^\s*({CLOCK.pattern})\s*$", rf"^{_SHARE}$", LENGTH_PATTERN]
        strings: list[Schema] = [{"type": "string", "pattern": form} for form in forms]
        return {"anyOf": [*strings, {"type": "integer", "minimum": 1, "maximum": 12}]}


def _share(found: re.Match[str], written: str, at: At) -> Along | None:
    over, under, cent = found.groups()
    if under is not None and int(under) == 0:
        at.fault(f"'{at.key}' is {shown(written)}, which divides by nothing")
        return None
    share = float(cent) / 100 if cent is not None else int(over) / int(under)
    if share > 1:
        at.fault(f"'{at.key}' is {shown(written)}, past the end of the frame", "write up to 100%")
        return None
    return Along(share)


_ENDS = {
    "pole": {0.0: "foot", 0.5: "middle", 1.0: "top"},
    "stand": {0.0: "foot of the stand", 0.5: "middle of the stand", 1.0: "top of the stand"},
    "": {0.0: "start", 0.5: "middle", 1.0: "end"},
}


def spot_name(place: float | Along, kind: str, unit: Unit) -> str:
    """What a section there is called unless the file names it; ``kind`` is the frame's, or "stand".

    >>> spot_name(Along(0.0), "pole", "in"), spot_name(Along(None, 914.4), "arch", "in")
    ('foot', 'at 36 in')
    >>> spot_name(90.0, "ring", "in")
    'right'
    """
    if not isinstance(place, Along):
        return place_name(place)
    up = " up the stand" if kind == "stand" else ""
    if place.mm is not None:
        return f"at {format_length(place.mm, unit)}{up}"
    share = place.share or 0.0
    return _ENDS.get(kind, _ENDS[""]).get(share, f"at {100 * share:.3g} %{up}")
