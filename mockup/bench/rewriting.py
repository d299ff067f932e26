"""One value of a text written anew where it stands: nothing else of the text is touched or read.

To take a text apart and put it together again for one number takes longer than to settle the piece.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from itertools import takewhile
from typing import Any

_SCALAR = r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[^\s,\]}\[{#"\']+'
_MOST_TRIED = 8
Holder = dict[str, Any]


def rewritten(text: str, holder: Holder, key: str, new: str, data: Holder) -> str | None:
    """``text``, which says ``data``, with the value of ``key`` in one of its tables, ``holder``,
    written as ``new`` (TOML). The data are then changed alike.

    None, and nothing changed, where the value is no plain one or no such place is found soon.

    >>> data = {"a": 1}
    >>> rewritten("a = 1  # a = 1", data, "a", "2", data), data
    ('a = 2  # a = 1', {'a': 2})
    """
    old = holder.get(key)
    if not isinstance(old, str | int | float) or not re.fullmatch(r"[A-Za-z0-9_-]+", key):
        return None
    places, ahead = _places(text, key, old), _ahead(data, holder, key)
    near = sorted(range(len(places)), key=lambda at: abs(at - ahead))[:_MOST_TRIED]
    holder[key] = _value(new)
    for start, end in (places[at] for at in near):
        made = f"{text[:start]}{new}{text[end:]}"
        if _says(made, data):
            return made
    holder[key] = old
    return None


def _places(text: str, key: str, old: Any) -> list[tuple[int, int]]:
    """Where the value may stand: after the key, and saying what it says now."""
    found = re.finditer(rf"(?<![\w.-]){key}[ \t]*=[ \t]*({_SCALAR})", text)
    return [one.span(1) for one in found if _value(one[1]) == old]


def _ahead(data: Holder, holder: Holder, key: str) -> int:
    """How many tables before this one say the same of the key."""
    before = takewhile(lambda one: one is not holder, _tables(data))
    return sum(one.get(key) == holder[key] for one in before)


def _tables(data: Any) -> Iterator[Holder]:
    if isinstance(data, dict):
        yield data
        for each in data.values():
            yield from _tables(each)
    elif isinstance(data, list):
        for each in data:
            yield from _tables(each)


def _value(written: str) -> Any:
    try:
        return tomllib.loads(f"x = {written}")["x"]
    except tomllib.TOMLDecodeError:
        return None


def _says(text: str, data: Holder) -> bool:
    try:
        return tomllib.loads(text) == data
    except tomllib.TOMLDecodeError:
        return False
