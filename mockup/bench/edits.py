"""Changes made in the form, carried out in the text of the file: its comments and order stay.

A change is a mapping: ``{"do": "set", "path": ["panel", "height"], "value": "16in"}``. The others
are ``unset`` (a path), ``insert`` (a list's path, ``at``, ``value``), ``remove`` (an item's path)
and ``move`` (a list's path, ``at``, ``to``). Each is carried out twice, in the text and in the
plain data it stands for, and refused where the two would differ.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from mockup.bench.remarks import moved_remarks, with_block, without_block
from mockup.bench.rewriting import rewritten
from mockup.design.toml_text import as_toml
from mockup.errors import MockupError

Change = Mapping[str, Any]
_MOST_STEPS = 8


class NotCarriedOut(MockupError):
    """A change that this text cannot take; the message says what to do instead."""


def edited(text: str, changes: Sequence[Change]) -> str:
    """``text`` after the changes, in their order; raises ``NotCarriedOut``.

    >>> edited('a = 1  # one', [{"do": "set", "path": ["a"], "value": 2}])
    'a = 2  # one'
    """
    for change in changes:
        text = _edited(text, change)
    return text


def _edited(text: str, change: Change) -> str:
    from tomlkit.exceptions import TOMLKitError  # the page is up before it is read in

    path = _path(change)
    try:
        wished = tomllib.loads(text)
        if _is_so(wished, path, change):
            return text
        quick = _in_place(text, wished, path, change)
        if quick is not None:
            return quick
        _carry_out(wished, path, change, plain=True)
        made = _in_text(text, path, change)
        if _said(tomllib.loads(made)) == _said(wished):
            return made
    except (TOMLKitError, tomllib.TOMLDecodeError) as trouble:
        raise NotCarriedOut("mend the text first: it cannot be read as it stands") from trouble
    except (KeyError, IndexError, TypeError, ValueError, AttributeError) as trouble:
        raise NotCarriedOut("the piece has no such place any more; look at it again") from trouble
    raise NotCarriedOut("this file is written in a way the form cannot keep; change it in the text")


def _said(data: dict[str, Any]) -> dict[str, Any]:
    """The data without empty lists at the top: the last [[block]] of a kind takes its key along."""
    return {key: value for key, value in data.items() if value != []}


def _path(change: Change) -> list[str | int]:
    path = change.get("path")
    right = isinstance(path, list) and 0 < len(path) <= _MOST_STEPS
    if not right or not all(isinstance(step, str | int) for step in path or ()):
        raise NotCarriedOut("a change names its place by keys and numbers")
    return list(path or ())


def _in_place(text: str, data: dict[str, Any], path: list[str | int], change: Change) -> str | None:
    """The text with one plain value for another; ``data`` is then changed alike. None otherwise."""
    key, value = path[-1], change.get("value")
    plain = isinstance(value, str | int | float)
    if change["do"] != "set" or not isinstance(key, str) or not plain:
        return None
    holder = _found(data, path[:-1])
    if not isinstance(holder, dict):
        return None
    return rewritten(text, holder, key, _written(value), data)


def _is_so(data: dict[str, Any], path: list[str | int], change: Change) -> bool:
    """Whether a key that is to go is not there: a form says so of every field it empties."""
    holder = _found(data, path[:-1]) if change["do"] == "unset" else None
    return isinstance(holder, dict) and path[-1] not in holder


def _found(data: Any, path: list[str | int]) -> Any:
    """What is at a place of plain data; None where there is no such place."""
    try:
        return _at(data, path)
    except (KeyError, IndexError, TypeError):
        return None


def _in_text(text: str, path: list[str | int], change: Change) -> str:
    if change["do"] == "remove" and len(path) == 2 and f"[[{path[0]}]]" in text:
        return without_block(text, (path[0], path[1]))
    if change["do"] == "insert" and len(path) == 1:
        return with_block(text, str(path[0]), int(change["at"]), _block(change["value"]))
    import tomlkit

    document = tomlkit.parse(text)
    _carry_out(document, path, change, plain=False)
    made = tomlkit.dumps(document)
    if change["do"] == "move":
        return moved_remarks(text, made, tuple(path), change["at"], change["to"])
    return made


def _carry_out(data: Any, path: list[str | int], change: Change, *, plain: bool) -> None:
    match change["do"]:
        case "set":
            holder = _holder(data, path, make=True, plain=plain)
            if _in_braces(holder):
                _rewrite(data, path, {**holder.unwrap(), str(path[-1]): change["value"]})
            else:
                holder[path[-1]] = _value(change["value"], plain)
        case "unset":
            holder = _holder(data, path, make=False, plain=plain)
            if _in_braces(holder):
                left = {key: one for key, one in holder.unwrap().items() if key != path[-1]}
                _rewrite(data, path, left)
            elif path[-1] in holder:
                del holder[path[-1]]
        case "remove":
            _holder(data, path, make=False, plain=plain).pop(path[-1])
        case "insert":
            _insert(data, path, change, plain=plain)
        case "move":
            _move(_at(data, path), int(change["at"]), int(change["to"]))
        case _:
            raise ValueError(change["do"])


def _at(data: Any, path: list[str | int]) -> Any:
    for step in path:
        data = data[step]
    return data


def _holder(data: Any, path: list[str | int], *, make: bool, plain: bool) -> Any:
    """What holds the last key; tables that are missing on the way are made."""
    for step in path[:-1]:
        known = isinstance(step, int) or step in data
        if make and not (known and not isinstance(data[step], bool | str)):
            inline = data is not _root(data) or step == "end_cap"
            data[step] = {} if plain else _table(inline=inline)
        data = data[step]
    return data


def _rewrite(data: Any, path: list[str | int], inside: Mapping[str, Any]) -> None:
    """A table in braces written anew, so that it keeps its even blanks; it can hold no remark."""
    _at(data, path[:-2])[path[-2]] = _value(inside, plain=False)


def _in_braces(table: Any) -> bool:
    from tomlkit.items import InlineTable

    return isinstance(table, InlineTable)


def _root(data: Any) -> Any:
    from tomlkit import TOMLDocument

    return data if isinstance(data, TOMLDocument) or type(data) is dict else None


def _table(*, inline: bool) -> Any:
    import tomlkit

    return tomlkit.inline_table() if inline else tomlkit.table()


def _array() -> Any:
    import tomlkit

    return tomlkit.array()


def _insert(data: Any, path: list[str | int], change: Change, *, plain: bool) -> None:
    holder = _holder(data, path, make=True, plain=plain)
    at, value = int(change["at"]), change["value"]
    if path[-1] not in holder:
        holder[path[-1]] = [] if plain else _array()
    items = holder[path[-1]]
    if not 0 <= at <= len(items) or (len(path) == 1 and at != len(items)):
        raise IndexError(at)
    items.insert(at, _value(value, plain))


def _block(value: Mapping[str, Any]) -> list[str]:
    return [f"{as_toml_key(key)} = {_written(one)}" for key, one in value.items()]


def _move(items: Any, at: int, to: int) -> None:
    """One item moved; the others close up. Places keep their lines, commas and indents."""
    count = len(items)
    if not (0 <= at < count and 0 <= to < count):
        raise IndexError(at)
    order = list(range(count))
    order.insert(to, order.pop(at))
    kept = list(items)
    for place, source in enumerate(order):
        if place != source:
            items[place] = kept[source]


def _value(value: Any, plain: bool) -> Any:
    if plain:
        return tomllib.loads(f"x = {_written(value)}")["x"]
    import tomlkit

    return tomlkit.parse(f"x = {_written(value)}\n")["x"]


def _written(value: Any) -> str:
    """A value as TOML on one line, whole numbers without a point."""
    if isinstance(value, Mapping):
        inside = ", ".join(f"{as_toml_key(key)} = {_written(one)}" for key, one in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_written, value))}]"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return as_toml(value)


def as_toml_key(key: str) -> str:
    """A key as it is written: bare where TOML lets it be.

    >>> as_toml_key("strokes"), as_toml_key("a b")
    ('strokes', '"a b"')
    """
    bare = key.isascii() and key.replace("_", "a").replace("-", "a").isalnum()
    return key if bare else as_toml(key)
