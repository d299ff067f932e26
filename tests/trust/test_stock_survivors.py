"""What single slips in buying and booking once got past the other tests."""

from __future__ import annotations

import csv
import tempfile
import tomllib
from dataclasses import replace
from decimal import Decimal
from io import BytesIO, StringIO
from itertools import product
from pathlib import Path
from random import Random

import pytest
from openpyxl import load_workbook

from mockup.design.studio import Bag, FoilOffer, OnHand, Studio
from mockup.errors import CannotWrite
from mockup.stock.bags import BagKind, cheapest
from mockup.stock.book_file import change_book
from mockup.stock.booking import Booking, put_back, take
from mockup.stock.build_plan import _sign
from mockup.stock.buy_csv import csv_bytes
from mockup.stock.buy_rows import BuyRow, buy_rows
from mockup.stock.buy_xlsx import xlsx_bytes
from mockup.stock.buying import BagLine, BalloonLine, buy_list
from mockup.stock.calibrated_book import write_pump
from mockup.stock.picking import Counts, Fill, FoilKind, FoilNeed, Kind, Need, Picking
from tests.trust.running import SAMPLES

JOB = SAMPLES / "jobs/alder-weekend.toml"
ZERO = Decimal(0)


# bags


def test_of_sets_that_cost_the_same_the_one_with_least_left_over_then_fewest_bags() -> None:
    """Against every set there is, at prices so few that most needs have several cheapest sets."""
    dice = Random(4)
    for _ in range(400):
        counts, need = dice.sample(range(1, 13), 3), dice.randint(1, 24)
        kinds = [BagKind(count, dice.choice((1, 2, 3))) for count in counts]
        sets = product(*(range(need // kind.count + 2) for kind in kinds))
        ranks = (rank(dict(enumerate(one)), kinds) for one in sets)
        bags = cheapest(need, kinds)
        assert bags is not None
        assert rank(bags, kinds) == min(one for one in ranks if one[1] >= need)


def rank(bags: dict[int, int], kinds: list[BagKind]) -> tuple[int, int, int]:
    cost = sum(kinds[place].cost * n for place, n in bags.items())
    return cost, sum(kinds[place].count * n for place, n in bags.items()), sum(bags.values())


def test_a_large_need_takes_the_larger_of_two_bags_that_cost_the_same_a_balloon() -> None:
    assert cheapest(1000, [BagKind(10, 100), BagKind(20, 200)]) == {1: 50}


# the book


def test_what_the_system_says_of_a_book_it_refuses_is_passed_on(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="No such file"):
        change_book(tmp_path / "gone.toml", lambda text: text)


BOOK = """\
[[on_hand]]
size = "5in"
colour = "oat"
count = 34

[[material]]
name = "clear line"
per = "cluster"
amount = 0.5
price = 2.90
on_hand = 3.5
"""
RUBY = Booking("Ruby turns thirty", "1A2B3C4D", 1)


def picking(balloons: int, clusters: int) -> Picking:
    oat = Need(Kind(127.0, "oat", "matte"), "oat", "#ffffff", balloons, 0, (Fill(104.0, balloons),))
    return Picking((oat,), (), Counts(clusters=clusters))


def test_what_is_put_back_of_a_material_without_a_figure_is_all_there_is(tmp_path: Path) -> None:
    book = tmp_path / "studio.toml"
    book.write_text(BOOK, "utf-8")
    take(book, RUBY, picking(1, 5))
    text = book.read_text("utf-8")
    book.write_text(text.replace("\non_hand = 1.0", "").replace("\non_hand = 1\n", "\n"), "utf-8")
    assert "on_hand" not in tomllib.loads(book.read_text("utf-8"))["material"][0]
    put_back(book, RUBY)
    assert tomllib.loads(book.read_text("utf-8"))["material"][0]["on_hand"] == 2.5


@pytest.mark.parametrize(("clusters", "lines"), [(0, 1), (5, 4)])
def test_rows_that_were_taken_stand_one_on_a_line_where_there_are_several(
    clusters: int, lines: int, tmp_path: Path
) -> None:
    book = tmp_path / "studio.toml"
    book.write_text(BOOK, "utf-8")
    assert len(take(book, RUBY, picking(1, clusters))) == (2 if clusters else 1)
    text = book.read_text("utf-8")
    rows = text[text.index("rows = [") :].rstrip()
    assert len(rows.splitlines()) == lines


@pytest.mark.parametrize(("strokes", "written"), [(2.5, "2.5"), (4.0, "4")])
def test_strokes_are_written_as_they_are(strokes: float, written: str, tmp_path: Path) -> None:
    book = tmp_path / "studio.toml"
    book.write_text('name = "Mine"\n', "utf-8")
    write_pump(book, "mine", strokes, 114.3, "in")
    assert f"\nstrokes = {written}\n" in book.read_text("utf-8")


# the list and its files

OAT, TEAL, BRASS = (Kind(127.0, each, "matte") for each in ("oat", "deep teal", "brass"))


def rows() -> list[BuyRow]:
    """One kind in one bag, one in three kinds of bag, one that nobody sells, and two foils."""

    def need(kind: Kind, count: int) -> Need:
        return Need(kind, kind.colour, "#ffffff", count, 0, (Fill(104.0, count),))

    def bag(kind: Kind, count: int, price: str) -> Bag:
        return Bag(127.0, kind.colour, "matte", count, Decimal(price), "Invented")

    studio = Studio(
        bags=(*(bag(TEAL, 50, "7"), bag(OAT, 100, "12"), bag(OAT, 50, "6.50"), bag(OAT, 12, "2")),),
        on_hand=(OnHand(127.0, "deep teal", "matte", 3), OnHand(127.0, "oat", "matte", 9)),
    )
    foils = tuple(
        FoilNeed(FoilKind(each, 406.4, "brass", "mirror"), "brass", "#c08a3e", 2) for each in "30"
    )
    needs = (need(TEAL, 40), need(OAT, 158), need(BRASS, 5))
    bought = buy_list(Picking(needs, foils), studio)
    assert [len(line.bags) for line in bought.balloons] == [1, 3, 0]
    return list(buy_rows(bought, "in", gauge_sheets=2))


def test_foils_on_sale_are_bought_singly() -> None:
    need = FoilNeed(FoilKind("3", 406.4, "brass", "mirror"), "brass", "#c08a3e", 3)
    studio = Studio(foils=(FoilOffer(406.4, "brass", "mirror", Decimal("1.80")),))
    (row,) = buy_rows(buy_list(Picking((), (need,)), studio), "in")
    assert (int(row.pack), row.packs, row.cost) == (1, 3, Decimal("5.40"))


def test_the_workbook_needs_no_folder_for_its_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError("no temporary file can be made here")

    for name in ("mkstemp", "mkdtemp", "TemporaryFile"):
        monkeypatch.setattr(tempfile, name, refused)
    assert xlsx_bytes(rows(), "Ruby", "USD")


def test_signs_of_clusters_are_roman_numerals() -> None:
    tens, ones = ["", "x", "xx", "xxx"], ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix"]
    numerals = [ten + one for ten in tens for one in ["", *ones]][1:]
    assert [_sign(place) for place in range(39)] == numerals


def test_the_counts_of_a_thing_stand_on_its_first_row_only() -> None:
    made = rows()
    assert [row.first for row in made] == [True, True, False, False, True, True, True, True]
    assert [int(row.needed) for row in made] == [40, 158, 0, 0, 5, 2, 2, 2]
    assert [bool(row.filled) for row in made] == [True, True, False, False, True, *[False] * 3]
    assert [row.packs for row in made] == [1, 1, 1, 1, 0, 0, 0, 0]
    assert [int(row.pack) for row in made] == [50, 100, 50, 12, 0, 0, 0, 0]


def test_the_csv_says_how_much_is_to_buy() -> None:
    read = list(csv.DictReader(StringIO(csv_bytes(rows(), "USD").decode("utf-8-sig"), newline="")))
    said = [(r["Needed"], r["Spares"], r["On hand"], r["To buy"]) for r in read]
    assert said[:3] == [("40", "4", "3", "41"), ("158", "13", "9", "162"), ("", "", "", "")]
    full = replace(rows()[0], on_hand=Decimal(100))
    (read_full,) = csv.DictReader(StringIO(csv_bytes([full], "USD").decode("utf-8-sig")))
    assert read_full["To buy"] == "0"


def test_the_workbook_holds_every_row_under_its_title() -> None:
    made = rows()
    sheet = load_workbook(BytesIO(xlsx_bytes(made, "Ruby", "USD", "A draft"))).active
    assert sheet["A1"].value == "To buy for Ruby (prices in USD)"
    assert sheet["A2"].value == "A draft"
    titles = [cell.value for cell in sheet[3]]
    for at, row in enumerate(made, start=4):
        told = dict(zip(titles, (cell.value for cell in sheet[at]), strict=True))
        assert (told["What"], told["Size"] or "") == (row.what, row.size)
        assert (told["Colour"] or "", told["Finish"] or "") == (row.colour, row.finish)
        assert (told["Supplier"] or "", told["Note"] or "") == (row.supplier, row.note)
        assert (told["Pack holds"], told["Packs"]) == (row.pack, row.packs)
        assert told["Price"] == float(row.price)
        counts = (row.needed, row.spares, row.on_hand) if row.first else (None, None, None)
        assert (told["Needed"], told["Spares"], told["On hand"]) == counts
    left = [sheet[f"N{at}"].value for at in range(4, 9)]
    assert left == [
        *("=MAX(0,SUM(M4:M4)-I4)", "=MAX(0,SUM(M5:M7)-I5)", None, None),
        "=MAX(0,SUM(M8:M8)-I8)",
    ]
    assert sheet["O12"].value == "=SUM(O4:O11)"


def test_what_is_left_over_counts_a_second_kind_of_bag_and_no_other_thing() -> None:
    whole, further = rows()[1:3]
    sheet = load_workbook(BytesIO(xlsx_bytes([whole, further, whole], "Ruby", "USD"))).active
    assert sheet["N4"].value == "=MAX(0,SUM(M4:M5)-I4)"
    assert sheet["N6"].value == "=MAX(0,SUM(M6:M6)-I6)"


def test_the_workbook_prints_on_one_page_across_with_its_titles_on_each() -> None:
    sheet = load_workbook(BytesIO(xlsx_bytes(rows(), "Ruby", "USD", "A draft"))).active
    assert sheet.page_setup.fitToWidth in (None, 1)  # ECMA-376 part 1, 18.3.1.63: 1 if unsaid
    assert sheet.page_setup.fitToHeight == 0
    assert (sheet.print_title_rows, sheet.freeze_panes) == ("$3:$3", "A4")
    assert all(sheet[name].font.b for name in ("A1", "A2", "A3", "A12", "O12", "Q8"))
    assert not sheet["A4"].font.b
    assert (sheet["A3"].border.bottom.style, sheet["O12"].border.top.style) == ("thin", "thin")


def test_what_the_bags_hold_beyond_the_need_is_left_over() -> None:
    need = Need(OAT, "oat", "#ffffff", 90, 0, ())
    bag = Bag(127.0, "oat", "matte", 50, Decimal(7))
    for number, left in ((2, 6), (1, 0), (0, 0)):
        line = BalloonLine(need, 4, 0, (BagLine(bag, number),), 0)
        assert (line.bought, line.left_over) == (50 * number, left)
    exactly = BalloonLine(replace(need, count=100), 0, 0, (BagLine(bag, 2),), 0)
    assert exactly.left_over == 0
