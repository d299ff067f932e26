"""The buy list: needs, spares and the shelf, checked by hand and by laws."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.studio import (
    Bag,
    FoilOffer,
    Material,
    OnHand,
    Spares,
    Studio,
)
from mockup.stock.buying import buy_list
from mockup.stock.picking import (
    Counts,
    Fill,
    FoilKind,
    FoilNeed,
    Kind,
    Need,
    Picking,
)
from mockup.stock.spares import spare_count

OAT = Kind(127.0, "oat", "matte")


def need(count: int, kind: Kind = OAT) -> Need:
    return Need(kind, kind.colour, "#d8c7a5", count, 0, (Fill(104.0, count),))


def bag(count: int, price: str) -> Bag:
    return Bag(127.0, "Oat", "matte", count, Decimal(price))


BAGS = (bag(50, "6.80"), bag(100, "11.90"), bag(12, "2.35"))


def test_a_list_worked_by_hand() -> None:
    """130 + 11 spares (8 % is 10.4) - 31 on the shelf = 110: a 100 and a 12 cost 14.25."""
    studio = Studio(bags=BAGS, on_hand=(OnHand(127.0, "oat", "matte", 31),))
    line = buy_list(Picking((need(130),)), studio).balloons[0]
    assert (line.wanted, line.from_shelf, line.to_buy) == (141, 31, 110)
    assert [(one.bag.count, one.number) for one in line.bags] == [(100, 1), (12, 1)]
    assert (line.cost, line.left_over, line.to_find) == (Decimal("14.25"), 2, 0)


def test_a_colour_that_no_bag_sells_is_to_find_and_not_dropped() -> None:
    bought = buy_list(Picking((need(10),)), Studio())
    assert (bought.balloons[0].to_find, bought.to_find, bought.cost) == (11, 11, Decimal(0))


def test_a_shelf_that_holds_enough_leaves_nothing_to_buy_or_find() -> None:
    studio = Studio(on_hand=(OnHand(127.0, "oat", "matte", 500),))
    line = buy_list(Picking((need(10),)), studio).balloons[0]
    assert (line.to_buy, line.to_find, line.bags, line.from_shelf) == (0, 0, (), 11)


def test_a_quote_looks_past_the_shelf() -> None:
    studio = Studio(bags=BAGS, on_hand=(OnHand(127.0, "oat", "matte", 500),))
    assert buy_list(Picking((need(10),)), studio, from_shelf=False).balloons[0].to_buy == 11


@pytest.mark.parametrize(
    ("count", "outdoors", "spares"),
    [(0, 0, 0), (1, 0, 1), (100, 0, 8), (100, 100, 12), (50, 25, 5)],
)
def test_spares(count: int, outdoors: int, spares: int) -> None:
    """Common practice, no source: 5-10 %, at least one a colour, more outdoors."""
    assert spare_count(count, outdoors, Spares()) == spares


@given(st.integers(0, 5000), st.integers(0, 400), st.integers(0, 300))
def test_bought_and_shelf_always_cover_what_is_wanted(count: int, shelf: int, least: int) -> None:
    studio = Studio(
        bags=BAGS, on_hand=(OnHand(127.0, "oat", "matte", shelf),), spares=Spares(least=least)
    )
    line = buy_list(Picking((need(count),)), studio).balloons[0]
    assert line.bought + line.from_shelf >= line.wanted >= count
    assert line.bought - line.left_over == line.to_buy


def test_foils_come_from_the_shelf_then_from_the_cheapest_offer_that_sells_them() -> None:
    foil = FoilNeed(FoilKind("3", 406.4, "brass", "mirror"), "brass", "#c08a3e", 5)
    studio = Studio(
        foils=(
            FoilOffer(406.4, "brass", "mirror", Decimal("4.50")),
            FoilOffer(406.4, "brass", "mirror", Decimal("3.90"), numerals="01"),
            FoilOffer(355.6, "brass", "mirror", Decimal("1.00")),
        ),
        on_hand=(OnHand(406.4, "Brass", "mirror", 2, numeral="3"),),
    )
    line = buy_list(Picking((), (foil,)), studio).foils[0]
    assert (line.from_shelf, line.to_buy, line.cost) == (2, 3, Decimal("13.50"))


def test_other_materials_come_in_whole_packs() -> None:
    line = Material("clear line", "attach point", Decimal("0.4"), "m", Decimal(50), Decimal("2.90"))
    short = Studio(materials=(line,))
    bought = buy_list(Picking(counts=Counts(attach_points=126)), short).materials[0]
    assert (bought.needed, bought.packs, bought.left_over) == (
        Decimal("50.4"),
        2,
        Decimal("49.6"),
    )
    assert buy_list(Picking(), short).materials == ()
