"""Which studio book is in force: the nearest one above the piece, or the one in the settings."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from mockup.design.studio import Studio
from mockup.design.studio_reading import read_studio

BOOK = "studio.toml"
_PROGRAM = "balloon-mockup"


def settings_book() -> Path:
    """Where the book lies that holds for every piece: the platform's folder for settings."""
    from platformdirs import user_config_path

    return user_config_path(_PROGRAM, appauthor=False) / BOOK


def places(folder: Path) -> Iterator[Path]:
    """Where a book is looked for, in order: in the folder, above it, then in the settings."""
    home = folder.absolute()
    for each in (home, *home.parents):
        yield each / BOOK
    yield settings_book()


def book_for(folder: Path) -> Path | None:
    """The book in force for the pieces in ``folder``; None where there is none."""
    return next((place for place in places(folder) if place.is_file()), None)


def studio_for(folder: Path) -> Studio:
    """The studio book in force, or the usual figures where there is none.

    Raises ``FaultsFound`` with every fault of the book.
    """
    book = book_for(folder)
    return read_studio(book) if book else Studio()
