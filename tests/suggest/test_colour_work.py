"""Colour orders, assignments and shortages against exhaustive search and an integer program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from itertools import combinations, permutations, product
from math import ceil
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from mockup.colour.alike import Latex, apart
from mockup.colour.difference import difference
from mockup.colour.palettes import FINISHES
from mockup.colour.sight import SIGHTS, seen_as
from mockup.design.reading import design_from_text, read_design
from mockup.piece.assemble import assemble
from mockup.piece.findings.mirror import alternation, left_right, top_bottom
from mockup.piece.placed import Balloon, Cluster, Piece
from mockup.suggest.orders import colour_orders, usual_purchase
from mockup.suggest.shortage import CannotSpare, Relief, choices, relief, relief_words
from mockup.suggest.steps import steps_of
from mockup.suggest.telling_apart import TooFewColours, best_assignment

SAMPLES = Path(__file__).parents[2] / "samples"
HEAD = 'title = "Law"\npalette = "harbour"\n'
HEAD += 'colours = { A = "deep teal", B = "oat", C = "brass" }\n[frame]\noutside = "30in"\n'


def piece(clusters: str, cap: str = "") -> Piece:
    one = f"[[section]]\nat = '%s'\nclusters = [{clusters}]\n{cap}\n"
    return assemble(design_from_text(HEAD + one % "12" + one % "6", "law.toml"))


TWO = '{ strokes = 4, colours = "AB" }, { strokes = 3, colours = "BA" }'
THREE = '{ strokes = 4, colours = "AC" }, { strokes = 3, colours = "BA" }, { colours = "AB" }'
TRIO = '{ kind = "trio", colours = "ABC" }, { kind = "trio", colours = "ABC" }'


@pytest.fixture(scope="module")
def ruby() -> Piece:
    return assemble(read_design(SAMPLES / "ruby-thirty.toml"))


def worn(given: Piece, letters: tuple[str, ...]) -> Piece:
    """The piece in another order of colours."""
    by_cluster: dict[int, str] = {}
    for step, own in zip(steps_of(given).steps, letters, strict=True):
        by_cluster |= dict.fromkeys(step.clusters, own)
    clusters: tuple[Cluster, ...] = tuple(
        replace(c, letters=by_cluster[c.index]) for c in given.clusters
    )
    balloons: tuple[Balloon, ...] = tuple(
        replace(b, letter=by_cluster[b.cluster][given.clusters[b.cluster].balloons.index(b.index)])
        for b in given.balloons
    )
    return replace(given, clusters=clusters, balloons=balloons)


def holds(given: Piece) -> bool:
    judges: tuple[Callable[[Piece], Any], ...] = (left_right, top_bottom, alternation)
    return all(f.verdict == "holds" for judge in judges for f in judge(given))


@pytest.mark.parametrize("clusters", [TWO, TRIO])
def test_orders_are_those_of_brute_force(clusters: str) -> None:
    """Every way to colour the clusters put to the piece's own checks."""
    given = piece(clusters)
    letters = sorted({b.letter for b in given.balloons})
    count = len(given.clusters[0].letters)
    every = ["".join(x) for x in product(letters, repeat=count) if len(set(x)) > 1]
    expected: Counter[tuple[int, ...]] = Counter()
    for order in product(every, repeat=2):
        used = Counter(b.letter for b in worn(given, order).balloons)
        if len(used) == len(letters) and holds(worn(given, order)):
            expected[tuple(used[x] for x in letters)] += 1
    found = colour_orders(given, usual_purchase)
    assert {tuple(o.counts[x] for x in letters): o.ways for o in found} == dict(expected)


def test_every_order_told_keeps_the_checks_and_they_come_fewest_first(ruby: Piece) -> None:
    orders = colour_orders(ruby, usual_purchase)
    assert [o.to_buy for o in orders] == sorted(o.to_buy for o in orders)
    for order in orders[::40]:
        dressed = worn(ruby, order.letters)
        assert holds(dressed)
        assert Counter(b.letter for b in dressed.balloons) == order.counts


@given(st.dictionaries(st.sampled_from("ABCD"), st.integers(0, 140), min_size=1))
def test_bags_cover_what_is_needed(counts: dict[str, int]) -> None:
    bought = usual_purchase(counts)
    assert sum(counts.values()) <= bought <= sum(10 * ceil(n / 10) for n in counts.values())


def least_difference(colours: tuple[Latex, ...]) -> float:
    return min(
        difference(seen_as(a.srgb, sight), seen_as(b.srgb, sight))
        if sight != "grey"
        else apart(a, b, sight)
        for a, b in combinations(colours, 2)
        for sight in SIGHTS
    )


COLOUR = st.tuples(*[st.integers(0, 255)] * 3).map(lambda c: "#{:02x}{:02x}{:02x}".format(*c))
LATEX = st.builds(Latex, COLOUR, st.sampled_from(FINISHES))


def matte(*colours: str) -> list[Latex]:
    return [Latex(colour, "matte") for colour in colours]


@settings(max_examples=15, deadline=None)
@given(st.lists(LATEX, min_size=4, max_size=6, unique=True), st.integers(2, 4))
def test_the_assignment_is_the_best_of_all(palette: list[Latex], letters: int) -> None:
    now = dict.fromkeys("ABCD"[:letters], Latex("#808080", "matte"))
    found = best_assignment(now, palette)
    best = max(least_difference(chosen) for chosen in permutations(palette, letters))
    assert found.least == pytest.approx(best, abs=1e-6)
    given_out = tuple(palette[found.places[letter]] for letter in now)
    assert least_difference(given_out) == pytest.approx(best, abs=1e-6)


def test_of_equally_good_ways_the_least_change_is_taken() -> None:
    now = dict(zip("AB", matte("#fefefe", "#101010"), strict=True))
    found = best_assignment(now, matte("#000000", "#ffffff"))
    assert found.places == {"A": 1, "B": 0}


def test_too_small_a_palette_is_refused() -> None:
    with pytest.raises(TooFewColours, match="2 colours for 3 letters"):
        best_assignment(dict.fromkeys("ABC", *matte("#808080")), matte("#000000", "#ffffff"))


def by_integer_program(given: Piece, letter: str, short: int, spare: dict[str, int]) -> Any:
    """The same question to scipy.optimize.milp (HiGHS): one binary for each step and choice."""
    steps = steps_of(given)
    others = [x for x in sorted(given.design.colours) if x != letter]
    table = [choices(step, letter, others) for step in steps.steps]
    names = [(n, k) for n, own in enumerate(table) for k in range(len(own))]
    at = {name: place for place, name in enumerate(names)}
    rows, low, high = [], [], []

    def add(places: dict[int, float], least: float, most: float) -> None:
        row = np.zeros(len(names))
        for place, worth in places.items():
            row[place] = worth
        rows.append(row)
        low.append(least)
        high.append(most)

    for n, own in enumerate(table):
        add({at[n, k]: 1 for k in range(len(own))}, 1, 1)
    add({at[n, k]: table[n][k].frees for n, k in names}, short, np.inf)
    for other, most in spare.items():
        add({at[n, k]: dict(table[n][k].takes).get(other, 0) for n, k in names}, 0, most)
    broken = steps.broken_already()
    for link in steps.links:
        if link in broken:
            continue
        a, b = min(link.clusters), max(link.clusters)
        for i, one in enumerate(table[a]):
            for j, other_choice in enumerate(table[b]):
                if a == b and i != j:
                    continue
                if link.excess({a: one.letters, b: other_choice.letters}):
                    add({at[a, i]: 1, at[b, j]: 1} if a != b else {at[a, i]: 1}, 0, a != b)
    cost = np.array([1000 * table[n][k].clusters + table[n][k].frees for n, k in names])
    return milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=np.ones(len(names), dtype=np.int64),
        bounds=Bounds(0, 1),
    )


@pytest.mark.parametrize(
    ("clusters", "letter", "short", "spare"),
    [
        (TWO, "A", 3, {}),
        (THREE, "A", 5, {}),
        (THREE, "A", 9, {"C": 6}),
        (THREE, "B", 4, {}),
        (THREE, "C", 2, {}),
        (TRIO, "B", 2, {}),
    ],
)
def test_the_remedy_is_that_of_an_integer_program(
    clusters: str, letter: str, short: int, spare: dict[str, int]
) -> None:
    given = piece(clusters)
    answer = by_integer_program(given, letter, short, spare)
    if not answer.success:
        with pytest.raises(CannotSpare):
            relief(given, letter, short, spare)
        return
    found = relief(given, letter, short, spare)
    assert 1000 * found.clusters + found.balloons == round(answer.fun)
    check(given, found, spare)


def check(given: Piece, found: Relief, spare: dict[str, int]) -> None:
    """The change frees enough, keeps every check, and takes no more than is at hand."""
    by_cluster = {i: change.after for change in found.changes for i in change.clusters}
    order = tuple(by_cluster.get(step.clusters[0], step.letters) for step in steps_of(given).steps)
    dressed = worn(given, order)
    before, after = (Counter(b.letter for b in each.balloons) for each in (given, dressed))
    assert before[found.letter] - after[found.letter] >= found.short
    assert all(after[x] - before[x] <= most for x, most in spare.items())
    assert holds(dressed)


@pytest.mark.parametrize(("letter", "short"), [("A", 6), ("B", 3), ("C", 1), ("C", 9)])
def test_a_shortage_of_the_sample_is_made_up_for(ruby: Piece, letter: str, short: int) -> None:
    found = relief(ruby, letter, short)
    check(ruby, found, {})
    assert all("becomes" in said for said in relief_words(ruby, found))


def test_a_shortage_beyond_reach_is_told(ruby: Piece) -> None:
    with pytest.raises(CannotSpare, match="at most"):
        relief(ruby, "A", 500)
