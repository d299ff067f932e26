"""Does the finished piece pass a doorway, and stand clear of the floor?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.lengths import format_length
from mockup.piece.extent import floor
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece


def doorway(piece: Piece) -> Iterator[Finding]:
    """Overall width x height x depth against a doorway, in the best way of carrying it.

    The default doorway is 32 in clear width and 80 in height: ADA Standards 404.2.3 as the Corada
    guide quotes it.
    """
    unit, box = piece.design.unit, piece.extent
    wide, high = piece.design.limits.doorway
    least, middle, _ = sorted((box.width, box.height, box.depth))
    passes = least <= wide and middle <= high
    how = carried(piece)
    sides = (format_length(mm, unit) for mm in (box.width, box.height, box.depth))
    size = " x ".join(sides)
    door = f"{format_length(wide, unit)} x {format_length(high, unit)}"
    yield Finding(
        "doorway",
        "holds" if passes else "look",
        round(least, 1),
        round(wide, 1),
        "mm",
        f"Overall {size} (width x height x depth): it "
        f"{'passes' if passes else 'does not pass'} a doorway of {door}"
        + (f" {how}." if passes and how else "."),
        "" if passes else _in_parts(piece),
    )


def carried(piece: Piece) -> str:
    """How a piece passes its doorway: as it stands (no words), turned, or laid down.

    >>> from mockup.design.reading import design_from_text
    >>> from mockup.design.starter import starter_text
    >>> from mockup.piece.assemble import assemble
    >>> carried(assemble(design_from_text(starter_text("A ring"), "a.toml")))
    ''
    """
    box, (wide, high) = piece.extent, piece.design.limits.doorway
    if box.height <= high and box.width <= wide:
        return ""
    return "carried edge on" if box.height <= high and box.depth <= wide else "laid on its side"


def _in_parts(piece: Piece) -> str:
    if piece.design.wall is None:
        return "build it beyond the door, or in parts"
    from mockup.piece.findings.walls import panels_words  # only a wall is built of panels

    return panels_words(piece)


def off_the_floor(piece: Piece) -> Iterator[Finding]:
    """With a stand: how far the lowest balloon hangs above the floor, mm."""
    if piece.design.stand is None or not piece.balloons:
        return
    lowest = min(piece.balloons, key=lambda b: b.centre[1] - b.radius)
    ground = floor(piece.frame, piece.design.stand)
    room = lowest.centre[1] - lowest.radius - ground
    fails = room < 0
    said = format_length(abs(room), piece.design.unit)
    yield Finding(
        "off the floor",
        "fails" if fails else "holds",
        round(room, 1),
        0.0,
        "mm",
        f"The lowest balloon hangs {said} {'below' if fails else 'above'} the floor.",
        f"raise the stand by at least {said}" if fails else "",
        (lowest.index,),
    )
