"""The house: imports go down only, and rooms on one floor do not import each other."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "mockup"
FLOORS = {
    "cli": 6, "bench": 6,
    "worksheets": 5,
    "render": 4, "stock": 4, "suggest": 4,
    "piece": 3,
    "design": 2,
    "packing": 1, "panel": 1, "colour": 1, "symmetry": 1,
    "lengths": 0, "errors": 0, "spelling": 0, "records": 0, "platforms": 0,
}  # fmt: skip
DOORS = {"__init__", "__main__"}  # the package's own two files may look at any floor
HEAVY = {
    "svgwrite": {"render/svg.py"},
    "cairocffi": {"render/painting.py"},
    "resvg_py": {"render/fallback.py"},
    "click": {"cli", "bench"},
}


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def imports(source: str) -> tuple[tuple[int, str], ...]:
    """Every import with its line; each source is read once for all the tests here."""
    return tuple(_imports(source))


def _imports(source: str) -> Iterator[tuple[int, str]]:
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.lineno, "." * node.level + (node.module or "")


def breaches(room: str, source: str) -> list[str]:
    found = []
    for line, name in imports(source):
        if name.startswith("."):
            found.append(f"{line}: relative import {name}")
        parts = name.split(".")
        if parts[0] != "mockup" or len(parts) < 2 or parts[1] == room:
            continue
        if FLOORS[parts[1]] >= max(FLOORS[room], 1):
            found.append(f"{line}: {room} imports {name}")
    return found


def modules() -> list[Path]:
    return sorted(p for p in PACKAGE.rglob("*.py") if room_of(p) not in DOORS)


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_go_down_only(path: Path) -> None:
    assert breaches(room_of(path), path.read_text(encoding="utf-8")) == []


def test_every_room_has_a_floor() -> None:
    assert {room_of(p) for p in modules()} <= set(FLOORS)


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("panel", "from mockup.packing.frames import Ring"),
        ("packing", "import mockup.design.model"),
        ("stock", "from mockup.render.svg import svg_text"),
        ("worksheets", "from mockup.cli.showing import show"),
        ("piece", "from .placed import Piece"),
    ],
)
def test_the_walk_sees_a_breach(room: str, source: str) -> None:
    assert len(breaches(room, source)) == 1


@pytest.mark.parametrize("library", sorted(HEAVY))
def test_a_library_lives_in_one_place(library: str) -> None:
    users = {
        str(path.relative_to(PACKAGE))
        for path in modules()
        if any(name.split(".")[0] == library for _, name in imports(path.read_text("utf-8")))
    }
    allowed = HEAVY[library]
    assert {u for u in users if u not in allowed and u.split("/")[0] not in allowed} == set()


def test_rooms_below_the_command_line_import_no_heavy_library_at_the_top() -> None:
    """Import time is part of every command: the slow libraries are imported where needed."""
    slow = {"svgwrite", "cairosvg", "cairocffi", "fontTools", "resvg_py", "PIL", "scipy"}
    for path in modules():
        top = ast.parse(path.read_text(encoding="utf-8")).body
        names = {
            name.split(".")[0]
            for node in top
            if isinstance(node, ast.Import | ast.ImportFrom)
            for _, name in imports(ast.unparse(node))
        }
        assert not names & slow, f"{path.name} imports {names & slow} at its top"
