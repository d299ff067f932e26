"""The clusters of a piece as the colour search sees them, and its answer in words."""

from __future__ import annotations

from collections.abc import Sequence

from mockup.piece.placed import Cluster, Piece, ordinal
from mockup.records import dataclass
from mockup.symmetry.alternation import ClusterColours
from mockup.symmetry.links import Link


@dataclass(frozen=True)
class Grouping:
    """Clusters that change together: each cluster's group, and the first cluster of each group."""

    group: tuple[int, ...]
    first: tuple[int, ...]
    both_sides: frozenset[int]

    @classmethod
    def single(cls, piece: Piece) -> Grouping:
        """Every cluster on its own."""
        every = tuple(range(len(piece.clusters)))
        return cls(every, every, frozenset())

    @classmethod
    def by_sides(cls, piece: Piece) -> Grouping:
        """The two clusters of a step that are alike left and right change together."""
        seen: dict[tuple[object, ...], int] = {}
        group: list[int] = []
        first: list[int] = []
        shared: set[int] = set()
        for c in piece.clusters:
            key = (c.section, c.step, c.letters, c.turn_deg, c.side == "middle")
            if key in seen:
                shared.add(seen[key])
            else:
                seen[key] = len(first)
                first.append(c.index)
            group.append(seen[key])
        return cls(tuple(group), tuple(first), frozenset(shared))

    def colours(self, piece: Piece, cluster: Cluster) -> ClusterColours:
        """A cluster's colours under the index of its group."""
        return colours_of(piece, cluster, index=self.group[cluster.index])

    def label(self, piece: Piece, group: int) -> str:
        """Words for the clusters of a group."""
        cluster = piece.clusters[self.first[group]]
        if group in self.both_sides:
            kind = "end cap" if cluster.end_cap else f"{ordinal(cluster.step + 1)} cluster"
            return f"the {cluster.section}, {kind} on both sides".replace(", ", " section's ", 1)
        return f"the {piece.cluster_words(cluster.index)}".replace(", ", " section's ", 1)


def colours_of(piece: Piece, cluster: Cluster, *, index: int | None = None) -> ClusterColours:
    """A cluster's letters with the angles of its balloons."""
    return ClusterColours(
        cluster.letters,
        tuple(piece.balloons[i].phi_deg for i in cluster.balloons),
        cluster.step,
        cluster.side,
        cluster.section,
        plain=len(set(cluster.letters)) == 1,
        index=cluster.index if index is None else index,
    )


def remedy_words(piece: Piece, grouping: Grouping, links: Sequence[Link]) -> str:
    """The least remedy for the colours under ``links``, as one sentence without a full stop."""
    from mockup.symmetry.remedies import least_remedy  # only what is broken needs the search

    firsts = [piece.clusters[i] for i in grouping.first]
    remedy = least_remedy(
        [c.letters for c in firsts],
        links,
        labels=[grouping.label(piece, g) for g in range(len(firsts))],
        places=[[piece.balloons[i].place for i in c.balloons] for c in firsts],
        colours="".join(sorted(piece.design.colours)),
    )
    if not remedy.moves:
        return "choose another order of colours"
    more = "" if not remedy.left else f" ({remedy.left} breaks are left after that)"
    return f"{remedy.says}{more}"
