"""The least remedy against networkx's shortest paths over every lettering of small designs."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.symmetry import remedies
from mockup.symmetry.alternation import (
    ClusterColours,
    alternation_breaks,
    alternation_links,
    twin,
)
from mockup.symmetry.links import Link, Twin
from mockup.symmetry.moves import Step, sentence, steps_from
from mockup.symmetry.remedies import Remedy, least_remedy

LABELS = [f"cluster {name}" for name in ("one", "two", "three", "four", "five", "six", "seven")]


def run(letters: tuple[str, ...], side: str = "right", first: int = 0) -> list[ClusterColours]:
    clusters, turn = [], 45.0
    for step, own in enumerate(letters):
        phis = tuple(turn + 360 * k / len(own) for k in range(len(own)))
        index = first + step if step else 0
        clusters.append(ClusterColours(own, phis, step, side, "top", False, index))
        turn += 180 / len(own)
    return clusters


# An independent account of the moves: what a pair of hands can do, written without the program's.


def hands(letters: str, colours: str) -> set[str]:
    n = len(letters)
    found = {letters[1:] + letters[0], letters[-1] + letters[:-1], letters[::-1]}
    for i, j in product(range(n), repeat=2):
        mixed = list(letters)
        mixed[i], mixed[j] = mixed[j], mixed[i]
        found.add("".join(mixed))
    was_plain = letters == letters[0] * n
    for i, colour in product(range(n), colours):
        after = letters[:i] + colour + letters[i + 1 :]
        if was_plain or after != after[0] * n:
            found.add(after)
    if was_plain:
        found.update(colour * n for colour in colours)
    return found - {letters}


@given(st.text("ABC", min_size=1, max_size=5))
def test_the_moves_are_what_hands_can_do(letters: str) -> None:
    steps = steps_from(letters, "ABC")
    assert {step.after for step in steps} == hands(letters, "ABC")
    assert len({step.after for step in steps}) == len(steps)


def world(sizes: tuple[int, ...], colours: str) -> nx.DiGraph:
    """Every lettering of clusters of these sizes, with an edge, turned round, for every move."""
    graph = nx.DiGraph()
    states = product(*[["".join(own) for own in product(colours, repeat=n)] for n in sizes])
    for state in states:
        for cluster, own in enumerate(state):
            for after in hands(own, colours):
                graph.add_edge((*state[:cluster], after, *state[cluster + 1 :]), state)
    return graph


def distances(graph: nx.DiGraph, whole: list[tuple[str, ...]]) -> dict[tuple[str, ...], int]:
    found = nx.multi_source_dijkstra_path_length(graph, set(whole))
    return {state: int(length) for state, length in found.items()}


def checked(state: tuple[str, ...], links: tuple[Link, ...], least: int) -> None:
    found = least_remedy(state, links, labels=LABELS, colours="AB")
    if least <= 3:
        assert (len(found.moves), found.left, found.proven_least) == (least, 0, True)
    else:
        assert len(found.moves) >= least or found.left > 0
        assert not found.proven_least or len(found.moves) == least
    replayed = list(state)
    for move in found.moves:
        assert move.letters in hands(replayed[move.cluster], "AB")
        replayed[move.cluster] = move.letters
    assert tuple(replayed) == found.letters
    assert sum(link.excess(replayed) for link in links) == found.left


def test_alternation_is_mended_in_the_fewest_moves() -> None:
    # networkx is the independent judge: every lettering of three clusters of two colours.
    sizes = (4, 3, 3)
    graph = world(sizes, "AB")
    states = list(graph.nodes)
    assert len(states) == 2 ** sum(sizes)
    far = distances(graph, [state for state in states if not alternation_breaks(run(state))])
    assert max(far.values()) == 2
    for state in sorted(states):
        checked(state, alternation_links(run(state)), far[state])


def test_quads_that_mirror_and_alternate_are_mended_in_the_fewest_moves() -> None:
    # A middle quad and one on each side: two runs that share the middle, and a mirror.
    graph = world((2, 4, 4), "AB")
    whole = []
    for state in graph.nodes:
        right, left = run(state[:2]), run((state[0], state[2]), "left", 1)
        if state[1] == state[2] and not alternation_breaks(right) + alternation_breaks(left):
            whole.append(state)
    far = distances(graph, whole)
    right, left = run(("AB", "ABAB")), run(("AB", "ABAB"), "left", 1)
    left[1] = replace(left[1], index=2)
    mirror = twin(right[1], left[1])
    assert mirror is not None
    links = (*alternation_links(right), *alternation_links(left), mirror)
    for state in sorted(graph.nodes)[::7]:
        checked(state, links, far[state])


SIZES = 7


def usual() -> tuple[tuple[str, ...], tuple[Link, ...]]:
    """A mirrored crescent of seven quads: the middle 0, the right 1 to 3, the left 4 to 6."""
    letters = ("ABAB",) * SIZES
    right, left = run(letters[:4]), run(letters[:4], "left", 3)
    mirrors = [twin(a, b) for a, b in zip(right[1:], left[1:], strict=True)]
    links = (*alternation_links(right), *alternation_links(left))
    return letters, (*links, *[link for link in mirrors if link is not None])


def test_a_whole_design_runs_no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    def tried(*_: object) -> tuple[Step, ...]:
        raise AssertionError("a move was tried")

    monkeypatch.setattr(remedies, "steps_from", tried)
    letters, links = usual()
    assert least_remedy(letters, links, labels=LABELS) == Remedy((), letters, 0, True)


def test_a_turned_cluster_is_turned_back() -> None:
    letters, links = usual()
    found = least_remedy((*letters[:3], "BABA", *letters[4:]), links, labels=LABELS)
    assert found.says == "turn cluster four by one place"
    assert found.letters == letters


def test_both_sides_turned_take_two_moves() -> None:
    letters, links = usual()
    wrong = list(letters)
    wrong[1] = wrong[4] = "BABA"
    found = least_remedy(wrong, links, labels=LABELS)
    assert (len(found.moves), found.proven_least) == (2, True)
    assert found.says == "turn cluster two by one place; then turn cluster five by one place"


def test_a_turned_middle_on_both_sides_is_one_move() -> None:
    letters, links = usual()
    wrong = list(letters)
    wrong[2] = wrong[5] = "BABA"
    found = least_remedy(wrong, links, labels=LABELS)
    assert found.says == "turn cluster one by one place"


def test_sides_that_share_an_index_are_turned_as_one() -> None:
    right = run(("ABAB", "ABAB", "BABA"))
    left = [replace(each, side="left") for each in right]
    links = (*alternation_links(right), *alternation_links(left))
    labels = ["the middle cluster", "the second on both sides", "the third on both sides"]
    found = least_remedy(("ABAB", "ABAB", "BABA"), tuple(dict.fromkeys(links)), labels=labels)
    assert len(found.moves) == 1
    assert found.proven_least


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 6), st.integers(0, 5)), min_size=1, max_size=3))
def test_a_scrambled_design_is_mended_in_no_more_moves(moves: list[tuple[int, int]]) -> None:
    letters, links = usual()
    wrong = list(letters)
    for cluster, which in moves:
        steps = [s for s in steps_from(wrong[cluster], "AB") if s.kind != "recolour"]
        wrong[cluster] = steps[which % len(steps)].after
    found = least_remedy(wrong, links, labels=LABELS)
    assert found.left == 0
    assert found.proven_least
    assert len(found.moves) <= len(moves)
    assert sum(link.excess(found.letters) for link in links) == 0


def test_far_from_whole_it_is_honest_about_the_least() -> None:
    letters = ("AABB", "ABBA") * 6
    links = alternation_links(run(letters))
    found = least_remedy(letters, links, labels=[*LABELS, *LABELS])
    assert found.moves
    assert found.left < sum(link.excess(letters) for link in links)
    assert not found.proven_least or found.left == 0


def test_where_no_single_move_helps_two_are_taken_together() -> None:
    # The ends of both sides are turned: turning one alone mends its row and breaks its mirror.
    letters = ("ABAB",) * 4 + ("BABA",) * 2
    right, left = run(letters), run(letters, "left", 5)
    mirrors = [twin(a, b) for a, b in zip(right[1:], left[1:], strict=True)]
    links = [*alternation_links(right), *alternation_links(left)]
    links += [link for link in mirrors if link is not None]
    found = least_remedy((*letters, *letters[1:]), links, labels=[*LABELS, *LABELS])
    assert (len(found.moves), found.left, found.proven_least) == (4, 0, True)
    assert {move.kind for move in found.moves} == {"turn"}


def test_six_apart_need_six_moves_and_that_is_proven() -> None:
    pairs = [
        ClusterColours("ABAB", (45, 135, 225, 315), 0, "right", str(i), False, i) for i in range(12)
    ]
    mirrors = [twin(pairs[i], pairs[i + 1]) for i in range(0, 12, 2)]
    letters = ["ABAB", "BABA"] * 6
    links = [link for link in mirrors if link is not None]
    found = least_remedy(letters, links, labels=[*LABELS, *LABELS])
    assert (len(found.moves), found.left, found.proven_least) == (6, 0, True)


def test_too_few_tries_are_owned_up_to() -> None:
    # Two places apart: two moves, while the one broken link alone proves only one.
    mirror = [Twin(0, 1, ((0, 0), (1, 1), (2, 2), (3, 3)))]
    found = least_remedy(("ABCD", "CDAB"), mirror, labels=LABELS)
    assert (len(found.moves), found.left, found.proven_least) == (2, 0, True)
    rushed = least_remedy(("ABCD", "CDAB"), mirror, labels=LABELS, most_tries=1)
    assert (rushed.left, rushed.proven_least) == (0, False)


@pytest.mark.parametrize(
    ("step", "said"),
    [
        (Step("turn", "ABAB", "BABA"), "turn X by one place"),
        (Step("turn", "ABC", "CAB"), "turn X by one place, the front going inward"),
        (Step("turn", "ABC", "BCA"), "turn X by one place, the front going outward"),
        (Step("swap", "AABB", "ABAB", (1, 2)), "in X, swap the front and the inner balloon"),
        (Step("reverse", "ABCD", "DCBA"), "reverse the colour order of X (DCBA instead of ABCD)"),
        (Step("recolour", "AAAB", "ABAB", (1,)), "in X, make the front balloon B instead of A"),
        (Step("recolour", "AA", "CC", (0, 1)), "make X C instead of A"),
        (Step("recolour", "A", "C", (0,)), "make X C instead of A"),
        (
            Step("recolour", "A" * 5, "AAAAB", (4,)),
            "in X, make the number 5 balloon B instead of A",
        ),
    ],
)
def test_a_move_in_words(step: Step, said: str) -> None:
    assert sentence(step, "X", ("outer", "front", "inner", "back")) == said


def test_a_turn_goes_the_way_it_says() -> None:
    # Angles run from outer (0) to front (90) to inner (180): a turn onward takes the front inward.
    onward = Step("turn", "FIBO", "OFIB")  # letters at 90, 180, 270, 0 degrees
    assert onward.after[1] == onward.before[0]  # the front's colour now sits at 180, inside
    assert sentence(onward, "X").endswith("the front going inward")
