"""What the page may ask beyond the piece itself: papers, options, suggestions, what to buy."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from mockup.bench import answers
from mockup.bench.buying import bought
from mockup.bench.desk import Desk
from mockup.bench.edits import NotCarriedOut
from mockup.bench.looks import look_from
from mockup.bench.papers import MEDIA, PAGE_POLICY, Source, write_paper
from mockup.bench.seeking import Seeking
from mockup.bench.versions import compared
from mockup.errors import CannotWrite

Asked = dict[str, Any]


def _paper(desk: Desk, asked: Asked) -> dict[str, Any]:
    """One paper, of the piece as it is saved: what is not saved yet is saved first."""
    look = look_from(asked.get("look"))
    with desk.lock:
        _whole_text(desk)
        if desk.file is None or desk.now.piece is None:
            raise CannotWrite("there is no piece to draw yet")
        if not desk.is_saved or not desk.file.exists():
            desk.save()
        way = _way(desk, look.way)
        source = Source(desk.now.piece, desk.file, look.letters, way)
    made = write_paper(str(asked.get("kind", "")), source)
    desk.made[made["name"]] = source.file.with_name(made["name"])
    return {**answers.standing(desk), **made}


def _whole_text(desk: Desk) -> None:
    if desk.now.faults:
        raise NotCarriedOut("mend the text first: papers are made of a piece without faults")


def _way(desk: Desk, number: int) -> str:
    """A colourway's name by its number on the page; the first colours have none."""
    piece = desk.good.piece if desk.good else None
    ways = piece.design.colourways if piece else ()
    return ways[number - 1].name if 0 < number <= len(ways) else ""


def _buying(desk: Desk, asked: Asked) -> dict[str, Any]:
    with desk.lock:
        way = _way(desk, look_from(asked.get("look")).way)
    return bought(desk, way)


def _options(desk: Desk, asked: Asked) -> dict[str, Any]:
    return compared(desk, look_from(asked.get("look")))


def _seek(desk: Desk, asked: Asked) -> dict[str, Any]:
    """Begin a search for suggestions; one that runs is stopped."""
    del asked
    with desk.lock:
        _whole_text(desk)
        if desk.seeking is not None:
            desk.seeking.stop()
        file = desk.file or desk.folder / "piece.toml"
        desk.seeking = Seeking(desk.now.text, file)
        return desk.seeking.told()


def _sought(desk: Desk, asked: Asked) -> dict[str, Any]:
    """How far the search is; with ``stop`` it ends soon, with the best so far."""
    with desk.lock:
        seeking = desk.seeking
    if seeking is None:
        raise NotCarriedOut("nothing is being sought")
    if asked.get("stop") is True:
        seeking.stop()
    return seeking.told()


HANDOUTS: dict[str, Callable[[Desk, Asked], dict[str, Any]]] = {
    "paper": _paper,
    "buying": _buying,
    "options": _options,
    "seek": _seek,
    "sought": _sought,
}
"""Each of these calls by its name; they hold the desk only while they read it."""


def made_paper(desk: Desk, name: str) -> tuple[bytes, dict[str, str]] | None:
    """A paper made in this run, with its headers; None for any other name."""
    path: Path | None = desk.made.get(name)
    if path is None or not path.is_file():
        return None
    headers = {"content-type": MEDIA[path.suffix]}
    if path.suffix == ".html":
        headers["content-security-policy"] = PAGE_POLICY
    return path.read_bytes(), headers
