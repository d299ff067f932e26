"""A piece file read into a design, with every fault of it told in one run."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from mockup.design.clusters import Ground, topper_spec
from mockup.design.colouring import Shelf, colour_uses, colourways
from mockup.design.faults import At, FaultList
from mockup.design.fittings import limits, panel_spec, pump, stand_spec
from mockup.design.frame_spec import frame_spec
from mockup.design.garlands import garland_specs
from mockup.design.keys import MIRRORS, PIECE
from mockup.design.lines import key_lines
from mockup.design.model import Design, FrameSpec, KeyPath, Kind, Pump, WallSpec
from mockup.design.opening import read_text
from mockup.design.palette_files import gather_palettes
from mockup.design.sections import section_specs
from mockup.design.studio_usual import USUAL, Usual, usual_for
from mockup.design.syntax import Parsed, by_line, parse
from mockup.design.tables import Given
from mockup.design.wishes_climate import climate_spec
from mockup.errors import Fault, FaultsFound
from mockup.lengths import Unit

_QUAD: Kind = "quad"
_INCHES: Unit = "in"
_FIVE_INCHES = 127.0


def read_design(path: str | os.PathLike[str], usual: Usual | None = None) -> Design:
    """The design in a piece file; its own palettes are looked for beside it.

    ``usual`` is what holds where the file says nothing: by default what the studio book in force
    for its folder says.

    Raises ``FaultsFound`` with every fault, each ``file:line: what is wrong; what to write``.
    """
    file = Path(path)
    return design_from_text(read_text(file), str(file), file.parent, usual)


def design_from_text(
    text: str, file_name: str, folder: Path | None = None, usual: Usual | None = None
) -> Design:
    """The design that a piece file's text describes; ``file_name`` is what faults call it.

    Raises ``FaultsFound`` with every fault.

    >>> piece = 'title = "Ruby"\\ncolours = { A = "oat" }\\n[[section]]\\nat = "12"\\n'
    >>> design_from_text(piece + "clusters = [{ strokes = 3 }]", "ruby.toml").sections[0].name
    'top'
    """
    parsed = parse(text)
    return design_from_parsed(parsed, key_lines(parsed.text), file_name, folder, usual)


def design_from_parsed(
    parsed: Parsed,
    lines: dict[KeyPath, int],
    file_name: str,
    folder: Path | None = None,
    usual: Usual | None = None,
) -> Design:
    """The design in parsed TOML whose key paths stand on ``lines``; raises ``FaultsFound``."""
    faults = FaultList()
    design, others = _design(parsed, faults, folder, usual)
    told = faults.told(lambda path: _line(lines, path), file_name)
    every = [*by_line(parsed, told, file_name), *others]
    if every or design is None:
        raise FaultsFound(every)
    return replace(design, file_name=file_name, lines=lines)


def _line(lines: dict[KeyPath, int], path: KeyPath) -> int:
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 0)


def _design(
    parsed: Parsed, faults: FaultList, folder: Path | None, asked: Usual | None
) -> tuple[Design | None, list[Fault]]:
    if parsed.data is None:
        return None, []
    file = PIECE.read(parsed.data, At(faults, top=frozenset(PIECE.by_name)))
    if file is None:
        return None, []
    palettes, palette_faults = gather_palettes(folder)
    usual, book_faults = _usual(folder, asked)
    shelf = Shelf(palettes, faults, file.get("palette", ""))
    return _built(file, shelf, faults, folder, usual), [*palette_faults, *book_faults]


def _usual(folder: Path | None, asked: Usual | None) -> tuple[Usual, Sequence[Fault]]:
    """What holds where the file says nothing, and what is wrong in the book that says it."""
    if asked is not None or folder is None:
        return asked or USUAL, ()
    try:
        return usual_for(folder), ()
    except FaultsFound as found:
        return USUAL, found.faults


def _built(
    file: Given, shelf: Shelf, faults: FaultList, folder: Path | None, usual: Usual
) -> Design:
    frame = frame_spec(file.table("frame"), faults, folder)
    named = file.table("colours")
    letters = tuple(named.values) if named else ()
    colours = colour_uses(named, shelf) if named else {}
    panel = panel_spec(file.table("panel"), colours, shelf)
    known = frozenset(name.upper() for name in named.written) if named else frozenset()
    ground = _ground(file, letters, known, pump(file.values.get("pump"), usual, faults), faults)
    foil = panel.foil if panel else None
    ways = file.tables("colourway")
    _check_balloons(file, faults)
    _check_stand(file, faults)
    judged = limits(file.table("limits"), usual.limits, faults)
    ground = ground._replace(shown={letter: use.srgb for letter, use in colours.items()})
    wall, frame = _wall(file, frame, judged.squeeze, ground, folder)
    return Design(
        title=file.get("title", ""),
        frame=frame,
        sections=section_specs(file.tables("section"), frame, ground),
        colours=colours,
        client=file.get("client", ""),
        event_date=file.get("date", None),
        venue=file.get("venue", ""),
        unit=ground.unit,
        note=file.get("note", ""),
        outdoors=file.get("outdoors", False),
        overhead=file.get("overhead", False),
        mirror=_mirror(file.values.get("mirror")),
        stand=stand_spec(file.table("stand")),
        panel=panel,
        colourways=colourways(ways, frozenset(letters), shelf, file.table("panel"), foil),
        pump=ground.pump,
        limits=judged,
        climate=climate_spec(file.table("climate")),
        garlands=garland_specs(file.tables("garland"), frame, ground),
        topper=topper_spec(file.table("topper"), ground),
        wall=wall,
    )


def _wall(
    file: Given, frame: FrameSpec, squeeze: float, ground: Ground, folder: Path | None
) -> tuple[WallSpec | None, FrameSpec]:
    """The wall and its frame, where the file has a wall; what makes it up is imported for it."""
    if "wall" not in file.written and frame.kind != "wall":
        return None, frame
    from mockup.design.walls import wall_of

    return wall_of(file, frame, squeeze, ground, folder)


def _check_balloons(file: Given, faults: FaultList) -> None:
    """A piece has sections, or garlands, or both; or it is a wall."""
    has = {"section", "garland", "wall"} & file.written
    if not has and not faults.touches(("section",)):
        faults.add(("section",), "the file has no 'section'", "write [[section]]")


def _check_stand(file: Given, faults: FaultList) -> None:
    """Sections that are tied round the stand's pole need a stand."""
    for table in () if "stand" in file.written else file.tables("section"):
        if table.get("on", "frame") == "stand":
            what = "the section is tied round the stand's pole, and the piece has no stand"
            faults.add(table.at("on"), what, "write [stand] with rise = \"12in\", or take out 'on'")


def _mirror(written: object) -> tuple[str, ...] | None:
    if isinstance(written, bool):
        return MIRRORS if written else ()
    return tuple(str(one) for one in written) if isinstance(written, list) else None


def _ground(
    file: Given, letters: tuple[str, ...], known: frozenset[str], own: Pump, faults: FaultList
) -> Ground:
    return Ground(
        kind=file.get("kind", _QUAD),
        size=file.get("size", _FIVE_INCHES),
        pump=own,
        letters=letters,
        known=known,
        unit=file.get("unit", _INCHES),
        faults=faults,
    )
