"""A picture beside the piece file (.png), read as pixels; everything else is refused in words."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path
from typing import TYPE_CHECKING

from mockup.design.faults import FaultList
from mockup.design.model import KeyPath
from mockup.errors import printable

if TYPE_CHECKING:
    from mockup.colour.mosaics import Bytes

MOST_BYTES = 10_000_000
MOST_PIXELS = 4_000_000
_MAGIC = b"\x89PNG\r\n\x1a\n"
_SMALLER = "save it smaller: a cell is one balloon, and 1,000 pixels across are plenty"
_BESIDE = "put the picture into the piece file's folder, and name it"


class _Unfit(Exception):
    """A file that gives no picture: what is wrong, and what to do instead."""


def pixels_in(name: str, folder: Path | None, at: KeyPath, faults: FaultList) -> Bytes | None:
    """The picture as (height, width, 4) of red, green, blue and alpha; None after a fault."""
    shown = printable(name)
    try:
        return _pixels(_bytes(name, folder, shown), shown)
    except _Unfit as wrong:
        what, instead = wrong.args
        faults.add(at, what, instead)
        return None


def _bytes(name: str, folder: Path | None, shown: str) -> bytes:
    if folder is None:
        raise _Unfit(f"the picture '{shown}' cannot be looked for", "open the piece from its file")
    try:
        home = folder.resolve()
        file = (home / name).resolve()
        if not file.is_relative_to(home):
            raise _Unfit(f"the picture '{shown}' lies outside the folder of the piece", _BESIDE)
        if not file.is_file():
            raise _Unfit(f"there is no picture '{shown}' beside the piece", _BESIDE)
        with file.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError, RuntimeError) as wrong:
        raise _Unfit(f"the picture '{shown}' cannot be read", "name a .png file") from wrong
    if len(data) > MOST_BYTES:
        raise _Unfit(f"the picture '{shown}' is larger than 10 MB", _SMALLER)
    return data


def _pixels(data: bytes, shown: str) -> Bytes:
    if not data.startswith(_MAGIC):
        raise _Unfit(f"the picture '{shown}' is no PNG", "save it as PNG")
    wide, high = _measures(data, shown)
    # Judged before a pixel is unpacked: a small file may unfold to gigabytes.
    if wide * high > MOST_PIXELS:
        raise _Unfit(f"the picture '{shown}' is {wide:,} x {high:,} pixels", _SMALLER)
    return _decoded(data, shown)


def _measures(data: bytes, shown: str) -> tuple[int, int]:
    """Width and height from the first chunk (PNG, ISO/IEC 15948, 11.2.2)."""
    if len(data) < 24 or data[12:16] != b"IHDR":
        raise _Unfit(f"the picture '{shown}' is damaged", "save it as PNG again")
    wide, high = struct.unpack(">II", data[16:24])
    return wide, high


def _decoded(data: bytes, shown: str) -> Bytes:
    from io import BytesIO

    import numpy as np
    from PIL import Image  # only a wall with a picture needs it

    try:
        with Image.open(BytesIO(data), formats=["PNG"]) as picture:
            if picture.mode.startswith("I"):
                # Sixteen bits of grey: its upper eight.
                grey = (np.asarray(picture, dtype=np.int64) >> 8).astype(np.uint8)
                solid = np.full_like(grey, 255)
                return np.stack([grey, grey, grey, solid], axis=-1)
            return np.asarray(picture.convert("RGBA"), dtype=np.uint8)
    except (
        *(OSError, SyntaxError, ValueError, EOFError, MemoryError, OverflowError, IndexError),
        *(struct.error, zlib.error, Image.DecompressionBombError),
    ) as wrong:
        raise _Unfit(f"the picture '{shown}' is damaged", "save it as PNG again") from wrong
