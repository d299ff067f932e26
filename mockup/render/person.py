"""A plain standing figure, for the size of what stands beside it."""

from __future__ import annotations

from mockup.render.record import Point

FIGURE_INK = "#aeb3ba"
"""Its colour: a grey that steps behind the balloons."""

_CROWN, _SOLE = 0.04, 7.95
"""Top of the head and soles of the feet of the outline below, heads."""


def person_outline(foot: Point, tall: float) -> str:
    """A standing person as path data: a round head over a body that narrows to the feet.

    ``foot`` is between the feet, ``tall`` the height, both sheet mm. The head is an eighth of the
    height, the shoulders two heads wide (the rule of thumb of figure drawing, no source).

    >>> person_outline((0.0, 170.0), 170.0).startswith("M-9.886 9.886 ")
    True
    """
    x, y = foot
    head = tall / (_SOLE - _CROWN)

    def to(a: float, b: float) -> str:
        return f"{x + a * head:.3f} {y + (b - _SOLE) * head:.3f}"

    r = f"{0.46 * head:.3f}"
    return (
        f"M{to(-0.46, 0.5)} A{r} {r} 0 1 1 {to(0.46, 0.5)} A{r} {r} 0 1 1 {to(-0.46, 0.5)} Z "
        f"M{to(-0.5, 1.25)} L{to(0.5, 1.25)} C{to(0.95, 1.3)} {to(1.0, 1.6)} {to(1.02, 2.1)} "
        f"L{to(1.06, 4.0)} C{to(1.06, 4.3)} {to(0.78, 4.3)} {to(0.76, 4.0)} L{to(0.7, 2.4)} "
        f"L{to(0.62, 4.2)} L{to(0.58, 7.8)} C{to(0.58, 8.0)} {to(0.14, 8.0)} {to(0.13, 7.8)} "
        f"L{to(0.04, 4.5)} L{to(-0.04, 4.5)} L{to(-0.13, 7.8)} C{to(-0.14, 8.0)} {to(-0.58, 8.0)} "
        f"{to(-0.58, 7.8)} L{to(-0.62, 4.2)} L{to(-0.7, 2.4)} L{to(-0.76, 4.0)} "
        f"C{to(-0.78, 4.3)} {to(-1.06, 4.3)} {to(-1.06, 4.0)} L{to(-1.02, 2.1)} "
        f"C{to(-1.0, 1.6)} {to(-0.95, 1.3)} {to(-0.5, 1.25)} Z"
    )
