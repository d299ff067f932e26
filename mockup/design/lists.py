"""Kinds that hold several values of another kind: lists, free keys, and either-or."""

from __future__ import annotations

from mockup.design.faults import At, FaultList, shown
from mockup.design.kinds import Kind, Matching, Schema
from mockup.design.tables import Given
from mockup.errors import printable
from mockup.records import dataclass


@dataclass(frozen=True)
class ListOf:
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
        """The items that are well formed; a list of a wrong length is refused unread.

        None where too few are well formed, so that whoever needs two is never given one.
        """
        if not isinstance(written, list):
            at.fault(*self._not_a_list(written, at))
            return None
        if len(written) < self.least:
            at.fault(f"'{at.key}' {self._too_few(len(written))}", self._right_form(at))
        elif len(written) > self.most:
            instead = f"write at most {self.most:,}"
            at.fault(f"'{at.key}' has {len(written):,} {self.of}", instead)
        else:
            each = (
                self.item.read(w, at.inside(i, self.item.example)) for i, w in enumerate(written)
            )
            kept = [value for value in each if value is not None]
            return kept if len(kept) >= self.least else None
        return None

    def _not_a_list(self, written: object, at: At) -> tuple[str, str]:
        if self.headed and isinstance(written, dict):
            return f"'{at.key}' is given as one table", f"write [[{at.key}]] with double brackets"
        return f"'{at.key}' is {shown(written)}, and must be a list", self._right_form(at)

    def _right_form(self, at: At) -> str:
        return f"begin each one with [[{at.key}]]" if self.headed else at.right_form()

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


@dataclass(frozen=True)
class MapOf:
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


@dataclass(frozen=True)
class Either:
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
