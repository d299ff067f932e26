"""What is wished of a piece: what may vary, what must be kept to, and what makes it best."""

from __future__ import annotations

import os
from dataclasses import field
from math import degrees
from pathlib import Path
from typing import Literal, cast

from mockup.design.clusters import TURN_WORDS, turn_degrees
from mockup.design.faults import At, FaultList
from mockup.design.lines import key_lines
from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.design.opening import read_text
from mockup.design.reading import design_from_parsed
from mockup.design.syntax import parse
from mockup.design.tables import Given
from mockup.design.wishes_fills import LEAST_STROKES, Fill, stroked, strokes_near
from mockup.design.wishes_keys import WISHES
from mockup.design.wishes_kinds import HALF, NONE
from mockup.errors import Fault, FaultsFound
from mockup.records import dataclass
from mockup.spelling import did_you_mean

Rank = Literal["fullness", "smoothness", "cost", "minutes"]
Cap = Fill | Literal["half"] | None
"""An end cap: its fill, half the last cluster's volume, or none."""

SEEKS_ON = ("ring", "arc")
_STEP = 0.5


@dataclass(frozen=True)
class Wishes:
    """The wishes with every figure filled in; lengths in mm, angles in degrees.

    ``sections`` are the names of those that vary: in one taper, and of one length if ``alike``.
    ``places`` are the sets of angles at
    which they may sit, ``fills`` the fills from the largest down.
    """

    sections: tuple[str, ...]
    fills: tuple[Fill, ...]
    a_side: tuple[int, int]
    turns: tuple[float, ...]
    caps: tuple[Cap, ...]
    places: tuple[tuple[float, ...], ...]
    room: float = 0.0
    rank: Rank = "fullness"
    best: int = 3
    most_step: float | None = None
    most_balloons: int | None = None
    most_cost: float | None = None
    most_minutes: float | None = None
    stock: dict[str, int] = field(default_factory=dict)
    rings: tuple[float, ...] = ()
    alike: bool = True


def read_wishes(path: str | os.PathLike[str]) -> tuple[Design, Wishes]:
    """The piece in a file and its wishes; raises ``FaultsFound`` with every fault.

    A file without ``[wishes]`` wishes for the usual: fullest first, 1 to 4 clusters a side.
    """
    file = Path(path)
    return wishes_from_text(read_text(file), str(file), file.parent)


def wishes_from_text(text: str, file_name: str, folder: Path) -> tuple[Design, Wishes]:
    """The same for a text that need not be saved; ``file_name`` is what faults call it."""
    parsed = parse(text)
    design = design_from_parsed(parsed, key_lines(parsed.text), file_name, folder)
    written = (parsed.data or {}).get("wishes", {})
    table = WISHES.read(written, At(FaultList(), ("wishes",)))
    return design, wishes_for(design, table or Given(("wishes",), {}))


def wishes_for(design: Design, table: Given) -> Wishes:
    """The wishes of a table that was read without a fault, for a design."""
    _check_frame(design)
    faults: list[Fault] = []
    sections = _sections(design, table, faults)
    if faults:
        raise FaultsFound(faults)
    own = [section for section in design.sections if section.name in sections]
    spec = first_cluster(own[0])
    wishes = Wishes(
        sections=sections,
        fills=_fills(design, spec, table, faults),
        a_side=_a_side(design, table, faults),
        turns=_turns(design, own, table),
        caps=_caps(design, own[0], table),
        places=_places(design, own, table, faults),
        room=table.get("room", 0.0),
        rank=cast(Rank, table.get("rank", "fullness")),
        best=table.get("best", 3),
        most_step=table.get("most_step", None),
        most_balloons=table.get("most_balloons", None),
        most_cost=table.get("most_cost", None),
        most_minutes=table.get("most_minutes", None),
        stock=_stock(design, table, faults),
        rings=tuple(table.get("rings", ())),
        alike=table.get("alike", True),
    )
    if faults:
        raise FaultsFound(faults)
    return wishes


def _check_frame(design: Design) -> None:
    """Designs are sought where crescents hang on a round frame; all else is refused."""
    if design.frame.kind not in SEEKS_ON:
        what = (
            f"'mockup suggest' seeks crescents on rings and arcs, and this frame is of kind "
            f"'{design.frame.kind}'"
        )
        instead = (
            'write kind = "ring" or "arc", or list your own versions as [[option]] and lay them '
            "side by side with 'mockup compare'"
        )
        raise FaultsFound([Fault(design.where(("frame", "kind")), what, instead)])


def first_cluster(section: SectionSpec) -> ClusterSpec:
    """The cluster in the middle of a section, or the first beside it."""
    return section.middle or section.right[0]


def _sections(design: Design, table: Given, faults: list[Fault]) -> tuple[str, ...]:
    open_ones = {s.name: s for s in design.sections if not (s.whole or s.on)}
    asked: list[str] = table.get("sections", list(open_ones))
    for name in asked:
        if name not in open_ones:
            what = f"there is no section '{name}' that may vary"
            faults.append(_fault(design, table, "sections", what, did_you_mean(name, open_ones)))
    if not asked and not faults and not design.sections:
        what = "there is no section to vary"
        faults.append(_fault(design, table, "sections", what, "write one or more as [[section]]"))
    elif not asked and not faults:
        what = "there is nothing to vary: every section fills the whole ring"
        faults.append(_fault(design, table, "sections", what, "see 'mockup close'"))
    return tuple(asked)


def _fills(
    design: Design, spec: ClusterSpec, table: Given, faults: list[Fault]
) -> tuple[Fill, ...]:
    written = cast(list[tuple[str, float]] | None, table.values.get("fills"))  # by FillWords
    every = _usual_fills(design, spec) if written is None else [_fill(design, w) for w in written]
    most = design.limits.fill_most * spec.nominal * (1 + 1e-9)
    kept = sorted({fill for fill in every if fill.diameter <= most}, key=lambda f: -f.diameter)
    if not kept:
        what = "every fill turns its balloon pear-shaped, so there is nothing to choose from"
        faults.append(_fault(design, table, "fills", what, "write smaller fills"))
    return tuple(kept)


def _usual_fills(design: Design, spec: ClusterSpec) -> list[Fill]:
    """Half strokes of the pump between the least and the most fill of the balloon."""
    least, most = (
        strokes_near(share * spec.nominal, design.pump)
        for share in (design.limits.fill_least, design.limits.fill_most)
    )
    halves = range(int(-(-max(least, LEAST_STROKES) // _STEP)), int(most // _STEP) + 1)
    usual = [stroked(half * _STEP, design.pump) for half in halves]
    return usual or [Fill(spec.diameter, spec.strokes)]


def _fill(design: Design, written: tuple[str, float]) -> Fill:
    kind, figure = written
    return stroked(figure, design.pump) if kind == "strokes" else Fill(figure)


def _a_side(design: Design, table: Given, faults: list[Fault]) -> tuple[int, int]:
    least, most = table.get("a_side", [1, 4])
    if least > most:
        what = f"'a_side' goes from {least} to {most}, so there is nothing to choose from"
        faults.append(_fault(design, table, "a_side", what, f"write [{most}, {least}]"))
    return least, most


def _turns(design: Design, own: list[SectionSpec], table: Given) -> tuple[float, ...]:
    """The turns asked for, or the one that the file writes, or both of the trade's words."""
    spec = first_cluster(own[0])
    written: list[object] = table.get("turns", [])
    fixed = [first_cluster(section).turn_deg for section in own if _says_turn(design, section)]
    turns = [turn_degrees(one, spec.kind) for one in written]
    usual = [turn_degrees(word, spec.kind) for word in TURN_WORDS]
    return tuple(dict.fromkeys(turn for turn in turns or fixed or usual if turn is not None))


def _says_turn(design: Design, section: SectionSpec) -> bool:
    """Whether the file itself writes how a section is turned; valley in is only the usual."""
    paths = (section.path, first_cluster(section).path)
    return any((*path, "turn") in design.lines for path in paths)


def _caps(design: Design, section: SectionSpec, table: Given) -> tuple[Cap, ...]:
    # Read by FillWords.
    written = cast(list[tuple[str, float] | str] | None, table.values.get("end_caps"))
    if written is None:
        return ("half",) if section.end_right else (None,)
    caps: list[Cap] = []
    for one in written:
        if isinstance(one, str):
            caps.append(None if one == NONE else cast(Cap, HALF))
        else:
            caps.append(_fill(design, one))
    return tuple(dict.fromkeys(caps))


def _places(
    design: Design, sections: list[SectionSpec], table: Given, faults: list[Fault]
) -> tuple[tuple[float, ...], ...]:
    usual = tuple(clock_place(design, section) for section in sections)
    written: list[list[float]] = table.get("places", [])
    for one in written:
        if len(one) != len(sections):
            what = f"a set of places has {len(one)} for {len(sections)} sections that vary"
            form = 'write as many clock positions, such as [["12", "6"], ["3", "9"]]'
            faults.append(_fault(design, table, "places", what, form))
    return tuple(dict.fromkeys(tuple(one) for one in written)) or (usual,)


def clock_place(design: Design, section: SectionSpec) -> float:
    """Where a section sits on a ring or an arc, degrees clockwise from 12, however it was told."""
    frame = design.frame
    ring = frame.kind == "ring"
    start, span = (0.0, 360.0) if ring else (frame.start_deg, frame.end_deg - frame.start_deg)
    if section.at_length is not None:
        return (start + degrees(2 * section.at_length / (frame.outside - frame.tube))) % 360
    if section.at_share is not None:
        return (start + section.at_share * span) % 360
    return section.at_deg


def _stock(design: Design, table: Given, faults: list[Fault]) -> dict[str, int]:
    given = table.table("stock")
    stock = {k: v for k, v in given.values.items() if isinstance(v, int)} if given else {}
    for letter in stock:
        if letter not in design.colours:
            what = f"the letter '{letter}' is not among the colours"
            hint = did_you_mean(letter, design.colours)
            faults.append(_fault(design, table, "stock", what, hint))
    return stock


def _fault(design: Design, table: Given, key: str, what: str, instead: str) -> Fault:
    return Fault(design.where(table.at(key)), what, instead)
