"""A design built again from its logged content, so that an old revision can be drawn beside a new.

The inverse of ``mockup.piece.code.content``: what the log keeps as plain data becomes the frozen
design it came from. Keys that a later version added take their defaults, and keys that this
version no longer knows are passed over, so that old logs stay readable.
"""

from __future__ import annotations

import re
import types
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from typing import Any, Literal, TypeGuard, Union, get_args, get_origin, get_type_hints

from mockup.design.model import Design
from mockup.errors import MockupError
from mockup.piece.code import content

_MOST = 1e9
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")
"""What no file that was read can have held: control characters, and halves of characters."""


class NotADesign(MockupError):
    """Logged content that holds no design this version can read."""


def design_from_content(logged: Mapping[str, Any]) -> Design:
    """The design whose content this is; it has no file, and its revision is 1.

    Raises ``NotADesign`` where a value is not what a design holds there.

    >>> from mockup.design.model import FrameSpec
    >>> ruby = Design("Ruby", FrameSpec(outside=600.0), (), {})
    >>> design_from_content(content(ruby)) == ruby
    True
    """
    design = _dataclass(Design, logged, "the record")
    if not isinstance(design, Design):
        raise NotADesign("the record holds no design")
    return design


def recalled(logged: Mapping[str, Any]) -> dict[str, Any]:
    """Logged content as this version would have logged it; raises ``NotADesign``."""
    return content(design_from_content(logged))


def _dataclass(kind: Any, data: object, where: str) -> Any:
    if not isinstance(data, Mapping):
        raise _wrong(where, "a table")
    hints = _hints(kind)
    known = {f.name: hints[f.name] for f in fields(kind) if f.name in data}
    try:
        return kind(**{name: _value(hint, data[name], name) for name, hint in known.items()})
    except TypeError as lacking:
        raise _wrong(where, "everything this version needs") from lacking


@cache
def _hints(kind: Any) -> dict[str, Any]:
    return get_type_hints(kind)


def _value(hint: Any, data: object, where: str) -> Any:
    """``data`` as the type that a field's hint names."""
    origin = get_origin(hint)
    if origin in (types.UnionType, Union):
        return _optional(hint, data, where)
    if origin is tuple:
        return _tuple(get_args(hint), data, where)
    if origin is dict:
        return _mapping(get_args(hint)[1], data, where)
    if origin is Literal:
        return _checked(data, data in get_args(hint), where, f"one of {get_args(hint)}")
    if is_dataclass(hint) and isinstance(hint, type):
        return _dataclass(hint, data, where)
    return _plain(hint, data, where)


def _optional(hint: Any, data: object, where: str) -> Any:
    if data is None:
        return None
    (kind,) = (each for each in get_args(hint) if each is not type(None))
    return _value(kind, data, where)


def _tuple(kinds: tuple[Any, ...], data: object, where: str) -> tuple[Any, ...]:
    if not isinstance(data, list | tuple):
        raise _wrong(where, "a list")
    if kinds[-1] is Ellipsis:
        return tuple(_value(kinds[0], each, where) for each in data)
    if len(data) != len(kinds):
        raise _wrong(where, f"{len(kinds)} values")
    return tuple(_value(kind, each, where) for kind, each in zip(kinds, data, strict=True))


def _mapping(kind: Any, data: object, where: str) -> dict[str, Any]:
    if not isinstance(data, Mapping):
        raise _wrong(where, "a table")
    return {_plain(str, key, "a name"): _value(kind, each, str(key)) for key, each in data.items()}


def _plain(kind: Any, data: object, where: str) -> Any:
    if kind is date:
        return _date(data, where)
    if kind is float:
        return float(_checked(data, _is_number(data), where, "a number"))
    if kind is int:
        whole = _is_number(data) and float(data).is_integer()
        return int(_checked(data, whole, where, "a whole number"))
    if kind is str and isinstance(data, str):
        return _checked(data, not _CONTROL.search(data), where, "plain words")
    return _checked(data, isinstance(data, kind), where, f"a {kind.__name__}")


def _is_number(data: object) -> TypeGuard[float]:
    """Whether it is a number that a length or a count may be; none is NaN, or without end."""
    return isinstance(data, int | float) and not isinstance(data, bool) and abs(data) <= _MOST


def _date(data: object, where: str) -> date:
    try:
        return date.fromisoformat(str(data))
    except ValueError as wrong:
        raise _wrong(where, "a day such as 2027-03-14") from wrong


def _checked(data: Any, holds: bool, where: str, wanted: str) -> Any:
    if not holds:
        raise _wrong(where, wanted)
    return data


def _wrong(where: str, wanted: str) -> NotADesign:
    return NotADesign(f"the log's record cannot be read: '{where}' is not {wanted}")
