"""One piece of the build in words: tying, marking, placing, numerals and end caps."""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.clock import clock_words
from mockup.design.model import PanelSpec, SectionSpec
from mockup.lengths import Unit, format_length, format_spare, format_true
from mockup.panel.fit import Fit
from mockup.piece.placed import Cluster, Piece
from mockup.piece.tying import mark_of, member_of
from mockup.render.listing import Column, Heading, Part, Row, Table, Words
from mockup.render.sheets.build_pictures import cluster_picture, numbered_view
from mockup.stock.build_plan import Placing, Tying, placings, tyings
from mockup.stock.fixing import RING, Fixing, fixings, meetings, tucks
from mockup.stock.gauging import strokes_words
from mockup.stock.order import Order
from mockup.worksheets.build_wall import wall_parts

_VIEW = (175.0, 165.0)
_LEAST_VIEW = 90.0
_ROW, _OTHER, _PAGE = 5.3, 48.0, 228.0
"""What a row takes, what stands round the rows, and what a page of either paper holds, mm."""

_SCALES = (1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
"""A numbered view is read, not measured: it takes steps between the preferred scales of a proof
(ISO 5455 allows such intermediate ones), so that it stands on the page of its order."""
_GLUE = 15.0
"""Up to this far a glue dot bridges; further off it takes line (common practice, no source), mm."""


def piece_parts(order: Order, piece: Piece, count: int, code: str) -> Iterator[Part]:
    """Everything about one piece of that proof code, which is built ``count`` times."""
    if piece.design.wall is not None:
        if piece.design.wall.kind == "quad":
            yield Heading(f"{piece.design.title}: tie", f"{count} × proof {code}")
            yield _tie(piece, count, order.job.unit)
        yield from wall_parts(piece, piece.design.wall)
        return
    unit, steps = order.job.unit, placings(piece)
    yield Heading(f"{piece.design.title}: tie", f"{count} × proof {code}")
    yield _tie(piece, count, unit)
    yield from _placing(piece, steps, unit)
    if piece.design.panel is not None and piece.fit is not None:
        yield Heading(f"{piece.design.title}: numerals {piece.design.panel.text}")
        yield from _numerals(piece.design.panel, piece.fit, piece, unit)


def _placing(piece: Piece, steps: tuple[Placing, ...], unit: Unit) -> Iterator[Part]:
    """The numbered view over the order of placing, on one page where a page holds both."""
    table = _place(steps, unit)
    left = _PAGE - _OTHER - _ROW * len(table.rows)
    tall = min(left, _VIEW[1]) if left >= _LEAST_VIEW else _VIEW[1]
    numbers = [(one.cluster.index, one.number) for one in steps]
    view = numbered_view(piece, _VIEW[0], tall, numbers, _SCALES)
    aside = f"from the middle outward, by turns; {view.says.rpartition(': ')[2]}"
    yield Heading(f"{piece.design.title}: place", aside, whole=True)
    yield view
    yield Words(_marking(piece), tone="soft")
    yield table
    if any(one.cluster.end_cap for one in steps):
        yield Words(
            "End caps last: push each pair against its neighbour until it hides that one's knot, "
            "then tie it off round the tube and turn both nozzles inward."
        )


def _tie(piece: Piece, count: int, unit: Unit) -> Table:
    columns = (
        Column("Sign", 1),
        Column("Cluster", 5),
        Column("Colours round", 3),
        Column("Tie", 1.2, "end"),
    )
    return Table(columns, tuple(_tie_row(piece, one, count, unit) for one in tyings(piece)), True)


def _tie_row(piece: Piece, one: Tying, count: int, unit: Unit) -> Row:
    cluster = one.cluster
    names = {letter: piece.design.colours[letter].name for letter in cluster.letters}
    legend = ", ".join(f"{letter} {name}" for letter, name in names.items())
    says = f"{cluster.kind} {cluster.letters}: {legend}"
    size = format_length(cluster.nominal, unit)
    filled = f"{format_true(cluster.diameter, unit)}, {strokes_words([one.strokes])}"
    return Row(
        (
            one.sign,
            f"{cluster.kind} of {size} filled to {filled}",
            f"{' '.join(cluster.letters)}\n{legend}",
            f"{one.count * count:,}",
        ),
        picture=cluster_picture(cluster.letters, piece.design.colours, says),
    )


def _marking(piece: Piece) -> str:
    marks = ", ".join(
        f"{section.name} at {_mark_words(piece, section)}" for section in piece.design.sections
    )
    if piece.design.garlands:
        return _garland_marking(piece, marks)
    return (
        f"Mark the middle of each section on the tube with tape: {marks}. Measure every distance "
        "along the tube's centre line from that mark, and mark it before you tie. "
        "Clockwise is as seen from the front."
    )


def _mark_words(piece: Piece, section: SectionSpec) -> str:
    """A section's mark on the clock, or as its distance from the frame's start."""
    if section.at_share is None and section.at_length is None:
        return clock_words(section.at_deg)
    member = member_of(piece.design, section, piece.frame)
    length = format_length(mark_of(section, member), piece.design.unit)
    if section.on:
        return f"{length} up the stand's pole from its plate"
    return f"{length} from the {'foot' if piece.frame.kind == 'pole' else 'start of the frame'}"


def _garland_marking(piece: Piece, marks: str) -> str:
    names = ", ".join(garland.name for garland in piece.design.garlands)
    first = f"Mark the middle of each section on the tube with tape: {marks}. " if marks else ""
    return (
        f"{first}Mark the start of the {names}, and every stretch along the tube from there. Tie "
        "each stretch in the order of the list: the large ones first and set back, then the "
        "middle sizes, then the small ones in twos and threes in front, to look like the view."
    )


def _place(steps: tuple[Placing, ...], unit: Unit) -> Table:
    columns = (
        Column("No.", 0.9, "end"),
        Column("Cluster", 4.6),
        Column("Sign", 0.9),
        Column("From the mark", 3.6),
        Column("Turn", 2),
        Column("First colour goes", 2.4),
    )
    rows: list[Row] = []
    section = None
    for one in steps:
        if one.cluster.section != section:
            section = one.cluster.section
            rows.append(Row(("", section, "", "", "", ""), lead=True))
        rows.append(_place_row(one, unit))
    return Table(columns, tuple(rows), ticks=True)


def _place_row(one: Placing, unit: Unit) -> Row:
    cluster = one.cluster
    return Row(
        (
            f"{one.number}",
            f"{'end cap, ' if cluster.end_cap else ''}{cluster.kind} {cluster.letters}",
            one.sign,
            distance_words(cluster, unit),
            one.turn,
            f"{cluster.letters[0]} {one.first}",
        )
    )


def distance_words(cluster: Cluster, unit: Unit) -> str:
    """How far from its section's mark along the tube, and which way."""
    if abs(cluster.along) < 0.05:
        return "on the mark"
    if cluster.on:
        way = "up" if cluster.along > 0 else "down"
    else:
        way = "clockwise" if cluster.along > 0 else "anticlockwise"
    return f"{format_length(abs(cluster.along), unit)} {way}"


def _numerals(panel: PanelSpec, fit: Fit, piece: Piece, unit: Unit) -> Iterator[Part]:
    raised = format_length(abs(fit.raised), unit)
    up = (
        "in the middle"
        if abs(fit.raised) < 1.0
        else (f"{raised} {'above' if fit.raised > 0 else 'below'} the middle")
    )
    place = "in front of the ring" if panel.place == "in front" else "inside the ring"
    yield Words(
        f"Fill to {format_length(fit.height, unit)} high; the row is "
        f"{format_length(fit.width, unit)} wide, {place}, {up}. "
        f"The fit: {fit.verdict}, room to spare {format_spare(max(0.0, fit.room), unit)}."
    )
    rows = [*_meeting_rows(piece, unit), *_tuck_rows(piece, unit), *_fixing_rows(piece, unit)]
    yield Table((Column("", 1.2), Column("", 10)), tuple(rows), ticks=True)


def _meeting_rows(piece: Piece, unit: Unit) -> Iterator[Row]:
    for one in meetings(piece):
        gap = format_length(one.gap, unit)
        where = f"nearest {round(one.height * 100)} % of the way up"
        trim = "trim both seams there" if one.trim else "no seam to trim"
        yield Row((f"{one.left} and {one.right}", f"{gap} apart, {where}: {trim}"))


def _tuck_rows(piece: Piece, unit: Unit) -> Iterator[Row]:
    for one in tucks(piece):
        depth = format_length(one.depth, unit)
        under = piece.balloon_words(one.balloon)
        yield Row((f"tuck {one.numeral}", f"{depth} under {under}; trim its seam there"))


def _fixing_rows(piece: Piece, unit: Unit) -> Iterator[Row]:
    for one in fixings(piece):
        yield Row((f"fix {one.numeral}", _fixing_words(piece, one, unit)))


def _fixing_words(piece: Piece, one: Fixing, unit: Unit) -> str:
    to = "the tube" if one.balloon == RING else piece.balloon_words(one.balloon)
    away = format_length(one.away, unit)
    how = "with a glue dot" if one.away <= _GLUE else f"with {away} of clear line"
    return f"toward {clock_words(one.angle)} on the clock, to {to}, {how}"
