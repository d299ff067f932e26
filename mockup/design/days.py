"""A day as people read it on sheets and in answers: alike everywhere, mistaken nowhere."""

from __future__ import annotations

from datetime import date

_MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def day(when: date | None) -> str:
    """A date that reads alike everywhere, empty for none.

    >>> day(date(2026, 11, 4))
    '4 Nov 2026'
    """
    return f"{when.day} {_MONTHS[when.month - 1]} {when.year}" if when else ""


def day_of(written: str) -> str:
    """The same of a date as it is kept (ISO 8601); what is no date stays as it is.

    >>> day_of("2026-11-04"), day_of("soon")
    ('4 Nov 2026', 'soon')
    """
    try:
        return day(date.fromisoformat(written))
    except ValueError:
        return written
