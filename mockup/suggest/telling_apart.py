"""Which colours of a palette to give the letters so that they are told apart best.

The worth of a set is its least difference (CIEDE2000) over all pairs, in normal sight, under the
three deficiencies and, as they are drawn, in grey. The best set is a largest clique problem: raise
the difference that is asked of every pair as long as enough colours that all keep it can be found.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations

from mockup.colour.alike import Latex, apart
from mockup.colour.difference import difference
from mockup.colour.sight import SIGHTS
from mockup.errors import MockupError

Pair = tuple[int, int]


class TooFewColours(MockupError):
    """A palette with fewer colours than the design has letters."""


@dataclass(frozen=True)
class Assignment:
    """A colour's place in the palette for each letter, and the pair that is hardest to tell apart.

    ``least`` is that pair's difference in the sight in which it is least.
    """

    places: dict[str, int]
    least: float
    hardest: tuple[str, str]
    sight: str


def told_apart(first: Latex, second: Latex) -> tuple[float, str]:
    """The least difference of two balloons over all sights, and that sight.

    >>> told_apart(Latex("#000000", "matte"), Latex("#ffffff", "matte"))[1]
    'grey'
    """
    every = [(apart(first, second, sight), n) for n, sight in enumerate(SIGHTS)]
    least, n = min((round(difference, 9), n) for difference, n in every)
    return least, SIGHTS[n]


def best_assignment(now: Mapping[str, Latex], palette: Sequence[Latex]) -> Assignment:
    """The assignment with the greatest least difference; of equals the nearest to ``now``.

    ``now`` are the letters with their present colours, ``palette`` the colours to choose from.
    Raises ``TooFewColours``.
    """
    letters = sorted(now)
    if len(letters) > len(palette):
        raise TooFewColours(
            f"the palette has {len(palette)} colours for {len(letters)} letters; take another"
        )
    pairs = {
        (a, b): told_apart(palette[a], palette[b])[0]
        for a, b in combinations(range(len(palette)), 2)
    }
    least = _widest(len(palette), len(letters), pairs)
    sets = list(_cliques(len(palette), len(letters), pairs, least))
    places = _nearest_to(now, letters, palette, sets)
    a, b = min(
        combinations(letters, 2),
        key=lambda two: told_apart(palette[places[two[0]]], palette[places[two[1]]])[0],
        default=(letters[0], letters[0]),
    )
    sight = told_apart(palette[places[a]], palette[places[b]])[1] if a != b else "normal"
    return Assignment(places, least, (a, b), sight)


def _widest(colours: int, size: int, apart: Mapping[Pair, float]) -> float:
    """The greatest least difference of a set of ``size``, by bisection over the differences."""
    if size < 2:
        return -1.0
    levels = sorted(set(apart.values()))
    low, high = 0, len(levels) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if next(_cliques(colours, size, apart, levels[middle]), None) is None:
            high = middle - 1
        else:
            low = middle
    return levels[low]


def _cliques(
    colours: int, size: int, apart: Mapping[Pair, float], least: float
) -> Iterator[list[int]]:
    """Every set of ``size`` colours that are all at least ``least`` apart."""
    near = [{b for b in range(colours) if a < b and apart[a, b] >= least} for a in range(colours)]

    def grown(chosen: list[int], among: set[int]) -> Iterator[list[int]]:
        if len(chosen) == size:
            yield chosen
            return
        for each in sorted(among):
            if len(chosen) + 1 + len(among & near[each]) >= size:
                yield from grown([*chosen, each], among & near[each])

    yield from grown([], set(range(colours)))


def _nearest_to(
    now: Mapping[str, Latex],
    letters: Sequence[str],
    palette: Sequence[Latex],
    sets: list[list[int]],
) -> dict[str, int]:
    """Of all best sets and ways to hand them out, the one that changes the colours least."""
    change = {
        (x, n): difference(now[x].srgb, palette[n].srgb)
        for x in letters
        for n in range(len(palette))
    }

    def changed(places: tuple[int, ...]) -> tuple[float, tuple[int, ...]]:
        total = sum(change[x, n] for x, n in zip(letters, places, strict=True))
        return round(total, 6), places

    best = min((way for chosen in sets for way in permutations(chosen)), key=changed)
    return dict(zip(letters, best, strict=True))
