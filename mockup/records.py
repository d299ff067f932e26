"""Frozen dataclasses that cost a start of the program next to nothing.

The standard decorator writes and compiles source for every class: 1 to 1.5 ms each on Python 3.11,
and a whole check imports about a hundred. These behave alike (``fields``, ``replace``, ``asdict``,
equality, hash, repr, pickling) from closures instead, in about 0.03 ms. For type checkers they
*are* dataclasses.
"""

from __future__ import annotations

import dataclasses
import inspect
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass  # noqa: PLC0414 (an explicit re-export)
else:

    def dataclass(cls=None, /, *, frozen=False, **options):
        """The decorator: ``@dataclass(frozen=True)`` is ours, anything else the standard one.

        >>> @dataclass(frozen=True)
        ... class Spot:
        ...     x: float
        ...     y: float = 0.0
        >>> Spot(1.0) == Spot(x=1.0, y=0.0), dataclasses.replace(Spot(1.0), y=2.0)
        (True, Spot(x=1.0, y=2.0))
        """
        if cls is not None or options or not frozen:
            return dataclasses.dataclass(cls, frozen=frozen, **options)
        return _frozen


def _frozen(cls: type) -> type:
    members = _fields_of(cls)
    # dataclasses' own functions know a dataclass by this name.
    cls.__dataclass_fields__ = members  # type: ignore[attr-defined]
    names = tuple(members)
    compared = tuple(name for name, each in members.items() if each.compare)
    shown = tuple(name for name, each in members.items() if each.repr)
    methods = {
        "__init__": _maker(cls.__qualname__, members, hasattr(cls, "__post_init__")),
        "__eq__": _equality(compared),
        "__hash__": _hash(compared),
        "__repr__": _shower(shown),
        "__setattr__": _refuse_set,
        "__delattr__": _refuse_delete,
        "__match_args__": names,
    }
    own = cls.__dict__
    for name, method in methods.items():
        # A hash of None is what Python itself leaves beside a written __eq__.
        if name not in own or own[name] is None:
            setattr(cls, name, method)
    return cls


def _fields_of(cls: type) -> dict[str, dataclasses.Field[Any]]:
    members: dict[str, dataclasses.Field[Any]] = {}
    for base in reversed(cls.__mro__[1:]):
        members.update(getattr(base, "__dataclass_fields__", {}))
    for name, kind in inspect.get_annotations(cls).items():
        if not str(kind).startswith(("ClassVar", "typing.ClassVar")):
            members[name] = _field(cls, name, kind)
    return members


def _field(cls: type, name: str, kind: Any) -> dataclasses.Field[Any]:
    given = cls.__dict__.get(name, dataclasses.MISSING)
    made: dataclasses.Field[Any] = (
        given if isinstance(given, dataclasses.Field) else dataclasses.field(default=given)
    )
    if isinstance(made.default, list | dict | set):
        raise ValueError(f"{cls.__name__}.{name}: use a default_factory for a {type(given)}")
    made.name, made.type = name, kind
    made._field_type = dataclasses._FIELD  # type: ignore[attr-defined]  # what fields() asks for
    if made.default is not dataclasses.MISSING:
        setattr(cls, name, made.default)
    elif name in cls.__dict__:
        delattr(cls, name)
    return made


def _maker(called: str, members: dict[str, dataclasses.Field[Any]], finish: bool) -> Any:
    names = tuple(members)
    known = frozenset(names)
    missing = dataclasses.MISSING
    defaults = {n: f.default for n, f in members.items() if f.default is not missing}
    factories = {
        n: f.default_factory for n, f in members.items() if f.default_factory is not missing
    }

    def make(self: Any, *args: Any, **given: Any) -> None:
        values = self.__dict__
        values.update(defaults)
        values.update(zip(names, args))  # noqa: B905 (the counts are compared below)
        values.update(given)
        for name, factory in factories.items():
            if name not in values:
                values[name] = factory()
        if len(args) > len(names) or len(values) != len(names) or not given.keys() <= known:
            raise TypeError(_misfit(called, names, values, args))
        if given and args and not given.keys().isdisjoint(names[: len(args)]):
            raise TypeError(f"{called}() got a value twice")
        if finish:
            self.__post_init__()

    return make


def _misfit(called: str, names: tuple[str, ...], values: Any, args: tuple[Any, ...]) -> str:
    lacking = [name for name in names if name not in values]
    unknown = [name for name in values if name not in names]
    if lacking:
        return f"{called}() is missing {', '.join(lacking)}"
    if unknown:
        return f"{called}() got an unexpected {', '.join(unknown)}"
    return f"{called}() takes {len(names)} values but {len(args)} were given"


def _equality(names: tuple[str, ...]) -> Any:
    def equal(self: Any, other: object) -> Any:
        if other.__class__ is not self.__class__:
            return NotImplemented
        mine, theirs = self.__dict__, other.__dict__
        return all(mine[name] == theirs[name] for name in names)

    return equal


def _hash(names: tuple[str, ...]) -> Any:
    def hashed(self: Any) -> int:
        values = self.__dict__
        return hash(tuple(values[name] for name in names))

    return hashed


def _shower(names: tuple[str, ...]) -> Any:
    def show(self: Any) -> str:
        inside = ", ".join(f"{name}={self.__dict__[name]!r}" for name in names)
        return f"{self.__class__.__qualname__}({inside})"

    return show


def _refuse_set(_: Any, name: str, __: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(_: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")
