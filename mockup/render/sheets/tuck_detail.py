"""The detail of how a numeral tucks: an enlarged field where a sheet is free, and its mark.

It is named and ringed as partial enlargements are (ISO 128-3), at a preferred scale of ISO 5455.
Many fields, scales and ways to dimension are tried, and the first is taken that keeps clear of all
that stands on the sheets. Where none does, the first sheet says so; where there is no room even
for that, ``untold`` has it for whoever drew the proof.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.lengths import Unit, format_length
from mockup.piece.placed import Piece
from mockup.render.record import Group, Point, Sheet, walk
from mockup.render.sheets.areas import Area
from mockup.render.sheets.aspects import Laid
from mockup.render.sheets.deepest_tuck import deepest_tuck
from mockup.render.sheets.free_spots import Room, free_spots, nearest_spots
from mockup.render.sheets.inks import SOFT
from mockup.render.sheets.lettering import Hand, Lettering, set_height
from mockup.render.sheets.measures import Printed
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.tuck_drawing import Detail, Shown, details, size_of
from mockup.render.sheets.tuck_mark import Ring, mark_letter, marked
from mockup.render.viewpoint import ViewOptions

CLEAR = (8.0, 5.0, 3.0)
"""White round the detail, mm: much where there is room."""
_LEAST_RING = 2.0
_NOTE, _TELLS = "tuck note", {"detail", "tuck note"}
_NOTE_WIDTHS, _NOTE_CLEAR = (200.0, 60.0, 40.0, 25.0), (3.0, 1.5)


def with_tuck_detail(
    rooms: Sequence[Room],
    piece: Piece,
    front: Laid,
    *,
    printed: Printed,
    lettering: Lettering,
    options: ViewOptions,
) -> tuple[Sheet, ...]:
    """The sheets, with the detail of the deepest tuck on the first of them that has room for it.

    The mark is on the first sheet, where ``front`` lies. Nothing is added where no numeral tucks.
    """
    sheets = tuple(room.sheet for room in rooms)
    tuck = deepest_tuck(piece)
    if tuck is None:
        return sheets
    letter = mark_letter(piece.design)
    shown = Shown(piece, tuck, letter, printed, lettering, options)
    found = next((f for strict in (True, False) for f in _found(rooms, shown, front, strict)), None)
    return found or (_noted(rooms[0], shown), *sheets[1:])


def untold(sheets: Sequence[Sheet], piece: Piece, unit: Unit) -> str:
    """What to tell of a numeral that tucks and of which no sheet says a word; empty for none."""
    tuck = deepest_tuck(piece)
    every = (item for sheet in sheets for item in walk(sheet.items))
    if tuck is None or any(isinstance(i, Group) and i.kind in _TELLS for i in every):
        return ""
    return (
        f"A numeral tucks {format_length(tuck.depth, unit)} behind a balloon, and the proof has no "
        "room to show it; take a larger paper with --paper, or a smaller scale."
    )


def _found(
    rooms: Sequence[Room], shown: Shown, front: Laid, strict: bool
) -> Iterator[tuple[Sheet, ...]]:
    """The sheets with the detail in every way that leaves their records clear, the best first."""
    drawings = tuple(details(shown, 1 / front.scale))
    for number, room in enumerate(rooms):
        for detail, place in _places(room, drawings, front):
            areas = detail.areas(place) if number == 0 else ()
            mark = _mark(rooms[0], detail, front, areas, strict)
            if mark is None:
                continue
            made = list(rooms)
            made[number] = made[number].with_items(detail.at(place))
            made[0] = made[0].with_items(mark)
            if not any(overlaps(made[at].sheet) for at in {0, number}):
                yield tuple(each.sheet for each in made)


def _places(room: Room, drawings: Sequence[Detail], front: Laid) -> Iterator[tuple[Detail, Point]]:
    """Details and where their fields' centres go."""
    taken = room.taken
    free = [free_spots(room.area, taken, white) for white in CLEAR]
    for detail in drawings:
        size, (x, y) = size_of(detail)
        near = front.on_sheet.at(*detail.shown.tuck.middle)
        for spot in nearest_spots(size, near, free):
            yield detail, (spot[0] + x, spot[1] + y)


def _mark(
    room: Room, detail: Detail, front: Laid, areas: Sequence[Area], strict: bool
) -> Group | None:
    """The mark on the front view: the field's own circle, unless that is too small to see."""
    shown, at = detail.shown, front.on_sheet.at
    radius = max(_LEAST_RING, detail.radius / detail.scale[1] / front.scale)
    hand = Hand(shown.lettering.body, "bold", role="detail")
    ring = Ring(at(*shown.tuck.middle), radius, shown.letter, hand)
    return marked(ring, room, pictured(shown.piece, front), areas, over_letters=not strict)


def pictured(piece: Piece, front: Laid) -> list[Area]:
    """The boxes of the balloons and numerals of a front view on its sheet."""
    shapes = piece.fit.numerals if piece.fit else ()
    boxes = [
        *((*b.centre[:2], b.diameter, b.diameter) for b in piece.balloons),
        *((s.x, s.y, s.width, s.height) for s in shapes),
    ]
    return [
        _about(front.on_sheet.at(x, y), w / front.scale, h / front.scale) for x, y, w, h in boxes
    ]


def _about(centre: Point, wide: float, tall: float) -> Area:
    return Area(centre[0] - wide / 2, centre[1] - tall / 2, wide, tall)


def _noted(room: Room, shown: Shown) -> Sheet:
    """The first sheet with one plain note in place of the detail."""
    hand = Hand(shown.lettering.small, colour=SOFT, role="note")
    figure = shown.printed.figure(shown.tuck.depth)
    says = f"The numeral tucks {figure} behind a balloon; this sheet has no room to enlarge it."
    free = [free_spots(room.area, room.taken, white) for white in _NOTE_CLEAR]
    for wide in _NOTE_WIDTHS:
        lines = hand.wrapped(says, wide)
        size = max(map(hand.width, lines)), set_height(hand.height, len(lines))
        for spot in nearest_spots(size, (room.area.right, room.area.bottom), free):
            words, _ = hand.set(lines, spot)
            return room.with_items(Group(words, kind=_NOTE)).sheet
    return room.sheet
