"""In which order the characters of a line stand when some of them are read from right to left.

The implicit part of the Unicode bidirectional algorithm (UAX #9: rules P2-P3, W1-W7, N0-N2, I1-I2,
L1-L2). Explicit controls are not followed: sheets have short lines, and a control in a name would
only hide what is written.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from itertools import groupby, takewhile

_OPEN = "([{⁅⁽₍⌈⌊⟦⟨⟪⟬⟮⦃⦅⦇⦉⦋⦗⸢⸤⸦⸨〈《「『【〔〖〘〚（［｛｟｢"
_CLOSE = ")]}⁆⁾₎⌉⌋⟧⟩⟫⟭⟯⦄⦆⦈⦊⦌⦘⸣⸥⸧⸩〉》」』】〕〗〙〛）］｝｠｣"
_NEUTRAL = frozenset(("B", "S", "WS", "ON", "BN"))
_STRONG = {"L": "L", "R": "R", "AL": "R", "EN": "R", "AN": "R"}
_MOST_OPEN = 63


def levels(text: str) -> list[int]:
    """The embedding level of each character of a line: odd ones run from right to left.

    >>> levels("ab אב 12")
    [0, 0, 0, 1, 1, 1, 2, 2]
    """
    kinds = [unicodedata.bidirectional(c) or "L" for c in text]
    base = int(next((k for k in kinds if k in ("L", "R", "AL")), "L") != "L")
    around = "R" if base else "L"
    resolved = _weak(kinds, around)
    _brackets(text, kinds, resolved, around)
    _neutral(resolved, around)
    found = [_level(kind, base) for kind in resolved]
    return _ends_at_base(kinds, found, base)


def visual(found: Sequence[int]) -> list[int]:
    """The indices of a line's characters from left to right (rule L2).

    >>> visual(levels("אב 12"))
    [3, 4, 2, 1, 0]
    """
    order = list(range(len(found)))
    lowest = min((level for level in found if level % 2), default=0)
    for level in range(max(found, default=0), lowest - 1 if lowest else 0, -1):
        at = 0
        for high, run in groupby(order, key=lambda i: found[i] >= level):
            members = list(run)
            if high:
                order[at : at + len(members)] = members[::-1]
            at += len(members)
    return order


def _level(kind: str, base: int) -> int:
    """Rules I1 and I2."""
    if base % 2:
        return base + (kind in ("L", "EN", "AN"))
    return base + {"R": 1, "AN": 2, "EN": 2}.get(kind, 0)


def _weak(kinds: Sequence[str], around: str) -> list[str]:
    """Rules W1 to W7: marks, digits and what stands between digits."""
    found = list(kinds)
    for i, kind in enumerate(found):
        if kind == "NSM":
            found[i] = found[i - 1] if i else around
    _numbers_after_arabic(found, around)
    for i in range(1, len(found) - 1):
        before, after = found[i - 1], found[i + 1]
        if before == after and (
            (found[i] in ("ES", "CS") and before == "EN") or (found[i] == "CS" and before == "AN")
        ):
            found[i] = before
    _signs_of_numbers(found)
    strong = around
    for i, kind in enumerate(found):
        if kind in ("L", "R"):
            strong = kind
        elif kind == "EN" and strong == "L":
            found[i] = "L"
    return found


def _numbers_after_arabic(found: list[str], around: str) -> None:
    """W2 and W3."""
    strong = around
    for i, kind in enumerate(found):
        if kind in ("L", "R", "AL"):
            strong = kind
        elif kind == "EN" and strong == "AL":
            found[i] = "AN"
    found[:] = ["R" if kind == "AL" else kind for kind in found]


def _signs_of_numbers(found: list[str]) -> None:
    """W5 and W6: a currency or per cent sign beside a number belongs to it."""
    at = 0
    for kind, run in groupby(list(found)):
        end = at + len(list(run))
        if kind == "ET":
            beside = (at and found[at - 1] == "EN") or (end < len(found) and found[end] == "EN")
            found[at:end] = ["EN" if beside else "ON"] * (end - at)
        elif kind in ("ES", "CS"):
            found[at:end] = ["ON"] * (end - at)
        at = end


def _brackets(text: str, kinds: Sequence[str], found: list[str], around: str) -> None:
    """N0: a pair of brackets takes the direction of what it holds."""
    other = "L" if around == "R" else "R"
    for start, end in sorted(_pairs(text, found)):
        inside = {_STRONG[k] for k in found[start + 1 : end] if k in _STRONG}
        if around in inside:
            way = around
        elif other in inside:
            before = next((_STRONG[k] for k in found[:start][::-1] if k in _STRONG), around)
            way = other if before == other else around
        else:
            continue
        for at in (start, end):
            marks = len(list(takewhile("NSM".__eq__, kinds[at + 1 :])))
            found[at : at + 1 + marks] = [way] * (1 + marks)


def _pairs(text: str, found: Sequence[str]) -> Iterator[tuple[int, int]]:
    """Opening and closing brackets that belong together (BD16)."""
    opened: list[tuple[int, int]] = []
    for i, character in enumerate(text):
        if found[i] != "ON":
            continue
        if character in _OPEN:
            if len(opened) == _MOST_OPEN:
                return
            opened.append((i, _OPEN.index(character)))
        elif character in _CLOSE:
            which = _CLOSE.index(character)
            depth = next((k for k in range(len(opened))[::-1] if opened[k][1] == which), None)
            if depth is not None:
                yield opened[depth][0], i
                del opened[depth:]


def _neutral(found: list[str], around: str) -> None:
    """N1 and N2: what is neutral goes with its neighbours, where they agree."""
    at = 0
    for neutral, run in groupby(list(found), key=_NEUTRAL.__contains__):
        end = at + len(list(run))
        if neutral:
            before = _STRONG[found[at - 1]] if at else around
            after = _STRONG[found[end]] if end < len(found) else around
            found[at:end] = [before if before == after else around] * (end - at)
        at = end


def _ends_at_base(kinds: Sequence[str], found: list[int], base: int) -> list[int]:
    """L1: white space at the end of the line, and round tabs, stands at the line's own level."""
    end = len(found)
    while end and kinds[end - 1] in ("WS", "S", "B", "BN"):
        end -= 1
    return found[:end] + [base] * (len(found) - end)
