"""Which studio book is in force: the nearest one above the piece, or the one in the settings.

Every command that reads a piece looks for a book, so this loads nothing else until one is found.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from mockup.platforms import settings_folder

if TYPE_CHECKING:
    from mockup.design.studio import Studio

BOOK = "studio.toml"
_PROGRAM = "balloon-mockup"


def settings_book() -> Path:
    """Where the book lies that holds for every piece: the platform's folder for settings."""
    return settings_folder(_PROGRAM) / BOOK


def places(folder: Path) -> Iterator[Path]:
    """Where a book is looked for, in order: in the folder, above it, then in the settings."""
    home = folder.absolute()
    for each in (home, *home.parents):
        yield each / BOOK
    yield settings_book()


def book_for(folder: Path) -> Path | None:
    """The book in force for the pieces in ``folder``; None where there is none."""
    return next((place for place in places(folder) if is_file(place)), None)


def is_file(place: Path) -> bool:
    """Whether a file lies there; none of ours does where nobody may look, or under no such name."""
    try:
        return place.is_file()
    except (OSError, ValueError):
        return False


def studio_for(folder: Path) -> Studio:
    """The studio book in force, or the usual figures where there is none.

    Raises ``FaultsFound`` with every fault of the book.
    """
    from mockup.design.studio import Studio
    from mockup.design.studio_reading import read_studio

    book = book_for(folder)
    return read_studio(book) if book else Studio()
