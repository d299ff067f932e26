"""Centre-lines of our own foil capitals and the ampersand, in the manner of the digits."""

from __future__ import annotations

from mockup.panel.digits import Draw, hook, oval
from mockup.panel.pen import Pen, Stroke


def _line(*points: tuple[float, float]) -> Stroke:
    pen = Pen()
    for x, y in points:
        pen.to(x, y)
    return pen.stroke()


def _a(w: float, h: float) -> tuple[Stroke, ...]:
    slant, turn = 0.16 * w, 0.66 * h
    legs = Pen().to(0.0, 0.0).to(slant, turn)
    legs.curve((slant + 0.06 * w, 0.90 * h), (0.36 * w, h), (w / 2, h))
    legs.curve((0.64 * w, h), (w - slant - 0.06 * w, 0.90 * h), (w - slant, turn)).to(w, 0.0)
    bar = 0.28 * h
    inset = slant * bar / turn
    return legs.stroke(), _line((inset, bar), (w - inset, bar))


def _b(w: float, h: float) -> tuple[Stroke, ...]:
    waist = 0.52 * h
    upper, lower = (h - waist) / 2, waist / 2
    pen = Pen().to(0.0, 0.0).to(0.0, h).to(0.45 * w, h)
    pen.arc((0.45 * w, h - upper), (0.48 * w, upper), 90, -90).to(0.0, waist)
    top = pen.stroke()
    foot = Pen().to(0.45 * w, waist).arc((0.45 * w, lower), (0.55 * w, lower), 90, -90)
    return top, foot.to(0.0, 0.0).stroke()


def _c(w: float, h: float) -> tuple[Stroke, ...]:
    mid, rise = 0.52 * w, 0.36 * h
    ends = hook(w - mid, rise, 38)
    pen = Pen().arc((mid, h - rise), ends, 38, 90).arc((mid, h - rise), (mid, rise), 90, 180)
    pen.arc((mid, rise), (mid, rise), 180, 270)
    return (pen.arc((mid, rise), ends, 270, 322).stroke(),)


def _d(w: float, h: float) -> tuple[Stroke, ...]:
    mid, rise = 0.35 * w, 0.40 * h
    pen = Pen().to(0.0, 0.0).to(0.0, h).arc((mid, h - rise), (w - mid, rise), 90, 0)
    return (pen.arc((mid, rise), (w - mid, rise), 0, -90).to(0.0, 0.0).stroke(),)


def _e(w: float, h: float) -> tuple[Stroke, ...]:
    return _line((w, h), (0.0, h), (0.0, 0.0), (w, 0.0)), _line((0.0, h / 2), (0.86 * w, h / 2))


def _f(w: float, h: float) -> tuple[Stroke, ...]:
    return _line((w, h), (0.0, h), (0.0, 0.0)), _line((0.0, 0.48 * h), (0.84 * w, 0.48 * h))


def _g(w: float, h: float) -> tuple[Stroke, ...]:
    mid, rise = 0.52 * w, 0.36 * h
    pen = Pen().arc((mid, h - rise), hook(w - mid, rise, 38), 38, 90)
    pen.arc((mid, h - rise), (mid, rise), 90, 180).arc((mid, rise), (mid, rise), 180, 270)
    pen.arc((mid, rise), (w - mid, rise), 270, 360)
    return (pen.to(w, 0.42 * h).to(0.66 * w, 0.42 * h).stroke(),)


def _h(w: float, h: float) -> tuple[Stroke, ...]:
    bar = _line((0.0, h / 2), (w, h / 2))
    return _line((0.0, 0.0), (0.0, h)), _line((w, 0.0), (w, h)), bar


def _i(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((w / 2, 0.0), (w / 2, h)),)


def _j(w: float, h: float) -> tuple[Stroke, ...]:
    mid, rise = 0.46 * w, 0.28 * h
    pen = Pen().to(w, h).arc((mid, rise), (w - mid, rise), 0, -90)
    return (pen.arc((mid, rise), hook(mid, rise, 20), -90, -160).stroke(),)


def _k(w: float, h: float) -> tuple[Stroke, ...]:
    arm = _line((w, h), (0.0, 0.40 * h))
    return _line((0.0, 0.0), (0.0, h)), arm, _line((0.36 * w, 0.616 * h), (w, 0.0))


def _l(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, h), (0.0, 0.0), (w, 0.0)),)


def _m(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, 0.0), (0.0, h), (w / 2, 0.30 * h), (w, h), (w, 0.0)),)


def _n(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, 0.0), (0.0, h), (w, 0.0), (w, h)),)


def _o(w: float, h: float) -> tuple[Stroke, ...]:
    return (oval(w, h),)


def _p(w: float, h: float) -> tuple[Stroke, ...]:
    rise = 0.28 * h
    pen = Pen().to(0.0, 0.0).to(0.0, h).to(0.45 * w, h)
    return (
        pen.arc((0.45 * w, h - rise), (0.55 * w, rise), 90, -90).to(0.0, h - 2 * rise).stroke(),
    )


def _q(w: float, h: float) -> tuple[Stroke, ...]:
    return oval(w, h), _line((0.70 * w, 0.22 * h), (w, 0.0))


def _r(w: float, h: float) -> tuple[Stroke, ...]:
    return *_p(0.97 * w, h), _line((0.42 * w, 0.44 * h), (w, 0.0))


def _s(w: float, h: float) -> tuple[Stroke, ...]:
    waist = 0.52 * h
    upper, lower = (h - waist) / 2, waist / 2
    pen = Pen().arc((w / 2, h - upper), hook(0.47 * w, upper, 30), 30, 90)
    pen.arc((w / 2, h - upper), (0.48 * w, upper), 90, 270)
    pen.arc((w / 2, lower), (w / 2, lower), 90, -90)
    return (pen.arc((w / 2, lower), hook(w / 2, lower, 32), -90, -148).stroke(),)


def _t(w: float, h: float) -> tuple[Stroke, ...]:
    return _line((0.0, h), (w, h)), _line((w / 2, h), (w / 2, 0.0))


def _u(w: float, h: float) -> tuple[Stroke, ...]:
    rise = 0.34 * h
    pen = Pen().to(0.0, h).arc((w / 2, rise), (w / 2, rise), 180, 360)
    return (pen.to(w, h).stroke(),)


def _v(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, h), (w / 2, 0.0), (w, h)),)


def _w(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, h), (0.23 * w, 0.0), (w / 2, 0.74 * h), (0.77 * w, 0.0), (w, h)),)


def _x(w: float, h: float) -> tuple[Stroke, ...]:
    return _line((0.0, h), (w, 0.0)), _line((0.0, 0.0), (w, h))


def _y(w: float, h: float) -> tuple[Stroke, ...]:
    fork = 0.42 * h
    return _line((0.0, h), (w / 2, fork), (w, h)), _line((w / 2, fork), (w / 2, 0.0))


def _z(w: float, h: float) -> tuple[Stroke, ...]:
    return (_line((0.0, h), (w, h), (0.0, 0.0), (w, 0.0)),)


def _and(w: float, h: float) -> tuple[Stroke, ...]:
    pen = Pen().to(w, 0.0).to(0.20 * w, 0.66 * h)
    pen.curve((0.12 * w, 0.76 * h), (0.14 * w, h), (0.42 * w, h))
    pen.curve((0.76 * w, h), (0.78 * w, 0.68 * h), (0.46 * w, 0.52 * h))
    pen.curve((0.18 * w, 0.40 * h), (0.0, 0.36 * h), (0.0, 0.20 * h))
    pen.curve((0.0, 0.08 * h), (0.16 * w, 0.0), (0.36 * w, 0.0))
    return (pen.curve((0.62 * w, 0.0), (0.86 * w, 0.14 * h), (w, 0.42 * h)).stroke(),)


LETTERS: dict[str, tuple[float, Draw]] = {
    "A": (0.74, _a), "B": (0.64, _b), "C": (0.66, _c), "D": (0.66, _d), "E": (0.58, _e),
    "F": (0.56, _f), "G": (0.68, _g), "H": (0.66, _h), "I": (0.24, _i), "J": (0.54, _j),
    "K": (0.66, _k), "L": (0.56, _l), "M": (0.88, _m), "N": (0.74, _n), "O": (0.70, _o),
    "P": (0.62, _p), "Q": (0.72, _q), "R": (0.66, _r), "S": (0.62, _s), "T": (0.64, _t),
    "U": (0.66, _u), "V": (0.72, _v), "W": (1.00, _w), "X": (0.70, _x), "Y": (0.70, _y),
    "Z": (0.64, _z), "&": (0.76, _and),
}  # fmt: skip
"""Character -> (usual width as a share of the height, how its centre-line is drawn)."""
