"""Views with their dimensions: what is kept from one sheet for the next."""

from __future__ import annotations

from pathlib import Path

import matplotlib as mpl

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.render.fonts import lettered_with
from mockup.render.sheets.areas import Area
from mockup.render.sheets.aspects import all_seen, laid_out
from mockup.render.sheets.lettering import SMALL_SHEET
from mockup.render.sheets.measures import Printed

SAMPLE = Path(__file__).parents[2] / "samples" / "ruby-thirty.toml"
DEJAVU = Path(mpl.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"


def areas() -> tuple[Area, ...]:
    views = all_seen(assemble(read_design(SAMPLE)), ("front",))
    return laid_out(views, 10, SMALL_SHEET, Printed("in", "own")).areas()


def test_figures_in_another_font_take_their_own_room() -> None:
    """What was measured in one font was kept for another, and figures then ran into each other."""
    ours = areas()
    with lettered_with(DEJAVU):
        theirs = areas()
    assert theirs != ours
    assert areas() == ours
