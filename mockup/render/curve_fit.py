"""A polyline as few cubic Bezier curves: P. J. Schneider, "An Algorithm for Automatically Fitting
Digitized Curves", in Graphics Gems (1990), with the handles found by least squares."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from mockup.render.tracks import Track

Floats = NDArray[np.float64]
_TRIES = 4
_CORNER = np.cos(np.radians(25.0))


def fitted(points: Floats, slack: float) -> Track:
    """Path data of curves that pass a polyline (k, 2) within ``slack``, keeping its corners.

    >>> angles = np.linspace(0, np.pi, 40)
    >>> fitted(np.column_stack([np.cos(angles), np.sin(angles)]), 0.001).form.count("C")
    2
    """
    steps = np.diff(points, axis=0)
    units = steps / np.hypot(steps[:, 0], steps[:, 1])[:, None]
    turns = np.einsum("ij,ij->i", units[:-1], units[1:])
    ends = [0, *(np.flatnonzero(turns < _CORNER) + 1).tolist(), len(points) - 1]
    form, found = "M%g %g", [points[:1]]
    for first, last in pairwise(ends):
        if last - first == 1:
            form += "L%g %g"
            found.append(points[last : last + 1])
            continue
        run = points[first : last + 1]
        leave, arrive = _start(run), _start(run[::-1])
        for handles in _curves(run, leave, arrive, slack):
            form += "C%g %g %g %g %g %g"
            found.append(handles)
    return Track(form, np.concatenate(found))


def _start(run: Floats) -> Floats:
    """The direction a run of points leaves in, through its first three."""
    first, second = run[1] - run[0], run[2] - run[1]
    along = first / np.hypot(*first) * 1.5 - second / np.hypot(*second) * 0.5
    return np.asarray(along / np.hypot(*along))


def _curves(run: Floats, leave: Floats, arrive: Floats, slack: float) -> Iterator[Floats]:
    """Control points (3, 2), without the first, of each curve along a smooth run of points."""
    if len(run) == 2:
        third = float(np.hypot(*(run[1] - run[0]))) / 3
        yield np.array([run[0] + leave * third, run[1] + arrive * third, run[1]])
        return
    t = _shares(run)
    for _ in range(_TRIES):
        legs = _fit(run, t, leave, arrive)
        off = _at(run[0], legs, t) - run
        if float(np.hypot(*off.T).max()) <= slack:
            yield legs
            return
        t = _nearer(run[0], legs, t, off)
    split = len(run) // 2
    along = run[split + 1] - run[split - 1]
    middle = along / np.hypot(*along)
    yield from _curves(run[: split + 1], leave, -middle, slack)
    yield from _curves(run[split:], middle, arrive, slack)


def _shares(run: Floats) -> Floats:
    chords = np.hypot(*np.diff(run, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(chords)])
    return np.asarray(along / along[-1])


def _fit(run: Floats, t: Floats, leave: Floats, arrive: Floats) -> Floats:
    """The handles' lengths by least squares; a third of the chord where that makes no sense."""
    start, end = run[0], run[-1]
    b1, b2 = 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t)
    first, last = (1 - t) ** 3 + b1, t**3 + b2
    rest = (run - np.outer(first, start) - np.outer(last, end)).ravel()
    sides = np.column_stack([np.outer(b1, leave).ravel(), np.outer(b2, arrive).ravel()])
    long = np.linalg.lstsq(sides, rest, rcond=None)[0]
    chord = float(np.hypot(*(end - start)))
    if min(long) < 0.01 * chord:
        long = np.array([chord / 3, chord / 3])
    return np.array([start + leave * long[0], end + arrive * long[1], end])


def _nearer(start: Floats, legs: Floats, t: Floats, off: Floats) -> Floats:
    """Shares moved by one Newton step toward the nearest point of the curve."""
    polygon = np.vstack([start, legs])
    first, second = 3 * np.diff(polygon, axis=0), 6 * np.diff(polygon, 2, axis=0)
    pace = np.column_stack([(1 - t) ** 2, 2 * t * (1 - t), t**2]) @ first
    bend = np.column_stack([1 - t, t]) @ second
    slope = (pace * pace).sum(axis=1) + (off * bend).sum(axis=1)
    step = (off * pace).sum(axis=1) / np.where(np.abs(slope) > 1e-9, slope, np.inf)
    return np.asarray(np.clip(t - step, 0.0, 1.0))


def _at(start: Floats, legs: Floats, t: Floats) -> Floats:
    weights = np.column_stack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
    return np.asarray(weights @ np.vstack([start, legs]))
