"""What single slips in the sheets of an order once got past the other tests: their words alone.

How wide a column is, and what stands in bold, is left to the eye.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Literal

import pytest

from mockup.design.job import Job
from mockup.design.reading import design_from_text
from mockup.design.studio import Material, Studio
from mockup.lengths import format_length
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.listing import Heading, Part, Row, Table, Words
from mockup.stock.buying import buy_list
from mockup.stock.fixing import meetings
from mockup.stock.order import Order
from mockup.stock.quoting import quote
from mockup.worksheets.build_sheet import build_listing
from mockup.worksheets.build_steps import distance_words, piece_parts
from mockup.worksheets.build_times import time_parts
from mockup.worksheets.build_wall import row_words, wall_parts
from mockup.worksheets.buy_sheet import buy_listing, buy_table, facts
from mockup.worksheets.opening import read_order
from mockup.worksheets.quote_sheet import client_listing, internal_listing
from tests.trust.running import SAMPLES

DAY = date(2027, 3, 1)


def ordered(name: str) -> Order:
    return replace(read_order(SAMPLES / f"{name}.toml"), studio=Studio())


def rows(parts: Iterable[Part]) -> list[Row]:
    return [row for part in parts if isinstance(part, Table) for row in part.rows]


def said(parts: Iterable[Part]) -> Iterator[str]:
    for part in parts:
        if isinstance(part, Heading):
            yield from (part.text, part.aside)
        elif isinstance(part, Words):
            yield part.text
        elif isinstance(part, Table):
            yield from (cell for row in part.rows for cell in row.cells)


def times(order: Order, count: int) -> Order:
    one: Job = order.job
    return replace(order, job=replace(one, pieces=(replace(one.pieces[0], count=count),)))


@pytest.mark.parametrize(("name", "stands"), [("ruby-thirty", 3), ("kestrel-wall", 9)])
def test_a_stand_goes_with_each_ring_and_one_under_each_upright_of_a_wall(
    name: str, stands: int
) -> None:
    listed = {
        row.cells[0]: row.cells[-1] for row in rows(build_listing(times(ordered(name), 3)).parts)
    }
    told = [many for what, many in listed.items() if what.startswith("stand with")]
    assert told == [f"{stands}"]


def test_no_stand_is_packed_for_a_piece_that_has_none() -> None:
    order = ordered("ruby-thirty")
    bare = replace(order.job.pieces[0].design, stand=None)
    job = replace(order.job, pieces=(replace(order.job.pieces[0], design=bare),))
    said_of = said(build_listing(replace(order, job=job)).parts)
    assert not [text for text in said_of if text.startswith("stand with")]


@pytest.mark.parametrize(("name", "tied"), [("lugger-wall", True), ("kestrel-wall", False)])
def test_clusters_of_a_wall_are_tied_where_it_is_tied_in_fours(name: str, tied: bool) -> None:
    order = ordered(name)
    piece = assemble(order.designs[0][0])
    headings = [p.text for p in piece_parts(order, piece, 1, "1A2B3C4D") if isinstance(p, Heading)]
    assert (f"{piece.design.title}: tie" in headings) == tied


@pytest.mark.parametrize(
    ("along", "on", "words"),
    [
        (25.4, "", "1 in clockwise"), (-25.4, "", "1 in anticlockwise"), (0.0, "", "on the mark"),
        (25.4, "stand", "1 in up"), (-25.4, "stand", "1 in down"),
    ],
)  # fmt: skip
def test_the_way_along_the_tube_is_told(along: float, on: Literal["", "stand"], words: str) -> None:
    cluster = assemble(ordered("ruby-thirty").designs[0][0]).clusters[0]
    assert distance_words(replace(cluster, along=along, on=on), "in") == words


@pytest.mark.parametrize("place", ["in front", "inside"])
def test_where_the_numerals_go_and_where_they_meet_is_told(place: str) -> None:
    order = ordered("ruby-thirty")
    piece = assemble(order.designs[0][0])
    assert piece.design.panel is not None
    fit = piece.fit
    assert fit is not None
    panel = replace(piece.design.panel, place=place)  # type: ignore[arg-type]  # both are places
    piece = replace(piece, design=replace(piece.design, panel=panel))
    told = " ".join(said(piece_parts(order, piece, 1, "1A2B3C4D")))
    assert ("in front of the ring" in told) == (place == "in front")
    assert ("inside the ring" in told) == (place == "inside")
    (met,) = meetings(piece)
    assert 0 < met.height < 1
    assert f"nearest {round(100 * met.height)} % of the way up" in told
    tight = replace(piece, fit=replace(fit, room=-3.0))
    assert "room to spare 0 in" in " ".join(said(piece_parts(order, tight, 1, "1A2B3C4D")))


def large_wall(across: int, down: int) -> Piece:
    """A wall of so many columns and rows, in letters of its own."""
    made = "".join("AB"[at % 2] for at in range(across))
    design = design_from_text(
        'title = "Large"\nsize = "5in"\ncolours = { A = "deep teal", B = "oat" }\n'
        'frame = { kind = "wall", width = "6ft", height = "4ft" }\n'
        '[wall]\nfill = "4 1/2in"\npattern = "alternate"\n',
        "large.toml",
    )
    assert design.wall is not None
    wall = replace(design.wall, rows=tuple(made for _ in range(down)))
    return replace(assemble(design), design=replace(design, wall=wall))


@pytest.mark.parametrize(
    ("across", "down", "maps"),
    [
        (30, 30, ["rows 1 to 30, columns 1 to 30"]),
        (
            31,
            40,
            [
                "part 1 of 4, rows 1 to 30, columns 1 to 30",
                "part 2 of 4, rows 1 to 30, columns 31 to 31",
                "part 3 of 4, rows 31 to 40, columns 1 to 30",
                "part 4 of 4, rows 31 to 40, columns 31 to 31",
            ],
        ),
    ],
)
def test_the_parts_of_a_map_cover_it(across: int, down: int, maps: list[str]) -> None:
    piece = large_wall(across, down)
    assert piece.design.wall is not None
    parts = list(wall_parts(piece, piece.design.wall))
    asides = [p.aside for p in parts if isinstance(p, Heading) and p.text.endswith("colour map")]
    assert asides == [f"{one}, seen from the front" for one in maps]


def test_the_rows_of_a_wall_are_told_from_the_foot_with_their_height_above_the_floor() -> None:
    """Heights from the list of balloons: the middles of each row, over the plates of the stand."""
    piece = assemble(ordered("kestrel-wall").designs[0][0])
    assert piece.design.wall is not None
    parts = list(wall_parts(piece, piece.design.wall))
    told = rows(parts)
    middles = sorted({round(ball.centre[1], 3) for ball in piece.balloons})
    low = piece.extent.y[0]
    assert [row.cells[1] for row in told] == [format_length(y - low, "in") for y in middles]
    assert [row.cells[0] for row in told] == [str(n) for n in range(len(middles), 0, -1)]
    top = format_length(middles[-1] - low, "in")
    assert f"the top one, lie {top} above the floor" in " ".join(said(parts))


def test_the_studio_book_is_named_or_told_to_be_none() -> None:
    order = ordered("ruby-thirty")
    assert dict(facts(order))["Studio book"] == "none: usual figures"
    named = replace(order, studio=replace(order.studio, file="there/mine.toml"))
    assert dict(facts(named))["Studio book"] == "mine.toml"


def test_figures_of_the_table_stand_right_and_words_left() -> None:
    order = ordered("ruby-thirty")
    lines = list(buy_table(order, buy_list(order.picking, order.studio), 2))
    titles = lines[0]
    figures = [line for line in lines[1:] if line.startswith("  5 in ")]
    assert len(figures) > 1
    ends = [titles.index(word) + len(word) for word in ("Needed", "Spares", "On hand", "To buy")]
    for line in figures:
        assert all(line[end - 1].isdigit() and line[end : end + 1] in ("", " ") for end in ends)
        assert line[titles.index("  Buy ") + 2] != " "


def test_materials_without_a_bag_on_sale_have_no_price() -> None:
    job = read_order(SAMPLES / "jobs/alder-weekend.toml")
    for studio, priced in ((job.studio, True), (Studio(), False)):
        order = replace(job, studio=studio)
        told = [row.cells[0] for row in rows(internal_listing(order, quote(order, DAY), DAY).parts)]
        latex = [text for text in told if text.startswith("5 in ")]
        assert latex
        assert all(
            ("no price" in text) != priced and ("bag of" in text) == priced for text in latex
        )


def test_the_client_is_told_the_day_and_the_place_before_the_code() -> None:
    order = ordered("ruby-thirty")
    listing = client_listing(order, quote(order, DAY).client, DAY)
    names = [name for name, _ in listing.facts]
    assert names == ["Date", "Holds until", "Event", "Venue", "Proof code", "Revision"]


@pytest.mark.parametrize(
    ("name", "marks"),
    [
        ("ruby-thirty", "top at 12, bottom at 6."),
        ("lamplight-column", "base at 10 in from the foot, column at 19 in from the foot."),
        ("tarn-ribbon", "path at 67 5/8 in from the start of the frame."),
    ],
)
def test_marks_are_told_as_the_file_gives_them(name: str, marks: str) -> None:
    """By the clock or by a length, as written; half of the ribbon's tube is worked out here."""
    order = ordered(name)
    piece = assemble(order.designs[0][0])
    if "start" in marks:
        assert format_length(piece.frame.length / 2, "in") in marks
    told = " ".join(said(piece_parts(order, piece, 1, "1A2B3C4D")))
    assert f"Mark the middle of each section on the tube with tape: {marks}" in told


def test_only_colours_of_the_wall_are_in_its_legend() -> None:
    piece = assemble(ordered("kestrel-wall").designs[0][0])
    wall, more = piece.design.wall, piece.design.colours | {"Z": piece.design.colours["A"]}
    assert wall is not None
    told = said(wall_parts(replace(piece, design=replace(piece.design, colours=more)), wall))
    assert "Colours: A deep teal, B sail white, C brass. A dot" in " ".join(told)


def test_a_hand_more_takes_a_pump_more_and_no_other_tool() -> None:
    order = ordered("ruby-thirty")
    crew = replace(order, job=replace(order.job, helpers=2))
    listed = {row.cells[0]: row.cells[-1] for row in rows(build_listing(crew).parts)}
    assert listed["pump"] == "3"
    assert {listed[tool] for tool in listed if "gauge" in tool or "tape" in tool} == {"1"}


def test_days_before_are_counted_where_the_job_names_none() -> None:
    """A hundred rings take one pair of hands more than a week."""
    order = ordered("ruby-thirty")
    bare = replace(times(order, 100), job=replace(times(order, 100).job, event_date=None))
    days = list(dict.fromkeys(row.cells[0] for row in rows(time_parts(bare))))
    assert len(days) > 3
    assert days[::-1][:3] == ["the day itself", "1 day before", "2 days before"]
    assert all(f"{at} days before" in days for at in range(2, len(days)))


def test_labour_is_added_up_on_a_quote() -> None:
    order = ordered("ruby-thirty")
    parts = internal_listing(order, quote(order, DAY), DAY).parts
    (labour,) = (
        [row.cells for row in part.rows]
        for part in parts
        if isinstance(part, Table) and part.rows[-1].cells[0] == "Labour"
    )
    minutes = [float(cells[1]) for cells in labour[:-1]]
    assert len(minutes) > 5
    assert float(labour[-1][1]) == sum(minutes)


def test_knots_of_quads_lie_two_columns_apart() -> None:
    piece = assemble(ordered("lugger-wall").designs[0][0])
    wall = piece.design.wall
    assert wall is not None
    assert wall.kind == "quad"
    across = sorted({round(each.centre[0], 6) for each in piece.balloons})
    told = " ".join(said(wall_parts(piece, wall)))
    apart = format_length(2 * (across[1] - across[0]), piece.design.unit)
    assert f"to knots {apart} apart" in told


def test_places_left_out_are_told_in_words_and_letters_as_they_are() -> None:
    assert row_words("AA..BBB") == "2 A, 2 left out, 3 B"


@pytest.mark.parametrize(("helpers", "words"), [(0, "1 pair of hands"), (1, "2 pairs of hands")])
def test_hands_are_counted_in_words(helpers: int, words: str) -> None:
    order = ordered("ruby-thirty")
    crew = replace(order, job=replace(order.job, helpers=helpers))
    assert words in list(said(time_parts(crew)))


def test_packs_are_told_by_their_size_and_single_things_by_their_number() -> None:
    line = Material("line", "piece", Decimal(25), "m", pack=Decimal(10))
    hook = Material("hook", "piece", Decimal(4))
    order = replace(ordered("ruby-thirty"), studio=Studio(materials=(line, hook)))
    bought = buy_list(order.picking, order.studio)
    every = rows(buy_listing(order, bought, 0).parts)
    told = {row.cells[0]: row.cells[5] for row in every if len(row.cells) > 5}
    assert told["line"] == "3 × pack of 10 m"
    assert told["hook"] == "4"


@pytest.mark.parametrize(("high", "tone"), [(2032.0, "plain"), (300.0, "alarm")])
def test_a_piece_that_does_not_go_through_its_door_is_an_alarm(high: float, tone: str) -> None:
    order = ordered("ruby-thirty")
    one = order.job.pieces[0]
    limits = replace(one.design.limits, doorway=(high / 2, high))
    job = replace(order.job, pieces=(replace(one, design=replace(one.design, limits=limits)),))
    listed = rows(build_listing(replace(order, job=job)).parts)
    (row,) = (row for row in listed if row.cells[0] == f"1 × {one.design.title}")
    assert row.tone == tone
    assert ("DOES NOT PASS: build it beyond the door" in row.cells[3]) == (tone == "alarm")
