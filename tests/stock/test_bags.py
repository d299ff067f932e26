"""The cheapest bags, judged by brute force, by an independent solver and by laws."""

from __future__ import annotations

from itertools import product
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from mockup.stock.bags import BagKind, NotABag, cheapest

SOLD = (5, 10, 12, 25, 50, 72, 100, 144)  # counts of bags: common practice, no source


def rank(bags: dict[int, int], kinds: list[BagKind]) -> tuple[int, int, int]:
    cost = sum(kinds[place].cost * n for place, n in bags.items())
    count = sum(kinds[place].count * n for place, n in bags.items())
    return cost, count, sum(bags.values())


def by_brute_force(need: int, kinds: list[BagKind]) -> tuple[int, int, int]:
    ranges = [range(-(-need // kind.count) + 1) for kind in kinds]
    sets = (dict(enumerate(numbers)) for numbers in product(*ranges))
    return min(r for r in (rank(s, kinds) for s in sets) if r[1] >= need)


def by_solver(need: int, kinds: list[BagKind]) -> int:
    """The least cost by HiGHS (scipy.optimize.milp), an independent branch-and-cut solver."""
    counts = np.array([[kind.count for kind in kinds]])
    costs = np.array([kind.cost for kind in kinds])
    answer = milp(
        costs,
        constraints=LinearConstraint(counts, lb=need),
        integrality=np.ones(len(kinds), dtype=np.int64),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0},
    )
    assert answer.x is not None
    return round(float(np.dot(np.round(answer.x), costs)))


def some_kinds(dice: Random, most: int) -> list[BagKind]:
    counts = dice.sample(SOLD, dice.randint(1, most))
    return [
        BagKind(count, dice.randint(0, 30) * 5 + count * dice.randint(5, 9)) for count in counts
    ]


def test_agrees_with_brute_force_on_a_thousand_cases() -> None:
    dice = Random(20270314)
    for _ in range(1000):
        kinds = some_kinds(dice, 3)
        need = dice.randint(1, 120)
        bags = cheapest(need, kinds)
        assert bags is not None
        assert rank(bags, kinds) == by_brute_force(need, kinds), (need, kinds)


def test_agrees_with_an_independent_solver_up_to_eight_kinds_and_fifty_thousand() -> None:
    dice = Random(27)
    for _ in range(60):
        kinds = some_kinds(dice, 8)
        need = dice.choice((dice.randint(1, 300), dice.randint(300, 50_000)))
        bags = cheapest(need, kinds)
        assert bags is not None
        assert rank(bags, kinds)[0] == by_solver(need, kinds), (need, kinds)


def test_the_judges_see_a_choice_that_is_not_the_cheapest() -> None:
    kinds = [BagKind(100, 1000), BagKind(12, 180)]  # the bag cheapest a balloon is no good for 12
    assert by_brute_force(12, kinds) < rank({0: 1}, kinds)
    assert by_solver(12, kinds) < rank({0: 1}, kinds)[0]


BAGS = st.lists(st.builds(BagKind, st.integers(1, 30), st.integers(0, 500)), min_size=1, max_size=5)


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 400), BAGS)
def test_covers_and_never_costs_more_for_less(need: int, kinds: list[BagKind]) -> None:
    bags, fewer = cheapest(need, kinds), cheapest(need - 1, kinds)
    assert bags is not None
    assert fewer is not None
    assert rank(bags, kinds)[1] >= need
    assert rank(fewer, kinds) <= rank(bags, kinds)


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 300), BAGS, st.integers(2, 7))
def test_scaling_bags_and_need_keeps_the_choice(need: int, kinds: list[BagKind], k: int) -> None:
    larger = [BagKind(kind.count * k, kind.cost) for kind in kinds]
    assert cheapest(need * k, larger) == cheapest(need, kinds)


def test_a_dearer_bag_is_taken_when_it_leaves_fewer_over_at_the_same_cost() -> None:
    assert cheapest(10, [BagKind(12, 500), BagKind(10, 500)]) == {1: 1}


def test_nothing_needed_and_nothing_on_sale() -> None:
    assert cheapest(0, []) == {}
    assert cheapest(1, []) is None


@pytest.mark.parametrize("kind", [BagKind(0, 100), BagKind(10, -1)])
def test_what_is_no_bag_is_refused(kind: BagKind) -> None:
    with pytest.raises(NotABag):
        cheapest(5, [kind])
