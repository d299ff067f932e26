"""The position map against documents that say themselves where each of their keys stands."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.design.lines import key_lines
from mockup.design.model import KeyPath

SCALARS = (
    "1", "-2.5", "1e3", "0xff", "true", "inf", "2027-03-14", "2027-03-14 10:30:00", "10:30:00",
    '"a # no comment = [x]"', "'lit{eral}'", '"esc \\" quote, ]"', '""', "''",
    '"""two\n[not.a.table]\nkey = 1 "quoted" """', "'''three\n\n# no comment''s'''",
    '"""\\\n  joined \\\n  lines"""', '"""ends in quotes"""""', "'''x''''",
)  # fmt: skip
KEYS = ("a", "b", "clusters", "size", "x-1", "_y", "7", '"quoted key"', "'li.teral'", '"t\\u0061b"')
COMMENTS = ("", "  # a = 1", " # [x]", "\n", "\n# {y = 2}\n")


def plain(key: str) -> str:
    return next(iter(tomllib.loads(f"{key} = 0")))


@dataclass
class Writer:
    """Writes a random document and notes where each key path of it first stands."""

    random: Random
    text: str = ""
    lines: dict[KeyPath, int] = field(default_factory=dict)

    @property
    def line(self) -> int:
        return self.text.count("\n") + 1

    def note(self, path: KeyPath) -> None:
        self.lines.setdefault(path, self.line)

    def keys(self, most: int) -> list[str]:
        return self.random.sample(KEYS, self.random.randint(0, most))

    def table(self, path: KeyPath, header: str, depth: int) -> None:
        """Plain values first, then tables and lists of tables under their own headers."""
        for key in self.keys(4):
            self.pair(path, key, depth)
            self.text += self.random.choice(("\n", "  # end\n", "\n\n", "\r\n"))
        if depth <= 0:
            return
        taken = {part[len(path)] for part in self.lines if len(part) > len(path)}
        for key in self.keys(2):
            if plain(key) not in taken:
                self.headed(path, header, key, depth)

    def headed(self, path: KeyPath, header: str, key: str, depth: int) -> None:
        inner, name = (*path, plain(key)), f"{header}.{key}".lstrip(".")
        if self.random.random() < 0.5:
            self.note(inner)
            self.text += f"{self.random.choice(('', '  '))}[{name}] # a table\n"
            self.table(inner, name, depth - 1)
            return
        for index in range(self.random.randint(1, 3)):
            self.note(inner)
            self.note((*inner, index))
            self.text += f"[[ {name} ]]\n"
            self.table((*inner, index), name, depth - 1)

    def pair(self, path: KeyPath, key: str, depth: int) -> None:
        parts = [key]
        if self.random.random() < 0.3:
            parts += self.keys(2)
        for number in range(1, len(parts) + 1):
            self.note((*path, *(plain(part) for part in parts[:number])))
        self.text += self.random.choice((".", " . ")).join(parts) + self.random.choice(("=", " = "))
        self.value((*path, *(plain(part) for part in parts)), depth)

    def value(self, path: KeyPath, depth: int) -> None:
        kind = self.random.random()
        if depth <= 0 or kind < 0.5:
            self.text += self.random.choice(SCALARS)
        elif kind < 0.75:
            self.items(path, depth - 1)
        else:
            self.inline(path, depth - 1)

    def items(self, path: KeyPath, depth: int) -> None:
        self.text += "[" + self.gap()
        count = self.random.randint(0, 3)
        for index in range(count):
            self.note((*path, index))
            self.value((*path, index), depth)
            self.text += self.gap()
            self.text += "," if index < count - 1 or self.random.random() < 0.5 else ""
            self.text += self.gap()
        self.text += "]"

    def gap(self) -> str:
        chosen = self.random.choice(COMMENTS)
        return chosen + "\n" if "#" in chosen and not chosen.endswith("\n") else chosen

    def inline(self, path: KeyPath, depth: int) -> None:
        self.text += "{ "
        for number, key in enumerate(self.keys(3)):
            self.text += ", " if number else ""
            self.pair(path, key, depth)
        self.text += " }"


def key_paths(data: object, path: KeyPath = ()) -> set[KeyPath]:
    inner: list[tuple[str | int, object]] = []
    if isinstance(data, dict):
        inner = list(data.items())
    elif isinstance(data, list):
        inner = list(enumerate(data))
    found = {path} if path else set()
    return found.union(*(key_paths(value, (*path, key)) for key, value in inner))


@settings(max_examples=200, deadline=None)
@given(st.randoms(use_true_random=False))
def test_every_key_path_has_the_line_on_which_it_was_written(random: Random) -> None:
    writer = Writer(random)
    writer.table((), "", 3)
    try:
        data = tomllib.loads(writer.text)
    except tomllib.TOMLDecodeError:
        return  # dotted keys drawn at random may collide; such documents are another test's matter
    assert key_lines(writer.text) == writer.lines
    assert set(key_lines(writer.text)) == key_paths(data)


def test_most_of_the_random_documents_are_right_and_deep() -> None:
    """The law above would prove nothing if its documents were refused or empty."""
    right, deepest = 0, 0
    for seed in range(200):
        writer = Writer(Random(seed))
        writer.table((), "", 3)
        try:
            paths = key_paths(tomllib.loads(writer.text))
        except tomllib.TOMLDecodeError:
            continue
        right += bool(paths)
        deepest = max(deepest, *(len(path) for path in paths), 0)
    assert right > 120
    assert deepest >= 6


@pytest.mark.parametrize(
    ("text", "path", "line"),
    [
        ("[a.b]\nc = 1\n[a]\nd = 2\n", ("a",), 3),
        ("[[s]]\n[s.t]\nu = 1\n[[s]]\n[s.t]\nu = 2\n", ("s", 1, "t", "u"), 6),
        ("[[s]]\n[[s.c]]\n[[s.c]]\nk = 1\n[[s]]\n[[s.c]]\nk = 2\n", ("s", 1, "c", 0, "k"), 7),
        ("a = 1\r\nb = 2\r\n", ("b",), 2),
        ('"a.b" = 1\na.b = 2\n', ("a", "b"), 2),
        ("x = [\n\n  { y = 1 }, # one\n  { y = 2 },\n]\n", ("x", 1, "y"), 4),
        ("# only\n\n\nz = 1", ("z",), 4),
    ],
)
def test_lines_of_particular_documents(text: str, path: KeyPath, line: int) -> None:
    assert key_lines(text)[path] == line


@settings(max_examples=300)
@given(st.text(alphabet="ab1.=[]{}\"',#\\\n ", max_size=60))
def test_no_text_at_all_trips_the_walk(text: str) -> None:
    lines = key_lines(text)
    assert all(1 <= line <= text.count("\n") + 1 for line in lines.values())


def test_a_broken_document_keeps_the_lines_above_its_slip() -> None:
    assert key_lines("a = 1\nb = ]\nc = 2\n") == {("a",): 1, ("b",): 2}
