"""Files written whole or not at all."""

from __future__ import annotations

import errno
import os
import time
from collections.abc import Sequence
from contextlib import suppress
from glob import escape
from pathlib import Path
from secrets import token_hex
from typing import Literal

from mockup.errors import CannotWrite

Format = Literal["svg", "pdf", "png", "html"]
FORMATS: tuple[Format, ...] = ("pdf", "svg", "png")
"""The formats that any document of sheets is written in."""
PROOF_FORMATS: tuple[Format, ...] = ("pdf", "html", "svg", "png")
"""Those of a proof, which also is a page."""

_LEFT_AFTER_SECONDS = 3600.0
"""No file is written for that long: an older one beside it was left by a run that was killed."""


class UnknownEnding(CannotWrite):
    """An output name whose ending names no format that is written here."""


def format_of(path: Path | str, formats: tuple[Format, ...] = FORMATS) -> Format:
    """Which of ``formats`` an output's name asks for by its ending, in capitals or not.

    >>> format_of("ruby-proof.PDF")
    'pdf'
    """
    ending = Path(path).suffix.lower().lstrip(".")
    for known in formats:
        if ending == known:
            return known
    raise unknown_ending(path, formats)


def unknown_ending(path: Path | str, known: Sequence[str]) -> UnknownEnding:
    """The trouble with an output's name that ends in none of ``known`` (without their dots).

    >>> print(unknown_ending("gauge.html", ["pdf"]))
    gauge.html: the name ends in .html, which is not written here; end it in .pdf
    """
    ending = Path(path).suffix.lower().lstrip(".")
    *others, last = (f".{name}" for name in known)
    names = f"{', '.join(others)} or {last}" if others else last
    said = f"ends in .{ending}, which is not written here" if ending else "has no ending"
    return UnknownEnding(f"{path}: the name {said}; end it in {names}")


def write_whole(path: Path | str, data: bytes) -> None:
    """Put ``data`` at ``path`` in one step; whatever stood there stays whole until then.

    The data go to a new file beside it, onto the disk, and take its place last. Raises
    ``CannotWrite`` in plain words; on any failure, Ctrl-C included, the new file is removed. What
    a killed run left beside the same file is removed by the next one, once it is an hour old.
    """
    target = Path(path)
    try:
        _refuse_early(target)
        _store(target.resolve(), data)
    except OSError as failed:
        raise CannotWrite(f"{path}: {_reason(failed, target)}") from failed


def write_new(path: Path | str, data: bytes) -> None:
    """``write_whole``, but only where nothing stands yet; else ``CannotWrite``."""
    if Path(path).exists():
        raise CannotWrite(f"{path}: is there already and stays as it is; give another name")
    write_whole(path, data)


def _store(target: Path, data: bytes) -> None:
    start = f".{target.name[:40]}."
    _sweep(target.parent, start)
    beside = target.with_name(f"{start}{token_hex(4)}.part")
    file = beside.open("xb")
    try:
        with file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            beside.chmod(target.stat().st_mode & 0o777)
        beside.replace(target)
    finally:
        beside.unlink(missing_ok=True)


def _sweep(folder: Path, start: str) -> None:
    """Remove old new files of the same name; a young one may be another run's that still writes."""
    before = time.time() - _LEFT_AFTER_SECONDS
    with suppress(OSError):  # tidying up: the writing itself tells what is wrong with the folder
        for each in folder.glob(f"{escape(start)}{'[0-9a-f]' * 8}.part"):
            if each.lstat().st_mtime < before:
                each.unlink(missing_ok=True)


def _refuse_early(target: Path) -> None:
    folder = target.parent
    if target.is_dir():
        raise CannotWrite(f"{target}: is a folder; give the name of a file in it")
    if target.exists() and not target.is_file():
        raise CannotWrite(f"{target}: is not an ordinary file; give another name")
    if not folder.exists():
        raise CannotWrite(f"{target}: there is no folder {folder}; make it first, then try again")
    if not folder.is_dir():
        raise CannotWrite(f"{target}: {folder} is a file, not a folder; give another name")


def _reason(failed: OSError, target: Path) -> str:
    if failed.errno in (errno.EACCES, errno.EPERM):
        return (
            f"this user may not write in {target.parent}, or the file is open in another program; "
            "close it or choose another folder"
        )
    if failed.errno in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full; make room and try again (the old file is as it was)"
    if failed.errno == errno.EROFS:
        return f"{target.parent} can only be read; choose another folder"
    if failed.errno == errno.ENAMETOOLONG:
        return "the name is too long; choose a shorter one"
    return f"could not be written ({failed.strerror or failed}); the old file is as it was"
