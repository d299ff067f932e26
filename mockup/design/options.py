"""The options of a piece file: each is the file with some of its keys in other words."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import replace
from pathlib import Path
from typing import Any

from mockup.design.keys import SECTION
from mockup.design.lines import key_lines
from mockup.design.model import Colourway, Design, KeyPath
from mockup.design.opening import read_text
from mockup.design.options_keys import ALL, NAME, SECTIONS, WAY
from mockup.design.options_taper import retapered
from mockup.design.reading import design_from_parsed
from mockup.design.syntax import Parsed, parse
from mockup.errors import Fault, FaultsFound, printable
from mockup.records import dataclass
from mockup.spelling import did_you_mean

AS_IT_IS = "as it is"
_OWN = {NAME, WAY, SECTIONS}
_NOT_IN_AN_OPTION = ("option", "wishes", "colours")


@dataclass(frozen=True)
class Option:
    """One version of a piece: its name, and the whole design it makes."""

    name: str
    design: Design


@dataclass(frozen=True)
class _Source:
    """The file that is patched: its text's data and lines, and the design it makes by itself."""

    data: Mapping[str, Any]
    lines: dict[KeyPath, int]
    base: Design
    folder: Path


def read_options(path: str | os.PathLike[str]) -> tuple[Option, ...]:
    """The piece as it is and each option of its file; raises ``FaultsFound`` with every fault.

    A patch is told at the option's own line: "ruby.toml:40: the frame has no key 'outsid'; ...".
    """
    file = Path(path)
    return options_from_text(read_text(file), str(file), file.parent)


def options_from_text(text: str, file_name: str, folder: Path) -> tuple[Option, ...]:
    """The same for a text that need not be saved; ``file_name`` is what faults call it."""
    parsed = parse(text)
    lines = key_lines(parsed.text)
    base = design_from_parsed(parsed, lines, file_name, folder)
    source = _Source(parsed.data or {}, lines, base, folder)
    options = [Option(AS_IT_IS, base)]
    faults: list[Fault] = []
    for number, patch in enumerate(source.data.get("option", [])):
        try:
            options.append(_option(source, number, patch, {one.name for one in options}))
        except FaultsFound as found:
            faults += found.faults
    if faults:
        raise FaultsFound(dict.fromkeys(faults))
    return tuple(options)


def _option(source: _Source, number: int, patch: Mapping[str, Any], taken: set[str]) -> Option:
    name = str(patch[NAME]).strip()
    _check(source, number, patch, name, taken)
    data = {k: deepcopy(v) for k, v in source.data.items() if k not in ("option", "wishes")}
    lines = dict(source.lines)
    own = {key: value for key, value in patch.items() if key not in _OWN}
    _merge(data, own, (), ("option", number), lines)
    for index, section in _sections(source, number, patch):
        _patch_section(source, data, index, section)
        from_path: KeyPath = ("option", number, SECTIONS)
        lines.update(_moved(lines, from_path, (SECTIONS, index)))
    parsed = Parsed(data, "", [])
    design = design_from_parsed(parsed, lines, source.base.file_name, source.folder)
    return Option(name, _recoloured(source, design, number, patch.get(WAY)))


def _merge(
    data: dict[str, Any],
    patch: Mapping[str, Any],
    at: KeyPath,
    told_at: KeyPath,
    lines: dict[KeyPath, int],
) -> None:
    """Lay ``patch`` over ``data``: tables key by key, all else replaced, with the patch's lines."""
    for key, value in patch.items():
        here, there = (*at, key), (*told_at, key)
        lines[here] = _nearest(lines, there)
        if isinstance(value, Mapping) and isinstance(data.get(key), dict):
            _merge(data[key], value, here, there, lines)
        else:
            data[key] = deepcopy(value)


def _nearest(lines: Mapping[KeyPath, int], path: KeyPath) -> int:
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 1)


def _moved(lines: Mapping[KeyPath, int], old: KeyPath, new: KeyPath) -> dict[KeyPath, int]:
    """Where a section's patched keys stand: at the option's lines."""
    found: dict[KeyPath, int] = {}
    for path, line in lines.items():
        if path[: len(old)] == old and len(path) > len(old) + 1:
            found[(*new, *path[len(old) + 1 :])] = line
    return found


def _sections(
    source: _Source, number: int, patch: Mapping[str, Any]
) -> Iterator[tuple[int, Mapping[str, Any]]]:
    """Each section that the option patches, by its place in the file."""
    patches = patch.get(SECTIONS, {})
    if not isinstance(patches, Mapping) or not all(
        isinstance(p, Mapping) for p in patches.values()
    ):
        form = "write section.top.taper, or section.all.taper for every one"
        raise FaultsFound([_fault(source, number, (SECTIONS,), "sections go by name", form)])
    names = [section.name for section in source.base.sections]
    for name, section in patches.items():
        if name != ALL and name not in names:
            what = f"there is no section '{printable(name)}'"
            hint = did_you_mean(name, [*names, ALL])
            raise FaultsFound([_fault(source, number, (SECTIONS, name), what, hint)])
        yield from ((i, section) for i, own in enumerate(names) if name in (own, ALL))


def _patch_section(
    source: _Source, data: dict[str, Any], index: int, patch: Mapping[str, Any]
) -> None:
    section = data[SECTIONS][index]
    for one, other in SECTION.apart:
        for new, old in ((one, other), (other, one)):
            if new in patch and old not in patch and new != "taper":
                section.pop(old, None)
    section.update(deepcopy(dict(patch)))
    if "taper" in patch and "clusters" in section:
        retapered(section, source.base, index)


def _recoloured(source: _Source, design: Design, number: int, way: object) -> Design:
    if way is None:
        return design
    names = {one.name: one for one in design.colourways}
    if not isinstance(way, str) or way not in names:
        what = f"there is no colourway '{printable(str(way))}'"
        hint = did_you_mean(str(way), names) if names else "list it under [[colourway]]"
        raise FaultsFound([_fault(source, number, (WAY,), what, hint)])
    return in_colourway(design, names[way])


def in_colourway(design: Design, way: Colourway) -> Design:
    """The design in the colours of one of its colourways."""
    panel = design.panel
    if panel and way.foil:
        panel = replace(panel, foil=way.foil)
    return replace(design, colours=way.colours, panel=panel)


def _check(
    source: _Source, number: int, patch: Mapping[str, Any], name: str, taken: set[str]
) -> None:
    faults = []
    if name in taken:
        faults.append(_fault(source, number, (NAME,), f"two options are called '{name}'", "rename"))
    if set(patch) <= {NAME}:
        what = f"option '{name}' changes nothing"
        faults.append(_fault(source, number, (), what, 'write such as frame.outside = "26in"'))
    for key in _NOT_IN_AN_OPTION:
        if key in patch:
            hint = 'name a colourway = "..."' if key == "colours" else "take it out"
            faults.append(_fault(source, number, (key,), f"an option has no '{key}'", hint))
    if faults:
        raise FaultsFound(faults)


def _fault(source: _Source, number: int, path: KeyPath, what: str, instead: str) -> Fault:
    return Fault(source.base.where(("option", number, *path)), what, instead)
