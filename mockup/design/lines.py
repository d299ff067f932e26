"""On which line of a TOML document each key path stands.

The standard reader keeps no positions. This walk over the same text does, for documents which that
reader has accepted; on others it stops where it no longer understands the text.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right

from mockup.design.model import KeyPath

_GAP = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_KEY = re.compile(r"""[A-Za-z0-9_-]++|"(?:[^"\\\n]|\\.)*+"|'[^'\n]*+'""")
_DOT = re.compile(r"[ \t]*+\.[ \t]*+")
_BLANK = re.compile(r"[ \t]*+")
_STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*+"{3,5}'
    r"|'''(?:[^']|'(?!''))*+'{3,5}"
    r'|"(?:[^"\\\n]|\\.)*+"'
    r"|'[^'\n]*+'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}#\n]++")


def key_lines(text: str) -> dict[KeyPath, int]:
    """The line (from 1) of every key path, table and list item of a TOML document.

    A table that several headers or dotted keys build stands where it is first named, or at its own
    header where it has one.

    >>> key_lines('a = 1\\n[[b]]\\nc = [\\n{ d = 2 } ]')[("b", 0, "c", 0, "d")]
    4
    """
    walk = _Walk(text.replace("\r\n", "\n"))
    walk.document()
    return walk.lines


class _Lost(Exception):
    """The text is not the TOML that this walk knows."""


class _Walk:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.starts = [0, *(found.end() for found in re.finditer("\n", text))]
        self.lines: dict[KeyPath, int] = {}
        self.last_item: dict[KeyPath, int] = {}

    def document(self) -> None:
        table: KeyPath = ()
        try:
            self.skip(_GAP)
            while self.at < len(self.text):
                if self.text[self.at] == "[":
                    table = self.header()
                else:
                    self.pair(table)
                self.skip(_GAP)
        except (_Lost, tomllib.TOMLDecodeError, RecursionError):
            return

    def skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            raise _Lost
        self.at = found.end()
        return found[0]

    def take(self, mark: str) -> bool:
        if not self.text.startswith(mark, self.at):
            return False
        self.at += len(mark)
        return True

    def need(self, mark: str) -> None:
        if not self.take(mark):
            raise _Lost

    def line(self) -> int:
        return bisect_right(self.starts, self.at)

    def key(self) -> list[str]:
        parts = [_plain_key(self.skip(_KEY))]
        while found := _DOT.match(self.text, self.at):
            self.at = found.end()
            parts.append(_plain_key(self.skip(_KEY)))
        return parts

    def header(self) -> KeyPath:
        line = self.line()
        self.need("[")
        double = self.take("[")
        self.skip(_BLANK)
        parts = self.key()
        self.skip(_BLANK)
        self.need("]]" if double else "]")
        path = (*self.parent(parts[:-1], line), parts[-1])
        if double:
            self.lines.setdefault(path, line)
            self.last_item[path] = self.last_item.get(path, -1) + 1
            path = (*path, self.last_item[path])
        self.lines[path] = line
        return path

    def parent(self, parts: list[str], line: int) -> KeyPath:
        """The path of a header's outer tables: inside a list of tables, its last one is meant."""
        path: KeyPath = ()
        for part in parts:
            path = (*path, part)
            self.lines.setdefault(path, line)
            if path in self.last_item:
                path = (*path, self.last_item[path])
        return path

    def pair(self, table: KeyPath) -> None:
        line, path = self.line(), table
        for part in self.key():
            path = (*path, part)
            self.lines.setdefault(path, line)
        self.skip(_BLANK)
        self.need("=")
        self.skip(_BLANK)
        self.value(path)

    def value(self, path: KeyPath) -> None:
        if self.text.startswith(('"', "'"), self.at):
            self.skip(_STRING)
        elif self.take("["):
            self.items(path)
        elif self.take("{"):
            self.inline_table(path)
        else:
            self.skip(_PLAIN)

    def items(self, path: KeyPath) -> None:
        index = 0
        self.skip(_GAP)
        while not self.take("]"):
            self.lines[(*path, index)] = self.line()
            self.value((*path, index))
            index += 1
            self.next_one("]")

    def inline_table(self, path: KeyPath) -> None:
        self.skip(_GAP)
        while not self.take("}"):
            self.pair(path)
            self.next_one("}")

    def next_one(self, end: str) -> None:
        self.skip(_GAP)
        if self.take(","):
            self.skip(_GAP)
        elif not self.text.startswith(end, self.at):
            raise _Lost


def _plain_key(written: str) -> str:
    if written[0] == "'":
        return written[1:-1]
    if written[0] != '"':
        return written
    return next(iter(tomllib.loads(f"{written} = 0")))
