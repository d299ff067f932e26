"""What to change when a colour runs short: the fewest clusters, so that the mirrors still hold.

Each step (a cluster with its mirror images) keeps its letters or gives some of the short colour's
balloons another one. The search goes through the steps and keeps, exactly, what is least: clusters
touched, then balloons changed; a bound on what the remaining steps can still free cuts it early.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from mockup.errors import MockupError
from mockup.piece.placed import Piece
from mockup.suggest.steps import Step, Steps, steps_of
from mockup.symmetry.links import is_plain

Spare = Mapping[str, int]
_MOST_TRIES = 2_000_000


class CannotSpare(MockupError):
    """A shortage that no change of clusters can make up for."""

    exit_code = 1


@dataclass(frozen=True)
class Change:
    """The clusters of one step that change from ``before`` to ``after``."""

    clusters: tuple[int, ...]
    before: str
    after: str

    @property
    def balloons(self) -> int:
        """How many balloons change colour."""
        return len(self.clusters) * sum(
            a != b for a, b in zip(self.before, self.after, strict=True)
        )


@dataclass(frozen=True)
class Relief:
    """The least change that frees at least so many balloons of a letter."""

    letter: str
    short: int
    changes: tuple[Change, ...]

    @property
    def clusters(self) -> int:
        """Clusters touched."""
        return sum(len(change.clusters) for change in self.changes)

    @property
    def balloons(self) -> int:
        """Balloons that change colour."""
        return sum(change.balloons for change in self.changes)


@dataclass(frozen=True)
class Choice:
    """One way to letter a step: what it costs and frees, and what it takes of each other letter."""

    letters: str
    clusters: int
    frees: int
    takes: tuple[tuple[str, int], ...]


def relief(piece: Piece, letter: str, short: int, spare: Spare | None = None) -> Relief:
    """The least change after which ``short`` fewer balloons of ``letter`` are needed.

    ``spare`` limits how many more of a letter there are; letters it does not name are without
    limit. Raises ``CannotSpare``.
    """
    steps = steps_of(piece)
    others = [x for x in sorted(piece.design.colours) if x != letter]
    table = [choices(step, letter, others) for step in steps.steps]
    best = _Hunt(steps, table, short, spare or {}).best()
    if best is None:
        most = sum(max(choice.frees for choice in own) for own in table)
        raise CannotSpare(
            f"no change of colours makes up for {short} of {letter}: with the mirrors and the "
            f"alternation kept at most {most} can be freed, if as many others are at hand"
        )
    changes = tuple(
        Change(step.clusters, step.letters, choice.letters)
        for step, choice in zip(steps.steps, best, strict=True)
        if choice.letters != step.letters
    )
    return Relief(letter, short, changes)


def choices(step: Step, letter: str, others: Sequence[str]) -> list[Choice]:
    """Every way to letter a step: each balloon of the short letter keeps it or takes another.

    A cluster of several colours does not become plain: no rule of alternation would hold it then.
    """
    places = [n for n, each in enumerate(step.letters) if each == letter and not step.fixed]
    found: list[Choice] = []
    for given in product((letter, *others), repeat=len(places)):
        worn = list(step.letters)
        for place, each in zip(places, given, strict=True):
            worn[place] = each
        if is_plain("".join(worn)) and not is_plain(step.letters):
            continue
        many = len(step.clusters)
        frees = many * sum(each != letter for each in given)
        takes = tuple((x, many * given.count(x)) for x in others if x in given)
        found.append(Choice("".join(worn), many if frees else 0, frees, takes))
    return sorted(found, key=lambda one: (one.clusters, one.frees, one.letters))


class _Hunt:
    def __init__(self, steps: Steps, table: list[list[Choice]], short: int, spare: Spare) -> None:
        broken = steps.broken_already()
        self.table, self.short, self.spare = table, short, spare
        self.links = [
            [
                link
                for link in steps.links
                if max(link.clusters) == step.index and link not in broken
            ]
            for step in steps.steps
        ]
        most = [max(choice.frees for choice in own) for own in table]
        self.can_free = [sum(most[n:]) for n in range(len(most) + 1)]
        self.least: tuple[int, int] | None = None
        self.found: list[Choice] | None = None
        self.tries = 0

    def best(self) -> list[Choice] | None:
        self._go([], 0, 0)
        return self.found

    def _go(self, chosen: list[Choice], clusters: int, freed: int) -> None:
        place = len(chosen)
        self.tries += 1
        if self.tries > _MOST_TRIES:
            raise CannotSpare("there are too many ways to change these colours; name fewer letters")
        if freed + self.can_free[place] < self.short or self._worse(clusters, freed):
            return
        if place == len(self.table):
            if freed >= self.short:
                self.least, self.found = (clusters, freed), list(chosen)
            return
        for choice in self._allowed(chosen):
            self._go([*chosen, choice], clusters + choice.clusters, freed + choice.frees)

    def _worse(self, clusters: int, freed: int) -> bool:
        return self.least is not None and (clusters, max(freed, self.short)) >= self.least

    def _allowed(self, chosen: list[Choice]) -> Iterator[Choice]:
        place = len(chosen)
        worn = {n: choice.letters for n, choice in enumerate(chosen)}
        for choice in self.table[place]:
            worn[place] = choice.letters
            if any(link.excess(worn) for link in self.links[place]):
                continue
            if self._at_hand([*chosen, choice]):
                yield choice

    def _at_hand(self, chosen: list[Choice]) -> bool:
        for letter, spare in self.spare.items():
            if sum(n for one in chosen for x, n in one.takes if x == letter) > spare:
                return False
        return True


def relief_words(piece: Piece, found: Relief) -> Iterator[str]:
    """One sentence for each change."""
    for change in found.changes:
        first = piece.clusters[change.clusters[0]]
        sections = " and ".join(dict.fromkeys(piece.clusters[i].section for i in change.clusters))
        where = piece.cluster_words(first.index).removeprefix(f"{first.section}, ")
        sides = {piece.clusters[i].side for i in change.clusters}
        both = len(sides) > 1
        where = f"{where.rsplit(' ', 1)[0]} on both sides" if both else where
        places = [
            piece.balloons[first.balloons[n]].place
            for n, (a, b) in enumerate(zip(change.before, change.after, strict=True))
            if a != b
        ]
        yield (
            f"{sections}, {where}: {change.before} becomes {change.after} "
            f"({', '.join(places)}; {change.balloons} balloons)"
        )
