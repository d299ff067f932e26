"""The colours that the sections' patterns give their clusters, and what the patterns want."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, permutations

from mockup.colour.difference import difference
from mockup.colour.srgb import luminance
from mockup.design.model import Design, SectionSpec
from mockup.packing.clusters import places
from mockup.piece.tying import Tied
from mockup.symmetry.patterns import PATTERNS, Laid, Order, pattern_letters

# Orders are tried one by one up to so many colours (5,040 orders of seven).
_MOST_TRIED = 7


def lettered(design: Design, tied: Sequence[Tied]) -> list[Tied]:
    """Every cluster with its letters: those the file gives, or those of its section's pattern."""
    found = list(tied)
    for section in design.sections:
        own = [k for k, one in enumerate(tied) if one.section is section]
        for k, letters in zip(own, wanted(design, section, [tied[k] for k in own]), strict=True):
            if tied[k].spec.by_pattern:
                found[k] = replace(tied[k], spec=replace(tied[k].spec, letters=letters))
    return found


def wanted(design: Design, section: SectionSpec, tied: Sequence[Tied]) -> list[str]:
    """What a section's pattern wants of its clusters; the file's own letters without one."""
    if section.pattern not in PATTERNS:
        return [one.spec.letters for one in tied]
    ranks = sorted(range(len(tied)), key=lambda k: tied[k].along)
    run = [Laid(tied[k].step, _phis(tied[k])) for k in ranks]
    dealt = pattern_letters(section.pattern, run, order_of(design, section))
    letters = dict(zip(ranks, dealt, strict=True))
    return [letters[k] for k in range(len(tied))]


def _phis(one: Tied) -> tuple[float, ...]:
    return tuple(places(one.spec.count, one.shape.turn_deg))


def order_of(design: Design, section: SectionSpec) -> Order:
    """A section's order of colours; a gradual change without one takes the evenest order."""
    letters = section.order or "".join(design.colours)
    if not section.order and section.pattern == "gradual":
        letters = evenest(design, letters)
    return Order(letters, section.starts, section.hand, section.each)


def evenest(design: Design, letters: str) -> str:
    """The order of colours whose largest step (CIEDE2000) is least, from the lighter end."""
    if not 2 < len(letters) <= _MOST_TRIED:
        return letters
    shown = {letter: design.colours[letter].srgb for letter in letters}
    steps = {(a, b): difference(shown[a], shown[b]) for a, b in permutations(letters, 2)}

    def unevenness(order: tuple[str, ...]) -> tuple[float, float, float]:
        own = [round(steps[pair], 9) for pair in pairwise(order)]
        return max(own), sum(own), -luminance(shown[order[0]])

    best: tuple[str, ...] = min(permutations(letters), key=unevenness)
    return "".join(best)


def patterned(design: Design) -> Iterator[SectionSpec]:
    """The sections that have a pattern of this kind."""
    yield from (section for section in design.sections if section.pattern in PATTERNS)
