"""What ties the colours of two balloons or clusters together: the rules a design can break.

A *lettering* gives each cluster's letters by the cluster's index, one letter a balloon. A link says
which balloons of which clusters it looks at; the letters come from outside, so that a search can
try another lettering without rebuilding anything.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Protocol

from mockup.records import dataclass

Lettering = Sequence[str] | Mapping[int, str]
Pairs = tuple[tuple[int, int], ...]


class Link(Protocol):
    """A rule between the balloons of one or two clusters."""

    @property
    def clusters(self) -> tuple[int, ...]:
        """The indices of the clusters whose letters it looks at."""

    def excess(self, letters: Lettering) -> int:
        """How many balloons break it, beyond those that no order of colours could spare."""


@lru_cache(maxsize=4096)
def is_plain(letters: str) -> bool:
    """Whether a cluster is all of one colour (a single always is).

    >>> is_plain("AA"), is_plain("AB")
    (True, False)
    """
    return len(set(letters)) < 2


@lru_cache(maxsize=4096)
def must_meet(letters: str) -> bool:
    """Whether two of a colour must meet round the knot: an odd cluster of two colours.

    >>> must_meet("ABA"), must_meet("ABAB"), must_meet("ABC")
    (True, False, False)
    """
    return len(letters) % 2 == 1 and len(set(letters)) == 2


@dataclass(frozen=True)
class Round:
    """Neighbours round one knot have different colours; ``pairs`` are those neighbours."""

    cluster: int
    pairs: Pairs

    @property
    def clusters(self) -> tuple[int, ...]:
        """The one cluster."""
        return (self.cluster,)

    def repeats(self, letters: Lettering) -> Pairs:
        """The neighbours that share a colour."""
        own = letters[self.cluster]
        return tuple(pair for pair in self.pairs if own[pair[0]] == own[pair[1]])

    def excess(self, letters: Lettering) -> int:
        """Meetings of one colour; one is spared where an odd cluster has only two colours."""
        own = letters[self.cluster]
        if is_plain(own):
            return 0
        return max(0, len(self.repeats(letters)) - (1 if must_meet(own) else 0))


@dataclass(frozen=True)
class Row:
    """Along a row the colour changes; ``pairs`` hold (balloon of inner, balloon of outer)."""

    inner: int
    outer: int
    pairs: Pairs

    @property
    def clusters(self) -> tuple[int, ...]:
        """The two clusters, the one nearer the middle first."""
        return (self.inner, self.outer)

    def repeats(self, letters: Lettering) -> Pairs:
        """The pairs that share a colour."""
        first, second = letters[self.inner], letters[self.outer]
        return tuple(pair for pair in self.pairs if first[pair[0]] == second[pair[1]])

    def excess(self, letters: Lettering) -> int:
        """Repeats beyond those forced by how many balloons of each colour the rows hold."""
        first, second = letters[self.inner], letters[self.outer]
        if is_plain(first) or is_plain(second) or must_meet(first) or must_meet(second):
            return 0
        repeats = len(self.repeats(letters))
        return max(0, repeats - self._forced(first, second)) if repeats else 0

    def _forced(self, first: str, second: str) -> int:
        ones = [first[inner] for inner, _ in self.pairs]
        others = [second[outer] for _, outer in self.pairs]
        rows = len(self.pairs)
        return max(0, *(ones.count(each) + others.count(each) - rows for each in set(ones)))


@dataclass(frozen=True)
class Nestle:
    """A balloon differs from at least one of the two it nestles between.

    ``valleys`` hold (balloon of outer, and the two balloons of inner on either side of it).
    """

    inner: int
    outer: int
    valleys: tuple[tuple[int, int, int], ...]

    @property
    def clusters(self) -> tuple[int, ...]:
        """The two clusters, the one nearer the middle first."""
        return (self.inner, self.outer)

    def repeats(self, letters: Lettering) -> tuple[tuple[int, int, int], ...]:
        """The valleys filled with a balloon of the colour of both its banks."""
        first, second = letters[self.inner], letters[self.outer]
        return tuple(
            valley
            for valley in self.valleys
            if second[valley[0]] == first[valley[1]] == first[valley[2]]
        )

    def excess(self, letters: Lettering) -> int:
        """Such valleys, where both clusters hold the same set of two or more colours."""
        first, second = letters[self.inner], letters[self.outer]
        if is_plain(first) or set(first) != set(second):
            return 0
        return len(self.repeats(letters))


@dataclass(frozen=True)
class Twin:
    """Two clusters that mirror each other; ``pairs`` hold balloons that stand for each other."""

    first: int
    second: int
    pairs: Pairs

    @property
    def clusters(self) -> tuple[int, ...]:
        """The two clusters."""
        return (self.first, self.second)

    def differing(self, letters: Lettering) -> Pairs:
        """The pairs whose colours differ."""
        one, other = letters[self.first], letters[self.second]
        return tuple(pair for pair in self.pairs if one[pair[0]] != other[pair[1]])

    def excess(self, letters: Lettering) -> int:
        """How many pairs differ in colour."""
        return len(self.differing(letters))
