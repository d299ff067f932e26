"""The key list of a piece file as JSON Schema, so that an editor completes and checks it."""

from __future__ import annotations

from mockup.design.keys import DEFINED, PIECE
from mockup.design.kinds import Schema

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> Schema:
    """JSON Schema (draft 2020-12) of a piece file, from the table that the reader reads by.

    >>> json_schema()["required"]
    ['title', 'colours']
    """
    return {
        "$schema": DIALECT,
        "title": "A framed balloon piece",
        **PIECE.full_schema(),
        "anyOf": [{"required": [key]} for key in ("section", "garland", "wall")],
        "$defs": {table.defined: table.full_schema() for table in DEFINED},
    }
