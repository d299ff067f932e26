"""From the sections a file lists to the sections of the design."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from mockup.design.clock import clock_words
from mockup.design.clusters import Ground, cluster_spec, end_cap, turn_degrees
from mockup.design.faults import FaultList
from mockup.design.keys import MOST_CLUSTERS
from mockup.design.model import (
    ClusterSpec,
    FrameSpec,
    Hand,
    KeyPath,
    Member,
    Pattern,
    SectionSpec,
    Side,
)
from mockup.design.pattern_keys import order_letters, starts_of
from mockup.design.places import Along, spot_name
from mockup.design.tables import Given
from mockup.design.tapers_run import check_run, taper_length, taper_run

_NO_WORDS: dict[str, object] = {}


def section_specs(tables: list[Given], frame: FrameSpec, ground: Ground) -> tuple[SectionSpec, ...]:
    """Every section of the file; more clusters than a piece can have are refused unread."""
    total = sum(_how_many(table) for table in tables)
    if total > MOST_CLUSTERS:
        what = f"the sections hold {total:,} clusters in all"
        ground.faults.add(("section",), what, f"a piece takes at most {MOST_CLUSTERS:,}")
        return ()
    sections = tuple(_section(table, frame, ground) for table in tables)
    _check_names(sections, ground.faults)
    return sections


def _how_many(table: Given) -> int:
    if table.get("whole", False):
        return table.get("count", 0)
    right = _run_length(table, "clusters") or taper_length(table)
    left = _run_length(table, "left")
    middle = int(table.get("middle", True))
    other = left if left else max(0, right - middle)
    caps = 2 if table.values.get("end_cap") else 0
    return right + (0 if table.get("toward", "") else other) + caps


def _run_length(table: Given, key: str) -> int:
    return sum(int(one.get("times", 1)) for one in table.tables(key))


def _section(table: Given, frame: FrameSpec, ground: Ground) -> SectionSpec:
    place: float | Along = table.get("at", 0.0)
    along = place if isinstance(place, Along) else Along(None)
    at_deg = along.laid_deg if isinstance(place, Along) else place
    whole = table.get("whole", False)
    member: Member = "stand" if table.get("on", "frame") == "stand" else ""
    tied_to = member or frame.kind
    _check_words(table, whole, tied_to, ground.faults)
    check_run(table, ground.faults)
    if not isinstance(place, Along):
        if member:
            _no_clock(table, place, ground.faults)
        else:
            _check_place(table, place, frame, ground.faults)
    has_middle = table.get("middle", True)
    run = _run(table, "clusters", 0, ground) or taper_run(table, ground)
    # On a whole ring the run repeats, and a turn set on it would be set again each time round.
    run = [_turned(run[0], table, has_middle and not whole), *run[1:]] if run else []
    middle = run[0] if has_middle and run else None
    right = tuple(run[1:] if has_middle else run)
    left = tuple(_run(table, "left", int(has_middle), ground)) or right
    only = _only(table, tied_to, ground.faults)
    right, left = right if only != "left" else (), left if only != "right" else ()
    cap = _cap_table(table)
    order = order_letters(table, ground)
    return SectionSpec(
        name=table.get("name", tied_to if whole else spot_name(place, tied_to, ground.unit)),
        at_deg=at_deg,
        middle=middle,
        right=right,
        left=left,
        end_right=_cap(cap, right, middle, ground),
        end_left=_cap(cap, left, middle, ground),
        whole=whole,
        whole_count=table.get("count", None) if whole else None,
        pattern=cast(Pattern, table.get("pattern", "alternate")),
        only=only,
        order=order,
        starts=starts_of(table, [*run, *left], order, ground),
        hand=cast(Hand, table.get("hand", "right")),
        each=int(table.get("each", 1)),
        path=table.path,
        at_share=along.share,
        at_length=along.mm,
        on=member,
    )


def _run(table: Given, key: str, first_step: int, ground: Ground) -> list[ClusterSpec]:
    """The clusters of a list outward, each as many times as it says."""
    run: list[ClusterSpec] = []
    for one in table.tables(key):
        for again in range(int(one.get("times", 1))):
            spec = cluster_spec(one, table, first_step + len(run), ground)
            # Only the first of several alike is turned by hand: the others nestle into it.
            run.append(replace(spec, turn_deg=None) if again else spec)
    return run


def _turned(first: ClusterSpec, table: Given, has_middle: bool) -> ClusterSpec:
    """The first cluster with its own turn, its section's, or valley in where it is the middle."""
    if first.turn_deg is not None:
        return first
    usual = "valley in" if has_middle else None
    return replace(first, turn_deg=turn_degrees(table.get("turn", usual), first.kind))


def _only(table: Given, tied_to: str, faults: FaultList) -> Side:
    """The one side that has clusters, "" for both; on a pole, right is up."""
    written: str = table.get("toward", "")
    poles = {"pole": "a pole", "stand": "the stand's pole"}
    upright = written in ("up", "down")
    if written and upright != (tied_to in poles):
        fits = '"up" or "down"' if tied_to in poles else '"right" or "left"'
        what = f"a section on {poles.get(tied_to, 'this frame')} has no '{written}'"
        faults.add(table.at("toward"), what, f"write toward = {fits}")
        return ""
    sides: dict[str, Side] = {"up": "right", "down": "left", "right": "right", "left": "left"}
    return sides.get(written, "")


def _cap_table(table: Given) -> Given | None:
    written = table.values.get("end_cap")
    if written is True:
        return Given(table.at("end_cap"), _NO_WORDS)
    return written if isinstance(written, Given) else None


def _cap(
    table: Given | None, side: tuple[ClusterSpec, ...], middle: ClusterSpec | None, ground: Ground
) -> ClusterSpec | None:
    last = side[-1] if side else middle
    return end_cap(table, last, ground) if table and last else None


def _check_words(table: Given, whole: bool, tied_to: str, faults: FaultList) -> None:
    """Words that go with a whole ring only, or never."""
    if not whole:
        if "count" in table.written:
            what = "'count' goes with a section that fills the whole ring"
            faults.add(table.at("count"), what, "write whole = true, or repeat with times = 3")
        return
    if tied_to == "arc":
        what = "'whole = true' needs a whole ring, and the frame is an arc"
        faults.add(table.at("whole"), what, 'list the clusters, or write kind = "ring" in [frame]')
    for key in ("left", "end_cap"):
        if table.values.get(key):
            what = f"a section that fills the whole ring has no '{key}'"
            faults.add(table.at(key), what, "take it out")


def _check_place(table: Given, at_deg: float, frame: FrameSpec, faults: FaultList) -> None:
    span = frame.end_deg - frame.start_deg
    on_arc = (at_deg - frame.start_deg) % 360 <= span
    if frame.kind != "arc" or on_arc or faults.touches(frame.path, table.at("at")):
        return
    ends = f"from {clock_words(frame.start_deg)} to {clock_words(frame.end_deg)}"
    what = f"{clock_words(at_deg)} o'clock is not on the arc, which runs {ends}"
    middle = clock_words(frame.start_deg + span / 2)
    faults.add(table.at("at"), what, f'write at = "{middle}" for its middle')


def _no_clock(table: Given, at_deg: float, faults: FaultList) -> None:
    if faults.touches(table.at("at"), table.at("on")):
        return
    what = f"the stand's pole has no {clock_words(at_deg)} o'clock"
    instead = 'write how far up from the base plate it is tied, such as at = "4in" or at = "50%"'
    faults.add(table.at("at"), what, instead)


def _check_names(sections: tuple[SectionSpec, ...], faults: FaultList) -> None:
    first: dict[str, KeyPath] = {}
    for section in sections:
        if first.setdefault(section.name, section.path) != section.path:
            path = (*section.path, "name")
            if not faults.touches((*section.path, "at"), path):
                what = f"two sections are called '{section.name}'"
                faults.add(path, what, 'give one of them another name = "..." or another at')
