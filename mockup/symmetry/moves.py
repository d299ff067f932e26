"""What a decorator can do to one cluster's colours in one go, and how to say it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations
from typing import Literal

from mockup.records import dataclass

MoveKind = Literal["turn", "swap", "reverse", "recolour"]

EASE: tuple[MoveKind, ...] = ("turn", "swap", "reverse", "recolour")
"""The moves from the easiest: among equally short remedies the easier one is offered."""

_COUNTED = ("first", "second", "third", "fourth", "fifth")


@dataclass(frozen=True)
class Step:
    """One move on one cluster: its letters before and after, and the balloons it touches."""

    kind: MoveKind
    before: str
    after: str
    balloons: tuple[int, ...] = ()

    @property
    def ease(self) -> int:
        """Its rank in ``EASE``, 0 for the easiest."""
        return EASE.index(self.kind)


@lru_cache(maxsize=4096)
def steps_from(letters: str, colours: str) -> tuple[Step, ...]:
    """Every move on a cluster, the easiest for each order of letters it can lead to.

    Turn by one place either way, swap two balloons, reverse the colour order, recolour one balloon
    with one of ``colours``, or recolour a plain cluster as a whole. A mixed cluster is never
    recoloured into a plain one, which would only hide what breaks.

    >>> [(each.kind, each.after) for each in steps_from("AB", "AB")]
    [('turn', 'BA')]
    """
    found: dict[str, Step] = {}
    for step in _all(letters, colours):
        if step.after != letters:
            found.setdefault(step.after, step)
    return tuple(found.values())


def _all(letters: str, colours: str) -> Iterator[Step]:
    yield Step("turn", letters, letters[-1:] + letters[:-1])
    yield Step("turn", letters, letters[1:] + letters[:1])
    for i, j in combinations(range(len(letters)), 2):
        swapped = list(letters)
        swapped[i], swapped[j] = letters[j], letters[i]
        yield Step("swap", letters, "".join(swapped), (i, j))
    yield Step("reverse", letters, letters[::-1])
    yield from _recoloured(letters, colours)


def _recoloured(letters: str, colours: str) -> Iterator[Step]:
    plain = len(set(letters)) == 1
    for colour in sorted(colours, key=lambda each: each not in letters):  # its own colours first
        if plain:
            yield Step("recolour", letters, colour * len(letters), tuple(range(len(letters))))
        for k in range(len(letters)):
            after = letters[:k] + colour + letters[k + 1 :]
            if plain or len(set(after)) > 1:
                yield Step("recolour", letters, after, (k,))


def sentence(step: Step, label: str, places: Sequence[str] = _COUNTED) -> str:
    """A move in trade words; ``places`` are words for where each balloon sits.

    >>> sentence(Step("turn", "ABAB", "BABA"), "the third cluster right")
    'turn the third cluster right by one place'
    >>> sentence(Step("swap", "ABCA", "BACA", (0, 1)), "the middle cluster", ("outer", "front"))
    'in the middle cluster, swap the outer and the front balloon'
    """
    if step.kind == "turn":
        return f"turn {label} by one place{_way(step)}"
    if step.kind == "reverse":
        return f"reverse the colour order of {label} ({step.after} instead of {step.before})"
    named = [places[k] if k < len(places) else f"number {k + 1}" for k in step.balloons]
    if step.kind == "swap":
        return f"in {label}, swap the {named[0]} and the {named[1]} balloon"
    k = step.balloons[0]
    if len(step.balloons) > 1 or len(step.after) == 1:
        return f"make {label} {step.after[k]} instead of {step.before[k]}"
    return f"in {label}, make the {named[0]} balloon {step.after[k]} instead of {step.before[k]}"


def _way(step: Step) -> str:
    """Which way, where it matters: balloons go round from outer to front to inner to back."""
    onward = step.before[-1:] + step.before[:-1]
    back = step.before[1:] + step.before[:1]
    if onward == back:
        return ""
    return ", the front going inward" if step.after == onward else ", the front going outward"
