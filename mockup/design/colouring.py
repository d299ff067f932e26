"""From the colours a file names to the colours of the design."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple, cast

from mockup.colour.palettes import Colour, Palette
from mockup.design.faults import FaultList
from mockup.design.model import ColourUse, Colourway, Finish, KeyPath
from mockup.design.tables import Given
from mockup.errors import printable
from mockup.spelling import did_you_mean, plain_form

FOIL_FINISH: Finish = "mirror"


class Shelf(NamedTuple):
    """The palettes to look in; ``chosen`` is the file's own palette, "" for none."""

    palettes: Mapping[str, Palette]
    faults: FaultList
    chosen: str = ""

    def palette(self, name: str, path: KeyPath) -> Palette | None:
        """The palette of that name; an unknown one is a fault that offers the nearest."""
        wanted = plain_form(name)
        for known in self.palettes:
            if plain_form(known) == wanted:
                return self.palettes[known]
        what = f"there is no palette '{printable(name)}'"
        self.faults.add(path, what, did_you_mean(name, self.palettes))
        return None

    def colour(self, name: str, palette: str, path: KeyPath) -> Colour | None:
        """A colour by name, from the palette named or chosen, otherwise from whichever has it."""
        asked = palette or self.chosen
        if asked:
            where = (*path, "palette") if palette else ("palette",)
            found = self.palette(asked, where)
            return self._in_palette(name, found, path) if found else None
        holders = {p.name: c for p in self.palettes.values() if (c := p.find(name))}
        if not holders:
            names = [each for p in self.palettes.values() for each in p.names]
            self._unknown(name, "in any palette", names, path)
            return None
        if len({(c.srgb, c.finish) for c in holders.values()}) > 1:
            what = f"'{printable(name)}' is in several palettes ({', '.join(sorted(holders))})"
            form = f'write {{ colour = "{printable(name)}", palette = "{min(holders)}" }}'
            self.faults.add(path, what, form)
            return None
        return next(iter(holders.values()))

    def _in_palette(self, name: str, palette: Palette, path: KeyPath) -> Colour | None:
        colour = palette.find(name)
        if colour is None:
            self._unknown(name, f"in the palette '{palette.name}'", palette.names, path)
        return colour

    def _unknown(
        self, name: str, where: str, names: tuple[str, ...] | list[str], path: KeyPath
    ) -> None:
        what = f"there is no colour '{printable(name)}' {where}"
        if name.startswith("#"):
            form = f'write {{ name = "our own colour", srgb = "{printable(name)}" }}'
            self.faults.add(path, what, form)
            return
        elsewhere = [p.name for p in self.palettes.values() if p.find(name)]
        hint = did_you_mean(name, names)
        if hint.startswith("known"):
            hint += f'; or write {{ name = "{printable(name)}", srgb = "#886644" }} with its shade'
        if elsewhere:
            hint = f'write {{ colour = "{printable(name)}", palette = "{elsewhere[0]}" }}'
        self.faults.add(path, what, hint)


def colour_uses(table: Given, shelf: Shelf) -> dict[str, ColourUse]:
    """Every letter of a table of colours that names a colour; the others are faults."""
    uses: dict[str, ColourUse] = {}
    for letter, written in table.values.items():
        use = colour_use(letter, written, table.at(letter), shelf)
        if use is not None:
            uses[letter] = use
    return uses


def colour_use(letter: str, written: object, path: KeyPath, shelf: Shelf) -> ColourUse | None:
    """One colour: a palette colour's name, or a table that names or describes one."""
    if isinstance(written, str):
        found = shelf.colour(written, "", path)
        return _use(letter, found, found.finish, path) if found else None
    return _described(letter, written, path, shelf) if isinstance(written, Given) else None


def _described(letter: str, table: Given, path: KeyPath, shelf: Shelf) -> ColourUse | None:
    srgb = table.get("srgb", "")
    if srgb:
        name = table.get("name", "") or srgb.lower()
        own = Colour(name, srgb.lower(), "matte")
    else:
        name = table.get("colour", "")
        if not name and not shelf.faults.touches(path):
            what = f"'{path[-1]}' has neither a palette's colour nor an srgb value"
            form = 'write { colour = "oat" } or { name = "our own red", srgb = "#b3202c" }'
            shelf.faults.add(path, what, form)
        found = shelf.colour(name, table.get("palette", ""), path) if name else None
        if found is None:
            return None
        own = found
    return _use(letter, own, table.get("finish", own.finish), path)


def _use(letter: str, colour: Colour, finish: str, path: KeyPath) -> ColourUse:
    return ColourUse(letter, colour.name, colour.srgb, cast(Finish, finish), path)


def foil(
    written: object, path: KeyPath, letters: Mapping[str, ColourUse], shelf: Shelf, finish: Finish
) -> ColourUse | None:
    """The foil: a letter of the design, or a colour as elsewhere; it shines unless told not to."""
    told = isinstance(written, Given) and "finish" in written.written
    if isinstance(written, str) and len(written) == 1 and written.isupper():
        use = letters.get(written)
        mistaken = any(shelf.faults.touches((each,)) for each in ("colours", "palette"))
        if use is None and not mistaken:
            what = f"the letter '{written}' is not among the colours"
            shelf.faults.add(path, what, did_you_mean(written, letters))
    else:
        use = colour_use("", written, path, shelf)
    if use is None:
        return None
    return replace(use, letter="", path=path, finish=use.finish if told else finish)


def colourways(
    tables: list[Given],
    letters: frozenset[str],
    shelf: Shelf,
    panel: Given | None,
    first_foil: ColourUse | None,
) -> tuple[Colourway, ...]:
    """Every colourway; each must give a colour to every letter of the design and to no other."""
    finish = first_foil.finish if first_foil else FOIL_FINISH
    follows = panel.values.get("colour") if panel else None
    ways: list[Colourway] = []
    for table in tables:
        named = table.table("colours")
        uses = colour_uses(named, shelf) if named else {}
        if named:
            _check_letters(named, letters, shelf.faults)
        name = table.get("name", "")
        if name and name in {way.name for way in ways}:
            shelf.faults.add(table.at("name"), f"two colourways are called '{name}'", "rename one")
        if table.values.get("foil") is not None:
            other = foil(table.values["foil"], table.at("foil"), uses, shelf, finish)
        else:
            other = _same_letter(follows, uses, finish, table.at("foil"))
        ways.append(Colourway(name, uses, other, table.path))
    return tuple(ways)


def _same_letter(
    follows: object, uses: Mapping[str, ColourUse], finish: Finish, path: KeyPath
) -> ColourUse | None:
    """Where the first foil takes a letter's colour, a colourway's foil follows that letter."""
    use = uses.get(follows) if isinstance(follows, str) else None
    return replace(use, letter="", finish=finish, path=path) if use else None


def _check_letters(named: Given, letters: frozenset[str], faults: FaultList) -> None:
    given = frozenset(name.upper() for name in named.written)
    missing = sorted(letters - given)
    if missing:
        said = f"{', '.join(missing)} {'has' if len(missing) == 1 else 'have'} no colour"
        faults.add(named.path, f"{said} in this colourway", "give every letter a colour")
    for letter in sorted(frozenset(named.values) - letters):
        what = f"the letter '{letter}' is not among the design's colours"
        faults.add(named.at(letter), what, f"the design has {', '.join(sorted(letters))}")
