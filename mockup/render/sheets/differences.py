"""Two revisions of a piece side by side, the changed places marked and every change in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from mockup.piece.code import content
from mockup.piece.placed import Cluster, Piece
from mockup.render.record import Circle, Document, Item, Point, Rect, Style
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import ALARM
from mockup.render.sheets.lettering import Hand, Lettering
from mockup.render.sheets.paper import Paper
from mockup.render.sheets.scale import Scaled
from mockup.render.sheets.side_by_side import Shown, lettering_of, side_by_side
from mockup.render.sheets.title_block import TitleBlock
from mockup.render.viewpoint import ViewOptions

DOCUMENT_TYPE = "What has changed"
_LEAST = 2.5
_MARK = Style(stroke=ALARM, stroke_width=0.5)
_HALO = Style(stroke="#ffffff", stroke_width=1.1)
_OTHER_TURN = 5.0
_SAME = 0.01
"""Lengths nearer than this, mm, are one: the log keeps them to a thousandth."""


@dataclass(frozen=True)
class Revision:
    """One state of a piece: what it is called ("revision 1, sent 1 Mar 2027"), and the piece."""

    name: str
    piece: Piece


def differences_document(
    old: Revision, new: Revision, said: Sequence[str], paper: Paper, title: TitleBlock
) -> Document:
    """One sheet: the old piece at the left and the new at the right at one scale.

    ``said`` are the changes in words (``mockup.piece.changes``). Raises ``DoesNotFit``.
    """
    marked = [_shown(old, new.piece), _shown(new, old.piece)]
    words = partial(_changes_block, lettering=lettering_of(paper), said=tuple(said))
    sheet = side_by_side(paper, marked, title, words)
    return Document(
        (sheet,),
        title=f"{title.design.title}: what has changed",
        author=title.studio,
        subject=f"{old.name}; {new.name}",
        keywords=("changes", title.code),
    )


def _shown(one: Revision, other: Piece) -> Shown:
    places = tuple(changed_places(one.piece, other))
    return Shown(one.name, one.piece, ViewOptions(), partial(_marks, places))


Place = tuple[float, float, float, float]
"""Left, low, right and high of something on the piece, mm."""


def changed_places(piece: Piece, other: Piece) -> Iterator[Place]:
    """The boxes of what is otherwise in ``other``: clusters, numerals, stand."""
    for cluster in _changed_clusters(piece, other):
        yield _cluster_box(piece, cluster)
    one, two = content(piece.design), content(other.design)
    if piece.fit and one["panel"] != two["panel"]:
        shapes = piece.fit.numerals
        yield (
            min(s.x - s.width / 2 for s in shapes),
            min(s.y - s.height / 2 for s in shapes),
            max(s.x + s.width / 2 for s in shapes),
            max(s.y + s.height / 2 for s in shapes),
        )
    stand = piece.design.stand
    if stand and one["stand"] != two["stand"]:
        floor = piece.extent.y[0]
        yield (-stand.plate / 2, floor, stand.plate / 2, floor + stand.rise)


def _changed_clusters(piece: Piece, other: Piece) -> list[Cluster]:
    """Clusters of another kind, size, fill or colour order; else those that are turned otherwise.

    A cluster is known again by its section, side and number; one that the other lacks is changed.
    """
    known = {_place(cluster): cluster for cluster in other.clusters}
    pairs = [(cluster, known.get(_place(cluster))) for cluster in piece.clusters]
    changed = [one for one, two in pairs if two is None or _differ(one, two)]
    if changed:
        return changed
    return [one for one, two in pairs if two and _turned(one.turn_deg, two.turn_deg)]


def _place(cluster: Cluster) -> tuple[str, str, int, bool]:
    return cluster.section, cluster.side, cluster.step, cluster.end_cap


def _differ(one: Cluster, two: Cluster) -> bool:
    lengths = ((one.nominal, two.nominal), (one.diameter, two.diameter))
    other_size = any(abs(a - b) > _SAME for a, b in lengths)
    return other_size or (one.kind, one.letters) != (two.kind, two.letters)


def _turned(one: float, two: float) -> bool:
    return abs((one - two + 180) % 360 - 180) > _OTHER_TURN


def _cluster_box(piece: Piece, cluster: Cluster) -> Place:
    balloons = [piece.balloons[index] for index in cluster.balloons]
    return (
        min(b.centre[0] - b.radius for b in balloons),
        min(b.centre[1] - b.radius for b in balloons),
        max(b.centre[0] + b.radius for b in balloons),
        max(b.centre[1] + b.radius for b in balloons),
    )


def _marks(places: Iterable[Place], sheet: Scaled) -> tuple[Item, ...]:
    return tuple(item for place in places for item in _mark(place, sheet))


def _mark(place: Place, sheet: Scaled) -> tuple[Item, ...]:
    """A ring round a small place, a frame round a large one, on a white line that parts it."""
    (left, high), (right, low) = sheet.at(place[0], place[3]), sheet.at(place[2], place[1])
    wide, tall = max(right - left, _LEAST), max(low - high, _LEAST)
    if max(wide, tall) > 1.6 * min(wide, tall):
        area = Area(left, high, wide, tall).inset(-1.2)
        return tuple(
            Rect(area.x, area.y, area.width, area.height, style, 1.5) for style in (_HALO, _MARK)
        )
    centre: Point = ((left + right) / 2, (high + low) / 2)
    return tuple(Circle(centre, max(wide, tall) / 2 + 1.0, style) for style in (_HALO, _MARK))


def _changes_block(at: Point, width: float, lettering: Lettering, said: Sequence[str]) -> Block:
    """The changes as a list, in as many columns as they need."""
    top = heading(at, width, lettering, "Changes", "ringed in the pictures")
    columns = 1 if len(said) <= 3 else 2 if len(said) <= 10 else 3
    gutter = 3 * lettering.body
    each = (width - (columns - 1) * gutter) / columns
    deep = -(-len(said) // columns)
    items: list[Item] = [*top.items]
    tallest = 0.0
    for number in range(columns):
        place = (at[0] + number * (each + gutter), at[1] + top.height)
        block = _column(place, each, lettering, said[number * deep : (number + 1) * deep])
        items += block.items
        tallest = max(tallest, block.height)
    return Block(tuple(items), top.height + tallest)


def _column(at: Point, width: float, lettering: Lettering, said: Sequence[str]) -> Block:
    hand, indent = Hand(lettering.small, role="change"), 1.4 * lettering.small
    items: list[Item] = []
    y = at[1]
    for says in said:
        lines = hand.wrapped(says, width - indent)
        height = (len(lines) + 0.35) * hand.pitch
        words, _ = hand.set(lines, (at[0] + indent, y))
        dash = hand.at((at[0], y + hand.height), "–")
        items.append(cell("change", Area(at[0], y, width, height), (dash, *words)))
        y += height
    return Block(tuple(items), y - at[1])
