"""Patterns by the laws a decorator would judge them by: neighbours, not the formula."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.symmetry.patterns import PATTERNS, Laid, Order, pattern_letters


def nestled(count: int, clusters: int, start: float = 0.0, first: int = 0) -> list[Laid]:
    """Clusters each turned by half a place, as they nestle."""
    half = 180.0 / count
    return [
        Laid(abs(i), tuple((start + half * i + 2 * half * k) % 360 for k in range(count)))
        for i in range(first, first + clusters)
    ]


def at(laid: Laid, letters: str, phi: float) -> str | None:
    """The letter of the balloon at an angle round the frame."""
    for own, letter in zip(laid.phis_deg, letters, strict=True):
        if abs((own - phi + 180) % 360 - 180) < 1e-6:
            return letter
    return None


runs = st.tuples(st.integers(2, 6), st.integers(3, 30), st.floats(0, 359.9), st.integers(-15, 0))


@given(runs, st.sampled_from(["right", "left"]))
def test_along_a_spiral_each_next_cluster_goes_on_half_a_place_round(
    run: tuple[int, int, float, int], hand: str
) -> None:
    count, clusters, start, first = run
    laid = nestled(count, clusters, start, first)
    order = Order("ABCDEF"[:count], hand="left" if hand == "left" else "right")
    letters = pattern_letters("spiral", laid, order)
    way = 180.0 / count if hand == "right" else -180.0 / count
    for (one, own), (other, next_) in pairwise(zip(laid, letters, strict=True)):
        for phi, letter in zip(one.phis_deg, own, strict=True):
            assert at(other, next_, phi + way) == letter
    assert all(Counter(each) == Counter(order.letters) for each in letters)


@given(runs)
def test_a_row_keeps_its_colour_two_clusters_on(run: tuple[int, int, float, int]) -> None:
    count, clusters, start, _ = run
    laid = nestled(count, clusters, start)
    letters = pattern_letters("rows", laid, Order("ABCDEF"[:count]))
    for one, other in zip(range(clusters), range(2, clusters), strict=False):
        for phi, letter in zip(laid[one].phis_deg, letters[one], strict=True):
            assert at(laid[other], letters[other], phi) == letter


@given(st.integers(1, 5), st.integers(1, 4), st.integers(2, 30))
def test_bands_change_after_so_many_clusters(count: int, each: int, clusters: int) -> None:
    letters = pattern_letters("bands", nestled(count, clusters), Order("ABC", each=each))
    assert all(len(set(own)) == 1 for own in letters)
    changes = [k for k in range(1, clusters) if letters[k] != letters[k - 1]]
    assert changes == list(range(each, clusters, each))


def test_blocks_are_rows_that_change_places_after_each_block() -> None:
    laid = nestled(4, 12)
    order = Order("AB", starts=2, each=3)
    rows, blocks = (pattern_letters(word, laid, order) for word in ("rows", "blocks"))
    swapped = str.maketrans("AB", "BA")
    for k, (one, other) in enumerate(zip(rows, blocks, strict=True)):
        assert other == (one.translate(swapped) if k // 3 % 2 else one)


def test_a_diamond_grows_by_a_place_and_shrinks_again_and_repeats() -> None:
    laid = nestled(4, 17)
    letters = pattern_letters("diamond", laid, Order("ABC"))
    assert [at(*pair, 0.0) for pair in zip(laid, letters, strict=True)][::2] == list("ABCBABCBA")
    assert letters[:9] == letters[8:]


@given(st.integers(2, 5), st.integers(2, 40), st.integers(2, 5))
def test_a_gradual_change_never_steps_back_nor_jumps(
    count: int, clusters: int, colours: int
) -> None:
    order = "ABCDE"[:colours]
    letters = pattern_letters("gradual", nestled(count, clusters), Order(order))
    assert letters[0] == "A" * count
    assert set(letters[-1]) == {order[-1]}
    assert all(
        abs(order.index(x) - order.index(y)) <= 1 for own in letters for x in own for y in own
    )
    if clusters >= count * (colours - 1) + 1:
        sums = [sum(order.index(each) for each in own) for own in letters]
        assert all(0 <= b - a <= 2 for a, b in pairwise(sums))


@pytest.mark.parametrize("pattern", [p for p in PATTERNS if p != "spiral"])
def test_counted_from_the_middle_both_sides_are_alike(pattern: str) -> None:
    laid = nestled(4, 13, first=-6)
    letters = pattern_letters(pattern, laid, Order("AB", starts=2, each=2))
    for left, right in zip(range(6), range(12, 6, -1), strict=True):
        for phi, letter in zip(laid[left].phis_deg, letters[left], strict=True):
            assert at(laid[right], letters[right], phi) == letter


def test_the_two_hands_mirror_each_other() -> None:
    laid = nestled(4, 9)
    right, left = (
        pattern_letters("spiral", laid, Order("ABCD", hand=hand)) for hand in ("right", "left")
    )
    for one, own, other in zip(laid, right, left, strict=True):
        mirrored = [at(one, other, -phi) for phi in one.phis_deg]
        assert Counter(own) == Counter(mirrored)
    assert right != left
