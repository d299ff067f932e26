"""What there is to say of pieces that stand together: do they keep apart, and leave a way?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.setting import HEAD_ROOM
from mockup.lengths import format_room
from mockup.piece.elevation.solids import meetings
from mockup.piece.elevation.standing import Elevation, Standing
from mockup.piece.elevation.ways import Way, ways
from mockup.piece.extent import feet
from mockup.piece.finding import Finding

# Two balloons that touch press each other flat by a hair: less than this is no overlap, mm.
_TOUCH = 1.0
_DECIDES = "Local fire and access codes decide."


def find_elevation(elevation: Elevation) -> tuple[Finding, ...]:
    """Every finding of the whole, in the order in which they are shown."""
    return (*_apart(elevation), *_on_the_setting(elevation), *_ways(elevation))


def called(elevation: Elevation, one: Standing) -> str:
    """A piece in words: "Lamplight column (1)", the second of its row "Lamplight column (1, 2nd)".

    The figure is its row's mark on the sheet.
    """
    row = next(row for row in elevation.rows if one in row)
    which = f", no. {one.number} from the left" if len(row) > 1 else ""
    return f"{one.piece.design.title} ({one.row}{which})"


def _apart(elevation: Elevation) -> Iterator[Finding]:
    if len(elevation.standings) < 2:
        return
    met = sorted((m for m in meetings(elevation) if m.depth > _TOUCH), key=lambda m: -m.depth)
    if not met:
        says = f"The {len(elevation.standings)} pieces keep clear of each other."
        yield Finding("stand apart", "holds", 0.0, 0.0, "pairs", says)
        return
    worst = met[0]
    first, second = (called(elevation, one) for one in (worst.first, worst.second))
    by = format_room(worst.depth, elevation.unit)
    others = len(met) - 1
    more = f"; so do {others} more pair{'' if others == 1 else 's'}" if others else ""
    yield Finding(
        "stand apart",
        "fails",
        float(len(met)),
        0.0,
        "pairs",
        f"{first} and {second} run into each other by {by}{more}.",
        f"move them {by} apart ('at', 'apart'), or one of them forward ('forward')",
    )


def _on_the_setting(elevation: Elevation) -> Iterator[Finding]:
    """Does what stands on a stage or a table stand on it, and does none hang over its ends?"""
    setting, unit = elevation.setting, elevation.unit
    if setting.kind not in ("stage", "table"):
        return
    on_it = [one for one in elevation.standings if one.over > 0.0]
    if not on_it:
        return
    half = setting.width / 2
    off = max(on_it, key=lambda one: _reach(one) - half)
    over = max(on_it, key=lambda one: max(-one.box.x[0], one.box.x[1]))
    stands, hangs = _reach(off) - half, max(-over.box.x[0], over.box.x[1]) - half
    name = f"on the {setting.kind}"
    if stands > 0.0:
        by = format_room(stands, unit)
        says = f"{called(elevation, off)} stands {by} beyond the end of the {setting.kind}."
        mend = f"move it {by} toward the middle, or take a wider {setting.kind}"
        yield Finding(name, "fails", round(stands, 1), 0.0, "mm", says, mend)
    elif hangs > 0.0:
        by = format_room(hangs, unit)
        says = f"{called(elevation, over)} hangs {by} over the end of the {setting.kind}."
        mend = f"move it {by} toward the middle where people pass there"
        yield Finding(name, "look", round(hangs, 1), 0.0, "mm", says, mend)
    else:
        spare = format_room(-hangs, unit)
        says = f"All that is on the {setting.kind} keeps {spare} from its ends."
        yield Finding(name, "holds", round(hangs, 1) + 0.0, 0.0, "mm", says)


def _reach(one: Standing) -> float:
    """How far from the middle its feet reach: its plates, or its lowest balloons' middles."""
    stand, x = one.piece.design.stand, one.at[0]
    wide = stand.plate / 2 if stand else 0.0
    return max(max(abs(x + each - wide), abs(x + each + wide)) for each in feet(one.piece.frame))


def _ways(elevation: Elevation) -> Iterator[Finding]:
    every = ways(elevation)
    for one in every:
        if one.must:
            yield _must(elevation, one)
    open_ = [one for one in every if not one.must]
    if open_:
        yield _through(elevation, max(open_, key=lambda one: one.width), len(open_))
    elif elevation.setting.kind in ("stage", "floor"):
        says = f"No clear way is left on the {elevation.setting.kind}. {_DECIDES}"
        yield Finding("way through", "look", 0.0, None, "mm", says, "move the pieces apart")


def _must(elevation: Elevation, way: Way) -> Finding:
    """What is left of a way that people have to pass."""
    unit = elevation.unit
    width, least = (format_room(mm, unit) for mm in (way.width, way.limit))
    head = format_room(HEAD_ROOM, unit)
    holds = way.width >= way.limit
    what = "the doorway" if way.name == "doorway" else f"the {way.name}"
    return Finding(
        f"{way.name} left open",
        "holds" if holds else "fails",
        round(way.width, 1),
        round(way.limit, 1),
        "mm",
        f"Of {what} {width} stay clear up to {head} high; {least} is the least "
        f"({way.source}). {_DECIDES}",
        "" if holds else f"make {format_room(way.limit - way.width, unit)} more room there",
    )


def _through(elevation: Elevation, widest: Way, count: int) -> Finding:
    unit = elevation.unit
    width, least = (format_room(mm, unit) for mm in (widest.width, widest.limit))
    holds = widest.width >= widest.limit
    of = f"The widest of the {count} clear stretches" if count > 1 else "The one clear stretch"
    return Finding(
        "way through",
        "holds" if holds else "look",
        round(widest.width, 1),
        round(widest.limit, 1),
        "mm",
        f"{of} on the {elevation.setting.kind} is {width}; {least} is the least for a way "
        f"({widest.source}). {_DECIDES}",
        "" if holds else "move the pieces apart where people pass",
    )
