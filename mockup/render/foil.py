"""Foil numerals: welded flat at the edge, puckered along the weld, blown up round to the ridge.

Each digit is strokes laid over one another along its centre-line, from the outline in to the
ridge, every one narrower and moved a little further toward the light, so that the lit flank is
steep with light and the other long with shade. Same digits of one size share one symbol.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from mockup.colour.tones import tone
from mockup.design.model import ColourUse
from mockup.panel.numerals import NumeralShape
from mockup.render.curve_fit import fitted
from mockup.render.flanks import Flank, flank_paths
from mockup.render.puckers import pucker_paths
from mockup.render.record import Item, Path, Place, Style, Symbol
from mockup.render.rounded import TOWARD_LIGHT, Profile, steps
from mockup.render.tones import SHADE, Ink, Recolour, symbol
from mockup.render.tracks import Track, joined
from mockup.render.viewpoint import Eye

if TYPE_CHECKING:
    from shapely import MultiLineString

_TRUE_SLACK, _SHEET_SLACK = 0.15, 0.02
_SHADE_LAYERS, _SHADE_EACH = 26, 0.011
_WELD_TONES: Profile = (
    (0.0, -0.66),
    (0.14, -0.30),
    (0.30, 0.05),
    (0.42, 0.42),
    (0.56, 0.10),
    (0.74, -0.44),
)


@dataclass(frozen=True)
class FoilLook:
    """A finish of foil: its tones from the weld to the ridge, how far they lean toward the light,
    the light and shade on its flanks, and how deep its puckers look."""

    rise: Profile
    lean: float
    flanks: tuple[Flank, ...]
    puckers: float


MIRROR = FoilLook(
    (
        (0.0, -0.54),
        (0.10, -0.36),
        (0.20, -0.08),
        (0.31, 0.34),
        (0.38, 0.44),
        (0.47, 0.16),
        (0.57, -0.10),
        (0.66, -0.13),
        (0.77, 0.08),
        (0.89, 0.46),
        (1.0, 0.64),
    ),
    0.30,
    (
        Flank(-0.72, -1.0, 0.0, 0.85, 0.44, 16),
        Flank(0.55, -0.84, 0.11, 0.02, 0.50, 8),
        Flank(0.92, 0.55, 0.30, 0.05, 0.50, 14),
        Flank(1.0, 0.60, 0.10, 0.035, 0.82, 6),
    ),
    1.0,
)
SATIN = FoilLook(
    (
        (0.0, -0.40),
        (0.12, -0.24),
        (0.30, -0.08),
        (0.55, 0.04),
        (0.80, 0.16),
        (1.0, 0.26),
    ),
    0.42,
    (
        Flank(-0.70, -1.0, 0.0, 0.9, 0.34, 14),
        Flank(0.90, 0.52, 0.36, 0.06, 0.42, 14),
    ),
    0.6,
)
LOOKS: dict[str, FoilLook] = {
    "matte": SATIN,
    "pearl": SATIN,
    "gloss": MIRROR,
    "mirror": MIRROR,
    "clear": MIRROR,
}


def numeral(shape: NumeralShape, foil: ColourUse, eye: Eye) -> tuple[Item, ...]:
    """A foil numeral where it hangs: its shade on what is behind, and the foil itself."""
    at = eye.at(shape.x, shape.y)
    own = _on_its_own(shape)
    recolour = eye.options.recolour
    drawn = foil_symbol(own, eye.scale, foil.srgb, foil.finish, recolour)
    if not eye.options.shadows:
        return (Place(drawn, at),)
    return Place(_hanging(own, eye.scale, recolour), at), Place(drawn, at)


def _on_its_own(shape: NumeralShape) -> NumeralShape:
    """The numeral about the origin, to a millionth of a mm.

    Wherever it hung, the last digits of its strokes are then the same, and so is its drawing.
    """
    own = shape.moved(-shape.x, -shape.y)
    strokes = tuple(np.round(stroke, 6) + 0.0 for stroke in own.strokes)
    sizes = (round(own.width, 6), round(own.height, 6), round(own.half_width, 6))
    return NumeralShape(own.char, 0.0, 0.0, *sizes, strokes)


@lru_cache(maxsize=128)
def foil_symbol(
    shape: NumeralShape, scale: float, colour: str, finish: str, recolour: Recolour
) -> Symbol:
    """The foil of a numeral whose box is centred on the origin, in sheet mm."""

    def ink(amount: float) -> str:
        return recolour(tone(colour, amount))

    look, blank = LOOKS[finish], _blank(shape, scale)
    items = (
        *_weld(blank, ink),
        *_body(blank, look, colour, recolour),
        *(
            path
            for each in look.flanks
            for path in flank_paths(blank.spine, blank.blown, each, ink)
        ),
        *pucker_paths(blank.spine, blank.half, 0.8 * blank.weld, look.puckers, ink),
    )
    return symbol("foil", *items)


@dataclass(frozen=True)
class Blank:
    """A numeral's form on the sheet, mm, y down: its centre-lines as curves for the outline and, a
    little eased, for all within it, and as lines to work on; half its stroke; its weld's width."""

    outline: Track
    inner: Track
    spine: MultiLineString
    half: float
    weld: float

    @property
    def blown(self) -> float:
        """Half the width of what is blown up, inside the weld."""
        return self.half - self.weld


@lru_cache(maxsize=128)
def _blank(shape: NumeralShape, scale: float) -> Blank:
    from shapely import MultiLineString

    slack = max(_TRUE_SLACK * scale, _SHEET_SLACK)
    strokes = [np.asarray(stroke * (scale, -scale)) for stroke in shape.strokes]
    outline, inner = (joined([fitted(each, s) for each in strokes]) for s in (slack, 2 * slack))
    half = shape.half_width * scale
    spine = MultiLineString(strokes).simplify(slack / 2)
    return Blank(outline, inner, spine, half, (shape.half_width - shape.bulge) * scale)


@lru_cache(maxsize=128)
def _hanging(shape: NumeralShape, scale: float, recolour: Recolour) -> Symbol:
    """The shade a numeral throws on what hangs behind it."""
    blank, colour = _blank(shape, scale), recolour(SHADE)
    items = tuple(
        _stroke(blank.inner, blank.half * wide, -0.12 * blank.half, colour, _SHADE_EACH)
        for wide in np.linspace(1.17, 0.83, _SHADE_LAYERS).tolist()
    )
    return symbol("hang", *items)


def _weld(blank: Blank, ink: Ink) -> Iterator[Item]:
    """Outline, flat weld with its light seam, and the dark fold where the foil swells."""
    for inset, amount in _WELD_TONES:
        yield _stroke(blank.outline, blank.half - inset * blank.weld, 0.0, ink(amount))


def _body(blank: Blank, look: FoilLook, colour: str, recolour: Recolour) -> Iterator[Item]:
    for step in steps(colour, look.rise, blank.blown):
        wide, shift = blank.blown * (1 - step.rise), look.lean * blank.blown * step.rise
        yield _stroke(blank.inner, wide, shift, recolour(step.colour))


def _stroke(tracks: Track, half: float, shift: float, colour: str, opacity: float = 1.0) -> Path:
    """One stroke along the centre-lines, moved toward the light by ``shift``, sheet mm."""
    data = tracks.data(TOWARD_LIGHT[0] * shift, TOWARD_LIGHT[1] * shift)
    style = Style(stroke=colour, stroke_width=round(2 * half, 3), opacity=opacity, round_ends=True)
    return Path(data, style)
