"""The cautions that go with a piece, chosen by what is in it; the words are our own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.piece.placed import Piece
from mockup.render.record import Item, Point
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import INK
from mockup.render.sheets.lettering import Hand, Lettering

REACH = 2000.0
"""Taller than this, mm, a piece is put up from a ladder (common practice, no source)."""

CHOKING = (
    "Children under 8 can choke on uninflated or broken balloons. Supervise them, keep spares "
    "away, bin pieces at once."
)
"""US 16 CFR 1500.19 and 15 USC 1278; the EU's toy rules alike."""

ALLERGY = "Natural latex can cause allergic reactions. Ask client and venue first."
"""NIOSH 97-135."""

CONDUCTS = (
    "Foil conducts. Keep it clear of power lines and live parts; never fetch one from a line."
)
"""Notices of electric utilities; California Penal Code 653.1."""

LOOKS_ONLY = "This sheet shows size and look only. It checks no strength, stability or rigging."


@dataclass(frozen=True)
class Caution:
    """What to say, and whether a piece calls for it."""

    says: str
    applies: Callable[[Piece], bool]


def _always(piece: Piece) -> bool:
    del piece
    return True


def _latex(piece: Piece) -> bool:
    return bool(piece.balloons)


def _foil(piece: Piece) -> bool:
    return piece.design.panel is not None


def _outdoors(piece: Piece) -> bool:
    return piece.design.outdoors


def _overhead(piece: Piece) -> bool:
    return piece.design.overhead


def _high(piece: Piece) -> bool:
    return piece.design.overhead or piece.extent.height > REACH


def _wall(piece: Piece) -> bool:
    return piece.design.wall is not None


def _stands_outdoors(piece: Piece) -> bool:
    return piece.design.outdoors and not piece.design.overhead


CAUTIONS: tuple[Caution, ...] = (
    # What the tool itself computes and what it does not.
    Caution(LOOKS_ONLY, _always),
    # Local building code and licensed practice decide on anything hung over people.
    Caution("Overhead or public work: local code and licensed practice decide.", _overhead),
    Caution(CHOKING, _latex),
    Caution(ALLERGY, _latex),
    Caution(CONDUCTS, _foil),
    # Forbidden in places, e.g. Florida HB 321 (2024).
    Caution("Never let balloons fly away outdoors.", _outdoors),
    # NFPA 1 14.4.1, as fire authorities quote it.
    Caution("Keep exits, signs and routes clear at full width.", _always),
    # IFC 807.
    Caution(
        "Keep off heat and flame. Ask the fire authority what it needs of decorations.", _always
    ),
    # OSHA 3246.
    Caution("Ladders: level ground, three points of contact, a look for lines above.", _high),
    # Velocity pressure 0.613 V^2 Pa (ASCE 7) is a figure to talk about, no check of safety.
    Caution(
        "Freestanding outdoors: ballast set by a competent person; take it down as wind rises.",
        _stands_outdoors,
    ),
    # A flat face catches the whole wind, and a shallow foot holds little of it.
    Caution(
        "A wall tips: have its ballast and ties set by a competent person, indoors too. Keep it "
        "clear of sprinklers, lamps and vents.",
        _wall,
    ),
    # Gas laws; tables of ISO 2533.
    Caution(
        "Sizes change with warmth, altitude and time. Measure before promising a fit.", _always
    ),
    # Common practice, no source.
    Caution("Screens and printers change colours. Approve against a filled sample.", _always),
)
"""In the order in which they are printed: what the sheet is first, then people, then the place."""


def cautions_for(*pieces: Piece) -> list[str]:
    """What any of the pieces calls for by its latex, foil, place and height: each caution once, in
    printing order."""
    return [caution.says for caution in CAUTIONS if any(map(caution.applies, pieces))]


def cautions_for_stock(latex: bool, foil: bool) -> tuple[str, ...]:
    """What goes with balloons and foils as such, before any of them stands anywhere.

    >>> [says.partition(" ")[0] for says in cautions_for_stock(latex=True, foil=True)]
    ['Children', 'Natural', 'Foil']
    """
    return (*((CHOKING, ALLERGY) if latex else ()), *((CONDUCTS,) if foil else ()))


def cautions_block(
    at: Point, width: float, lettering: Lettering, cautions: Sequence[str], columns: int = 1
) -> Block:
    """The cautions as small print in ``columns`` columns, filled one after the other."""
    top = heading(at, width, lettering, "Please note")
    gutter = 2 * lettering.body
    each = (width - (columns - 1) * gutter) / columns
    items: list[Item] = [*top.items]
    tallest = 0.0
    for number, share in enumerate(_dealt(cautions, columns, each, lettering)):
        block = _column(
            (at[0] + number * (each + gutter), at[1] + top.height), each, lettering, share
        )
        items += block.items
        tallest = max(tallest, block.height)
    return Block(tuple(items), top.height + tallest)


def _hand(lettering: Lettering) -> Hand:
    return Hand(lettering.small, colour=INK, role="caution")


def _dealt(
    cautions: Sequence[str], columns: int, width: float, lettering: Lettering
) -> list[list[str]]:
    """The cautions in order, split so that the tallest column is as short as it can be."""
    tall = [_height(says, width, lettering) for says in cautions]
    least, step = max(tall, default=0.0), lettering.small / 4
    # No limit under an even share holds them all, so none of those is tried.
    limit = least + step * max(0, int((sum(tall) / columns - least) / step))
    while len(split := _split(cautions, tall, limit)) > columns:
        limit += step
    return split


def _split(cautions: Sequence[str], tall: list[float], limit: float) -> list[list[str]]:
    columns: list[list[str]] = []
    used = limit
    for says, height in zip(cautions, tall, strict=True):
        if not columns or used + height > limit:
            columns.append([])
            used = 0.0
        columns[-1].append(says)
        used += height
    return columns


def _indent(lettering: Lettering) -> float:
    return 1.4 * lettering.small


def _height(says: str, width: float, lettering: Lettering) -> float:
    hand = _hand(lettering)
    lines = len(hand.wrapped(says, width - _indent(lettering)))
    return (lines + 0.35) * hand.pitch


def _column(at: Point, width: float, lettering: Lettering, cautions: list[str]) -> Block:
    hand, (x, y) = _hand(lettering), at
    items: list[Item] = []
    for says in cautions:
        height = _height(says, width, lettering)
        lines, _ = hand.set(
            hand.wrapped(says, width - _indent(lettering)), (x + _indent(lettering), y)
        )
        mark = hand.at((x, y + hand.height), "–")
        items.append(cell("caution", Area(x, y, width, height), (mark, *lines)))
        y += height
    return Block(tuple(items), y - at[1])
