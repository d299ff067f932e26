"""The kind of value that an option is: a name, and keys of the piece file in other words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from mockup.design.faults import At, shown
from mockup.design.kinds import Schema

NAME, WAY, SECTIONS = "name", "colourway", "section"
ALL = "all"
"""The name under which an option patches every section alike."""
_FORM = 'begin each one with [[option]] and give it name = "..."'


class Patch(NamedTuple):
    """A table with a name and otherwise the file's own keys; these are judged when it is used."""

    example: str = '{ name = "smaller ring", frame.outside = "26in" }'

    def takes(self, written: object) -> bool:
        """Any table."""
        return isinstance(written, dict)

    def read(self, written: object, at: At) -> Mapping[str, Any] | None:
        """The table as it was written, with its name checked."""
        if not isinstance(written, dict):
            at.fault(f"an option is {shown(written)}, and must be a table", _FORM)
            return None
        name = written.get(NAME)
        if not isinstance(name, str) or not 0 < len(name.strip()) <= 40 or not name.isprintable():
            at.inside(NAME).fault("an option has no name that can be printed", _FORM)
            return None
        return written

    def schema(self) -> Schema:
        """An object with a name."""
        name = {"type": "string", "minLength": 1, "maxLength": 40}
        return {"type": "object", "properties": {NAME: name}, "required": [NAME]}
