"""The palettes at hand: those that come with the program, and those beside a piece file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
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


def load_palettes(beside: Path | None = None) -> Mapping[str, Palette]:
    """Every palette by name; one of the user's own, ``*.palette.toml`` in ``beside``, comes first.

    Raises ``FaultsFound`` with every fault of every palette file of the user's.

    >>> load_palettes()["harbour"].find("deep teal").finish
    'gloss'
    """
    palettes, faults = gather_palettes(beside)
    if faults:
        raise FaultsFound(faults)
    return palettes


def gather_palettes(beside: Path | None = None) -> tuple[Mapping[str, Palette], list[Fault]]:
    """The palettes that can be read, as ``load_palettes``, and the faults of the others."""
    faults: list[Fault] = []
    own = _read_all(sorted(beside.glob(f"*{OWN_ENDING}")) if beside else [], faults)
    shipped = _shipped(shipped_folder("palettes"))
    return (_Shelves(own, shipped) if own else shipped), faults


class _Shipped(Mapping[str, Palette]):
    """The program's own palettes, each read when it is first asked for.

    Most pieces use one of them, and reading all takes longer than reading the piece. A file is
    named after its palette ("gala-night.toml"), which a test keeps so.
    """

    def __init__(self, folder: Path) -> None:
        files = sorted(folder.glob("*.toml"))
        self._files = {file.stem.replace("-", " "): file for file in files}
        self._read: dict[str, Palette] = {}

    def __getitem__(self, name: str) -> Palette:
        if name not in self._read:
            self._read[name] = read_palette(self._files[name])
        return self._read[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)


class _Shelves(Mapping[str, Palette]):
    """The user's own palettes before the program's."""

    def __init__(self, own: dict[str, Palette], shipped: Mapping[str, Palette]) -> None:
        self._own, self._shipped = own, shipped

    def __getitem__(self, name: str) -> Palette:
        return self._own[name] if name in self._own else self._shipped[name]

    def __iter__(self) -> Iterator[str]:
        return iter(dict.fromkeys([*self._shipped, *self._own]))

    def __len__(self) -> int:
        return len(set(self))


@cache
def _shipped(folder: Path) -> _Shipped:
    """They do not change while the program runs, and a page reads often."""
    return _Shipped(folder)


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
