"""The clusters of a piece that must change together for its mirrors to hold, and what ties them.

Clusters of one step on both sides, and of sections that are alike, form one step here: what one of
them wears, all wear. The links between steps are those that the alternation check judges by.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from mockup.piece.findings.lettering import colours_of
from mockup.piece.placed import Cluster, Piece
from mockup.symmetry.alternation import ClusterColours, alternation_links
from mockup.symmetry.links import Link


@dataclass(frozen=True)
class Step:
    """Clusters (indices into the piece) that wear the same ``letters``, balloon by balloon.

    ``fixed`` where a pattern of the section gives the letters, so that no cluster has its own.
    """

    index: int
    clusters: tuple[int, ...]
    letters: str
    end_cap: bool
    fixed: bool = False


@dataclass(frozen=True)
class Steps:
    """All steps of a piece, in the order of its sections outward, and the links among them."""

    steps: tuple[Step, ...]
    links: tuple[Link, ...]

    def holds(self, letters: Mapping[int, str]) -> bool:
        """Whether no link among the steps in ``letters`` is broken."""
        return all(
            not link.excess(letters)
            for link in self.links
            if all(each in letters for each in link.clusters)
        )

    def broken_already(self) -> frozenset[Link]:
        """The links that the piece breaks as it is: these are not held against a change."""
        letters = {step.index: step.letters for step in self.steps}
        return frozenset(link for link in self.links if link.excess(letters))


def steps_of(piece: Piece) -> Steps:
    """The steps of a piece; whole rings are left out, as their run repeats round."""
    runs = list(_runs(piece))
    alike: dict[tuple[object, ...], list[list[list[Cluster]]]] = {}
    for run in runs:
        alike.setdefault(_signature(run), []).append(run)
    steps: list[Step] = []
    links: list[Link] = []
    for group in alike.values():
        start = len(steps)
        for place, clusters in enumerate(zip(*group, strict=True)):
            every = tuple(c.index for own in clusters for c in own)
            first = clusters[0][0]
            fixed = not _patterns(piece, group) <= {"alternate", "any"}
            steps.append(Step(start + place, every, first.letters, first.end_cap, fixed))
        if _patterns(piece, group) == {"alternate"}:
            colours = [_indexed(piece, own[0], start + n) for n, own in enumerate(group[0])]
            links += alternation_links(colours)
    return Steps(tuple(steps), tuple(dict.fromkeys(links)))


def _runs(piece: Piece) -> Iterator[list[list[Cluster]]]:
    """Each section's clusters outward, those of one step together."""
    whole = {one.section for one in piece.wholes}
    for section in piece.design.sections:
        if section.name in whole:
            continue
        own = [c for c in piece.clusters if c.section == section.name]
        by_side = {side: [c for c in own if c.side == side] for side in ("right", "left")}
        middle = [[c] for c in own if c.side == "middle"]
        right, left = (sorted(by_side[side], key=lambda c: c.step) for side in ("right", "left"))
        if [_worn(c) for c in right] == [_worn(c) for c in left]:
            yield [*middle, *([a, b] for a, b in zip(right, left, strict=True))]
        else:
            yield [*middle, *([c] for c in right)]
            yield [[c] for c in left]


def _worn(cluster: Cluster) -> tuple[object, ...]:
    return (len(cluster.balloons), round(cluster.turn_deg, 6), cluster.letters, cluster.end_cap)


def _signature(run: list[list[Cluster]]) -> tuple[object, ...]:
    return tuple((_worn(own[0]), len(own)) for own in run)


def _patterns(piece: Piece, group: list[list[list[Cluster]]]) -> set[str]:
    """What the colours of a group's sections are asked to do."""
    names = {own[0].section for run in group for own in run}
    return {str(s.pattern) for s in piece.design.sections if s.name in names}


def _indexed(piece: Piece, cluster: Cluster, index: int) -> ClusterColours:
    return colours_of(piece, cluster, index=index)
