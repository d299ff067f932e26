"""The fewest moves that mend the colours of a design: a breadth-first search over its clusters.

The search stays small because of two facts. A broken link is mended only by a move on one of its
clusters, and moves on different clusters can be made in any order; so from each state only the
clusters of one broken link need to be tried, and no shortest remedy is lost. And broken links that
share no cluster need a move each, which tells early that a state is too far from whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from mockup.records import dataclass
from mockup.symmetry.links import Lettering, Link
from mockup.symmetry.moves import MoveKind, Step, sentence, steps_from

_MOST_MOVES = 24
_MOST_CLUSTERS = 16

State = tuple[str, ...]
Broken = Mapping[int, int]
"""Which links (by number) are broken, and by how much."""


@dataclass(frozen=True)
class Move:
    """One thing to do: on which cluster, to which letters, and in trade words."""

    kind: MoveKind
    cluster: int
    letters: str
    says: str


@dataclass(frozen=True)
class Remedy:
    """Moves in order, the letters after them, and how many breaks are ``left``.

    ``proven_least`` says that no fewer moves can do it; otherwise a shorter remedy may exist.
    """

    moves: tuple[Move, ...]
    letters: State
    left: int
    proven_least: bool

    @property
    def says(self) -> str:
        """All moves as one sentence without a full stop, empty where there are none.

        >>> Remedy((Move("turn", 0, "BA", "turn it"), Move("turn", 1, "BA", "turn that")),
        ...        (), 0, True).says
        'turn it; then turn that'
        """
        return "; then ".join(move.says for move in self.moves)


@dataclass(frozen=True)
class _Node:
    """A state on the way: what is broken in it and the steps that led there."""

    state: State
    broken: Broken
    path: tuple[tuple[int, Step], ...] = ()

    @property
    def left(self) -> int:
        return sum(self.broken.values())

    @property
    def ease(self) -> int:
        return sum(step.ease for _, step in self.path)


class _Bench:
    """The links of a design, and what a move on a cluster does to them."""

    def __init__(self, links: Sequence[Link], clusters: int, colours: str, tries: int) -> None:
        self.links = links
        self.colours = colours
        self.tries_left = tries
        self.touching: list[list[int]] = [[] for _ in range(clusters)]
        for number, link in enumerate(links):
            for cluster in dict.fromkeys(link.clusters):
                self.touching[cluster].append(number)

    def start(self, state: State) -> _Node:
        """The node of a state, every link looked at."""
        return _Node(state, dict(self._broken(range(len(self.links)), state)))

    def _broken(self, numbers: Sequence[int], letters: Lettering) -> Iterator[tuple[int, int]]:
        for number in numbers:
            excess = self.links[number].excess(letters)
            if excess:
                yield number, excess

    def needed(self, broken: Broken) -> int:
        """At least how many moves mend this: broken links that share no cluster need one each."""
        taken: set[int] = set()
        count = 0
        for number in sorted(broken):
            clusters = self.links[number].clusters
            if taken.isdisjoint(clusters):
                taken.update(clusters)
                count += 1
        return count

    def onward(self, node: _Node, clusters: Sequence[int]) -> Iterator[_Node]:
        """Every node one move on one of ``clusters`` away; only the links it touches are judged."""
        for cluster in clusters:
            touched = self.touching[cluster]
            rest = {n: excess for n, excess in node.broken.items() if n not in touched}
            for step in steps_from(node.state[cluster], self.colours):
                self.tries_left -= 1
                state = (*node.state[:cluster], step.after, *node.state[cluster + 1 :])
                broken = {**rest, **dict(self._broken(touched, state))}
                yield _Node(state, broken, (*node.path, (cluster, step)))

    def of_one_link(self, node: _Node) -> tuple[int, ...]:
        """The clusters of the first broken link."""
        return tuple(dict.fromkeys(self.links[min(node.broken)].clusters))

    def beside(self, node: _Node) -> list[int]:
        """The clusters of the broken links that touch the cluster moved last."""
        broken = [n for n in self.touching[node.path[-1][0]] if n in node.broken]
        return sorted({c for number in broken for c in self.links[number].clusters})

    def of_all_links(self, node: _Node) -> list[int]:
        """The clusters of all broken links."""
        return sorted({c for number in node.broken for c in self.links[number].clusters})


def least_remedy(
    letters: Sequence[str],
    links: Sequence[Link],
    *,
    labels: Sequence[str],
    places: Sequence[Sequence[str]] | None = None,
    colours: str = "",
    depth: int = 3,
    most_tries: int = 20_000,
) -> Remedy:
    """The fewest moves after which no link is broken, each with a sentence.

    ``letters`` and ``labels`` go by the cluster's index ("the third cluster right"), as do
    ``places``, the words for where each balloon of a cluster sits. ``colours`` are the letters to
    recolour with, by default those in use. Clusters that are to change together (the two sides of
    a section) share one index and one label.

    Remedies of up to ``depth`` moves are found by breadth-first search and proven least. Beyond it,
    or after about ``most_tries`` trial moves, the best next move is taken up to 24 times: then
    ``proven_least`` holds only where no remedy could be shorter, and ``left`` may stay above zero.

    >>> from mockup.symmetry.links import Twin
    >>> every = Twin(0, 1, ((0, 0), (1, 1), (2, 2), (3, 3)))
    >>> least_remedy(["ABAB", "BABA"], [every], labels=["the left one", "the right one"]).says
    'turn the left one by one place'
    """
    state = tuple(letters)
    used = colours or "".join(sorted(set("".join(state))))
    bench = _Bench(links, len(state), used, most_tries)
    start = bench.start(state)
    if not start.broken:
        return Remedy((), state, 0, True)
    found = _search(bench, start, depth)
    proven = found is not None
    end = found or _best_next(bench, start)
    proven = proven or (not end.broken and len(end.path) == bench.needed(start.broken))
    return Remedy(tuple(_moves(end, labels, places)), end.state, end.left, proven)


def _search(bench: _Bench, start: _Node, depth: int) -> _Node | None:
    """An easiest whole node at the least depth, None where there is none within the bounds."""
    level = {start.state: start} if bench.needed(start.broken) <= depth else {}
    seen = set(level)
    for still in reversed(range(depth)):
        level = _widened(bench, level, seen, still)
        whole = [node for node in level.values() if not node.broken]
        if whole:
            return min(whole, key=lambda node: node.ease)
        if bench.tries_left <= 0:
            return None
        seen.update(level)
    return None


def _widened(
    bench: _Bench, level: dict[State, _Node], seen: set[State], still: int
) -> dict[State, _Node]:
    """The new states one move beyond ``level`` that ``still`` more moves might make whole."""
    wide: dict[State, _Node] = {}
    for node in level.values():
        for after in bench.onward(node, bench.of_one_link(node)):
            if after.state not in seen and bench.needed(after.broken) <= still:
                wide.setdefault(after.state, after)
        if bench.tries_left <= 0:
            break
    return wide


def _best_next(bench: _Bench, node: _Node) -> _Node:
    """Take the move, or where none helps the two moves, that leave the fewest breaks; repeat."""
    while node.broken and len(node.path) < _MOST_MOVES:
        best = min(_one_on(bench, node), key=_worth, default=node)
        if best.left >= node.left:
            best = min(_two_on(bench, node), key=_worth, default=node)
        if best.left >= node.left:
            break
        node = best
    return node


def _worth(node: _Node) -> tuple[int, int]:
    return node.left, node.ease


def _one_on(bench: _Bench, node: _Node) -> Iterator[_Node]:
    return bench.onward(node, bench.of_all_links(node)[:_MOST_CLUSTERS])


def _two_on(bench: _Bench, node: _Node) -> Iterator[_Node]:
    """A move, and another to mend what the first one broke beside it (a mirror, most often)."""
    for first in bench.onward(node, bench.of_all_links(node)[:_MOST_CLUSTERS]):
        yield from bench.onward(first, bench.beside(first))


def _moves(
    end: _Node, labels: Sequence[str], places: Sequence[Sequence[str]] | None
) -> Iterator[Move]:
    for cluster, step in end.path:
        words = (places[cluster],) if places is not None else ()
        says = sentence(step, labels[cluster], *words)
        yield Move(step.kind, cluster, step.after, says)
