"""A small drawing of each taper: the clusters' fills in a row, from one end to the other."""

from __future__ import annotations

from mockup.lengths import format_length
from mockup.piece.placed import Cluster, Piece
from mockup.render.record import Circle, Group, Item, Style
from mockup.render.sheets.areas import Area
from mockup.render.sheets.inks import HAIR, INK, SOFT, THIN
from mockup.render.sheets.lettering import Hand, Lettering

_STRIP = 6.0
_OUTLINE = Style(fill="#f4f5f7", stroke=INK, stroke_width=THIN)
_CAP = Style(fill="#ffffff", stroke=HAIR, stroke_width=THIN)


def taper_strip_height(lettering: Lettering) -> float:
    """How tall a strip stands with its words, mm."""
    return _STRIP + 2.2 * lettering.small


def taper_strip(piece: Piece, area: Area, lettering: Lettering) -> tuple[Item, ...]:
    """The first section's clusters as discs in one row, in proportion, with its fills in words."""
    row = _in_row(piece)
    if not row:
        return ()
    total = sum(cluster.diameter for cluster in row)
    share = min(_STRIP / max(cluster.diameter for cluster in row), area.width / total)
    x = area.x + (area.width - total * share) / 2
    discs: list[Item] = []
    for cluster in row:
        r = cluster.diameter * share / 2
        style = _CAP if cluster.end_cap else _OUTLINE
        discs.append(Circle((x + r, area.y + _STRIP / 2), r, style))
        x += 2 * r
    hand, lines = Hand(lettering.small, colour=SOFT, role="taper").shrunk(
        _words(piece, row), area.width
    )
    under = hand.at((area.x + area.width / 2, area.bottom - 0.6), lines[0], "middle")
    return (Group(tuple(discs), kind="taper", name=row[0].section), under)


def _in_row(piece: Piece) -> list[Cluster]:
    """The clusters of the first section that is no whole ring, from its left end to its right."""
    whole = {one.section for one in piece.wholes}
    names = [s.name for s in piece.design.sections if s.name not in whole]
    own = [c for c in piece.clusters if names and c.section == names[0]]
    return sorted(own, key=lambda c: -c.step if c.side == "left" else c.step)


def _words(piece: Piece, row: list[Cluster]) -> str:
    outward = sorted((c for c in row if c.side != "left"), key=lambda c: c.step)
    unit = piece.design.unit
    sizes = [format_length(c.diameter, unit, with_unit=False) for c in outward]
    return f"{', '.join(sizes)} {unit}"
