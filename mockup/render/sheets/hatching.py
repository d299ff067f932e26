"""The light hatching of the panel window."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from mockup.render.record import Group, Item, Path, Point, Style

HATCH = Style(stroke="#d9dce1", stroke_width=0.18)
STEP = 2.8
"""From one line to the next along the foot of the window, mm on the sheet."""


def hatched(window: Sequence[Point], on_sheet: Callable[[float, float], Point]) -> tuple[Item, ...]:
    """The window as thin lines at 45 degrees, clipped to its outline; nothing for none."""
    if len(window) < 3:
        return ()
    points = [on_sheet(x, y) for x, y in window]
    clip = "M" + " L".join(f"{x:.3f} {y:.3f}" for x, y in points) + " Z"
    return (Group((Path(" ".join(_strokes(points)), HATCH),), kind="window", clip=clip),)


def _strokes(points: Sequence[Point]) -> Iterator[str]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    top, foot = min(ys), max(ys)
    x = min(xs) - (foot - top)
    while x < max(xs):
        yield f"M{x:.3f} {foot:.3f} L{x + foot - top:.3f} {top:.3f}"
        x += STEP
