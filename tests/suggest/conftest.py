"""Small briefs that every test of the search starts from."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from mockup.design.model import Design
from mockup.design.wishes import Wishes, read_wishes

HEAD = """title = "Law"
palette = "october lane"
colours = { A = "pine shade", B = "barley", C = "old copper" }
"""
SECTION = """[[section]]
at = "%s"
colours = "AB"
clusters = [{ strokes = 3 }, { strokes = 2 }]
end_cap = { strokes = 1, colours = "C" }
"""
PANEL = '[panel]\nnumerals = "110"\nheight = "13in"\ncolour = "C"\n'

Brief = Callable[..., tuple[Design, Wishes]]


@pytest.fixture
def brief(tmp_path: Path) -> Brief:
    """``brief(wishes, ring)`` reads a ring with a crescent at 12 and one at 6.

    ``more`` is written after the wishes, ``sections`` after both crescents.
    """

    def read(
        wishes: str, ring: str = "24in", more: str = "", sections: str = ""
    ) -> tuple[Design, Wishes]:
        sections = SECTION % "12" + SECTION % "6" + sections
        text = f'{HEAD}[frame]\noutside = "{ring}"\n{sections}{PANEL}[wishes]\n{wishes}\n{more}'
        file = tmp_path / "law.toml"
        file.write_text(text, "utf-8")
        return read_wishes(file)

    return read
