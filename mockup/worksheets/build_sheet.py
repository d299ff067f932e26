"""The build in words: the listing from which the sheet and the page for a phone are both set."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.model import ColourUse
from mockup.lengths import format_length
from mockup.piece.extent import feet
from mockup.piece.findings.size import carried, doorway
from mockup.piece.placed import Piece
from mockup.render.listing import Column, Heading, Listing, Notes, Part, Row, Table, Words
from mockup.render.sheets.cautions import cautions_for
from mockup.stock.build_plan import fillings
from mockup.stock.buy_csv import plain
from mockup.stock.buying import BuyList, buy_list
from mockup.stock.gauging import gauge_holes
from mockup.stock.order import Order
from mockup.worksheets.build_steps import piece_parts
from mockup.worksheets.build_times import time_parts
from mockup.worksheets.buy_sheet import facts
from mockup.worksheets.gauge_sheet import hole_name


def build_listing(order: Order) -> Listing:
    """Everything that a helper needs, in the order in which it is done."""
    return Listing(
        title=order.job.title,
        kind="Build sheet",
        client=order.job.client,
        facts=facts(order)[:-1],
        parts=tuple(_parts(order)),
        banner=" ".join(order.changed),
        about=f"{order.job.title}, {order.code}, revision {order.revision}",
        sender=order.studio.name,
    )


def _parts(order: Order) -> Iterator[Part]:
    bought = buy_list(order.picking, order.studio)
    if order.job.note:
        yield Words(order.job.note)
    yield from time_parts(order)
    yield from _kit(order, bought)
    yield notes(order)
    yield from _inflate(order)
    done: set[str] = set()
    for (piece, count), code in zip(order.pieces, order.proofs, strict=True):
        if piece.design.title not in done:
            yield from piece_parts(order, piece, count, code)
        done.add(piece.design.title)
    yield from _closing(order)


def notes(order: Order) -> Notes:
    """The cautions that the pieces of the job call for, each once."""
    return Notes(tuple(cautions_for(*(piece for piece, _ in order.pieces))))


def _kit(order: Order, bought: BuyList) -> Iterator[Part]:
    """What must lie on the table before the first balloon is filled."""
    yield Heading("Kit", "with spares")
    unit = order.job.unit
    rows = [
        Row(
            (
                f"{format_length(line.need.kind.size, unit)} {line.need.name}",
                line.need.kind.finish,
                f"{line.wanted:,}",
            ),
            swatch=ColourUse("", line.need.name, line.need.srgb, line.need.kind.finish),
        )
        for line in bought.balloons
    ]
    rows += [
        Row(
            (
                f"foil {foil.need.kind.character}, {format_length(foil.need.kind.height, unit)} "
                f"{foil.need.name}",
                foil.need.kind.finish,
                f"{foil.need.count:,}",
            ),
            swatch=ColourUse("", foil.need.name, foil.need.srgb, foil.need.kind.finish),
        )
        for foil in bought.foils
    ]
    rows += [
        Row((line.material.name, "", f"{plain(line.needed)} {line.material.unit}".strip()))
        for line in bought.materials
    ]
    rows += [Row((name, "", how_many)) for name, how_many in _tools(order)]
    columns = (Column("What", 6), Column("", 2), Column("How many", 1.5, "end"))
    yield Table(columns, tuple(rows), ticks=True, swatches=True)


def _tools(order: Order) -> Iterator[tuple[str, str]]:
    unit = order.job.unit
    for piece, count in order.pieces:
        spec, title = piece.design.frame, piece.design.title
        size = f"{format_length(spec.outside, unit)} outside"
        if piece.design.wall is not None:
            size = (
                f"{format_length(spec.width, unit)} x {format_length(spec.height, unit)} with mesh"
            )
        yield f"{spec.kind}, {size}, tube {format_length(spec.tube, unit)} ({title})", f"{count}"
        if piece.design.stand is not None:
            standing = len(feet(piece.frame)) if piece.design.wall is not None else 1
            yield f"stand with its base plate ({title})", f"{count * standing}"
    yield "sizing gauge, cut out and checked against its rulers", "1"
    yield "pump", f"{order.job.helpers + 1}"
    yield "tape and pen for the marks on the tube, measuring tape, scissors", "1"


def _inflate(order: Order) -> Iterator[Part]:
    unit = order.job.unit
    names = {hole.diameter: hole_name(hole, unit) for hole in gauge_holes(order.designs)}
    yield Heading("Fill", "hole by hole, in the order of use")
    rows: list[Row] = []
    hole = None
    for one in fillings(order.pieces):
        if one.diameter != hole:
            hole = one.diameter
            rows.append(Row((f"Hole {names[hole]}", "", ""), lead=True))
        size = format_length(one.kind.size, unit)
        cells = (f"{size} {one.colour.name}", one.kind.finish, f"{one.count:,}")
        rows.append(Row(cells, swatch=one.colour))
    yield Words(
        "Fill a little over, hold the balloon in the hole, let air out until it just slips "
        "through, then knot it. Spares stay flat until they are needed.",
        tone="soft",
    )
    columns = (Column("", 6), Column("", 2), Column("Balloons", 1.5, "end"))
    yield Table(columns, tuple(rows), ticks=True, swatches=True)


def _closing(order: Order) -> Iterator[Part]:
    yield Heading("Finish and check", "every piece")
    yield _ticked(
        "Nozzles and necks are turned in and hidden",
        "The frame is square to its stand and the numerals are level",
        "Every colour stands where the numbered view shows it",
        "Finger marks are wiped off with the soft cloth",
        "Looked at from 1 m away, from the front and from both sides",
        "A photograph is taken for the file",
    )
    yield from _loading(order)
    yield Heading("Take down")
    yield _ticked(
        "Numerals come off first; cut the line, do not pull",
        "Let the air out of each balloon at its neck, do not burst it near people",
        "Every piece of latex and line is picked up and binned at once",
        "Frames, stands and weights are counted back into the van",
    )


def _ticked(*says: str) -> Table:
    return Table((Column("", 1),), tuple(Row((one,)) for one in says), ticks=True)


def _does_not_pass(in_panels: bool) -> str:
    there = "carry its panels in and join them there" if in_panels else "build it beyond the door"
    return f"DOES NOT PASS: {there}"


def _passes(piece: Piece) -> str:
    how = carried(piece)
    return f"passes, {how}" if how else "passes"


def _loading(order: Order) -> Iterator[Part]:
    """Whether each piece passes its doorway, as ``check`` finds it, and how it is carried."""
    unit = order.job.unit
    yield Heading("Load")
    rows = []
    for piece, count in order.pieces:
        box = piece.extent
        sides = (format_length(mm, unit) for mm in (box.width, box.height, box.depth))
        wide, high = piece.design.limits.doorway
        door = f"{format_length(wide, unit)} × {format_length(high, unit)}"
        passes = all(finding.verdict == "holds" for finding in doorway(piece))
        answer = _passes(piece) if passes else _does_not_pass(piece.design.wall is not None)
        cells = (f"{count} × {piece.design.title}", " × ".join(sides), door, answer)
        rows.append(Row(cells, tone="plain" if passes else "alarm"))
    columns = (
        Column("Piece", 4.3),
        Column("Width × height × depth", 4.2),
        Column("Doorway", 2.6),
        Column("", 3),
    )
    yield Table(columns, tuple(rows), ticks=True)
