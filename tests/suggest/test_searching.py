"""The search against brute force: the same best, the same "none", and wishes that cannot hold."""

from __future__ import annotations

import signal
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from mockup.design.model import Design
from mockup.design.wishes import Wishes
from mockup.errors import FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.findings import failing, find_all
from mockup.piece.placed import Piece
from mockup.suggest.answers import beats, none_words, ring_sizes, rings_words
from mockup.suggest.comparing import Expense
from mockup.suggest.contradictions import refuse_contradictions
from mockup.suggest.crew import crew
from mockup.suggest.designs import design_of
from mockup.suggest.searching import Outcome, Search, TooMany, in_rings, suggested
from mockup.suggest.space import Options, every_option, space_of

Brief = Callable[..., Any]
SMALL = "fills = [2, 3, 4]\na_side = [1, 2]\n"


def price(piece: Piece) -> Expense:
    return Expense(2.0 * len(piece.clusters), 0.5 * len(piece.balloons))


def fullness(piece: Piece) -> float:
    return sum(np.pi * balloon.radius**2 for balloon in piece.balloons)


def by_hand(design: Design, wishes: Wishes) -> list[tuple[float, Piece]]:
    """Every option settled fully and put to every check, the fullest first."""
    space = space_of(design, wishes)
    found = []
    for options in every_option(space):
        for n in range(len(options.fills)):
            try:
                piece = assemble(design_of(design, wishes, space, options, n))
            except FaultsFound:
                continue
            room = piece.fit.room if piece.fit else 0.0
            if not failing(find_all(piece)) and room >= wishes.room:
                found.append((fullness(piece), piece))
    return sorted(found, key=lambda one: -one[0])


@pytest.mark.parametrize(
    ("wishes", "ring"),
    [
        (SMALL, "24in"),
        (SMALL + 'room = "1in"', "24in"),
        ('fills = [2, 4]\na_side = [1, 2]\nturns = ["point in", "valley in"]', "25in"),
        ('fills = [2, 4]\na_side = [1, 2]\nend_caps = ["none", 1]\nroom = "1in"', "22in"),
        ("fills = [3, 4]\na_side = [2, 2]\n", "21in"),
        ('fills = [2, 4]\na_side = [1, 2]\nsections = ["top"]', "24in"),
        ("fills = [2, 3]\na_side = [0, 2]\nalike = false\n", "24in"),
        ('fills = [3, 4]\na_side = [1, 2]\nalike = false\nend_caps = ["none"]', "22in"),
        ('fills = [3]\na_side = [1, 2]\nplaces = [["12", "6"], ["3", "9"]]', "26in"),
    ],
)
def test_it_finds_what_brute_force_finds(brief: Brief, wishes: str, ring: str) -> None:
    design, wished = brief(wishes, ring)
    expected = by_hand(design, wished)
    outcome = suggested(design, replace(wished, best=3), price)
    assert [fullness(one.piece) for one in outcome.best] == pytest.approx(
        [full for full, _ in expected[:3]]
    )
    if not expected:
        assert outcome.looked_at == outcome.total
        assert sum(outcome.refused.values()) == outcome.total


@pytest.mark.parametrize(
    ("sections", "turns"),
    [
        ("", {0.0, 45.0}),
        ('[[section]]\nat = "3"\nturn = "valley in"\nclusters = [{ strokes = 2 }]\n', {45.0}),
        ('[[section]]\nat = "3"\nclusters = [{ strokes = 2, turn = "point in" }]\n', {0.0}),
        ('[[section]]\nat = "3"\nturn = 20\nclusters = [{ strokes = 2 }]\n', {20.0}),
    ],
)
def test_turns_vary_unless_the_file_says_them(
    brief: Brief, sections: str, turns: set[float]
) -> None:
    """Valley in is what a piece is drawn with, and no wish of its own."""
    _, wished = brief("a_side = [1, 1]", sections=sections)
    assert set(wished.turns) == turns
    _, asked = brief('a_side = [1, 1]\nturns = ["point in", 30]', sections=sections)
    assert asked.turns == (0.0, 30.0)


def test_point_in_is_found_where_it_is_the_fullest(brief: Brief) -> None:
    fills = 'fills = [2, 3, 4]\na_side = [2, 3]\nroom = "1in"\nbest = 1\n'
    design, wished = brief(fills, "26in")
    open_to_both = suggested(design, wished, price).best[0]
    design, wished = brief(fills + 'turns = ["valley in"]', "26in")
    valley = suggested(design, wished, price).best[0]
    middle = open_to_both.design.sections[0].middle
    assert middle is not None
    assert middle.turn_deg == 0.0
    assert fullness(open_to_both.piece) > fullness(valley.piece)


def test_none_fits_is_told_with_the_nearest(brief: Brief) -> None:
    design, wished = brief("fills = [3, 4]\na_side = [2, 2]\n", "21in")
    outcome = suggested(design, wished, price)
    assert outcome.best == ()
    assert outcome.nearest is not None
    rooms = []
    space = space_of(design, wished)
    for options in every_option(space):
        for n in range(len(options.fills)):
            fit = assemble(design_of(design, wished, space, options, n)).fit
            rooms.append(fit.room if fit else 0.0)
    assert outcome.nearest.by == pytest.approx(-max(rooms))
    said = none_words(outcome, design)
    assert said.startswith(f"None fits. All {outcome.total} designs")
    assert "the nearest misses by" in said


def test_the_smallest_ring_is_the_first_that_works(brief: Brief) -> None:
    design, wished = brief("fills = [3, 4]\na_side = [2, 2]\n", "21in")
    tried = []
    for outside, outcome in in_rings(design, wished, price, ring_sizes(design, wished)):
        tried.append((outside, outcome))
        if outcome.best:
            break
    assert [bool(outcome.best) for _, outcome in tried] == [False] * (len(tried) - 1) + [True]
    below = replace(design, frame=replace(design.frame, outside=tried[-1][0] - 25.4))
    assert by_hand(below, wished) == []
    (said,) = rings_words(tried, design, wished)
    assert "is the smallest that works, tried in whole inches" in said


@pytest.mark.parametrize(("ring", "first"), [("22in", 23), ("22.5in", 23), ("21in", 22)])
def test_rings_are_tried_from_the_next_whole_inch(brief: Brief, ring: str, first: int) -> None:
    design, wished = brief(SMALL, ring)
    sizes = ring_sizes(design, wished)
    assert sizes[0] == pytest.approx(first * 25.4)
    assert np.diff(sizes) == pytest.approx(25.4)
    none = suggested(design, replace(wished, room=2540.0), price)
    (said,) = rings_words([(sizes[0], none)], design, wished)
    assert said == f"Up to {first} in no ring works, tried in whole inches."


def test_rings_that_are_wished_are_told_as_such(brief: Brief) -> None:
    design, wished = brief(SMALL + 'rings = ["20in", "30in"]\nroom = "1in"', "19in")
    tried = list(in_rings(design, wished, price, ring_sizes(design, wished)))
    (said,) = rings_words(tried, design, wished)
    assert said == "A 30 in ring is the smallest that works of those wished (20 in does not)."
    (said,) = rings_words(tried[:1], design, wished)
    assert said == "None of the rings wished works."


def test_only_the_first_says_that_nothing_is_fuller(brief: Brief) -> None:
    design, wished = brief(SMALL, "40in")
    outcome = suggested(design, wished, price)
    said = [beats(outcome, place, wished, "in") for place in range(3)]
    assert said[0].endswith("Nothing that may be chosen is fuller.")
    assert [one.endswith("None that is fuller was refused.") for one in said] == [False, True, True]


def test_the_best_says_why_and_what_binds(brief: Brief) -> None:
    design, wished = brief(SMALL)
    outcome = suggested(design, wished, price)
    said = beats(outcome, 0, wished, "in")
    assert said.startswith("Fuller than the next by ")
    assert "leave too little room for the numerals" in said or "Nothing" in said


@pytest.mark.parametrize("rank", ["smoothness", "cost", "minutes", "fullness"])
def test_each_rank_orders_by_its_own_figure(brief: Brief, rank: str) -> None:
    design, wished = brief(SMALL + f'rank = "{rank}"\nbest = 6')
    outcome = suggested(design, wished, price)
    figures = [one.figure for one in outcome.best]
    assert figures == sorted(figures)
    if rank == "cost":
        assert figures == [one.expense.cost for one in outcome.best]
    if rank == "minutes":
        assert figures == [one.expense.minutes for one in outcome.best]


@pytest.mark.parametrize(
    ("wish", "holds"),
    [
        ("most_balloons = 40", lambda one: len(one.piece.balloons) <= 40),
        ("most_cost = 18", lambda one: one.expense.cost <= 18),
        ("most_minutes = 20", lambda one: one.expense.minutes <= 20),
        ("stock = { A = 14 }", lambda one: letters(one.piece)["A"] <= 14),
        ('most_step = "1/4in"', lambda one: steepest(one.design) <= 6.36),
    ],
)
def test_a_limit_is_kept(brief: Brief, wish: str, holds: Callable[[Any], bool]) -> None:
    design, wished = brief(SMALL + "best = 8\n" + wish)
    outcome = suggested(design, wished, price)
    assert outcome.best
    assert all(holds(one) for one in outcome.best)


def letters(piece: Piece) -> dict[str, int]:
    every = [balloon.letter for balloon in piece.balloons]
    return {letter: every.count(letter) for letter in set(every)}


def steepest(design: Design) -> float:
    own = design.sections[0]
    sizes = [spec.diameter for spec in (own.middle, *own.right) if spec]
    return max(a - b for a, b in pairwise(sizes))


def test_top_and_bottom_may_differ_in_length_and_share_their_taper(brief: Brief) -> None:
    """Of 40 balloons 32 are all that crescents of one length can use."""
    asked = "fills = [3, 4]\na_side = [1, 2]\nmost_balloons = 40\nbest = 1\n"
    design, alike = brief(asked)
    best = suggested(design, alike, price).best[0]
    design, wished = brief(f"{asked}alike = false\n")
    found = suggested(design, wished, price).best
    assert fullness(found[0].piece) > fullness(best.piece)
    top, bottom = found[0].design.sections
    assert len(top.right) != len(bottom.right)
    shared = min(len(top.right), len(bottom.right))
    own = [[spec.diameter for spec in s.right[:shared]] for s in (top, bottom)]
    assert own[0] == own[1]


def test_crescents_that_mirror_each_other_stay_as_long(brief: Brief) -> None:
    design, wished = brief('alike = false\nplaces = [["3", "9"], ["12", "6"]]\na_side = [1, 2]')
    by_places: dict[tuple[float, ...], set[tuple[int, ...]]] = {}
    for shape in space_of(design, wished).shapes:
        by_places.setdefault(shape.places, set()).add(shape.sides)
    assert by_places[(90.0, 270.0)] == {(1, 1), (2, 2)}
    assert by_places[(0.0, 180.0)] == {(1, 1), (1, 2), (2, 1), (2, 2)}


def test_two_processes_answer_as_one_does(brief: Brief) -> None:
    design, wished = brief('fills = [2, 4]\na_side = [1, 2]\nroom = "1/2in"')
    alone = Search(design, wished, price)
    shared = Search(design, wished, price)
    with crew(design, wished, alone.space, 1) as hands:
        alone._through(hands, None)
    with crew(design, wished, shared.space, 2) as hands:
        shared._through(hands, None)
    assert [one.design for one in alone.found] == [one.design for one in shared.found]
    assert alone._outcome(False).refused == shared._outcome(False).refused


def test_ctrl_c_gives_the_best_so_far(brief: Brief) -> None:
    design, wished = brief(SMALL + "best = 6\n")
    priced: list[Piece] = []

    def stopping(piece: Piece) -> Expense:
        if priced:
            signal.raise_signal(signal.SIGINT)  # what Ctrl-C sends
        priced.append(piece)
        return price(piece)

    outcome = suggested(design, wished, stopping)
    assert outcome.stopped
    assert len(outcome.best) == 1
    assert outcome.looked_at < outcome.total


def test_numerals_too_large_for_the_bare_ring_are_told_as_that(brief: Brief) -> None:
    design, wished = brief(SMALL, "18in")
    with pytest.raises(FaultsFound, match="these numerals and the bare frame cannot both hold"):
        refuse_contradictions(design, wished, space_of(design, wished), lambda _: Expense(1.0))


def test_a_thousand_million_combinations_are_refused_with_a_way_out(brief: Brief) -> None:
    many = ", ".join(f"{1 + n / 8:g}" for n in range(24))
    design, wished = brief(f"fills = [{many}]\na_side = [1, 10]\nbest = 1\n")
    assert space_of(design, wished).total > 10**8
    with pytest.raises(TooMany, match=r"combinations.*name fewer.*--at-most 100000"):
        suggested(design, wished, price)


def test_a_sample_says_that_it_proves_nothing(brief: Brief) -> None:
    design, wished = brief("fills = [3, 3.5, 4]\na_side = [2, 4]\n", "20in")
    outcome = suggested(design, wished, price, at_most=20)
    assert outcome.thinned
    assert outcome.looked_at < outcome.total
    assert "no proof" in none_words(outcome, design)


@pytest.mark.parametrize(
    ("wishes", "says"),
    [
        ('room = "6in"', "the clearance asked for and the bare frame cannot both hold"),
        ('room = "4in"\nsections = ["bottom"]', "and the fixed clusters cannot both hold"),
        ("most_balloons = 10", "at most 10 balloons and at least 1 cluster a side cannot both"),
        ("stock = { A = 3 }", "3 of A at hand and this order of colours cannot both hold"),
        ("most_cost = 5", "no studio book tells what all of it costs"),
    ],
)
def test_wishes_that_contradict_are_named(brief: Brief, wishes: str, says: str) -> None:
    design, wished = brief(wishes)
    with pytest.raises(FaultsFound) as found:
        refuse_contradictions(design, wished, space_of(design, wished), lambda _: Expense(1.0))
    assert says in str(found.value)
    assert "law.toml:" in str(found.value)


@pytest.mark.parametrize(
    ("wishes", "says"),
    [
        ("a_side = [3, 1]", "write [1, 3]"),
        ("fills = [9]", "nothing to choose from"),
        ('sections = ["tip"]', "there is no section 'tip' that may vary; did you mean 'top'?"),
        ('places = [["12"]]', "has 1 for 2 sections"),
        ("stock = { D = 3 }", "'D' is not among the colours"),
        ('fills = ["4"]', "has no unit"),
        ("roam = 3", "the wishes has no key 'roam'"),
        ('rank = "beauty"', "'rank' cannot be 'beauty'"),
    ],
)
def test_wishes_at_fault_are_told_with_their_line(brief: Brief, wishes: str, says: str) -> None:
    with pytest.raises(FaultsFound) as found:
        brief(wishes)
    assert says in str(found.value)


def test_an_arc_takes_crescents_too(brief: Brief) -> None:
    design, wished = brief(SMALL + 'sections = ["top"]', "6ft")
    arc = replace(design.frame, kind="arc", start_deg=270.0, end_deg=450.0)
    alone = replace(design, frame=arc, sections=design.sections[:1], panel=None)
    outcome: Outcome = suggested(alone, wished, price)
    expected = by_hand(alone, wished)
    assert fullness(outcome.best[0].piece) == pytest.approx(expected[0][0])
    assert Options(0, np.zeros((1, 2), dtype=np.intp)).fills.shape == (1, 2)
