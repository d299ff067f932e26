"""Curves that a drawing repeats, moved a little each time, kept once and placed.

A foil numeral is a stack of strokes along one and the same curve, each moved toward the light, so
that its drawing writes the same long curve a hundred times. Moved copies are told by their shape.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from xml.etree.ElementTree import Element

import numpy as np
from numpy.typing import NDArray

LONG = 120
"""Path data shorter than this are left as they are."""
SLACK = 0.013
"""Two curves nearer than this everywhere, sheet mm, are one: their figures are rounded to 0.01."""

_NUMBER = re.compile(r"-?\d+\.?\d*(?:e-?\d+)?")
_ONLY_POINTS = re.compile(r"[MLCQZ\d.,eE+\- ]*")
_LETTERS = re.compile("[A-Z]")


@dataclass(frozen=True)
class _Curve:
    """Path data as points from its first one on."""

    letters: str
    start: NDArray[np.float64]
    shape: NDArray[np.float64]


def share_curves(root: Element, tag: str, definitions: Element) -> None:
    """Put every long curve that ``root`` repeats into ``definitions`` once, and place it instead.

    ``tag`` is the name space of the drawing's elements, in braces.
    """
    for number, group in enumerate(_repeated(root, tag), start=1):
        name = f"k{number}"
        first = group[0][1]
        kept = Element(f"{tag}path", {"id": name, "d": group[0][0].attrib["d"]})
        definitions.insert(0, kept)
        for path, curve in group:
            _place(path, name, tag, curve.start - first.start)


def _repeated(root: Element, tag: str) -> list[list[tuple[Element, _Curve]]]:
    groups: dict[str, list[list[tuple[Element, _Curve]]]] = defaultdict(list)
    for path in root.iter(f"{tag}path"):
        curve = _curve(path.attrib["d"])
        if curve is None or "id" in path.attrib:
            continue
        same = groups[curve.letters]
        near = next((g for g in same if _is_moved(g[0][1], curve)), None)
        if near is None:
            same.append([(path, curve)])
        else:
            near.append((path, curve))
    return [group for same in groups.values() for group in same if len(group) > 1]


def _curve(data: str) -> _Curve | None:
    if len(data) < LONG or not _ONLY_POINTS.fullmatch(data):
        return None
    points = np.array([float(n) for n in _NUMBER.findall(data)]).reshape(-1, 2)
    return _Curve("".join(_LETTERS.findall(data)), points[0], points - points[0])


def _is_moved(one: _Curve, other: _Curve) -> bool:
    same = one.shape.shape == other.shape.shape
    return same and bool(np.abs(one.shape - other.shape).max() <= SLACK)


def _place(path: Element, name: str, tag: str, moved: NDArray[np.float64]) -> None:
    """The path as a placing of the kept curve, its look kept."""
    path.tag = f"{tag}use"
    del path.attrib["d"]
    look = dict(path.attrib)
    path.attrib.clear()
    path.attrib["href"] = f"#{name}"
    for axis, by in zip("xy", moved.tolist(), strict=True):
        if round(by, 3):
            path.attrib[axis] = f"{by:.3f}".rstrip("0").rstrip(".")
    path.attrib.update(look)


_STEP = re.compile(r"([MLCQZ])([^MLCQZ]*)")


def shortened(data: str) -> str:
    """Path data of M, L, C, Q and Z in steps from point to point, to 0.01; others as they are.

    Each step is reckoned from where the shortened curve has come to, so that rounding does not add
    up.

    >>> shortened("M10 10C11 10 12 11 12.5 12.25L20 20Z")
    'M10 10c1 0 2 1 2.5 2.25l7.5 7.75Z'
    """
    if not _ONLY_POINTS.fullmatch(data):
        return data
    at, start = (0.0, 0.0), (0.0, 0.0)
    steps: list[str] = []
    for letter, figures in _STEP.findall(data):
        numbers = [float(n) for n in _NUMBER.findall(figures)]
        if letter in "MZ":
            steps.append(letter + _row(numbers))
            at = start = (numbers[0], numbers[1]) if letter == "M" else start
            continue
        moved = [round(n - at[k % 2], 2) for k, n in enumerate(numbers)]
        steps.append(letter.lower() + _row(moved))
        at = (at[0] + moved[-2], at[1] + moved[-1])
    return "".join(steps)


def _row(numbers: list[float]) -> str:
    """Numbers as short as they can be; a minus parts as well as a space does."""
    shown = (f"{n:.2f}".rstrip("0").rstrip(".") for n in numbers)
    short = (re.sub(r"^(-?)0(?=\.)", r"\1", "0" if n == "-0" else n) for n in shown)
    return " ".join(short).replace(" -", "-")
