"""A whole TOML file read by its table of keys, with every fault told by its line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import TypeVar

from mockup.design.faults import At, FaultList
from mockup.design.lines import key_lines
from mockup.design.model import KeyPath
from mockup.design.syntax import by_line, parse
from mockup.design.tables import Given, Table
from mockup.errors import FaultsFound
from mockup.records import dataclass

Built = TypeVar("Built")


@dataclass(frozen=True)
class Source:
    """The file that is being read: what it is called, where its keys stand, what is wrong in it."""

    file: str
    lines: dict[KeyPath, int]
    faults: FaultList = field(default_factory=FaultList)

    def line(self, path: KeyPath) -> int:
        """The line of a key path, or of the nearest thing that encloses it; 0 without one."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 0)

    def where(self, path: KeyPath) -> str:
        """``file:line`` of a key path."""
        return f"{self.file}:{max(self.line(path), 1)}"


def read_toml(text: str, file: str, table: Table, build: Callable[[Given, Source], Built]) -> Built:
    """What ``build`` makes of a text read by ``table``; raises ``FaultsFound`` with every fault."""
    parsed = parse(text)
    source = Source(file, key_lines(parsed.text))
    given = table.read(parsed.data, At(source.faults)) if parsed.data is not None else None
    built = build(given, source) if given is not None else None
    every = by_line(parsed, source.faults.told(source.line, source.file), source.file)
    if every or built is None:
        raise FaultsFound(every)
    return built
