"""Colours of loose balloons against networkx: as few of a colour touch as the contacts allow."""

from __future__ import annotations

from collections import Counter

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.symmetry.mixing import mixed_letters, touching_alike

graphs = st.integers(2, 30).flatmap(
    lambda n: st.tuples(
        st.just(n),
        st.lists(
            st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)).filter(lambda p: p[0] != p[1]),
            max_size=60,
        ),
    )
)


@settings(max_examples=60, deadline=None)
@given(graphs, st.integers(2, 6))
def test_no_two_of_a_colour_touch_where_networkx_finds_a_way(
    graph: tuple[int, list[tuple[int, int]]], colours: int
) -> None:
    """networkx.greedy_color with saturation (DSATUR) as the judge of what is avoidable."""
    count, contacts = graph
    letters = mixed_letters(count, contacts, "ABCDEF"[:colours], [1.0] * colours)
    judge = networkx.Graph(contacts)
    judge.add_nodes_from(range(count))
    found = networkx.greedy_color(judge, strategy="saturation_largest_first")
    if judge.edges and max(found.values()) + 1 <= colours - 1:
        assert touching_alike(contacts, letters) == []


def test_the_shares_are_as_asked_where_nothing_touches() -> None:
    letters = mixed_letters(40, [], "ABC", [2.0, 1.0, 1.0])
    assert Counter(letters) == {"A": 20, "B": 10, "C": 10}


def test_where_all_touch_the_fewest_pairs_are_alike() -> None:
    """Six balloons that all touch, in three colours: three pairs at the least (pigeonholes)."""
    contacts = [(a, b) for a in range(6) for b in range(a + 1, 6)]
    letters = mixed_letters(6, contacts, "ABC", [1.0] * 3)
    assert len(touching_alike(contacts, letters)) == 3
