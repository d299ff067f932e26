"""The palettes at hand: those that come with the program, and those beside a piece file."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from mockup.colour.palettes import NotAPalette, Palette, palette_from
from mockup.design.lines import key_lines
from mockup.design.model import KeyPath
from mockup.design.opening import read_text
from mockup.design.syntax import parse
from mockup.errors import Fault, FaultsFound

OWN_ENDING = ".palette.toml"
_PACKAGE = Path(__file__).parent.parent


def shipped_folder(name: str) -> Path:
    """A folder that comes with the program ("palettes", "samples"): in the package once installed,
    at the top of the project while it is worked on.

    >>> shipped_folder("palettes").name
    'palettes'
    """
    installed = _PACKAGE / name
    return installed if installed.is_dir() else _PACKAGE.parent / name


def load_palettes(beside: Path | None = None) -> dict[str, Palette]:
    """Every palette by name; one of the user's own, ``*.palette.toml`` in ``beside``, comes first.

    Raises ``FaultsFound`` with every fault of every palette file.

    >>> load_palettes()["harbour"].find("deep teal").finish
    'gloss'
    """
    palettes, faults = gather_palettes(beside)
    if faults:
        raise FaultsFound(faults)
    return palettes


def gather_palettes(beside: Path | None = None) -> tuple[dict[str, Palette], list[Fault]]:
    """The palettes that can be read, as ``load_palettes``, and the faults of the others."""
    shipped, shipped_faults = _shipped(shipped_folder("palettes"))
    faults = list(shipped_faults)
    own = _read_all(sorted(beside.glob(f"*{OWN_ENDING}")) if beside else [], faults)
    return shipped | own, faults


@cache
def _shipped(folder: Path) -> tuple[dict[str, Palette], tuple[Fault, ...]]:
    """The program's own palettes: they do not change while it runs, and a page reads often."""
    faults: list[Fault] = []
    return _read_all(sorted(folder.glob("*.toml")), faults), tuple(faults)


def _read_all(files: list[Path], faults: list[Fault]) -> dict[str, Palette]:
    palettes: dict[str, Palette] = {}
    first: dict[str, Path] = {}
    for path in files:
        try:
            palette = read_palette(path)
        except FaultsFound as found:
            faults.extend(found.faults)
            continue
        if first.setdefault(palette.name, path) != path:
            what = f"'{palette.name}' is the name of {first[palette.name].name} too"
            faults.append(Fault(f"{path}:1", what, "give this palette another name"))
        palettes[palette.name] = palette
    return palettes


def read_palette(path: Path) -> Palette:
    """One palette file; raises ``FaultsFound`` with every fault and its line."""
    parsed = parse(read_text(path))
    faults = [Fault(f"{path}:{slip.line}", slip.what, slip.instead) for slip in parsed.slips]
    if parsed.data is not None and not faults:
        try:
            return palette_from(parsed.data)
        except NotAPalette as trouble:
            lines = key_lines(parsed.text)
            placed = sorted(
                ((_line(lines, each.path), each) for each in trouble.problems),
                key=lambda one: one[0],
            )
            faults = [Fault(f"{path}:{line}", each.what, each.instead) for line, each in placed]
    raise FaultsFound(faults)


def _line(lines: dict[KeyPath, int], path: KeyPath) -> int:
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 1)
