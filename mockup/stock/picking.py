"""What a piece takes: its placed balloons counted by nominal size, colour and finish.

The count is made on the one list of placed balloons that the proof was drawn from.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from mockup.design.model import ColourUse, Design, Finish, PanelSpec
from mockup.design.studio import Per
from mockup.piece.placed import Piece
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


def pick(pieces: Iterable[tuple[Piece, int]]) -> Picking:
    """What several pieces take, each so many times; the order of the pieces does not matter."""
    sums, counts = _Sums(), Counts()
    for piece, times in pieces:
        _add_balloons(sums, piece, times)
        _add_foils(sums, piece.design, times)
        counts = _added(counts, piece, times)
    return Picking(tuple(_needs(sums)), tuple(_foil_needs(sums)), counts)


def _first_name(known: ColourUse | None, new: ColourUse) -> ColourUse:
    """Of two ways to write one colour, the one that sorts first: independent of order."""
    return min(known or new, new, key=lambda use: (use.name, use.srgb))


def _add_balloons(sums: _Sums, piece: Piece, times: int) -> None:
    alike = Counter((b.letter, b.nominal, b.diameter) for b in piece.balloons)
    for (letter, nominal, diameter), count in alike.items():
        use = piece.design.colours[letter]
        kind = Kind.of(nominal, use.name, use.finish)
        sums.names[kind] = _first_name(sums.names.get(kind), use)
        sums.fills[kind, round(diameter, SIZE_DECIMALS)] += count * times
        sums.outdoors[kind] += count * times if piece.design.outdoors else 0


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


def _added(counts: Counts, piece: Piece, times: int) -> Counts:
    fit = piece.fit
    return Counts(
        pieces=counts.pieces + times,
        clusters=counts.clusters + times * len(piece.clusters),
        balloons=counts.balloons + times * len(piece.balloons),
        numerals=counts.numerals + times * (len(fit.numerals) if fit else 0),
        attach_points=counts.attach_points + times * (len(fit.attach) if fit else 0),
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
