"""How a block begins: a hairline, and its heading under it."""

from __future__ import annotations

from mockup.render.record import Item, Line, Point
from mockup.render.sheets.areas import Block
from mockup.render.sheets.inks import HAIRLINE, SOFT
from mockup.render.sheets.lettering import Hand, Lettering


def heading(at: Point, width: float, lettering: Lettering, words: str, aside: str = "") -> Block:
    """A hairline across ``width`` with ``words`` beneath it and an ``aside`` at the right."""
    x, y = at
    bold = Hand(lettering.body, "bold", role="heading")
    quiet = Hand(lettering.small, colour=SOFT, role="heading")
    base = y + 2.1 * lettering.body
    items: list[Item] = [
        Line((x, y), (x + width, y), HAIRLINE),
        bold.at((x, base), words),
    ]
    if aside:
        items.append(quiet.at((x + width, base), aside, "end"))
    return Block(tuple(items), 3.2 * lettering.body)
