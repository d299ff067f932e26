"""One drawing that can show several colourways: what is alike is kept once, what is not turns.

The same piece drawn in several colourways differs in its paints alone, so the drawings are walked
side by side. Where they differ, each colourway's own part lies in a group named after it, and the
page's style shows one of them. Parts that are placed many times turn within one symbol.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import takewhile

from mockup.render.record import Group, Item, Place, Symbol

ONLY = "only"
"""Groups of the kind ``only-2`` show with the second colourway alone."""


@dataclass
class Turner:
    """Lays drawings of one piece over each other; keeps the symbols it made."""

    symbols: dict[tuple[str, ...], Symbol] = field(default_factory=dict)

    def together(self, drawings: Sequence[Item]) -> tuple[Item, ...]:
        """The drawings as one; each is one colourway's, in their order."""
        first = drawings[0]
        if all(each == first for each in drawings[1:]):
            return (first,)
        groups = [each for each in drawings if isinstance(each, Group)]
        if len(groups) == len(drawings) and _alike(groups):
            return (self._group(groups),)
        places = [each for each in drawings if isinstance(each, Place)]
        if len(places) == len(drawings) and _placed_alike(places):
            return (replace(places[0], symbol=self._symbol(places)),)
        return tuple(_only(number, (each,)) for number, each in enumerate(drawings, start=1))

    def _group(self, groups: Sequence[Group]) -> Group:
        inside = [group.items for group in groups]
        if len({len(items) for items in inside}) == 1:
            pairs = zip(*inside, strict=True)
            items = tuple(item for pair in pairs for item in self.together(pair))
        else:
            items = tuple(_only(number, each) for number, each in enumerate(inside, start=1))
        return replace(groups[0], items=items, title=_same_words([g.title for g in groups]))

    def _symbol(self, places: Sequence[Place]) -> Symbol:
        key = tuple(place.symbol.id for place in places)
        if key not in self.symbols:
            turning = tuple(
                _only(number, (Place(place.symbol, (0.0, 0.0)),))
                for number, place in enumerate(places, start=1)
            )
            self.symbols[key] = Symbol(f"turn-{len(self.symbols) + 1}", turning)
        return self.symbols[key]


def _only(number: int, items: tuple[Item, ...]) -> Group:
    return Group(items, kind=f"{ONLY}-{number}")


def _alike(groups: Sequence[Group]) -> bool:
    return len({(g.kind, g.name, g.clip, g.opacity) for g in groups}) == 1


def _placed_alike(places: Sequence[Place]) -> bool:
    return len({(place.at, place.scale, place.turn) for place in places}) == 1


def _same_words(titles: Sequence[str]) -> str:
    """What the titles begin with alike, up to a comma: a balloon's place without its colour.

    >>> _same_words(["top, front balloon, oat", "top, front balloon, ochre"])
    'top, front balloon'
    """
    parts = zip(*(title.split(", ") for title in titles), strict=False)
    return ", ".join(part[0] for part in takewhile(lambda part: len(set(part)) == 1, parts))
