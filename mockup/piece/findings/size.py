"""Does the finished piece pass a doorway, and stand clear of the floor?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.lengths import format_length
from mockup.piece.extent import floor
from mockup.piece.finding import Finding
from mockup.piece.placed import Balloon, Piece


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
    """With a stand: how far the lowest balloon hangs above the floor, or over the plate, mm.

    What is tied round the stand's pole may rest on the plate, as pressed as its neighbours are.
    """
    stand = piece.design.stand
    if stand is None or not piece.balloons:
        return
    ground = floor(piece.frame, stand)
    under = [ground + stand.plate_thickness * _on_the_stand(piece, b) for b in piece.balloons]
    lowest = min(piece.balloons, key=lambda b: b.centre[1] - b.radius - under[b.index])
    room = lowest.centre[1] - lowest.radius - under[lowest.index]
    resting = _on_the_stand(piece, lowest)
    least = -piece.design.limits.squeeze * lowest.radius * resting
    fails = room < least
    said = format_length(abs(room), piece.design.unit)
    what = "stand's plate" if resting else "floor"
    where = f"{'below' if room < 0 else 'above'} the {what}"
    more = f"tie the {lowest.section} {said} further up the stand's pole"
    if not resting:
        more = f"raise the stand by at least {said}"
    yield Finding(
        "off the floor",
        "fails" if fails else "holds",
        round(room, 1),
        round(least, 1) + 0.0,
        "mm",
        f"The lowest balloon {'lies' if resting else 'hangs'} {said} {where}.",
        more if fails else "",
        (lowest.index,),
    )


def _on_the_stand(piece: Piece, balloon: Balloon) -> bool:
    return piece.clusters[balloon.cluster].on == "stand"
