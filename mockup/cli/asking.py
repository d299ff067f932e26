"""What is asked by options, judged in our own words, so that all faults can be told together."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import click

from mockup.errors import Fault, FaultsFound, printable

_ADDRESS = re.compile(r"[^\s@,;:<>()\[\]\"?&]+@[^\s@,;:<>()\[\]\"?&.]+(\.[^\s@,;:<>()\[\]\"?&.]+)+")
_LONGEST = 254
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_WHOLE = re.compile(r"\d{1,9}", re.ASCII)


class OneOf(click.Choice[str]):
    """One of a few words, in large or small letters; another one is a fault in our own words."""

    def __init__(self, *words: str) -> None:
        super().__init__(words, case_sensitive=False)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word as it stands here; raises ``FaultsFound`` for any other.

        >>> OneOf("A4", "letter").convert("a4", None, None)
        'A4'
        """
        try:
            return super().convert(value, param, ctx)
        except click.BadParameter as wrong:
            *others, last = self.choices
            option = param.opts[0] if param else ""
            instead = f"write {', '.join(others)} or {last}"
            fault = Fault(option, f"'{printable(str(value))}' is not one of them", instead)
            raise FaultsFound([fault]) from wrong


PAPER = OneOf("A4", "A3", "letter", "tabloid")
UNIT = OneOf("in", "cm")


def day(option: str, text: str | None, faults: list[Fault]) -> date | None:
    """``2027-03-01`` as a day; None for none and for a fault.

    >>> faults = []
    >>> day("--on", "2027-02-30", faults)
    >>> print(faults[0])
    --on: '2027-02-30' is no day; write it as year-month-day, such as 2027-03-01
    """
    if text is None:
        return None
    try:
        if _DAY.fullmatch(text.strip()):
            return date.fromisoformat(text.strip())
    except ValueError:
        pass  # a day that no month has: the same fault as one written otherwise
    instead = "write it as year-month-day, such as 2027-03-01"
    faults.append(Fault(option, f"'{printable(text)}' is no day", instead))
    return None


def whole(option: str, text: str, least: int, most: int, faults: list[Fault]) -> int:
    """A whole number from ``least`` to ``most``; ``least`` itself for a fault.

    >>> faults = []
    >>> whole("--dpi", "9000", 36, 1200, faults), faults[0].instead
    (36, 'write one from 36 to 1200')
    """
    if _WHOLE.fullmatch(text.strip()) and least <= int(text) <= most:
        return int(text)
    instead = f"write one from {least} to {most}"
    faults.append(Fault(option, f"'{printable(text)}' is no such whole number", instead))
    return least


def address(option: str, text: str, faults: list[Fault]) -> str:
    """An address for letters (the common form of RFC 5322's addr-spec), or nothing.

    >>> faults = []
    >>> address("--reply-to", " hello@lark.example ", faults), faults
    ('hello@lark.example', [])
    """
    given = text.strip()
    if given and not (_ADDRESS.fullmatch(given) and len(given) <= _LONGEST and given.isprintable()):
        what = f"'{printable(given)}' is no address that a reply could go to"
        faults.append(Fault(option, what, "write one such as proofs@lark.example"))
    return given
