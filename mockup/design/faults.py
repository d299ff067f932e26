"""Collecting every fault of one file by key path, to be told together in the order of its lines."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from mockup.design.model import KeyPath
from mockup.errors import Fault, printable

MOST_TOLD = 200
"""A file with more faults than this is not a piece file with slips; the rest is only counted."""


class FaultList:
    """The faults found so far, each at its key path."""

    def __init__(self) -> None:
        self.found: dict[tuple[KeyPath, str], str] = {}
        self.untold = 0
        self.excused: set[KeyPath] = set()

    @property
    def full(self) -> bool:
        """Whether further faults are only counted, so that no words need be found for them."""
        return len(self.found) >= MOST_TOLD

    def add(self, path: KeyPath, what: str, instead: str = "") -> None:
        """Note one fault; the same words at the same place are told once."""
        if self.full:
            self.untold += 1
        else:
            self.found.setdefault((path, what), instead)

    def excuse(self, path: KeyPath) -> None:
        """A key that is missing only because its name was misspelt: told once, not missed too."""
        self.excused.add(path)

    def touches(self, *paths: KeyPath) -> bool:
        """Whether a fault lies at, inside or around one of the paths.

        Checks that compare two values ask this first, so that one slip is told once.

        >>> faults = FaultList()
        >>> faults.add(("frame", "tube"), "has no unit")
        >>> faults.touches(("frame",)), faults.touches(("panel",))
        (True, False)
        """
        known = [*(path for path, _ in self.found), *self.excused]
        return any(_on_one_branch(path, other) for path in paths for other in known)

    def told(self, line_of: Callable[[KeyPath], int], file_name: str) -> list[tuple[int, Fault]]:
        """Every fault with its line, in the order of the lines.

        What stands nowhere, such as a table that is missing, has line 0 and is told at line 1.
        """
        placed = [
            (line, Fault(f"{file_name}:{max(line, 1)}", what, instead))
            for (path, what), instead in self.found.items()
            for line in (line_of(path),)
        ]
        placed.sort(key=lambda one: one[0])
        if self.untold:
            more = f"there are {self.untold:,} more faults"
            placed.append((placed[-1][0], Fault(file_name, more, "mend these first")))
        return placed


def _on_one_branch(one: KeyPath, other: KeyPath) -> bool:
    shared = min(len(one), len(other))
    return one[:shared] == other[:shared]


class At(NamedTuple):
    """A place in the file while it is read: where a value stands and what it might have been.

    ``top`` holds the keys of the whole file, for one that has slipped under a table's header.
    """

    faults: FaultList
    path: KeyPath = ()
    example: str = ""
    top: frozenset[str] = frozenset()

    def inside(self, key: str | int, example: str = "") -> At:
        """The place of a key (or of an item of a list) inside this one."""
        return At(self.faults, (*self.path, key), example, self.top)

    @property
    def key(self) -> str:
        """The nearest key's name, as it may be printed."""
        names = [part for part in self.path if isinstance(part, str)]
        return printable(names[-1]) if names else ""

    def fault(self, what: str, instead: str | None = None) -> None:
        """Note a fault here; what to write instead is the example unless said."""
        self.faults.add(self.path, what, self.right_form() if instead is None else instead)

    def right_form(self) -> str:
        """What a right line looks like, such as ``write outside = "30in"``."""
        if self.example.startswith("[["):
            return f"begin each one with {self.example}"
        written = self.example if isinstance(self.path[-1], int) else f"{self.key} = {self.example}"
        return f"write {written}"


def shown(written: object) -> str:
    """A value of the file in words for a message.

    >>> shown("13"), shown(4.5), shown(True), shown([1])
    ("'13'", '4.5', 'true', 'a list')
    """
    if isinstance(written, str):
        return f"'{printable(written)}'"
    if isinstance(written, bool):
        return "true" if written else "false"
    if isinstance(written, int | float):
        return f"{written:.15g}" if abs(written) < 1e15 else "a number far too large"
    if isinstance(written, list):
        return "a list"
    return "a table" if isinstance(written, dict) else f"the date or time {written}"
