"""Which studio book is in force: the nearest one above the piece, or the one in the settings.

Every command that reads a piece looks for a book, so this loads nothing else until one is found.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mockup.design.studio import Studio

BOOK = "studio.toml"
_PROGRAM = "balloon-mockup"


def settings_book() -> Path:
    """Where the book lies that holds for every piece: the platform's folder for settings."""
    if sys.platform == "linux" and "ANDROID_ROOT" not in os.environ:
        return _xdg_home() / _PROGRAM / BOOK
    from platformdirs import user_config_path

    return user_config_path(_PROGRAM, appauthor=False) / BOOK


def _xdg_home() -> Path:
    """The folder of the XDG Base Directory Specification, without a tenth more of a check's start.

    A test holds it against platformdirs.
    """
    home = os.environ.get("XDG_CONFIG_HOME", "").strip()
    return Path(home) if home else Path("~/.config").expanduser()


def places(folder: Path) -> Iterator[Path]:
    """Where a book is looked for, in order: in the folder, above it, then in the settings."""
    home = folder.absolute()
    for each in (home, *home.parents):
        yield each / BOOK
    yield settings_book()


def book_for(folder: Path) -> Path | None:
    """The book in force for the pieces in ``folder``; None where there is none."""
    return next((place for place in places(folder) if _is_file(place)), None)


def _is_file(place: Path) -> bool:
    try:
        return place.is_file()
    except (OSError, ValueError):  # a folder that may not be looked into holds no book of ours
        return False


def studio_for(folder: Path) -> Studio:
    """The studio book in force, or the usual figures where there is none.

    Raises ``FaultsFound`` with every fault of the book.
    """
    from mockup.design.studio import Studio
    from mockup.design.studio_reading import read_studio

    book = book_for(folder)
    return read_studio(book) if book else Studio()
