"""What a page asks of cairo, call by call, to be made again by a loop that does nothing else."""

from __future__ import annotations

from typing import Any

import cairocffi

Calls = list[tuple[str, tuple[Any, ...]]]


class Heard:
    """A cairo context that keeps what is asked of it."""

    def __init__(self, context: Any, calls: Calls) -> None:
        self._context, self._calls = context, calls

    def __getattr__(self, name: str) -> Any:
        asked = getattr(self._context, name)

        def call(*given: Any) -> Any:
            self._calls.append((name, given))
            return asked(*given)

        return call


class Listening:
    """The cairo library, whose contexts on a page of ``kind`` are listened to, each on its own."""

    def __init__(self, kind: type, pages: list[Calls]) -> None:
        self._kind, self._pages = kind, pages

    def __getattr__(self, name: str) -> Any:
        return getattr(cairocffi, name)

    def Context(self, surface: Any) -> Any:  # noqa: N802 - the library's own name
        context = cairocffi.Context(surface)
        if not isinstance(surface, self._kind):
            return context
        self._pages.append(Calls())
        return Heard(context, self._pages[-1])


def again(calls: Calls, surface: Any) -> None:
    """The same calls on another surface."""
    context = cairocffi.Context(surface)
    for name, given in calls:
        getattr(context, name)(*given)
