"""The piece as it stands: one list of placed balloons that drawing, checking and buying all read.

Millimetres; x right, y up, z toward the viewer; the origin is the centre of the ring.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from mockup.design.model import Design, Kind, Member
from mockup.records import dataclass

if TYPE_CHECKING:
    from mockup.packing.frames import Frame
    from mockup.panel.fit import Fit
    from mockup.piece.opening import Opening

Point3 = tuple[float, float, float]
Side = Literal["middle", "left", "right"]


@dataclass(frozen=True)
class Cluster:
    """One cluster on the frame; ``step`` counts outward from 0 in the middle of its section.

    ``along`` is the signed distance of its knot from the section's centre mark along the tube's
    centre line, mm, clockwise positive. ``balloons`` are indices into ``Piece.balloons``.
    ``after`` counts the balloons tied at the same knot before: above 0 it is a second ring.
    ``loose`` balloons are part of a garland: ``step`` counts along its stretch. ``flat`` ones lie
    on the mesh of a wall: the section is their row, ``step`` their column from 1. ``on`` "stand"
    is tied round the stand's pole: its right is up.
    """

    index: int
    section: str
    step: int
    side: Side
    kind: Kind
    end_cap: bool
    knot: Point3
    normal: Point3
    turn_deg: float
    along: float
    frame_deg: float
    nominal: float
    diameter: float
    strokes: float | None
    letters: str
    balloons: tuple[int, ...]
    path: tuple[str | int, ...] = ()
    after: int = 0
    loose: bool = False
    flat: bool = False
    on: Member = ""


@dataclass(frozen=True)
class Balloon:
    """One balloon where it lies. ``place`` is where it sits round its knot, in words.

    ``centre`` is settled, ``placed`` is where it was before settling, ``knot`` where it is tied.
    """

    index: int
    id: str
    cluster: int
    section: str
    step: int
    side: Side
    place: str
    letter: str
    nominal: float
    diameter: float
    centre: Point3
    placed: Point3
    knot: Point3
    phi_deg: float

    @property
    def radius(self) -> float:
        """Half the diameter it is filled to, mm."""
        return self.diameter / 2


@dataclass(frozen=True)
class Extent:
    """The box round everything that stands: frame, stand, balloons and numerals, mm."""

    x: tuple[float, float]
    y: tuple[float, float]
    z: tuple[float, float]

    @property
    def width(self) -> float:
        """Overall width, mm."""
        return self.x[1] - self.x[0]

    @property
    def height(self) -> float:
        """Overall height, mm."""
        return self.y[1] - self.y[0]

    @property
    def depth(self) -> float:
        """Overall depth, mm."""
        return self.z[1] - self.z[0]


@dataclass(frozen=True)
class Nestling:
    """What placing and settling cost (geometry: bending is reported, not hidden).

    ``crossing`` is the worst overlap before settling as a share of the smaller diameter, between
    the balloons ``crossing_pair``; ``swings_deg`` each balloon's swing about its knot;
    ``pressed`` the worst overlap after settling (share of the smaller diameter).
    """

    crossing: float
    crossing_pair: tuple[int, int] | None
    swings_deg: tuple[float, ...]
    pressed: float
    contacts: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class WholeRing:
    """How a section that fills the whole ring closes."""

    section: str
    count: int
    squeeze: float


@dataclass(frozen=True)
class Piece:
    """A design with its geometry.

    ``window`` is the outline that is drawn and dimensioned: the opening as the eye sees it, clear
    of every balloon in front of the panel; ``opening`` holds its exact spans. The window by the
    slab rule, into which the numerals may tuck, is in ``fit``.
    """

    design: Design
    frame: Frame
    clusters: tuple[Cluster, ...]
    balloons: tuple[Balloon, ...]
    nestling: Nestling
    fit: Fit | None
    extent: Extent
    wholes: tuple[WholeRing, ...] = ()
    opening: Opening | None = None

    @property
    def window(self) -> tuple[tuple[float, float], ...]:
        """The outline of the opening as the eye sees it, closed; empty where there is none."""
        return self.opening.outline if self.opening else ()

    def balloon_words(self, index: int) -> str:
        """A balloon in words: "top, third cluster right, front balloon"."""
        balloon = self.balloons[index]
        if balloon.section == "topper":
            return "topper"
        words = self.cluster_words(balloon.cluster)
        if self.clusters[balloon.cluster].flat and balloon.place == "front":
            return words
        return f"{words}, {balloon.place} balloon"

    def cluster_words(self, index: int) -> str:
        """A cluster in words: "top, third cluster right" (the middle one is the first)."""
        cluster = self.clusters[index]
        if cluster.after:
            return f"{self.cluster_words(index - 1)}, second ring"
        if cluster.flat:
            what = "balloon" if cluster.kind == "single" else cluster.kind
            return f"{what} in {cluster.section}, column {cluster.step}"
        if cluster.loose or cluster.section == "topper":
            return f"{cluster.section}, no. {cluster.step}" if cluster.loose else "topper"
        if cluster.side == "middle" and cluster.step == 0:
            return f"{cluster.section}, middle cluster"
        if cluster.side == "middle":
            return f"{cluster.section}, cluster facing the middle"
        kind = "end cap" if cluster.end_cap else f"{ordinal(cluster.step + 1)} cluster"
        return f"{cluster.section}, {kind} {self._side_word(cluster)}"

    def _side_word(self, cluster: Cluster) -> str:
        """Right and left; on a pole, up and down."""
        words = {"right": "up", "left": "down"}
        return words.get(cluster.side, cluster.side) if self.upright(cluster) else cluster.side

    def upright(self, cluster: Cluster) -> bool:
        """Whether it is tied round an upright pole: a column's, or the stand's."""
        return cluster.on == "stand" or self.design.frame.kind == "pole"


def outward(clusters: Sequence[Cluster]) -> list[Cluster]:
    """Clusters as they are built: section by section, from the middle outward, right then left."""
    sections = list(dict.fromkeys(cluster.section for cluster in clusters))
    sides = ("middle", "right", "left")
    return sorted(clusters, key=lambda c: (sections.index(c.section), c.step, sides.index(c.side)))


_ORDINALS = (
    *("zeroth", "first", "second", "third", "fourth", "fifth", "sixth"),
    *("seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"),
)


def ordinal(number: int) -> str:
    """``3`` as "third"; past twelve as "13th".

    >>> ordinal(3), ordinal(13), ordinal(21)
    ('third', '13th', '21st')
    """
    if 0 < number < len(_ORDINALS):
        return _ORDINALS[number]
    teen = 10 <= number % 100 <= 20
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"
