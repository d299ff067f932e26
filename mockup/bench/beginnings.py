"""Where a piece begins: a sample, or three answers (frame, numerals, colours)."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from itertools import cycle
from pathlib import Path
from typing import Any

from mockup.bench.edits import Change, edited
from mockup.colour.palettes import Palette
from mockup.design.opening import read_text
from mockup.design.palette_files import gather_palettes, shipped_folder
from mockup.design.reading import design_from_text
from mockup.design.starter import begun_text, starter_name, starter_text
from mockup.design.starter_frames import BEGINNINGS
from mockup.errors import Fault, FaultsFound
from mockup.lengths import Unit

_RING = "ring"
_RINGS = ("20in", "24in", "26in", "30in", "36in")


@cache
def samples() -> dict[str, Path]:
    """The samples by name, in the order of their names: those that need no other file beside."""
    files = sorted(shipped_folder("samples").glob("*.toml"))
    return {file.stem: file for file in files if _stands_alone(file)}


def _stands_alone(file: Path) -> bool:
    """Whether it is a piece that reads the same in any folder: none with a picture of its own."""
    if file.name.endswith(".palette.toml"):
        return False
    try:
        design_from_text(read_text(file), file.name)
    except FaultsFound:
        return False
    return True


def sample_text(name: object) -> str:
    """The text of one sample; raises ``FaultsFound`` for a name that is none."""
    file = samples().get(name) if isinstance(name, str) else None
    if file is None:
        raise FaultsFound([Fault("", "there is no such sample", "choose one of those shown")])
    return read_text(file)


def sample_list() -> list[dict[str, Any]]:
    """Every sample's name and title."""
    return [
        {"name": name, "title": design_from_text(read_text(file), file.name).title}
        for name, file in samples().items()
    ]


def palette_list(folder: Path | None) -> list[dict[str, Any]]:
    """Every palette with its colours, the user's own beside the piece among them."""
    palettes, _ = gather_palettes(folder)
    return [_plain(palettes[name]) for name in sorted(palettes)]


def _plain(palette: Palette) -> dict[str, Any]:
    return {
        "name": palette.name,
        "says": palette.says,
        "colours": [
            {"name": each.name, "srgb": each.srgb, "finish": each.finish}
            for each in palette.colours
        ],
    }


def answered(answers: dict[str, Any], folder: Path | None) -> tuple[str, str]:
    """The file name and the text of the piece that three answers make.

    They are ``title``, ``frame`` (a ring without it), its ``size``, ``numerals`` (may be empty),
    ``palette`` and ``unit``. Raises ``FaultsFound``.
    """
    words = {key: _word(answers, key) for key in ("title", "frame", "size", "numerals", "palette")}
    title, numerals = words["title"] or "A new piece", words["numerals"]
    unit: Unit = "cm" if answers.get("unit") == "cm" else "in"
    text = _begun(title, words["frame"] or _RING, words["size"], numerals, unit)
    plain = tomllib.loads(text)
    changes = _colours(words["palette"], plain["colours"], folder)
    if not numerals and "panel" in plain:
        changes.append({"do": "unset", "path": ["panel"]})
    return starter_name(title), edited(text, changes)


def _begun(title: str, frame: str, size: str, numerals: str, unit: Unit) -> str:
    if frame == _RING:
        return starter_text(title, ring=size, numerals=numerals or "1", unit=unit)
    if frame not in BEGINNINGS:
        raise FaultsFound([Fault("", "there is no such frame", "choose one of those shown")])
    begin = BEGINNINGS[frame]
    wished = numerals if begin.numerals else ""
    return begun_text(title, begin, size=size, numerals=wished, unit=unit)


def frame_list() -> list[dict[str, Any]]:
    """The frames to begin with: their names, which measure is asked, and the sizes offered."""
    ring = {"name": _RING, "asks": "its outside", "sizes": _RINGS, "numerals": True}
    return [ring] + [
        {
            "name": name,
            "asks": each.size_is,
            "sizes": each.usual,
            "numerals": bool(each.numerals),
        }
        for name, each in BEGINNINGS.items()
    ]


def _word(answers: dict[str, Any], key: str) -> str:
    said = answers.get(key, "")
    return said.strip() if isinstance(said, str) else ""


def _colours(name: str, letters: Iterable[str], folder: Path | None) -> list[Change]:
    palettes, _ = gather_palettes(folder)
    if name not in palettes:
        what = "no palette was chosen" if not name else "there is no such palette"
        raise FaultsFound([Fault("", what, "choose one of those shown")])
    in_turn = cycle(palettes[name].colours)
    chosen: list[Change] = [{"do": "set", "path": ["palette"], "value": name}]
    return chosen + [
        {"do": "set", "path": ["colours", letter], "value": colour.name}
        for letter, colour in zip(letters, in_turn, strict=False)
    ]
