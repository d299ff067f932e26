"""Tables with known keys: how one is read, and how it is told to editors."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, TypeVar, cast

from mockup.design.faults import At, FaultList, shown
from mockup.design.kinds import Kind, Schema
from mockup.design.model import KeyPath
from mockup.design.toml_text import as_toml
from mockup.errors import printable
from mockup.records import dataclass
from mockup.spelling import did_you_mean, nearest_name

T = TypeVar("T")


@dataclass(frozen=True)
class Key:
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


@dataclass(frozen=True)
class Table:
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
        known = self.by_name
        for name in written:
            if name not in known:
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
