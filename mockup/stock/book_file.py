"""Changing a studio book in place: one writer at a time, and nobody's edit lost."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from mockup.errors import CannotWrite

_WAIT_SECONDS = 10.0
_TRIES = 5
_PART = ".part"


def change_book(book: Path, changed: Callable[[str], str], *, wait: float = _WAIT_SECONDS) -> None:
    """Replace the book's text by what ``changed`` makes of it.

    Other runs of this program wait for their turn by a lock file. An editor that saves the book
    meanwhile knows no lock: its text is taken up and ``changed`` is asked again. The new text is
    written beside the old one and put in its place whole. Raises ``CannotWrite``.
    """
    from filelock import FileLock, Timeout

    path = book.resolve()
    try:
        with FileLock(f"{path}.lock", timeout=wait):
            _sweep(path)
            _change(path, changed)
    except Timeout as trouble:
        raise CannotWrite(f"{book}: another program is writing it; try again") from trouble
    except OSError as trouble:
        why = trouble.strerror or "the system refused"
        raise CannotWrite(f"{book}: cannot be written ({why}); it is unchanged") from trouble


def _sweep(path: Path) -> None:
    """Remove what a run that was killed left beside the book: under the lock nobody writes it."""
    start = f".{path.name}."
    for each in path.parent.iterdir():
        if each.name.startswith(start) and each.name.endswith(_PART):
            each.unlink(missing_ok=True)


def _change(path: Path, changed: Callable[[str], str]) -> None:
    for _ in range(_TRIES):
        before = path.read_bytes()
        mark = b"\xef\xbb\xbf" if before.startswith(b"\xef\xbb\xbf") else b""
        after = mark + changed(before.decode("utf-8-sig")).encode()
        if _replaced(path, before, after):
            return
    raise CannotWrite(f"{path}: it is being edited; save it, then try again")


def _replaced(path: Path, before: bytes, after: bytes) -> bool:
    """Put ``after`` in place, unless the file no longer holds ``before``."""
    handle, name = tempfile.mkstemp(_PART, f".{path.name}.", path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(after)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(path.stat().st_mode)
        if path.read_bytes() != before:
            return False
        beside.replace(path)
        return True
    finally:
        beside.unlink(missing_ok=True)
