"""Centre-lines of our own foil digits and signs, drawn into a box (width, height) of any shape.

The stroke is laid round the centre-line afterwards, so a wider box gives a wider digit of the same
weight and the same round bends.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians

from mockup.panel.pen import Pen, Stroke

Draw = Callable[[float, float], tuple[Stroke, ...]]
"""(width, height) of the box of the centre-line -> its strokes, origin at the lower left."""


def oval(w: float, h: float) -> Stroke:
    """A full oval, squarer than an ellipse so that its opening keeps a round top.

    >>> oval(2.0, 4.0).max(axis=0).tolist()
    [2.0, 4.0]
    """
    mid, side, rise = w / 2, 0.36 * w, 0.31 * h
    pen = Pen().to(mid, h).curve((mid + side, h), (w, h / 2 + rise), (w, h / 2))
    pen.curve((w, h / 2 - rise), (mid + side, 0.0), (mid, 0.0))
    pen.curve((mid - side, 0.0), (0.0, h / 2 - rise), (0.0, h / 2))
    return pen.curve((0.0, h / 2 + rise), (mid - side, h), (mid, h)).stroke()


def hook(reach: float, rise: float, lift_deg: float) -> tuple[float, float]:
    """Radii of an arc that, ended ``lift_deg`` short of its side, ends ``reach`` to that side.

    >>> from mockup.panel.pen import Pen
    >>> radii = hook(1.0, 0.5, 30.0)
    >>> round(float(Pen().arc((0.0, 0.0), radii, 90, 150).stroke()[-1, 0]), 9)
    -1.0
    """
    short = cos(radians(lift_deg))
    wide = reach + rise * (1.0 - short)
    return (wide if wide >= rise else reach / short, rise)


def _zero(w: float, h: float) -> tuple[Stroke, ...]:
    return (oval(w, h),)


def _one(w: float, h: float) -> tuple[Stroke, ...]:
    return (Pen().to(0.0, 0.82 * h).to(w, h).to(w, 0.0).stroke(),)


def _two(w: float, h: float) -> tuple[Stroke, ...]:
    rise = 0.25 * h
    pen = Pen().arc((w / 2, h - rise), (w / 2, rise), 168, 0)
    pen.curve((w, 0.50 * h), (0.26 * w, 0.30 * h), (0.0, 0.0))
    return (pen.to(w, 0.0).stroke(),)


def _three(w: float, h: float) -> tuple[Stroke, ...]:
    mid, waist = 0.44 * w, 0.53 * h
    upper, lower = (h - waist) / 2, waist / 2
    pen = Pen().arc((mid, h - upper), hook(mid - 0.02 * w, upper, 33), 147, 90)
    pen.arc((mid, h - upper), (0.5 * w, upper), 90, -90)
    pen.arc((mid, lower), (w - mid, lower), 90, -90)
    return (pen.arc((mid, lower), hook(mid, lower, 38), -90, -142).stroke(),)


def _four(w: float, h: float) -> tuple[Stroke, ...]:
    bar, stem = 0.30 * h, 0.78 * w
    arm = Pen().to(0.12 * w, h).to(0.0, bar).to(w, bar).stroke()
    return arm, Pen().to(stem, 0.72 * h).to(stem, 0.0).stroke()


def _five(w: float, h: float) -> tuple[Stroke, ...]:
    mid, rise, stem = 0.45 * w, 0.305 * h, 0.50 * h
    pen = Pen().to(0.94 * w, h).to(0.05 * w, h).to(0.0, stem)
    pen.curve((0.12 * w, 0.565 * h), (0.24 * w, 2 * rise), (mid, 2 * rise))
    pen.arc((mid, rise), (w - mid, rise), 90, -90)
    return (pen.arc((mid, rise), hook(mid, rise, 35), -90, -145).stroke(),)


def _six(w: float, h: float) -> tuple[Stroke, ...]:
    rise, crown = 0.275 * h, 0.60 * w
    pen = Pen().to(0.95 * w, 0.96 * h).curve((0.86 * w, 0.985 * h), (0.74 * w, h), (crown, h))
    pen.curve((0.18 * w, h), (0.0, 0.68 * h), (0.0, rise))
    return (pen.arc((w / 2, rise), (w / 2, rise), 180, -180).stroke(),)


def _seven(w: float, h: float) -> tuple[Stroke, ...]:
    return (Pen().to(0.0, h).to(w, h).to(0.30 * w, 0.0).stroke(),)


def _eight(w: float, h: float) -> tuple[Stroke, ...]:
    waist = 0.52 * h
    upper, lower = (0.47 * w, (h - waist) / 2), (0.5 * w, waist / 2)
    pen = Pen().arc((w / 2, h - upper[1]), upper, -90, 270)
    return (pen.arc((w / 2, lower[1]), lower, 90, -270).stroke(),)


def _nine(w: float, h: float) -> tuple[Stroke, ...]:
    return tuple((w, h) - stroke for stroke in _six(w, h))


def _plus(w: float, h: float) -> tuple[Stroke, ...]:
    mid, arm = h / 2, min(w, h) / 2
    across = Pen().to(0.0, mid).to(w, mid).stroke()
    return across, Pen().to(w / 2, mid - arm).to(w / 2, mid + arm).stroke()


def _minus(w: float, h: float) -> tuple[Stroke, ...]:
    return (Pen().to(0.0, h / 2).to(w, h / 2).stroke(),)


def _bang(w: float, h: float) -> tuple[Stroke, ...]:
    return Pen().to(w / 2, h).to(w / 2, 0.43 * h).stroke(), _dot(w, h)


def _query(w: float, h: float) -> tuple[Stroke, ...]:
    rise = 0.22 * h
    pen = Pen().arc((w / 2, h - rise), (w / 2, rise), 180, -45)
    pen.curve((0.71 * w, 0.57 * h), (w / 2, 0.54 * h), (w / 2, 0.43 * h))
    return pen.stroke(), _dot(w, h)


def _stop(w: float, h: float) -> tuple[Stroke, ...]:
    return (_dot(w, h),)


def _dot(w: float, h: float) -> Stroke:
    """A very short stroke: a line without length has no direction and no outline."""
    half = min(0.002 * h, w / 2)
    return Pen().to(w / 2 - half, 0.0).to(w / 2 + half, 0.0).stroke()


DIGITS: dict[str, tuple[float, Draw]] = {
    "0": (0.64, _zero),
    "1": (0.40, _one),
    "2": (0.62, _two),
    "3": (0.62, _three),
    "4": (0.67, _four),
    "5": (0.62, _five),
    "6": (0.63, _six),
    "7": (0.60, _seven),
    "8": (0.63, _eight),
    "9": (0.63, _nine),
    "+": (0.60, _plus),
    "-": (0.45, _minus),
    "!": (0.24, _bang),
    "?": (0.58, _query),
    ".": (0.24, _stop),
}
"""Character -> (usual width as a share of the height, how its centre-line is drawn)."""
