"""The colour key: letter, shaded and flat swatch, name, finish and share of the front."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from math import ceil

from mockup.design.model import ColourUse
from mockup.piece.placed import Piece
from mockup.piece.visible import FOIL
from mockup.render.balloons import shaded_ball
from mockup.render.record import Item, Point, Rect, Style
from mockup.render.sheets.areas import Area, Block, cell, stacked
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import HAIR, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering, set_height
from mockup.render.sheets.shares import whole_per_cents
from mockup.render.viewpoint import ViewOptions

_SHARES = ("share of the front", "share")


@dataclass(frozen=True)
class KeyRow:
    """One row of the key: ``mark`` is the letter, or the numerals themselves for the foil."""

    mark: str
    colour: ColourUse
    says: str
    share: int | None


def key_rows(
    piece: Piece, shares: Mapping[str, float] | None, view: ViewOptions | None = None
) -> tuple[KeyRow, ...]:
    """A row for each colour that is on the piece as it is viewed, and one for the foil.

    ``shares`` go by letter, and by ``FOIL``.
    """
    chosen = view or ViewOptions()
    palette = chosen.colours or piece.design.colours
    colours = {letter: palette[letter] for letter in sorted({b.letter for b in piece.balloons})}
    foil = _foil(piece, chosen)
    marks = (*colours, FOIL) if foil else tuple(colours)
    whole = whole_per_cents({mark: (shares or {}).get(mark, 0.0) for mark in marks})
    rows = [
        KeyRow(mark, _seen(colour, chosen), _latex(piece, mark, colour), whole.get(mark))
        for mark, colour in colours.items()
    ]
    if foil is not None:
        seen = _seen(foil, chosen)
        rows.append(KeyRow(_numerals(piece), seen, f"{foil.finish} foil", whole.get(FOIL)))
    return tuple(rows)


def _latex(piece: Piece, letter: str, colour: ColourUse) -> str:
    """The finish; of a wall also how many balloons, which a client counts there."""
    if piece.design.wall is None:
        return f"{colour.finish} latex"
    count = sum(b.letter == letter for b in piece.balloons)
    return f"{colour.finish} latex, {count:,} balloon{'' if count == 1 else 's'}"


def _foil(piece: Piece, view: ViewOptions) -> ColourUse | None:
    panel = piece.design.panel
    if panel is None or piece.fit is None:
        return None
    return view.foil or panel.foil


def _numerals(piece: Piece) -> str:
    return piece.design.panel.text if piece.design.panel else ""


def _seen(colour: ColourUse, view: ViewOptions) -> ColourUse:
    return replace(colour, srgb=view.recolour(colour.srgb))


def key_block(
    at: Point,
    width: float,
    lettering: Lettering,
    rows: Sequence[KeyRow],
    *,
    tight: bool = False,
    columns: int = 1,
    title: str = "Colours",
) -> Block:
    """The key from its top left corner; ``tight`` sets the rows closer."""
    top = heading(at, width, lettering, title, _aside(rows, title, width, lettering))
    gutter = 4 * lettering.body
    each = (width - (columns - 1) * gutter) / columns
    deep = ceil(len(rows) / columns)
    names = [row.colour.name for row in rows]
    bold = Hand(lettering.body, "bold", role="key")
    name = bold.level(names, _room(each, lettering), 1 if tight else 2)
    items: list[Item] = [*top.items]
    tallest = 0.0
    for number in range(columns):
        builders = tuple(
            partial(_row, lettering=lettering, row=row, name=name, rise=2.9 if tight else 3.5)
            for row in rows[number * deep : (number + 1) * deep]
        )
        place = (at[0] + number * (each + gutter), at[1] + top.height)
        block = stacked(builders, place, each, 0.0)
        items += block.items
        tallest = max(tallest, block.height)
    return Block(tuple(items), top.height + tallest)


_MARK, _BALL, _FLAT, _WORDS, _SHARE = 2.6, 4.25, 6.0, 9.5, 3.5
"""Places in a row in heights of the body lettering: the mark's room, the ball's middle, the flat
swatch, the words, and the room for the share at the right."""


def _room(width: float, lettering: Lettering) -> float:
    """The room for words in a row, mm."""
    return width - (_WORDS + _SHARE) * lettering.body


def _aside(rows: Sequence[KeyRow], title: str, width: float, lettering: Lettering) -> str:
    """What the figures at the right are, as far as there is room beside the heading."""
    if all(row.share is None for row in rows):
        return ""
    room = width - Hand(lettering.body, "bold").width(title) - lettering.body
    quiet = Hand(lettering.small)
    return next((says for says in _SHARES if quiet.width(says) <= room), "")


def _row(
    at: Point, width: float, *, lettering: Lettering, row: KeyRow, name: Hand, rise: float
) -> Block:
    """One row: swatches at the left, words beside them, the share at the right."""
    unit = lettering.body
    (x, y), words_x = at, at[0] + _WORDS * unit
    room = _room(width, lettering)
    name_lines = name.wrapped(row.colour.name, room)
    says, says_lines = Hand(lettering.small, colour=SOFT, role="key").shrunk(row.says, room)
    name_height = set_height(name.height, len(name_lines))
    words_height = name_height + 0.25 * unit + set_height(says.height, len(says_lines))
    height = max(rise * unit, words_height + 0.8 * unit)
    top = y + (height - words_height) / 2
    items = (
        *_swatches((x, y + height / 2), row, lettering, 0.40 * rise * unit),
        *name.set(name_lines, (words_x, top))[0],
        *says.set(says_lines, (words_x, top + name_height + 0.25 * unit))[0],
        *_share((x + width, y + height / 2 + unit / 2), row, lettering),
    )
    return Block((cell(f"colour {row.mark}", Area(x, y, width, height), items),), height)


def _swatches(at: Point, row: KeyRow, lettering: Lettering, radius: float) -> tuple[Item, ...]:
    """Letter, shaded ball and flat colour, centred on the row's middle line."""
    (x, middle), unit = at, lettering.body
    flat = Style(row.colour.srgb, HAIR, THIN)
    return (
        *_mark(at, row, lettering),
        shaded_ball((x + _BALL * unit, middle), radius, row.colour),
        Rect(x + _FLAT * unit, middle - radius, 2.9 * unit, 2 * radius, flat, corner=0.3),
    )


def _mark(at: Point, row: KeyRow, lettering: Lettering) -> tuple[Item, ...]:
    """The mark at the largest height that stays in its room; none where it is too long."""
    lead = Hand(lettering.lead, "bold", role="key")
    letter, lines = lead.shrunk(row.mark, _MARK * lettering.body)
    if len(lines) != 1:
        return ()
    return (letter.at((at[0], at[1] + letter.height / 2), lines[0]),)


def _share(at: Point, row: KeyRow, lettering: Lettering) -> tuple[Item, ...]:
    if row.share is None:
        return ()
    return (Hand(lettering.body, role="key").at(at, f"{row.share} %", "end"),)
