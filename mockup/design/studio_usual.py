"""What holds where a piece file says nothing: the studio book's pumps, squeeze, shrink, doorway.

A piece is read against the book in force for its folder, so that check, proof and buy agree.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from mockup.design.model import Limits, Pump
from mockup.design.studio_book import book_for
from mockup.spelling import did_you_mean, plain_form

if TYPE_CHECKING:
    from mockup.design.studio import Studio

_LIMITS = Limits()
_PUMP = Pump()


class Usual(NamedTuple):
    """The figures in force: without a book those of the trade.

    ``pumps`` by name, in the book's order; the first is meant where a piece names none. ``book``
    is the file they come from and ``studio`` whose it is, both empty without a book.
    """

    pumps: tuple[tuple[str, Pump], ...] = ()
    squeeze: float = _LIMITS.squeeze
    foil_shrink: float = _LIMITS.foil_shrink
    doorway: tuple[float, float] = _LIMITS.doorway
    studio: str = ""
    book: str = ""

    @property
    def pump(self) -> Pump:
        """The pump of a piece that names none."""
        return self.pumps[0][1] if self.pumps else _PUMP

    @property
    def limits(self) -> Limits:
        """The limits of a piece that gives none."""
        return Limits(squeeze=self.squeeze, foil_shrink=self.foil_shrink, doorway=self.doorway)

    def named(self, name: str) -> Pump | None:
        """The pump of that name, however it is spelt; None where there is none.

        >>> Usual(pumps=(("hand pump", Pump(3.0, 100.0)),)).named("Hand-pump")
        Pump(strokes=3.0, gives=100.0)
        """
        wanted = plain_form(name)
        return next((pump for own, pump in self.pumps if plain_form(own) == wanted), None)

    def instead_of(self, name: str) -> str:
        """What to write instead of a pump's name that is not known."""
        if self.pumps:
            return did_you_mean(name, [own for own, _ in self.pumps])
        where = self.book or "a studio book ('mockup studio new')"
        return f'add it to {where}, or write pump = {{ strokes = 4, gives = "4 1/2in" }}'


USUAL = Usual()


def usual_of(studio: Studio) -> Usual:
    """What a studio book says of reading a piece."""
    return Usual(
        pumps=tuple((one.name, Pump(one.strokes, one.gives)) for one in studio.pumps),
        squeeze=studio.squeeze,
        foil_shrink=studio.foil_shrink,
        doorway=studio.doorway,
        studio=studio.name,
        book=studio.file,
    )


def usual_for(folder: Path) -> Usual:
    """What holds for the pieces in a folder; raises ``FaultsFound`` with the book's faults."""
    book = book_for(folder)
    if book is None:
        return USUAL
    told = book.stat()
    return _read(book, told.st_mtime_ns, told.st_size)


@lru_cache(maxsize=8)
def _read(book: Path, _written: int, _size: int) -> Usual:
    """The book as it was last written: the options of one file read it once."""
    from mockup.design.studio_reading import read_studio

    return usual_of(read_studio(book))
