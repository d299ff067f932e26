"""The stand: what holds a frame stays above the plate on which it stands."""

from __future__ import annotations

import pytest

from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.extent import floor
from mockup.render.hardware import stand_layers
from mockup.render.record import Group, Item, Rect, walk
from mockup.render.viewpoint import FRONT, Eye, ViewOptions

COLUMN = """
title = "Column"
colours = {{ A = "oat" }}
frame = {{ kind = "pole", height = "6ft", tube = "{tube}" }}
stand = {{ rise = "{rise}" }}
[[section]]
at = "3ft"
clusters = [{{ strokes = 3 }}]
"""


@pytest.mark.parametrize("tube", ["1/2in", "1in", "2in"])
@pytest.mark.parametrize("rise", ["1/2in", "1in", "3in", "12in"])
def test_nothing_of_a_stand_goes_through_its_plate(tube: str, rise: str) -> None:
    piece = assemble(design_from_text(COLUMN.format(tube=tube, rise=rise), "column.toml"))
    assert piece.design.stand is not None
    layers = stand_layers(piece, Eye(FRONT, 1.0, (0.0, 0.0), ViewOptions(shadows=False)))
    items: tuple[Item, ...] = tuple(layer.item for layer in layers)
    rects = [item for item in walk(items) if isinstance(item, Rect)]
    assert any(isinstance(item, Group) for item in items)
    # On the sheet y runs down: the lowest edge is that of the plate, which is on the floor.
    ground = -floor(piece.frame, piece.design.stand)
    assert max(rect.y + rect.height for rect in rects) == pytest.approx(ground)
    poles = [rect for rect in rects if rect.width < piece.design.stand.plate / 2]
    top = ground - piece.design.stand.plate_thickness
    assert poles
    assert all(rect.y + rect.height <= top + 1e-6 or rect.height < 0 for rect in poles)
