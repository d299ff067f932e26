"""Is the piece mirrored, and do its colours alternate? Each break is told with its remedy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import isclose

from mockup.piece.finding import Finding
from mockup.piece.findings.lettering import Grouping, colours_of, remedy_words
from mockup.piece.placed import Cluster, Piece
from mockup.symmetry.alternation import (
    AlternationBreak,
    alternation_breaks,
    alternation_links,
    twin,
)
from mockup.symmetry.links import Link
from mockup.symmetry.mirror import Break, Spot, left_right_breaks, mirror_pairs
from mockup.symmetry.ranks import RankBreak, Ranked, TopBottom
from mockup.symmetry.ranks import top_bottom as compare_ranks

# Placed balloons of a mirrored design agree to rounding; half a millimetre is out of true.
_TOLERANCE = 0.5
# Frames whose left mirrors their right, and those whose top has a bottom to be compared with.
_EVEN = ("ring", "arch", "square", "hexagon", "heart")
_TOP_AND_BOTTOM = ("ring", "arc", "square", "hexagon", "heart")
LEFT_RIGHT, TOP_BOTTOM = "left/right", "top/bottom"


def left_right(piece: Piece) -> Iterator[Finding]:
    """Each balloon against its mirror at the other side of the middle line."""
    if not _asked(piece, LEFT_RIGHT, by_default=_frame_is_mirrored(piece)) or not piece.balloons:
        return
    if piece.design.wall is not None:
        return  # judged by its rows (``findings.walls``)
    # A spiral winds on over the middle: its places mirror, its colours cannot.
    wound = {s.name for s in piece.design.sections if s.pattern == "spiral"}
    spots = [
        Spot(
            *b.placed,
            diameter=b.diameter,
            letter="" if b.section in wound else b.letter,
            cluster=b.cluster,
            index=b.index,
        )
        for b in piece.balloons
        if not (piece.clusters[b.cluster].loose or piece.clusters[b.cluster].on)
    ]
    if not spots:
        return
    breaks = left_right_breaks(spots, _TOLERANCE)
    if not breaks:
        says = "Left mirrors right in places, sizes and colours."
        if wound:
            says = (
                "Left mirrors right in places and sizes; the colours wind on as a spiral, which "
                "has no mirror, and are judged as that."
            )
        if any(cluster.on for cluster in piece.clusters):
            says += " What goes round the stand's pole has no left and right, and is left out."
        yield _holds(LEFT_RIGHT, says)
        return
    yield Finding(
        f"mirror {LEFT_RIGHT}",
        "fails",
        float(len(breaks)),
        0.0,
        "balloons",
        f"{_break_words(piece, breaks[0])}{_more(len(breaks) - 1)}.",
        _left_right_remedy(piece, spots, breaks),
        tuple(each.index for each in breaks),
    )


def top_bottom(piece: Piece) -> Iterator[Finding]:
    """The clusters of the top against those of the bottom, in order from the two centres."""
    top, bottom = _section_at(piece, 0.0), _section_at(piece, 180.0)
    if not top or not bottom or not _asked(piece, TOP_BOTTOM, by_default=True):
        return
    answer = compare_ranks([_ranked(c) for c in top], [_ranked(c) for c in bottom])
    if not answer.breaks:
        yield _alike(piece, answer, [*top, *bottom])
        return
    first = answer.breaks[0]
    yield Finding(
        f"mirror {TOP_BOTTOM}",
        "fails",
        float(len(answer.breaks)),
        0.0,
        "clusters",
        f"{_rank_words(piece, first)}{_more(len(answer.breaks) - 1)}; from the centres outward "
        f"{_steps(answer.matched)} match{_length_words(answer)}.",
        _top_bottom_remedy(piece, answer),
        tuple(i for each in answer.breaks for i in piece.clusters[each.first].balloons),
    )


def alternation(piece: Piece) -> Iterator[Finding]:
    """Do colours alternate round each cluster and along the rows, section by section."""
    runs = [run for section in piece.design.sections for run in _runs(piece, section.name)]
    if not runs:
        return
    breaks = [
        each for run in runs for each in alternation_breaks([colours_of(piece, c) for c in run])
    ]
    breaks = list(dict.fromkeys(breaks))
    if not breaks:
        yield Finding(
            "alternation",
            "holds",
            0.0,
            0.0,
            "balloons",
            "Colours alternate round every cluster and along every row.",
        )
        return
    yield Finding(
        "alternation",
        "fails",
        float(len(breaks)),
        0.0,
        "balloons",
        f"{_alternation_words(piece, breaks[0])}{_more(len(breaks) - 1)}.",
        _alternation_remedy(piece, runs),
        tuple(piece.clusters[each.index].balloons[each.balloon] for each in breaks),
    )


def _asked(piece: Piece, which: str, *, by_default: bool) -> bool:
    wished = piece.design.mirror
    return by_default if wished is None else which in wished


def _frame_is_mirrored(piece: Piece) -> bool:
    spec = piece.design.frame
    if spec.kind in _EVEN:
        return True
    if spec.kind != "arc":
        return False
    off = (spec.start_deg + spec.end_deg) % 360.0
    return min(off, 360.0 - off) < 1e-6


def _holds(which: str, says: str) -> Finding:
    return Finding(f"mirror {which}", "holds", 0.0, 0.0, "balloons", says)


def _more(count: int) -> str:
    return f" ({count} more)" if count else ""


def _steps(count: int) -> str:
    return f"{count} step" + ("" if count == 1 else "s")


def _colour(piece: Piece, letter: str) -> str:
    use = piece.design.colours.get(letter)
    return f"{use.name} ({letter})" if use else letter


def _break_words(piece: Piece, broken: Break) -> str:
    words = f"The {piece.balloon_words(broken.index)}"
    if broken.kind == "colour" and broken.found is not None:
        own, other = (piece.balloons[i].letter for i in (broken.index, broken.found))
        return f"{words} is {_colour(piece, own)}, its mirror is {_colour(piece, other)}"
    if broken.found is None or broken.found == broken.index:
        return f"{words} has no mirror"
    differs = "differs in size from" if broken.kind == "size" else "is out of place with"
    return f"{words} {differs} its mirror"


def _left_right_remedy(piece: Piece, spots: Sequence[Spot], breaks: Sequence[Break]) -> str:
    if any(each.kind != "colour" for each in breaks):
        return "list the same clusters on both sides (take out 'left')"
    pairs = mirror_pairs(spots, _TOLERANCE)
    met = dict.fromkeys((spots[i].cluster, spots[j].cluster) for i, j in pairs)
    links: list[Link] = []
    for one, other in met:
        link = twin(
            colours_of(piece, piece.clusters[one]), colours_of(piece, piece.clusters[other])
        )
        if link:
            links.append(link)
    return remedy_words(piece, Grouping.single(piece), links)


def _section_at(piece: Piece, degrees: float) -> list[Cluster]:
    if piece.design.frame.kind not in _TOP_AND_BOTTOM:
        return []
    names = {
        s.name
        for s in piece.design.sections
        if not (s.whole or s.on) and s.at_length is None and isclose(s.at_deg % 360, degrees)
    }
    return [c for c in piece.clusters if c.section in names]


def _ranked(c: Cluster) -> Ranked:
    return Ranked(
        c.section,
        c.step,
        c.side,
        len(c.balloons),
        c.diameter,
        c.turn_deg,
        c.letters,
        c.index,
        c.end_cap,
    )


def _length_words(answer: TopBottom) -> str:
    if answer.stops_at is None:
        return ""
    return f" up to step {answer.stops_at}, where the {answer.longer} goes on"


def _alike(piece: Piece, answer: TopBottom, clusters: Sequence[Cluster]) -> Finding:
    """That the two match, as far as the shorter one goes; it speaks of what is left over."""
    held = _holds(TOP_BOTTOM, "Top mirrors bottom.")
    if answer.stops_at is None:
        return held
    met = {index for pair in answer.pairs for index in pair}
    alone = [c for c in clusters if c.section == answer.longer and c.index not in met]
    count = len(alone)
    which = "cluster" if count == 1 else f"{count} clusters"
    says = (
        f"Top and bottom are alike as far as the shorter goes: the last {which} of the "
        f"{answer.longer} {'has' if count == 1 else 'have'} no partner."
    )
    if not alone:
        says = f"Top and bottom are alike{_length_words(answer)}."
    left_over = tuple(k for c in alone for k in piece.clusters[c.index].balloons)
    return replace(held, says=says, balloons=left_over)


def _rank_words(piece: Piece, broken: RankBreak) -> str:
    one, other = piece.cluster_words(broken.first), piece.cluster_words(broken.second)
    if broken.kind == "colour":
        first, second = (piece.clusters[i].letters for i in (broken.first, broken.second))
        return f"The colours of {one} ({first}) are not those of {other} ({second})"
    said = {"count": "has another number of balloons than", "size": "has another size than"}
    return f"The {one} {said.get(broken.kind, 'is turned otherwise than')} {other}"


def _top_bottom_remedy(piece: Piece, answer: TopBottom) -> str:
    other = [each for each in answer.breaks if each.kind != "colour"]
    if other:
        return next(
            (e.remedy for e in other if e.remedy), "list the same clusters at top and bottom"
        )
    grouping = Grouping.by_sides(piece)
    links: list[Link] = []
    for one, two in answer.pairs:
        link = twin(
            grouping.colours(piece, piece.clusters[one]),
            grouping.colours(piece, piece.clusters[two]),
        )
        if link:
            links.append(link)
    return remedy_words(piece, grouping, list(dict.fromkeys(links)))


def _runs(piece: Piece, section: str) -> Iterator[list[Cluster]]:
    """The clusters of one section outward along each side, for sections that ask to alternate."""
    spec = next(s for s in piece.design.sections if s.name == section)
    if spec.pattern != "alternate":
        return
    own = sorted(
        (c for c in piece.clusters if c.section == section and not c.after), key=lambda c: c.step
    )
    for side in ("right", "left"):
        run = [c for c in own if c.side in (side, "middle")]
        if run:
            yield run


def _alternation_words(piece: Piece, broken: AlternationBreak) -> str:
    cluster = piece.clusters[broken.index]
    words = piece.balloon_words(cluster.balloons[broken.balloon])
    colour = _colour(piece, broken.letter)
    if broken.rule == "round":
        beside = piece.balloons[cluster.balloons[broken.others[0]]].place
        return f"The {words} is {colour}, like the {beside} balloon beside it"
    other = piece.cluster_words(broken.other)
    if broken.rule == "row":
        return f"The {words} is {colour}, like the one before it in its row ({other})"
    return f"The {words} is {colour} and lies between two of that colour ({other})"


def _alternation_remedy(piece: Piece, runs: Sequence[Sequence[Cluster]]) -> str:
    grouping = Grouping.by_sides(piece)
    links = [
        link
        for run in runs
        for link in alternation_links([grouping.colours(piece, c) for c in run])
    ]
    return remedy_words(piece, grouping, list(dict.fromkeys(links)))
