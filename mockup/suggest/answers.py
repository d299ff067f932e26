"""What the search found, in sentences: why each beats the next, what binds, and why none fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import pi

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.lengths import Unit, format_length
from mockup.suggest.searching import Outcome, Suggested

_HAIR = 1e-9
_EVEN = {"smoothness": "smooth", "cost": "cheap", "minutes": "quick"}
_MORE = {
    "fullness": "fuller",
    "smoothness": "smoother",
    "cost": "cheaper",
    "minutes": "quicker",
}


def beats(outcome: Outcome, place: int, wishes: Wishes, unit: Unit) -> str:
    """Why the design at ``place`` stands where it does, and which limit keeps it from more."""
    own = outcome.best[place]
    following = outcome.best[place + 1] if place + 1 < len(outcome.best) else None
    return f"{_against(own, following, wishes, unit)} {binds(own, wishes, first=not place)}".strip()


def _against(own: Suggested, other: Suggested | None, wishes: Wishes, unit: Unit) -> str:
    if other is None:
        return ""
    gain = other.figure - own.figure
    if wishes.rank == "fullness" or gain <= _HAIR:
        fuller = _front(own) / _front(other) - 1
        as_good = "" if wishes.rank == "fullness" else f"As {_EVEN[wishes.rank]} as the next, and "
        said = (
            f"fuller than it by {fuller:.1%}"
            if as_good
            else f"fuller than the next by {fuller:.1%}"
        )
        if fuller <= _HAIR:
            said = "as full" if as_good else "as full as the next"
        said = f"{as_good}{said}, seen from the front."
        return said[0].upper() + said[1:]
    if wishes.rank == "smoothness":
        return f"Its steps are more even than the next one's by {format_length(gain, unit)}."
    if wishes.rank == "minutes":
        return f"Quicker than the next by {gain:.0f} minutes."
    return f"Cheaper than the next by {gain:.2f}."


def _front(own: Suggested) -> float:
    """The discs of all balloons together, mm^2."""
    return pi * sum(balloon.radius**2 for balloon in own.piece.balloons)


def binds(own: Suggested, wishes: Wishes, *, first: bool) -> str:
    """The limits that refused whatever ranks before it."""
    if not own.refused and not first:
        return f"None that is {_MORE[wishes.rank]} was refused."
    if not own.refused:
        return f"Nothing that may be chosen is {_MORE[wishes.rank]}."
    count = sum(own.refused.values())
    reasons = ", ".join(f"{n:,} {why}" for why, n in _largest(own.refused))
    told = "that ranks before it was" if count == 1 else "that rank before it were"
    return f"{count:,} {told} refused: {reasons}."


def _largest(refused: dict[str, int], most: int = 3) -> list[tuple[str, int]]:
    return sorted(refused.items(), key=lambda one: (-one[1], one[0]))[:most]


def none_words(outcome: Outcome, design: Design) -> str:
    """Why no design holds, with the one that comes nearest."""
    unit = design.unit
    reasons = "; ".join(f"{n:,} {why}" for why, n in _largest(outcome.refused, 6))
    looked = f"All {outcome.total:,} designs that the wishes allow were refused"
    if outcome.thinned:
        looked = f"All {outcome.looked_at:,} designs of an even sample were refused (no proof)"
    says = f"None fits. {looked}: {reasons}."
    if outcome.nearest is not None and outcome.nearest.by > 0:
        says += (
            f" {_numerals(design)} in a {format_length(design.frame.outside, unit)} "
            f"{design.frame.kind}: the nearest misses by {format_length(outcome.nearest.by, unit)}"
            f"{_fine(outcome.nearest.by)}."
        )
    return says


def _numerals(design: Design) -> str:
    panel = design.panel
    if panel is None:
        return "With these clusters"
    height = panel.height if panel.height is not None else panel.measured or 0.0
    return f"The numerals {panel.text}, {format_length(height, design.unit)} tall,"


def _fine(mm: float) -> str:
    """What an eighth of an inch is too coarse for."""
    return f" ({mm:.1f} mm)" if mm < 25.4 else ""


def rings_words(
    tried: Sequence[tuple[float, Outcome]], design: Design, wishes: Wishes
) -> Iterator[str]:
    """The smallest ring that works, or that none of those tried does."""
    unit = design.unit
    steps = " of those wished" if wishes.rings else f", tried in {_STEPS[unit][1]}"
    fitting = next((outside for outside, outcome in tried if outcome.best), None)
    if fitting is not None:
        below = [outside for outside, _ in tried if outside < fitting]
        said = f"A {format_length(fitting, unit)} {design.frame.kind} is the smallest that works"
        said += steps
        if below:
            does = "does" if len(below) == 1 else "do"
            failed = ", ".join(format_length(one, unit, with_unit=False) for one in below)
            said += f" ({failed} {unit} {does} not)"
        if any(outcome.thinned for _, outcome in tried):
            said += ", of an even sample only: a smaller one may work"
        yield f"{said}."
    elif tried and wishes.rings:
        yield f"None of the {design.frame.kind}s wished works."
    elif tried:
        yield f"Up to {format_length(tried[-1][0], unit)} no {design.frame.kind} works{steps}."


_STEPS = {"in": (25.4, "whole inches"), "cm": (20.0, "steps of 2 cm")}


def ring_sizes(design: Design, wishes: Wishes) -> tuple[float, ...]:
    """The outside diameters to try: those wished, or larger ones in steps of 1 in or 2 cm."""
    if wishes.rings:
        return wishes.rings
    step = _STEPS[design.unit][0]
    # A ring of whole inches is no smaller than that many, whatever its binary fraction.
    first = int(design.frame.outside / step + 1e-6) + 1
    return tuple(step * (first + k) for k in range(16))
