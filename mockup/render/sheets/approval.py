"""The approval: what is being approved, and three lines to write on."""

from __future__ import annotations

from mockup.render.record import Item, Line, Point
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import SOFT, WRITING_LINE
from mockup.render.sheets.lettering import Hand, Lettering, set_height


def approval_sentence(code: str, revision: int, colourway: str = "") -> str:
    """The sentence that is signed.

    >>> approval_sentence("1A2B3C4D", 2, "B")
    'I approve colourway B of proof 1A2B3C4D, revision 2: colours, sizes and places as drawn.'
    """
    way = f"colourway {colourway} of " if colourway else ""
    return f"I approve {way}proof {code}, revision {revision}: colours, sizes and places as drawn."


DRAFT = "Draft, not for approval"
DRAFT_SAYS = "A check fails. When it is mended, a proof to sign follows."


def not_for_approval_block(at: Point, width: float, lettering: Lettering) -> Block:
    """What stands on a draft in the place of the approval: there is nothing to sign."""
    top = heading(at, width, lettering, DRAFT)
    words = Hand(lettering.small, role="approval")
    lines = words.wrapped(DRAFT_SAYS, width)
    said, tall = words.set(lines, (at[0], at[1] + top.height))
    area = Area(*at, width, top.height + tall)
    return Block((*top.items, cell("approval", area, said)), area.height)


def approval_block(at: Point, width: float, lettering: Lettering, sentence: str) -> Block:
    """The words of approval with a line each for name, date and signature."""
    top = heading(at, width, lettering, "Approval")
    unit = lettering.body
    words = Hand(lettering.small, role="approval")
    lines = words.wrapped(sentence, width)
    y = at[1] + top.height
    said, _ = words.set(lines, (at[0], y))
    y += set_height(words.height, len(lines))
    first, second = y + 3.4 * unit, y + 3.4 * unit + 4.2 * unit
    split = at[0] + 0.66 * width
    gap = 1.6 * unit
    fields: tuple[Item, ...] = (
        *_field((at[0], first), split - gap - at[0], lettering, "Approved by"),
        *_field((split, first), at[0] + width - split, lettering, "Date"),
        *_field((at[0], second), width, lettering, "Signature"),
    )
    height = second + 2.2 * lettering.small - at[1]
    area = Area(at[0], at[1], width, height)
    return Block((*top.items, cell("approval", area, (*said, *fields))), height)


def _field(at: Point, width: float, lettering: Lettering, label: str) -> tuple[Item, ...]:
    quiet = Hand(lettering.small, colour=SOFT, role="label")
    x, y = at
    return (
        Line((x, y), (x + width, y), WRITING_LINE),
        quiet.at((x, y + 1.75 * lettering.small), label),
    )
