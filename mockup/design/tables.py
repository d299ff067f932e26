"""Kinds that hold other kinds: tables with known keys, lists, free keys, and either-or."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, TypeVar, cast

from mockup.design.faults import At, FaultList, shown
from mockup.design.kinds import Kind, Matching, Schema
from mockup.design.model import KeyPath
from mockup.errors import printable
from mockup.spelling import did_you_mean, nearest_name

T = TypeVar("T")


class Key(NamedTuple):
    """One key of a table: its kind, one line of words for people, and what holds without it.

    ``default`` is written as in a file ("30in", 4, true); None means that nothing holds.
    """

    name: str
    kind: Kind
    words: str
    default: object = None
    required: bool = False
    example: str = ""

    def right_value(self) -> str:
        """A right value in TOML: the key's own example, its default, or its kind's example."""
        written = isinstance(self.default, str | int | float)
        return self.example or (as_toml(self.default) if written else self.kind.example)

    def schema(self) -> Schema:
        """The kind's schema with the words and the default."""
        default = {} if self.default is None else {"default": self.default}
        return {**self.kind.schema(), "description": self.words, **default}


class Given(NamedTuple):
    """A table as read: every known key has a value (its default, or None), all well formed."""

    path: KeyPath
    values: Mapping[str, object]
    written: frozenset[str] = frozenset()

    def get(self, key: str, default: T) -> T:
        """The value of a key; ``default`` where there is none, or where it was at fault."""
        value = self.values.get(key)
        return default if value is None else cast(T, value)

    def table(self, key: str) -> Given | None:
        """The table under a key, where there is one."""
        value = self.values.get(key)
        return value if isinstance(value, Given) else None

    def tables(self, key: str) -> list[Given]:
        """The tables in the list under a key."""
        value = self.values.get(key)
        return [one for one in value if isinstance(one, Given)] if isinstance(value, list) else []

    def at(self, key: str) -> KeyPath:
        """The key path of one of its keys."""
        return (*self.path, key)


class Table(NamedTuple):
    """A table with known keys. ``apart`` names pairs of keys that exclude each other.

    ``name`` is what people call it; ``defined`` is its name among the schema's definitions, for
    tables that stand in several places.
    """

    name: str
    words: str
    keys: tuple[Key, ...]
    apart: tuple[tuple[str, str], ...] = ()
    defined: str = ""
    example: str = "{}"

    @property
    def by_name(self) -> dict[str, Key]:
        """Its keys by name."""
        return {key.name: key for key in self.keys}

    def takes(self, written: object) -> bool:
        """Any table."""
        return isinstance(written, dict)

    def read(self, written: object, at: At) -> Given | None:
        """Every known key read, every unknown one refused."""
        if not isinstance(written, dict):
            at.fault(*self._not_a_table(written, at))
            return None
        for name in written:
            if name not in self.by_name:
                self._unknown(name, written, at)
        for one, other in self.apart:
            if one in written and other in written:
                at.inside(other).fault(f"{self.name} has both '{one}' and '{other}'", "keep one")
        values = {key.name: self._value(key, written, at) for key in self.keys}
        return Given(at.path, values, frozenset(written))

    def _not_a_table(self, written: object, at: At) -> tuple[str, str]:
        if isinstance(written, list) and at.path and isinstance(at.path[-1], str):
            return f"'{at.key}' is given as a list", f"write [{at.key}] with single brackets"
        return f"{self.name} is {shown(written)}, and must be a table", at.right_form()

    def _unknown(self, name: str, written: Mapping[str, object], at: At) -> None:
        if at.faults.full:
            at.faults.add(at.inside(name).path, "")
            return
        near = nearest_name(name, self.by_name)
        astray = name in at.top and near is None
        if near is not None and near not in written:
            at.faults.excuse(at.inside(near).path)
        hint = "write it at the top of the file" if astray else did_you_mean(name, self.by_name)
        at.inside(name).fault(f"{self.name} has no key '{printable(name)}'", hint)

    def _value(self, key: Key, written: Mapping[str, object], at: At) -> object:
        here = at.inside(key.name, key.right_value())
        if key.name in written:
            return key.kind.read(written[key.name], here)
        if key.required and not at.faults.touches(here.path):
            here.fault(f"{self.name} has no '{key.name}'")
        if key.default is None:
            return None
        return key.kind.read(key.default, At(FaultList(), here.path))

    def schema(self) -> Schema:
        """A reference where the table is defined once, the table itself otherwise."""
        return {"$ref": f"#/$defs/{self.defined}"} if self.defined else self.full_schema()

    def full_schema(self) -> Schema:
        """An object that holds these keys and no others."""
        required = [key.name for key in self.keys if key.required]
        apart = [{"not": {"required": list(pair)}} for pair in self.apart]
        return {
            "type": "object",
            "description": self.words,
            "properties": {key.name: key.schema() for key in self.keys},
            **({"required": required} if required else {}),
            **({"allOf": apart} if apart else {}),
            "additionalProperties": False,
        }


class ListOf(NamedTuple):
    """A list of one kind, with a least and a most length; ``of`` is what its items are called."""

    item: Kind
    of: str
    least: int = 0
    most: int = 2000
    headed: bool = False

    @property
    def example(self) -> str:
        """The list in TOML."""
        return f"[{', '.join([self.item.example] * max(1, self.least))}]"

    def takes(self, written: object) -> bool:
        """Any list."""
        return isinstance(written, list)

    def read(self, written: object, at: At) -> list[object] | None:
        """The items that are well formed; a list of a wrong length is refused unread."""
        if not isinstance(written, list):
            at.fault(*self._not_a_list(written, at))
            return None
        if len(written) < self.least:
            at.fault(f"'{at.key}' {self._too_few(len(written))}")
        elif len(written) > self.most:
            instead = f"write at most {self.most:,}"
            at.fault(f"'{at.key}' has {len(written):,} {self.of}", instead)
        else:
            each = (
                self.item.read(w, at.inside(i, self.item.example)) for i, w in enumerate(written)
            )
            return [value for value in each if value is not None]
        return None

    def _not_a_list(self, written: object, at: At) -> tuple[str, str]:
        if self.headed and isinstance(written, dict):
            return f"'{at.key}' is given as one table", f"write [[{at.key}]] with double brackets"
        return f"'{at.key}' is {shown(written)}, and must be a list", at.right_form()

    def _too_few(self, count: int) -> str:
        if not count:
            return "is empty"
        if self.least == self.most:
            return f"needs {self.least} {self.of}, not {count}"
        return f"needs at least {self.least} {self.of}, not {count}"

    def schema(self) -> Schema:
        """An array."""
        bounds = {"minItems": self.least, "maxItems": self.most}
        return {"type": "array", "items": self.item.schema(), **bounds}


class MapOf(NamedTuple):
    """A table whose keys are the user's own, all of one form."""

    key: Matching
    item: Kind
    of: str
    least: int = 0
    most: int = 26

    @property
    def example(self) -> str:
        """The table in TOML."""
        return f"{{ {self.key.example} = {self.item.example} }}"

    def takes(self, written: object) -> bool:
        """Any table."""
        return isinstance(written, dict)

    def read(self, written: object, at: At) -> Given | None:
        """Every key of the right form with its value, None where that is at fault."""
        if not isinstance(written, dict):
            at.fault(f"'{at.key}' is {shown(written)}, and must be a table")
            return None
        if not self.least <= len(written) <= self.most:
            few = len(written) < self.least
            instead = f"write at least {self.least}" if few else f"write at most {self.most}"
            at.fault(f"'{at.key}' has {len(written):,} {self.of}", instead)
            return None
        fit = {name: w for name, w in written.items() if self._key_fits(name, at)}
        example = self.item.example
        values = {n: self.item.read(w, at.inside(n, example)) for n, w in fit.items()}
        return Given(at.path, values, frozenset(written))

    def _key_fits(self, name: str, at: At) -> bool:
        trial = At(FaultList(), (*at.path, name))
        if self.key.read(name, trial) is not None:
            return True
        what = f"'{printable(name)}' in '{at.key}' must be {self.key.says}"
        raised = self.key.read(name.upper(), At(FaultList(), trial.path))
        at.inside(name).fault(what, f"write {raised or self.key.example}")
        return False

    def schema(self) -> Schema:
        """An object with patterned keys."""
        return {
            "type": "object",
            "patternProperties": {f"^(?:{self.key.form})$": self.item.schema()},
            "additionalProperties": False,
            "minProperties": self.least,
            "maxProperties": self.most,
        }


class Either(NamedTuple):
    """One of several kinds, told apart by the type of what is written."""

    cases: tuple[Kind, ...]
    says: str

    @property
    def example(self) -> str:
        """The first kind's."""
        return self.cases[0].example

    def takes(self, written: object) -> bool:
        """Whatever one of the kinds takes."""
        return any(case.takes(written) for case in self.cases)

    def read(self, written: object, at: At) -> object:
        """What the kind that takes it reads."""
        for case in self.cases:
            if case.takes(written):
                return case.read(written, at)
        at.fault(f"'{at.key}' is {shown(written)}, and must be {self.says}")
        return None

    def schema(self) -> Schema:
        """Any of the kinds."""
        return {"anyOf": [case.schema() for case in self.cases]}


def as_toml(value: object) -> str:
    """A plain value in TOML.

    >>> as_toml("5in"), as_toml(True), as_toml(["50%", "95%"]), as_toml('say "hi"')
    ('"5in"', 'true', '["50%", "95%"]', '"say \\\\"hi\\\\""')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(as_toml(one) for one in value)}]"
    return _basic_string(value) if isinstance(value, str) else str(value)


def _basic_string(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else _escape(c) for c in escaped) + '"'


def _escape(one: str) -> str:
    return f"\\u{ord(one):04X}" if ord(one) <= 0xFFFF else f"\\U{ord(one):08X}"
