"""What a piece takes: its balloons counted by nominal size, colour and finish.

The count is made on the clusters as they are tied to the frame, from which the balloons of the
proof are placed; settling moves balloons but makes none, so that counting need not wait for it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from mockup.design.model import ClusterSpec, ColourUse, Design, Finish, PanelSpec
from mockup.design.studio import Per
from mockup.piece.assemble import frame_of
from mockup.piece.placing import tie_all
from mockup.spelling import plain_form

SIZE_DECIMALS = 1
"""Nominal sizes are told apart to a tenth of a millimetre: 12in and 30.48cm are one size."""


@dataclass(frozen=True, order=True)
class Kind:
    """One kind of balloon as it is bought: nominal size in mm, colour and finish."""

    size: float
    colour: str
    finish: Finish

    @staticmethod
    def of(size: float, colour: str, finish: Finish) -> Kind:
        """The kind, whatever way its size and colour were written.

        >>> Kind.of(304.80001, "Deep-Teal", "matte") == Kind.of(304.8, "deep teal", "matte")
        True
        """
        return Kind(round(size, SIZE_DECIMALS), plain_form(colour), finish)


@dataclass(frozen=True, order=True)
class Fill:
    """``count`` balloons filled to ``diameter`` mm."""

    diameter: float
    count: int


@dataclass(frozen=True)
class Need:
    """How many balloons of one kind are needed, and to which diameters they are filled.

    ``outdoors`` of the ``count`` stand outdoors, where more spares are wise.
    """

    kind: Kind
    name: str
    srgb: str
    count: int
    outdoors: int
    fills: tuple[Fill, ...]


@dataclass(frozen=True, order=True)
class FoilKind:
    """One foil numeral as it is bought: its character and flat height in mm, colour and finish."""

    character: str
    height: float
    colour: str
    finish: Finish


@dataclass(frozen=True)
class FoilNeed:
    """How many of one foil numeral are needed."""

    kind: FoilKind
    name: str
    srgb: str
    count: int


@dataclass(frozen=True)
class Counts:
    """What the work is counted by, for other materials, for the time and for the price."""

    pieces: int = 0
    clusters: int = 0
    balloons: int = 0
    numerals: int = 0
    attach_points: int = 0

    def of(self, per: Per) -> int:
        """How many of one sort there are; a job is one.

        >>> Counts(clusters=7).of("cluster"), Counts().of("job")
        (7, 1)
        """
        return {
            "piece": self.pieces,
            "job": 1,
            "cluster": self.clusters,
            "balloon": self.balloons,
            "numeral": self.numerals,
            "attach point": self.attach_points,
        }[per]


@dataclass(frozen=True)
class Picking:
    """Everything a piece or a job takes, in order of size, colour and finish."""

    needs: tuple[Need, ...] = ()
    foils: tuple[FoilNeed, ...] = ()
    counts: Counts = field(default_factory=Counts)

    @property
    def balloons(self) -> int:
        """All latex balloons."""
        return sum(need.count for need in self.needs)


@dataclass
class _Sums:
    names: dict[Kind, ColourUse] = field(default_factory=dict)
    fills: Counter[tuple[Kind, float]] = field(default_factory=Counter)
    outdoors: Counter[Kind] = field(default_factory=Counter)
    foil_names: dict[FoilKind, ColourUse] = field(default_factory=dict)
    foils: Counter[FoilKind] = field(default_factory=Counter)


ATTACH_POINTS = 2
"""Attach points of one numeral: the fit finds one in its upper and one in its lower half."""


def pick(designs: Iterable[tuple[Design, int]]) -> Picking:
    """What several pieces take, each so many times; the order of the pieces does not matter.

    Raises ``FaultsFound`` for sections that do not go on the frame.
    """
    sums, counts = _Sums(), Counts()
    for design, times in designs:
        specs = specs_of(design)
        _add_balloons(sums, design, specs, times)
        _add_foils(sums, design, times)
        counts = _added(counts, design, specs, times)
    return Picking(tuple(_needs(sums)), tuple(_foil_needs(sums)), counts)


def specs_of(design: Design) -> tuple[ClusterSpec, ...]:
    """Every cluster that is tied to the design's frame, whole rings closed."""
    tied, _ = tie_all(design, frame_of(design))
    return tuple(one.spec for one in tied)


def _first_name(known: ColourUse | None, new: ColourUse) -> ColourUse:
    """Of two ways to write one colour, the one that sorts first: independent of order."""
    return min(known or new, new, key=lambda use: (use.name, use.srgb))


def _add_balloons(sums: _Sums, design: Design, specs: tuple[ClusterSpec, ...], times: int) -> None:
    alike = Counter((letter, s.nominal, s.diameter) for s in specs for letter in s.letters)
    for (letter, nominal, diameter), count in alike.items():
        use = design.colours[letter]
        kind = Kind.of(nominal, use.name, use.finish)
        sums.names[kind] = _first_name(sums.names.get(kind), use)
        sums.fills[kind, round(diameter, SIZE_DECIMALS)] += count * times
        sums.outdoors[kind] += count * times if design.outdoors else 0


def _add_foils(sums: _Sums, design: Design, times: int) -> None:
    panel = design.panel
    if panel is None:
        return
    height = round(foil_height(panel, design.limits.foil_shrink), SIZE_DECIMALS)
    for character in panel.text.replace(" ", ""):
        kind = FoilKind(character, height, plain_form(panel.foil.name), panel.foil.finish)
        sums.foil_names[kind] = _first_name(sums.foil_names.get(kind), panel.foil)
        sums.foils[kind] += times


def foil_height(panel: PanelSpec, shrink: float) -> float:
    """The flat height numerals are bought by, mm; worked back where only filled was measured.

    >>> round(foil_height(PanelSpec("30", None, measured=352.0), 0.12), 6)
    400.0
    """
    if panel.height is not None:
        return panel.height
    return (panel.measured or 0.0) / (1 - shrink)


def _added(counts: Counts, design: Design, specs: tuple[ClusterSpec, ...], times: int) -> Counts:
    panel = design.panel
    numerals = len(panel.text.replace(" ", "")) if panel else 0
    opening = frame_of(design).opening(panel.place) if panel else None
    return Counts(
        pieces=counts.pieces + times,
        clusters=counts.clusters + times * len(specs),
        balloons=counts.balloons + times * sum(spec.count for spec in specs),
        numerals=counts.numerals + times * numerals,
        attach_points=counts.attach_points + times * (ATTACH_POINTS * numerals if opening else 0),
    )


def _needs(sums: _Sums) -> Iterable[Need]:
    for kind in sorted(sums.names):
        fills = sorted(
            Fill(diameter, count) for (own, diameter), count in sums.fills.items() if own == kind
        )
        use = sums.names[kind]
        total = sum(fill.count for fill in fills)
        yield Need(kind, use.name, use.srgb, total, sums.outdoors[kind], tuple(fills))


def _foil_needs(sums: _Sums) -> Iterable[FoilNeed]:
    for kind in sorted(sums.foils):
        use = sums.foil_names[kind]
        yield FoilNeed(kind, use.name, use.srgb, sums.foils[kind])
