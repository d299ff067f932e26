"""The colourways that a design offers, the first mapping among them and named as well."""

from __future__ import annotations

from mockup.design.model import ColourUse, Design
from mockup.records import dataclass

FIRST_NAMES = ("A", "first", "as designed")


@dataclass(frozen=True)
class Way:
    """One mapping of every letter, and of the foil, by its name ("" where it is the only one)."""

    name: str
    colours: dict[str, ColourUse]
    foil: ColourUse | None

    @property
    def words(self) -> str:
        """``colourway B``, or nothing where there is no choice."""
        return f"colourway {self.name}" if self.name else ""


def named_way(design: Design, asked: str) -> str | None:
    """The colourway that is asked for as logs and sheets keep it: "" for the first colours.

    The first colours are asked for by nothing, or by their name; None where the design does not
    offer what is asked for.
    """
    first, *others = ways(design)
    if asked in ("", first.name):
        return ""
    return asked if asked in (way.name for way in others) else None


def ways(design: Design) -> tuple[Way, ...]:
    """The design's own mapping first, then its colourways; each has a foil where there is one.

    Where there are several the first is called A, or another name that no other has.

    >>> from mockup.design.model import FrameSpec
    >>> [way.name for way in ways(Design("Ruby", FrameSpec(), (), {}))]
    ['']
    """
    foil = design.panel.foil if design.panel else None
    taken = {way.name.casefold() for way in design.colourways}
    free = next(name for name in (*FIRST_NAMES, "0") if name.casefold() not in taken)
    first = Way(free if design.colourways else "", design.colours, foil)
    others = (Way(way.name, way.colours, way.foil or foil) for way in design.colourways)
    return (first, *others)
