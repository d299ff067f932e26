"""Do the numerals fit the opening?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.lengths import format_length, format_spare
from mockup.panel.fit import Fit
from mockup.piece.finding import Finding
from mockup.piece.hanging import NOTICED, hanging, off_middle
from mockup.piece.placed import Piece


def numerals_fit(piece: Piece) -> Iterator[Finding]:
    """The verdict of the fit with its room to spare, the best shift and the largest height."""
    panel, fit = piece.design.panel, piece.fit
    if panel is None or fit is None:
        return
    fits = fit.verdict in ("clear", "tucks")
    yield Finding(
        "numerals fit",
        "holds" if fits else "fails",
        round(fit.room, 1),
        0.0,
        "mm",
        fit_words(piece, fit),
        "" if fits else _remedy(piece, fit),
        tuple(sorted({touch.balloon for touch in fit.touches})),
    )


def fit_words(piece: Piece, fit: Fit) -> str:
    """The fit in one sentence for a craftsperson."""
    unit = piece.design.unit
    text = piece.design.panel.text if piece.design.panel else ""
    several, verb = ("s", "") if len(text) != 1 else ("", "s")
    stands = f"The numeral{several} {text} stand{verb} {format_length(fit.height, unit)} tall"
    if fit.verdict == "clear":
        said = f"and clear{verb} everything with {format_spare(fit.room, unit)} to spare"
    elif fit.verdict == "tucks":
        deep = max((touch.depth for touch in fit.touches), default=0.0)
        said = (
            f"and tuck{verb} up to {format_spare(deep, unit)} behind the {_where(piece, fit)}, "
            f"touching nothing ({format_spare(fit.room, unit)} to spare)"
        )
    elif fit.verdict == "overhangs":
        said = f"and overhang{verb} the frame by {format_spare(fit.overhang, unit)}"
    else:
        press = "presses" if verb else "press"
        said = f"and {press} {format_spare(fit.room, unit)} into the {_where(piece, fit)}"
    return f"{stands} {said}{_shift(fit, piece)}."


def _shift(fit: Fit, piece: Piece) -> str:
    """How far the row is moved up or down, and where that leaves it in the window."""
    hangs, unit = hanging(piece), piece.design.unit
    off = off_middle(hangs, unit) if hangs else ""
    if abs(fit.raised) < NOTICED:
        return f", {off}" if off else ""
    way = "raised" if fit.raised > 0 else "lowered"
    moved = f", {way} {format_length(abs(fit.raised), unit)}"
    if hangs and not off:
        return f"{moved} to the middle of the window"
    return f"{moved} from the middle of the frame{off and f': {off}'}"


def _where(piece: Piece, fit: Fit) -> str:
    """The sections of the balloons touched: "top and bottom balloons"."""
    names: dict[str, None] = {}
    for touch in fit.touches:
        names.setdefault(piece.balloons[touch.balloon].section)
    return f"{' and '.join(names) or 'nearest'} balloons"


def _remedy(piece: Piece, fit: Fit) -> str:
    unit, panel = piece.design.unit, piece.design.panel
    if fit.largest_height <= 0 or panel is None:
        return "no height of these numerals fits: take fewer numerals or smaller balloons"
    named = fit.largest_height / (1 - piece.design.limits.foil_shrink)
    least = f"numerals up to {format_length(fit.largest_height, unit)} filled"
    return f"{least} (named about {format_length(named, unit)}) fit; or take a larger frame"
