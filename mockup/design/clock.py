"""Places on the frame as the trade speaks of them: the hours of a clock face."""

from __future__ import annotations

import re

CLOCK = re.compile(r"(1[0-2]|[1-9])(?::([0-5][0-9])| ?o['’]?clock)?")
DEG_PER_HOUR = 30.0
_NAMES = {0.0: "top", 90.0: "right", 180.0: "bottom", 270.0: "left"}


def clock_degrees(text: str) -> float | None:
    """Degrees clockwise from 12 of "12", "6 o'clock" or "10:30"; None where it is no such place.

    >>> clock_degrees("12"), clock_degrees("6 o'clock"), clock_degrees("10:30"), clock_degrees("13")
    (0.0, 180.0, 315.0, None)
    """
    found = CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    return int(found[1]) % 12 * DEG_PER_HOUR + int(found[2] or 0) * DEG_PER_HOUR / 60


def clock_words(degrees: float) -> str:
    """The clock position of an angle, to the minute.

    >>> clock_words(315.0), clock_words(0.0), clock_words(180.0)
    ('10:30', '12', '6')
    """
    hour, minute = divmod(round(degrees % 360 * 2), 60)
    face = hour % 12 or 12
    return f"{face}:{minute:02d}" if minute else f"{face}"


def place_name(degrees: float) -> str:
    """What a section at that angle is called unless the file names it.

    >>> place_name(180.0), place_name(315.0)
    ('bottom', 'at 10:30')
    """
    return _NAMES.get(degrees % 360, f"at {clock_words(degrees)}")
