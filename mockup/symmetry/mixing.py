"""Colours for loose balloons: no two of a colour touching where that can be avoided."""

from __future__ import annotations

from collections.abc import Sequence

Pairs = Sequence[tuple[int, int]]


def mixed_letters(count: int, contacts: Pairs, letters: str, weights: Sequence[float]) -> str:
    """A letter for each of ``count`` balloons: few of a colour touch, and shares are as asked.

    Greedy by saturation (Brelaz, Comm. ACM 22, 251, 1979): always the balloon whose neighbours
    show most colours; of the colours none of them has, the one most short of its weight. Where
    every colour touches, the one that touches least. Then single changes while any helps.

    >>> mixed_letters(4, [(0, 1), (1, 2), (2, 3), (3, 0)], "AB", [1.0, 1.0])
    'ABAB'
    """
    beside: list[set[int]] = [set() for _ in range(count)]
    for a, b in contacts:
        beside[a].add(b)
        beside[b].add(a)
    given = _dealt(beside, letters, weights)
    _mended(given, beside, letters)
    return "".join(letters[g] for g in given)


def _dealt(beside: list[set[int]], letters: str, weights: Sequence[float]) -> list[int]:
    given = [-1] * len(beside)
    used = [0] * len(letters)
    whole = sum(weights)
    shares = [weight / whole for weight in weights]
    left = set(range(len(beside)))
    seen: list[set[int]] = [set() for _ in beside]
    for done in range(len(beside)):
        k = max(left, key=lambda i: (len(seen[i]), len(beside[i]), -i))
        touching = [sum(given[j] == c for j in beside[k]) for c in range(len(letters))]
        fewest = min(touching)
        fit = [c for c in range(len(letters)) if touching[c] == fewest]
        colour = max(fit, key=lambda c: (shares[c] * (done + 1) - used[c], -c))
        given[k] = colour
        used[colour] += 1
        left.remove(k)
        for j in beside[k]:
            seen[j].add(colour)
    return given


def _mended(given: list[int], beside: list[set[int]], letters: str) -> None:
    """Change or exchange single colours while that leaves fewer of a colour touching."""
    for _ in range(8):
        helped = False
        for k, own in enumerate(given):
            counts = [sum(given[j] == c for j in beside[k]) for c in range(len(letters))]
            best = min(range(len(letters)), key=lambda c: (counts[c], c != own))
            if counts[best] < counts[own]:
                given[k], helped = best, True
        if not helped:
            return


def touching_alike(contacts: Pairs, letters: str) -> list[tuple[int, int]]:
    """The contacts between two of a colour.

    >>> touching_alike([(0, 1), (1, 2)], "AAB")
    [(0, 1)]
    """
    return [(a, b) for a, b in contacts if letters[a] == letters[b]]
