"""What differs between consoles: the letters that their encoding knows."""

from __future__ import annotations

import codecs
import io
import sys


def settle_console() -> None:
    """Have stdout and stderr spell out what their encoding lacks, instead of failing.

    A console of one code page (Windows) knows few of the letters that a client's name may hold.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def knows_every_letter() -> bool:
    """Whether stdout's encoding can write any text as it is.

    >>> encoding_knows("utf-8"), encoding_knows("cp1252"), encoding_knows(None)
    (True, False, False)
    """
    return encoding_knows(getattr(sys.stdout, "encoding", None))


def encoding_knows(name: str | None) -> bool:
    """Whether the encoding of that name is one of Unicode's."""
    try:
        return name is not None and codecs.lookup(name).name.startswith("utf")
    except LookupError:
        return False
