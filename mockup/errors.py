"""The one family of errors whose text is meant for the person at the keyboard.

Only the command line (and the local page) turn these into something shown.
"""

from __future__ import annotations

from collections.abc import Iterable

from mockup.records import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong in something the user wrote.

    ``where`` is a place a person can open ("ruby.toml:12", or "--ring"), ``what`` says what is
    wrong there and ``instead`` what to write in its place.

    >>> print(Fault("ruby.toml:12", "'13' has no unit", "write 13in or 33cm"))
    ruby.toml:12: '13' has no unit; write 13in or 33cm
    """

    where: str
    what: str
    instead: str = ""

    def __str__(self) -> str:
        said = f"{self.where}: {self.what}" if self.where else self.what
        return f"{said}; {self.instead}" if self.instead else said


class MockupError(Exception):
    """Base of every error this program raises on purpose; ``exit_code`` is the process's answer."""

    exit_code = 2


class FaultsFound(MockupError):
    """Everything that is wrong with one input, told together.

    >>> str(FaultsFound([Fault("a.toml:1", "no title"), Fault("a.toml:3", "no unit")]))
    'a.toml:1: no title\\na.toml:3: no unit'
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def printable(text: str, most: int = 40) -> str:
    """The user's own words, safe to show: short, on one line, control characters spelled out.

    >>> printable("a\\x1b[31m b")
    'a\\\\u001b[31m b'
    """
    cut = text if len(text) <= most else text[: most - 3] + "..."
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in cut)


class CannotWrite(MockupError):
    """An output that could not be written; whatever stood there before is untouched."""
