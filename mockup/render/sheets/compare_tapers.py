"""A small drawing of each taper: the clusters' fills in a row, from one end to the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from mockup.lengths import format_length
from mockup.piece.placed import Cluster, Piece
from mockup.render.record import Circle, Group, Item, Style
from mockup.render.sheets.areas import Area, cell
from mockup.render.sheets.inks import HAIR, INK, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering

_STRIP = 6.0
_ABREAST, _MOST = 2, 4
"""So many tapers are drawn; what is beyond is told in words."""
_BETWEEN = 1.5
_OUTLINE = Style(fill="#f4f5f7", stroke=INK, stroke_width=THIN)
_CAP = Style(fill="#ffffff", stroke=HAIR, stroke_width=THIN)


@dataclass(frozen=True)
class _Taper:
    """A run of clusters from one end to the other, and the sections that have it."""

    names: tuple[str, ...]
    row: tuple[Cluster, ...]


def tapers_height(piece: Piece, lettering: Lettering) -> float:
    """How tall the tapers of a piece stand with their words, mm."""
    count = len(list(_tapers(piece)))
    words = _hand(lettering).pitch if count > _MOST else 0.0
    return -(-min(count, _MOST) // _ABREAST) * _each(lettering) + words


def tapers(piece: Piece, area: Area, lettering: Lettering) -> tuple[Item, ...]:
    """Every section's clusters as discs in a row, in proportion, with its name and its fills.

    Sections with the same clusters share a row; two rows stand side by side; whole rings and walls
    have none.
    """
    items: list[Item] = []
    every = list(_tapers(piece))
    abreast = min(_ABREAST, max(1, len(every)))
    width, tall = area.width / abreast, _each(lettering)
    for number, taper in enumerate(every[:_MOST]):
        row, column = divmod(number, _ABREAST)
        place = Area(area.x + column * width, area.y + row * tall, width - _BETWEEN, tall)
        items += _drawn(piece, taper, place, lettering)
    if len(every) > _MOST:
        y = area.y + _MOST // _ABREAST * tall + lettering.small
        middle = (area.x + area.width / 2, y)
        items.append(_hand(lettering).at(middle, f"and {len(every) - _MOST} more", "middle"))
    return tuple(items)


def _each(lettering: Lettering) -> float:
    return _STRIP + 3.0 * lettering.small


def _hand(lettering: Lettering) -> Hand:
    return Hand(lettering.small, colour=SOFT, role="taper")


def _drawn(piece: Piece, taper: _Taper, area: Area, lettering: Lettering) -> tuple[Item, ...]:
    total = sum(cluster.diameter for cluster in taper.row)
    share = min(_STRIP / max(cluster.diameter for cluster in taper.row), area.width / total)
    x = area.x + (area.width - total * share) / 2
    discs: list[Item] = []
    for cluster in taper.row:
        r = cluster.diameter * share / 2
        style = _CAP if cluster.end_cap else _OUTLINE
        discs.append(Circle((x + r, area.y + _STRIP / 2), r, style))
        x += 2 * r
    hand, lines = _hand(lettering).shrunk(_words(piece, taper), area.width)
    under = hand.at(
        (area.x + area.width / 2, area.y + _STRIP + 1.6 * lettering.small), lines[0], "middle"
    )
    return (cell("taper", area, (Group(tuple(discs), kind="taper", name=taper.names[0]), under)),)


def _tapers(piece: Piece) -> Iterator[_Taper]:
    """The runs that differ, in the order of the sections; whole rings have no taper."""
    whole = {one.section for one in piece.wholes}
    runs: dict[tuple[object, ...], list[tuple[str, tuple[Cluster, ...]]]] = {}
    for section in piece.design.sections:
        row = _in_row(piece, section.name)
        if row and section.name not in whole:
            key = tuple((c.side, c.end_cap, round(c.diameter, 2)) for c in row)
            runs.setdefault(key, []).append((section.name, row))
    for own in runs.values():
        yield _Taper(tuple(name for name, _ in own), own[0][1])


def _in_row(piece: Piece, section: str) -> tuple[Cluster, ...]:
    """The clusters of a section from its left end to its right."""
    own = [c for c in piece.clusters if c.section == section]
    return tuple(sorted(own, key=lambda c: -c.step if c.side == "left" else c.step))


def _words(piece: Piece, taper: _Taper) -> str:
    """The sections' names and the fills from the middle outward, the end cap's last."""
    sides = {c.side for c in taper.row}
    outward = sorted(
        (c for c in taper.row if c.side != "left" or "right" not in sides), key=lambda c: c.step
    )
    unit = piece.design.unit
    sizes = [format_length(c.diameter, unit, with_unit=False) for c in outward if not c.end_cap]
    caps = [format_length(c.diameter, unit, with_unit=False) for c in outward if c.end_cap]
    runs = [(size, len(list(same))) for size, same in groupby(sizes)]
    told = [size if count == 1 else f"{count} × {size}" for size, count in runs]
    told += [f"end {size}" for size in dict.fromkeys(caps)]
    return f"{_named(taper.names)}: {', '.join(told)} {unit}"


def _named(names: tuple[str, ...]) -> str:
    """``top``, ``top and bottom``, or ``4 sections``."""
    return " and ".join(names) if len(names) < 3 else f"{len(names)} sections alike"
