"""The one path in a drawing file (.svg), as path data in the drawing's own units."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from mockup.design.faults import FaultList
from mockup.design.model import KeyPath
from mockup.errors import printable

if TYPE_CHECKING:
    from xml.etree import ElementTree

_MOST_BYTES = 5_000_000
_ONE = "leave one path in it, the centre line of the tube"


class _Unfit(Exception):
    """A drawing that gives no path: what is wrong, and what to do instead."""


def path_in(name: str, folder: Path | None, at: KeyPath, faults: FaultList) -> str:
    """The path data of the only path in a drawing; "" after a fault."""
    try:
        return _path_data(_text(name, folder), printable(name))
    except _Unfit as wrong:
        what, instead = wrong.args
        faults.add(at, what, instead)
        return ""


def _text(name: str, folder: Path | None) -> bytes:
    shown = printable(name)
    if folder is None:
        raise _Unfit(f"'{shown}' cannot be looked for", "write the path itself as 'line'")
    try:
        with (folder / name).open("rb") as stream:
            data = stream.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as wrong:
        raise _Unfit(f"the drawing '{shown}' cannot be read", "name an .svg file") from wrong
    if len(data) > _MOST_BYTES:
        raise _Unfit(f"the drawing '{shown}' is larger than 5 MB", _ONE)
    # A document type can name entities that unfold without end.
    if b"<!DOCTYPE" in data or b"<!ENTITY" in data:
        raise _Unfit(f"the drawing '{shown}' has a document type", "save it as plain SVG")
    return data


def _path_data(data: bytes, shown: str) -> str:
    from xml.etree import ElementTree  # only a drawn frame needs it

    try:
        root = ElementTree.fromstring(data)
    except (ElementTree.ParseError, ValueError) as wrong:
        raise _Unfit(f"'{shown}' is no SVG drawing", "save it as plain SVG") from wrong
    found = list(_paths(root, ""))
    if len(found) != 1:
        count = "no path" if not found else f"{len(found)} paths"
        raise _Unfit(f"the drawing '{shown}' has {count}", _ONE)
    line, moved = found[0]
    return _moved(line, moved, shown) if moved.strip() else line


def _paths(node: ElementTree.Element, moved: str) -> list[tuple[str, str]]:
    """Every path's data with the transforms that hold for it, outermost first."""
    moved = f"{moved} {node.get('transform', '')}"
    tag = node.tag.rpartition("}")[2] if isinstance(node.tag, str) else ""
    own = [(node.get("d", ""), moved)] if tag == "path" and node.get("d") else []
    within = [] if tag in ("defs", "clipPath", "mask", "symbol") else list(node)
    return own + [each for child in within for each in _paths(child, moved)]


def _moved(line: str, transform: str, shown: str) -> str:
    import svgelements as svg

    try:
        return str((svg.Path(line) * svg.Matrix(transform)).reify().d())
    except (ValueError, IndexError, TypeError, AttributeError) as wrong:
        raise _Unfit(f"the path in '{shown}' cannot be read", "save it as plain SVG") from wrong
