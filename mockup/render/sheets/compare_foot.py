"""The foot of a comparison sheet: a bar to measure by, and the cautions of every version."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.lengths import Unit
from mockup.piece.placed import Piece
from mockup.render.record import Item
from mockup.render.sheets.areas import Area, Block
from mockup.render.sheets.cautions import cautions_block, cautions_for
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.rulers import bar_size, scale_bar

_COLUMNS = 3
_GUTTER = 6.0


def foot_height(
    pieces: Sequence[Piece], width: float, lettering: Lettering, scale: int, unit: Unit
) -> float:
    """How tall the foot stands on a sheet of ``width``, mm."""
    left, tall = bar_size(lettering, scale, unit)
    return max(tall, _cautions(pieces, left, width, lettering).height)


def foot(
    pieces: Sequence[Piece], area: Area, lettering: Lettering, scale: int, unit: Unit
) -> tuple[Item, ...]:
    """The scale bar at the left of ``area`` and the cautions beside it, from its top."""
    left, _ = bar_size(lettering, scale, unit)
    bar = scale_bar((area.x, area.y), lettering, scale, unit)
    notes = _cautions(pieces, left, area.width, lettering, (area.x, area.y))
    return (*bar.items, *notes.items)


def _cautions(
    pieces: Sequence[Piece],
    left: float,
    width: float,
    lettering: Lettering,
    at: tuple[float, float] = (0.0, 0.0),
) -> Block:
    """What any of the pieces calls for, each caution once."""
    place = (at[0] + left + _GUTTER, at[1])
    return cautions_block(place, width - left - _GUTTER, lettering, cautions_for(*pieces), _COLUMNS)
