"""From a path to the text in it: what is no text file of a sensible size is refused in words."""

from __future__ import annotations

import codecs
import stat
from pathlib import Path

from mockup.errors import Fault, FaultsFound
from mockup.spelling import nearest_name

MOST_BYTES = 1_000_000
_ENDING = ".toml"
SAVE_AS_UTF8 = "save it as plain text in UTF-8"
START = "'mockup new NAME' writes a piece to start from"
_WIDE = {
    codecs.BOM_UTF32_LE: "UTF-32",
    codecs.BOM_UTF32_BE: "UTF-32",
    codecs.BOM_UTF16_LE: "UTF-16",
    codecs.BOM_UTF16_BE: "UTF-16",
}
_MAGIC = {
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"PK\x03\x04": "a packed document, such as a spreadsheet",
}
_BINARY_SIGN = bytes(range(0x0E, 0x1A))


def read_text(path: Path, start: str = START) -> str:
    """The text of a file of at most a megabyte, UTF-8 with or without a mark at its start.

    ``start`` says how to come by such a file, where there is none or nothing in it.
    Raises ``FaultsFound`` with one fault for anything else: a folder, no file, another encoding.
    """
    shown = str(path)
    data = _bytes(path, shown, start)
    if len(data) > MOST_BYTES:
        raise _refused(shown, "is larger than 1 MB", "a piece file has some dozen lines of text")
    _refuse_other_kinds(data, shown, start)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        line = data.count(b"\n", 0, trouble.start) + 1
        raise _refused(f"{shown}:{line}", "is not written in UTF-8", SAVE_AS_UTF8) from trouble


def _bytes(path: Path, shown: str, start: str) -> bytes:
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise _refused(shown, "is a folder", _name_a_file_in(path))
        if not stat.S_ISREG(mode):
            raise _refused(shown, "is no ordinary file", "name a .toml file")
        with path.open("rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except FileNotFoundError as trouble:
        raise _refused(shown, "there is no such file", _nearest_file(path, start)) from trouble
    except (OSError, ValueError) as trouble:
        reason = getattr(trouble, "strerror", None) or "the name is not one a file can have"
        raise _refused(shown, f"cannot be read ({reason})", "") from trouble


def _refused(where: str, what: str, instead: str) -> FaultsFound:
    printable = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in where)
    return FaultsFound([Fault(printable, what, instead)])


def _refuse_other_kinds(data: bytes, shown: str, start: str) -> None:
    for mark, name in _WIDE.items():
        if data.startswith(mark):
            raise _refused(shown, f"is written in {name}", SAVE_AS_UTF8)
    for mark, name in _MAGIC.items():
        if data.startswith(mark):
            raise _refused(shown, f"is {name}, not a text file", "name a .toml file")
    if data[:2000].count(0) * 3 > len(data[:2000]):
        raise _refused(shown, "looks like UTF-16 without its mark", SAVE_AS_UTF8)
    if 0 in data or any(byte in data for byte in _BINARY_SIGN):
        raise _refused(shown, "is not a text file", "name a .toml file")
    if not data.strip(b" \t\r\n\xef\xbb\xbf"):
        raise _refused(shown, "is empty", start)


def _toml_files(folder: Path) -> list[str]:
    try:
        return sorted(one.name for one in folder.glob("*.toml"))
    except OSError:
        return []


def _name_a_file_in(folder: Path) -> str:
    pieces = [name for name in _toml_files(folder) if not name.endswith(".palette.toml")]
    return f"name a file in it, such as {folder / pieces[0]}" if pieces else "name a .toml file"


def _nearest_file(path: Path, start: str) -> str:
    """The file whose name without its ending is near; the ending is all but the same in all."""
    by_stem = {name.removesuffix(_ENDING): name for name in _toml_files(path.parent)}
    stem = path.stem if path.suffix.isascii() and len(path.suffix) <= len(_ENDING) else path.name
    near = path.name if path.name in by_stem else nearest_name(stem, by_stem)
    if near is not None:
        return f"did you mean {path.parent / by_stem[near]}?"
    return start
