"""The build in order: what to fill, how to tie it, and where each cluster goes on the tube."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from mockup.design.model import ColourUse
from mockup.packing.clusters import POINT_IN, VALLEY_IN, place_word, turn_for, upright_word
from mockup.piece.placed import Cluster, Piece, outward
from mockup.stock.gauging import strokes_for
from mockup.stock.picking import SIZE_DECIMALS, Kind

_TURN_SLACK = 1.0
"""Turns that differ by less than this many degrees are one turn to a hand."""


@dataclass(frozen=True)
class Filling:
    """``count`` balloons of one colour to fill through one hole of the gauge (mm)."""

    diameter: float
    strokes: float
    kind: Kind
    colour: ColourUse
    count: int


@dataclass(frozen=True)
class Tying:
    """One kind of cluster to tie, ``count`` times: ``sign`` is its letter on every sheet."""

    sign: str
    cluster: Cluster
    strokes: float
    count: int


@dataclass(frozen=True)
class Placing:
    """One cluster on the tube, in the order of the build: ``number`` from 1.

    ``turn`` and ``first`` (where its first balloon goes) are in words.
    """

    number: int
    cluster: Cluster
    sign: str
    turn: str
    first: str


def fillings(pieces: Iterable[tuple[Piece, int]]) -> tuple[Filling, ...]:
    """Every hole and colour, in the order in which the build first needs them."""
    counts: Counter[tuple[float, Kind]] = Counter()
    first: dict[tuple[float, Kind], tuple[float, ColourUse]] = {}
    for piece, times in pieces:
        for cluster in outward(piece.clusters):
            diameter = round(cluster.diameter, SIZE_DECIMALS)
            for letter in cluster.letters:
                use = piece.design.colours[letter]
                key = (diameter, Kind.of(cluster.nominal, use.name, use.finish))
                counts[key] += times
                first.setdefault(key, (_strokes(piece, cluster), use))
    holes = list(dict.fromkeys(diameter for diameter, _ in first))
    in_order = sorted(first, key=lambda key: holes.index(key[0]))
    return tuple(
        Filling(
            diameter,
            first[diameter, kind][0],
            kind,
            first[diameter, kind][1],
            counts[diameter, kind],
        )
        for diameter, kind in in_order
    )


def _strokes(piece: Piece, cluster: Cluster) -> float:
    return strokes_for(piece.design.pump, cluster.strokes, cluster.diameter)


def tyings(piece: Piece) -> tuple[Tying, ...]:
    """Every kind of cluster, in the order in which the build first needs it."""
    alike: dict[tuple[object, ...], list[Cluster]] = {}
    for cluster in outward(piece.clusters):
        alike.setdefault(_kind_of(cluster), []).append(cluster)
    return tuple(
        Tying(_sign(place), own[0], _strokes(piece, own[0]), len(own))
        for place, own in enumerate(alike.values())
    )


def _kind_of(cluster: Cluster) -> tuple[object, ...]:
    """What makes two clusters the same to tie."""
    diameter = round(cluster.diameter, SIZE_DECIMALS)
    return cluster.kind, round(cluster.nominal, SIZE_DECIMALS), diameter, cluster.letters


def _sign(place: int) -> str:
    """Small roman numerals, so that no sign is taken for a colour's letter or a cluster's number.

    >>> _sign(0), _sign(3), _sign(8)
    ('i', 'iv', 'ix')
    """
    parts = ((10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"))
    left, said = place + 1, ""
    for worth, letters in parts:
        said += letters * (left // worth)
        left %= worth
    return said


def placings(piece: Piece) -> tuple[Placing, ...]:
    """Every cluster section by section, from the middle outward, right and left by turns."""
    signs = {_kind_of(one.cluster): one.sign for one in tyings(piece)}
    return tuple(
        Placing(
            number,
            cluster,
            signs[_kind_of(cluster)],
            turn_words(cluster),
            _first_goes(cluster),
        )
        for number, cluster in enumerate(outward(piece.clusters), start=1)
    )


def _first_goes(cluster: Cluster) -> str:
    word = place_word(cluster.turn_deg % 360.0, len(cluster.balloons))
    return upright_word(word) if cluster.on else word


def turn_words(cluster: Cluster) -> str:
    """How the cluster sits: "valley in", "point in", or the angle of its first balloon."""
    count = len(cluster.balloons)
    if count == 1:
        return _first_goes(cluster)
    share = 360.0 / count
    for word in (VALLEY_IN, POINT_IN):
        apart = (cluster.turn_deg - turn_for(word, count)) % share
        if min(apart, share - apart) < _TURN_SLACK:
            return word
    return f"{cluster.turn_deg % share:.0f}° round"
