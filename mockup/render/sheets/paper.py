"""Sizes of paper: the A series of ISO 216, and sizes A and B of ANSI/ASME Y14.1."""

from __future__ import annotations

from dataclasses import dataclass

from mockup.errors import MockupError
from mockup.lengths import Unit
from mockup.spelling import nearest_name

MARGIN = 10.0
"""White between the edge of the paper and the frame, mm (ISO 5457: 10 mm on A4 and A3)."""


@dataclass(frozen=True)
class Paper:
    """A sheet of paper as it lies: ``width`` across, ``height`` down, mm."""

    name: str
    width: float
    height: float

    @property
    def landscape(self) -> bool:
        """Whether the long side lies across."""
        return self.width > self.height

    @property
    def large(self) -> bool:
        """Whether it is of the A3 kind (longer than 400 mm)."""
        return max(self.width, self.height) > 400.0

    def turned(self, landscape: bool) -> Paper:
        """The same sheet lying across or standing.

        >>> PAPERS["a4"].turned(landscape=True).width
        297.0
        """
        if self.landscape == landscape:
            return self
        return Paper(self.name, self.height, self.width)

    @property
    def words(self) -> str:
        """The size with the way it lies: "A4 landscape"."""
        return f"{self.name} {'landscape' if self.landscape else 'portrait'}"


PAPERS: dict[str, Paper] = {
    "a4": Paper("A4", 210.0, 297.0),
    "a3": Paper("A3", 297.0, 420.0),
    "letter": Paper("Letter", 215.9, 279.4),
    "tabloid": Paper("Tabloid", 279.4, 431.8),
}
"""Standing sheets by name: ISO 216 A4, A3; ANSI/ASME Y14.1 A (letter), B (tabloid)."""

_FAMILIES: dict[str, tuple[str, ...]] = {"cm": ("a4", "a3"), "in": ("letter", "tabloid")}


class UnknownPaper(MockupError):
    """A name of paper that is not one of ``PAPERS``."""


def paper_named(name: str) -> Paper:
    """The standing sheet of that name, in any case of letters.

    >>> paper_named("a4").height
    297.0
    """
    paper = PAPERS.get(name.strip().lower())
    if paper is None:
        near = nearest_name(name, [known.name for known in PAPERS.values()])
        hint = f"did you mean {near}? " if near else ""
        known = ", ".join(known.name for known in PAPERS.values())
        raise UnknownPaper(f"there is no paper '{name}'; {hint}write one of {known}")
    return paper


def family(unit: Unit) -> tuple[Paper, ...]:
    """The sheets at hand where people measure in ``unit``, small first."""
    return tuple(PAPERS[name] for name in _FAMILIES[unit])
