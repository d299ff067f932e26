"""Our frozen records against the standard library's frozen dataclasses."""

from __future__ import annotations

import dataclasses
import pickle
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.records import dataclass


@dataclass(frozen=True)
class Ours:
    """Of every kind of field."""

    a: int
    b: str = "b"
    c: list[int] = dataclasses.field(default_factory=list, compare=False)
    d: dict[str, int] = dataclasses.field(default_factory=dict, repr=False, compare=False)

    @property
    def twice(self) -> int:
        return 2 * self.a


@dataclass(frozen=True)
class OursLonger(Ours):
    """With a field more."""

    e: float = 1.5


@dataclasses.dataclass(frozen=True)
class Theirs:
    """The same by the standard decorator."""

    a: int
    b: str = "b"
    c: list[int] = dataclasses.field(default_factory=list, compare=False)
    d: dict[str, int] = dataclasses.field(default_factory=dict, repr=False, compare=False)


values = st.fixed_dictionaries(
    {"a": st.integers()}, optional={"b": st.text(), "c": st.lists(st.integers())}
)


@given(values, values)
def test_it_behaves_as_the_standard_one(one: dict[str, Any], other: dict[str, Any]) -> None:
    ours, theirs = Ours(**one), Theirs(**one)
    assert repr(ours) == repr(theirs).replace("Theirs", "Ours")
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert (ours == Ours(**other)) == (theirs == Theirs(**other))
    assert hash(ours) == hash(theirs)
    changed = dataclasses.replace(ours, **other)
    assert dataclasses.asdict(changed) == dataclasses.asdict(dataclasses.replace(theirs, **other))
    assert pickle.loads(pickle.dumps(ours)) == ours
    assert ours != object()


def test_fields_are_the_same() -> None:
    ours = [(f.name, f.type, f.compare, f.repr) for f in dataclasses.fields(Ours)]
    assert ours == [(f.name, f.type, f.compare, f.repr) for f in dataclasses.fields(Theirs)]
    assert [f.name for f in dataclasses.fields(OursLonger)] == ["a", "b", "c", "d", "e"]
    assert OursLonger(1, e=2.0).twice == 2


@pytest.mark.parametrize("kind", [Ours, Theirs])
def test_it_is_frozen_and_wants_its_fields(kind: Any) -> None:
    made = kind(1)
    with pytest.raises(dataclasses.FrozenInstanceError):
        made.a = 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        del made.a
    for wrong in (
        kind,
        lambda: kind(1, x=2),
        lambda: kind(1, a=2),
        lambda: kind(*"12345"),
    ):
        with pytest.raises(TypeError):
            wrong()


def test_each_gets_a_list_of_its_own() -> None:
    assert Ours(1).c is not Ours(1).c


def test_a_shared_list_as_default_is_refused() -> None:
    with pytest.raises(ValueError, match="default_factory"):

        @dataclass(frozen=True)
        class _Wrong:
            a: list[int] = []  # noqa: RUF012 (the slip under test)
