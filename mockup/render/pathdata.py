"""SVG path data read into straight lines and cubic curves, for writers that draw step by step."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from math import acos, ceil, cos, hypot, isfinite, pi, radians, sin, sqrt, tan
from typing import Literal

Step = tuple[Literal["M", "L", "C", "Z"], tuple[float, ...]]
"""Move, line or cubic curve to absolute points, or close; numbers in the path's own units."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""

_COMMAND = re.compile("([A-Z])([^A-Z]*)")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?")
_BETWEEN = re.compile(r"[\s,]*")
_PLAIN: dict[str, Literal["M", "L", "C"]] = {"M": "M", "L": "L", "C": "C"}
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "A": 7, "Z": 0}


@lru_cache(maxsize=4096)
def steps(data: str) -> tuple[Step, ...]:
    """The steps of path data made of absolute M L H V C Q A Z (SVG 1.1, 8.3).

    Raises ``ValueError`` for anything else in it.

    >>> steps("M 1 2 H 5 Z")
    (('M', (1.0, 2.0)), ('L', (5.0, 2.0)), ('Z', ()))
    """
    found: list[Step] = []
    pen = start = (0.0, 0.0)
    for letter, numbers in _commands(data):
        if letter == "Z":
            found.append(("Z", ()))
            pen = start
            continue
        if letter in _PLAIN:  # most of all commands are steps as they are
            found.append((_PLAIN[letter], numbers))
        else:
            found += _as_steps(letter, numbers, pen)
        last = found[-1][1]
        pen = last[-2], last[-1]
        if letter == "M":
            start = pen
    return tuple(found)


@lru_cache(maxsize=4096)
def bounding_box(data: str) -> Box:
    """Left, top, right and bottom of the shape itself, not of its control points.

    >>> bounding_box("M 0 0 C 0 4 8 4 8 0")
    (0.0, 0.0, 8.0, 3.0)
    """
    xs: list[float] = []
    ys: list[float] = []
    pen = (0.0, 0.0)
    for letter, numbers in steps(data):
        if letter == "C":
            xs += _furthest(pen[0], *numbers[0::2])
            ys += _furthest(pen[1], *numbers[1::2])
        if numbers:
            pen = numbers[-2], numbers[-1]
            xs.append(pen[0])
            ys.append(pen[1])
    return (min(xs), min(ys), max(xs), max(ys)) if xs else (0.0, 0.0, 0.0, 0.0)


def _furthest(a: float, b: float, c: float, d: float) -> Iterator[float]:
    """Where one coordinate of a cubic turns back between its ends."""
    third, second, first = d - a + 3.0 * (b - c), 2.0 * (a - 2.0 * b + c), b - a
    for t in _roots(third, second, first):
        if 0.0 < t < 1.0:
            s = 1.0 - t
            yield s * s * s * a + 3.0 * s * s * t * b + 3.0 * s * t * t * c + t * t * t * d


def _roots(square: float, linear: float, constant: float) -> tuple[float, ...]:
    if abs(square) < 1e-12:
        return () if abs(linear) < 1e-12 else (-constant / linear,)
    under = linear * linear - 4.0 * square * constant
    if under < 0.0:
        return ()
    half = -(linear + (sqrt(under) if linear >= 0.0 else -sqrt(under))) / 2.0
    return (half / square, constant / half) if half else (0.0,)


def rounded_rectangle(x: float, y: float, width: float, height: float, corner: float) -> str:
    """An upright rectangle with round corners as path data, as SVG 1.1 (9.2) draws it.

    >>> len(steps(rounded_rectangle(0.0, 0.0, 8.0, 4.0, 1.0)))
    10
    """
    r = min(corner, width / 2, height / 2)
    right, bottom, bend = x + width, y + height, f"A {r} {r} 0 0 1"
    return (
        f"M {x + r} {y} H {right - r} {bend} {right} {y + r} "
        f"V {bottom - r} {bend} {right - r} {bottom} "
        f"H {x + r} {bend} {x} {bottom - r} V {y + r} {bend} {x + r} {y} Z"
    )


def _commands(data: str) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Each command with the numbers of one repetition; more pairs after M are lines."""
    text = data.strip()
    if text and not text.startswith("M"):
        raise ValueError(f"path data begins with M, not {text[:20]!r}")
    for letter, rest in _COMMAND.findall(text):
        if letter not in _TAKES:
            raise ValueError(f"{letter!r} is not a path command that is drawn here")
        numbers, takes = _numbers(rest), _TAKES[letter]
        if len(numbers) % (takes or 1) or (takes == 0) != (not numbers):
            raise ValueError(f"{letter!r} in path data takes {takes} numbers, not {rest[:40]!r}")
        if not takes:
            yield letter, ()
        for at in range(0, len(numbers), takes or 1):
            yield ("L" if letter == "M" and at else letter), tuple(numbers[at : at + takes])


def _numbers(text: str) -> list[float]:
    """The numbers in a text: split where they stand apart, which is quick; else looked for."""
    try:
        found = [float(part) for part in text.replace(",", " ").split()]
    except ValueError:
        found = _looked_for(text)
    # Python reads 1_000, nan and inf as numbers too.
    if "_" in text or not isfinite(sum(found)):
        raise ValueError(f"path data holds finite numbers only, not {text[:40]!r}")
    return found


def _looked_for(text: str) -> list[float]:
    """Numbers that may touch, such as ``1-2.5.5``."""
    if _BETWEEN.fullmatch(_NUMBER.sub("", text)) is None:
        raise ValueError(f"path data holds finite numbers only, not {text[:40]!r}")
    return [float(found) for found in _NUMBER.findall(text)]


def _as_steps(letter: str, numbers: tuple[float, ...], pen: tuple[float, float]) -> Iterator[Step]:
    """The steps of a command that is none itself."""
    if letter == "H":
        yield "L", (numbers[0], pen[1])
    elif letter == "V":
        yield "L", (pen[0], numbers[0])
    elif letter == "Q":
        yield "C", _cubic(pen, numbers)
    else:
        yield from _arc(pen, numbers)


def _cubic(pen: tuple[float, float], quadratic: tuple[float, ...]) -> tuple[float, ...]:
    """The same curve one degree higher."""
    cx, cy, x, y = quadratic
    return (
        pen[0] + (cx - pen[0]) * 2 / 3,
        pen[1] + (cy - pen[1]) * 2 / 3,
        x + (cx - x) * 2 / 3,
        y + (cy - y) * 2 / 3,
        x,
        y,
    )


def _arc(pen: tuple[float, float], numbers: tuple[float, ...]) -> Iterator[Step]:
    """An elliptical arc as cubics of at most a quarter turn (SVG 1.1, F.6.5 and F.6.6)."""
    rx, ry, turn, large, sweep, x, y = numbers
    rx, ry = abs(rx), abs(ry)
    if (x, y) == pen:
        yield "L", (x, y)
        return
    if not rx or not ry:
        yield "L", (x, y)
        return
    cosine, sine = cos(radians(turn)), sin(radians(turn))
    half_x, half_y = (pen[0] - x) / 2, (pen[1] - y) / 2
    ax, ay = cosine * half_x + sine * half_y, -sine * half_x + cosine * half_y
    grow = max(1.0, hypot(ax / rx, ay / ry))
    rx, ry = rx * grow, ry * grow
    rest = max(0.0, 1.0 / ((ax / rx) ** 2 + (ay / ry) ** 2) - 1.0)
    side = sqrt(rest) * (-1.0 if bool(large) == bool(sweep) else 1.0)
    mx, my = side * rx * ay / ry, -side * ry * ax / rx
    begin = _angle(1.0, 0.0, (ax - mx) / rx, (ay - my) / ry)
    span = _angle((ax - mx) / rx, (ay - my) / ry, (-ax - mx) / rx, (-ay - my) / ry)
    span += (2 * pi if sweep and span < 0 else 0.0) - (2 * pi if not sweep and span > 0 else 0.0)
    centre = (
        cosine * mx - sine * my + (pen[0] + x) / 2,
        sine * mx + cosine * my + (pen[1] + y) / 2,
    )
    parts = max(1, ceil(abs(span) / (pi / 2) - 1e-9))
    for part in range(parts):
        piece = _quarter(begin + span * part / parts, span / parts)
        placed = [
            value
            for u, v in piece
            for value in (
                centre[0] + cosine * rx * u - sine * ry * v,
                centre[1] + sine * rx * u + cosine * ry * v,
            )
        ]
        if part == parts - 1:
            placed[4:] = [x, y]
        yield "C", tuple(placed)


def _quarter(begin: float, span: float) -> tuple[tuple[float, float], ...]:
    """The control points and end of one cubic along the unit circle."""
    reach = 4.0 / 3.0 * tan(span / 4.0)
    end = begin + span
    return (
        (cos(begin) - reach * sin(begin), sin(begin) + reach * cos(begin)),
        (cos(end) + reach * sin(end), sin(end) - reach * cos(end)),
        (cos(end), sin(end)),
    )


def _angle(ux: float, uy: float, vx: float, vy: float) -> float:
    """Signed angle from u to v."""
    share = (ux * vx + uy * vy) / (hypot(ux, uy) * hypot(vx, vy))
    angle = acos(max(-1.0, min(1.0, share)))
    return -angle if ux * vy - uy * vx < 0 else angle
