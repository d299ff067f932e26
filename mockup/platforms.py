"""What differs between Linux, Windows and macOS, in one place; everything else runs alike.

- Settings: ``settings_folder`` knows each platform's own place for a user's settings.
- Consoles: one code page (Windows) knows few letters; ``settle_console`` spells out the others.
- The cairo library bears another file name on each; its binding tries them all, and where none is
  found the pictures are drawn without it (``render/routes.py``).
- Fonts: only Linux finds them by fontconfig, so nothing is concluded from the platform. Whether the
  packaged font was found is measured glyph by glyph (``render/fontconfig.py``).
- Files: always opened as UTF-8, never by the locale; replaced by ``Path.replace``, which takes the
  place of a file on each of them.
"""

from __future__ import annotations

import codecs
import io
import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TextIO


def settings_folder(
    program: str, platform: str = sys.platform, given: Mapping[str, str] = os.environ
) -> Path:
    """Where a user's settings of a program lie, by ``sys.platform`` and the environment."""
    if platform == "win32":
        from platformdirs.windows import Windows

        return Windows(program, appauthor=False).user_config_path
    if platform == "darwin":
        from platformdirs.macos import MacOS

        return MacOS(program, appauthor=False).user_config_path
    if "ANDROID_ROOT" in given:
        from platformdirs import user_config_path

        return user_config_path(program, appauthor=False)
    return _xdg_home(given) / program


def _xdg_home(given: Mapping[str, str]) -> Path:
    """The folder of the XDG Base Directory Specification, without a tenth more of a check's start.

    A test holds it against platformdirs.
    """
    home = given.get("XDG_CONFIG_HOME", "").strip()
    return Path(home) if home else Path("~/.config").expanduser()


def settle_console() -> None:
    """Have stdout and stderr say all that is written, and spell out what their encoding lacks.

    A console of one code page (Windows) knows few of the letters that a client's name may hold.
    """
    sys.stdout, sys.stderr = _whole(sys.stdout), _whole(sys.stderr)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _whole(stream: TextIO) -> TextIO:
    """The stream with a buffer, where Python was asked to have none (PYTHONUNBUFFERED, -u).

    Without one it writes as much of a text as the system takes at once, and drops the rest.
    """
    if isinstance(stream, io.TextIOWrapper) and isinstance(stream.buffer, io.RawIOBase):
        return open(stream.fileno(), "w", 1, stream.encoding, closefd=False)
    return stream


def knows_every_letter() -> bool:
    """Whether stdout's encoding can write any text as it is."""
    return encoding_knows(getattr(sys.stdout, "encoding", None))


def encoding_knows(name: str | None) -> bool:
    """Whether the encoding of that name is one of Unicode's.

    >>> encoding_knows("utf-8"), encoding_knows("cp1252"), encoding_knows(None)
    (True, False, False)
    """
    try:
        return name is not None and codecs.lookup(name).name.startswith("utf")
    except LookupError:
        return False
