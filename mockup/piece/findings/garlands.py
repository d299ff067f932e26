"""Does each garland cover its band, keep its colours apart and balance, and what does it take?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from mockup.design.model import GarlandSpec
from mockup.lengths import format_length
from mockup.packing.neighbours import touching_pairs
from mockup.piece.finding import Finding
from mockup.piece.placed import Balloon, Piece
from mockup.symmetry.mixing import touching_alike

if TYPE_CHECKING:
    from mockup.packing.growing import Growth

_METRE, _THREE_FEET = 1000.0, 914.4
# Halves of a garland within this share of each other look even (common practice, no source).
_EVEN = 0.06


def garland_cover(piece: Piece) -> Iterator[Finding]:
    """The share of each garland's inner band that shows no gap, looked at cell by cell."""
    for garland, growth in _grown(piece):
        from mockup.packing.growing import inner_band  # not needed by pieces without a garland

        cells, on_tube = inner_band(piece.frame, growth)
        # Beside the tube any balloon closes the view, on it only one whose skin is nearer.
        least = np.where(on_tube, piece.frame.tube / 2, -np.inf)
        covered = np.zeros(len(cells), dtype=np.bool_)
        for balloon in piece.balloons:
            off = cells - np.array(balloon.centre[:2])
            rise = balloon.radius**2 - (off * off).sum(axis=1)
            covered |= (rise >= 0) & (balloon.centre[2] + np.sqrt(np.maximum(rise, 0)) > least)
        share, wanted = float(covered.mean()), garland.coverage
        holds = share >= wanted
        says = (
            f"{share:.0%} of the {garland.name} shows neither gap nor frame; "
            f"{wanted:.0%} is asked for."
        )
        yield Finding(
            "coverage",
            "holds" if holds else "look",
            round(100 * share, 1),
            round(100 * wanted, 1),
            "%",
            says,
            "" if holds else "make it narrower, or add a smaller size to its recipe",
        )


def garland_colours(piece: Piece) -> Iterator[Finding]:
    """How many pairs of a colour touch in each garland."""
    for garland in piece.design.garlands:
        own = garland_balloons(piece, garland)
        radii = np.array([b.radius for b in own])
        pairs = touching_pairs(np.array([b.centre for b in own]), radii, 0.0).tolist()
        letters = "".join(b.letter for b in own)
        alike = touching_alike([(a, b) for a, b in pairs], letters)
        colours = len(set(letters))
        yield Finding(
            "colours apart",
            "look" if alike else "holds",
            float(len(alike)),
            0.0,
            "pairs",
            f"{len(alike) or 'No'} of the {len(pairs)} places where balloons of the {garland.name} "
            f"touch join two of a colour ({colours} colours).",
            "add a colour, or try another seed" if alike else "",
            tuple(own[k].index for pair in alike for k in pair),
        )


def garland_balance(piece: Piece) -> Iterator[Finding]:
    """How much of each garland lies on the left half of it, by what its balloons cover."""
    for garland, growth in _grown(piece):
        own = garland_balloons(piece, garland)
        middle = (growth.end - growth.start) / 2
        first = sum(b.radius**2 for b in own if piece.clusters[b.cluster].along < middle)
        share = first / sum(b.radius**2 for b in own)
        if piece.frame.at(growth.start)[0] > piece.frame.at(growth.end)[0]:
            share = 1.0 - share
        wants = garland.balance
        holds = abs(share - 0.5) <= _EVEN if wants == "even" else (share > 0.5) == (wants == "left")
        yield Finding(
            "balance",
            "holds" if holds else "look",
            round(100 * share, 1),
            50.0,
            "%",
            f"{share:.0%} of the {garland.name} lies on the left half of it"
            f" ({'an even' if wants == 'even' else 'a heavier ' + wants} "
            f"{'balance' if wants == 'even' else 'side'} is asked for).",
            "" if holds else "try another seed",
        )


def garland_counts(piece: Piece) -> Iterator[Finding]:
    """How many balloons a garland takes, in all, a metre (or three feet), and by size.

    Fillers go where daylight remains, so that the shares reached are told beside the asked.
    """
    for garland, growth in _grown(piece):
        own, unit = garland_balloons(piece, garland), piece.design.unit
        stretch = _THREE_FEET if unit == "in" else _METRE
        each = len(own) * stretch / (growth.end - growth.start)
        sizes = sorted({one.nominal for one in garland.recipe}, reverse=True)
        asked = {size: sum(p.share for p in garland.recipe if p.nominal == size) for size in sizes}
        placed = {size: sum(b.nominal == size for b in own) for size in sizes}
        counts = ", ".join(
            f"{placed[size]} of {format_length(size, unit)} "
            f"({placed[size] / len(own):.0%}, {asked[size]:.0%} asked)"
            for size in sizes
        )
        per = "metre" if unit == "cm" else "three feet"
        yield Finding(
            "garland",
            "holds",
            float(len(own)),
            None,
            "balloons",
            f"The {garland.name} takes {len(own)} balloons, {each:.0f} to {per}: {counts}.",
        )


def _grown(piece: Piece) -> Iterator[tuple[GarlandSpec, Growth]]:
    """Each garland with what it asks of the geometry."""
    for garland in piece.design.garlands:
        from mockup.piece.garland import growth_of  # not needed by pieces without a garland

        yield garland, growth_of(garland, piece.frame)


def garland_balloons(piece: Piece, garland: GarlandSpec) -> list[Balloon]:
    """A garland's balloons."""
    return [
        b
        for b in piece.balloons
        if piece.clusters[b.cluster].loose and piece.clusters[b.cluster].path == garland.path
    ]
