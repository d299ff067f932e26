"""A palette: a name, a line on what it suits, and its colours, each with a suggested finish."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mockup.colour.srgb import NotAColour, parse_hex
from mockup.errors import MockupError
from mockup.records import dataclass
from mockup.spelling import did_you_mean, plain_form

FINISHES: tuple[str, ...] = ("matte", "gloss", "pearl", "mirror", "clear")
_PALETTE_KEYS = ("name", "says", "colour")
_COLOUR_KEYS = ("name", "srgb", "finish")
_MOST_COLOURS = 100
_LONGEST = 80

KeyPath = tuple[str | int, ...]


@dataclass(frozen=True)
class Colour:
    """One colour: a plain name, ``#rrggbb`` in lower case, and the finish it is meant for."""

    name: str
    srgb: str
    finish: str


@dataclass(frozen=True)
class Palette:
    """Colours that go together; ``says`` is one line on what they suit."""

    name: str
    says: str
    colours: tuple[Colour, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its colours, in order."""
        return tuple(colour.name for colour in self.colours)

    def find(self, name: str) -> Colour | None:
        """The colour of that name (case, blanks and hyphens do not matter), or None.

        >>> Palette("p", "", (Colour("deep teal", "#1f6f74", "gloss"),)).find("Deep-Teal").srgb
        '#1f6f74'
        """
        wanted = plain_form(name)
        return next((each for each in self.colours if plain_form(each.name) == wanted), None)


@dataclass(frozen=True)
class PaletteProblem:
    """One thing wrong in a palette: the key path to it, what it is, what to write instead."""

    path: KeyPath
    what: str
    instead: str = ""

    def __str__(self) -> str:
        return f"{self.what}; {self.instead}" if self.instead else self.what


class NotAPalette(MockupError):
    """Everything wrong with one palette; ``problems`` keep the key path of each."""

    def __init__(self, problems: list[PaletteProblem]) -> None:
        self.problems: tuple[PaletteProblem, ...] = tuple(problems)
        super().__init__("\n".join(str(each) for each in problems))


def palette_from(mapping: Mapping[str, object]) -> Palette:
    """A palette from what a palette file says; raises ``NotAPalette`` with all its problems.

    >>> row = {"name": "oat", "srgb": "#EFE3C8", "finish": "matte"}
    >>> palette_from({"name": "plain", "says": "a quiet table", "colour": [row]}).colours[0].srgb
    '#efe3c8'
    """
    problems: list[PaletteProblem] = [
        *_unknown_keys(mapping, _PALETTE_KEYS, ()),
        *_text_problems(mapping, "name", (), "the palette"),
        *_text_problems(mapping, "says", (), "the palette"),
    ]
    rows = _rows(mapping, problems)
    for number, row in enumerate(rows):
        problems.extend(_colour_problems(row, ("colour", number)))
    problems.extend(_repeated(rows))
    if problems:
        raise NotAPalette(problems)
    colours = tuple(_colour(row) for row in rows)
    return Palette(str(mapping["name"]), str(mapping["says"]), colours)


def _colour(row: Mapping[str, object]) -> Colour:
    return Colour(str(row["name"]), str(row["srgb"]).lower(), str(row.get("finish", "matte")))


def _rows(
    mapping: Mapping[str, object], problems: list[PaletteProblem]
) -> list[Mapping[str, object]]:
    found = mapping.get("colour")
    if not isinstance(found, list) or not found:
        shown = "begin each one with [[colour]]"
        problems.append(PaletteProblem(("colour",), "the palette has no colours", shown))
        return []
    if len(found) > _MOST_COLOURS:
        what = f"the palette has {len(found)} colours"
        problems.append(PaletteProblem(("colour",), what, f"keep to {_MOST_COLOURS} at most"))
        return []
    return [row if isinstance(row, Mapping) else {} for row in found]


def _unknown_keys(
    mapping: Mapping[str, object], known: tuple[str, ...], path: KeyPath
) -> Iterator[PaletteProblem]:
    for key in mapping:
        if key not in known:
            what = f"'{key[:_LONGEST]}' is not a key of a palette"
            yield PaletteProblem((*path, key), what, did_you_mean(key, known))


def _text_problems(
    mapping: Mapping[str, object], key: str, path: KeyPath, whose: str
) -> Iterator[PaletteProblem]:
    if key not in mapping:
        yield PaletteProblem(path, f"{whose} has no {key}", f'add {key} = "..."')
        return
    text = mapping[key]
    where = (*path, key)
    if not isinstance(text, str) or not text.strip():
        yield PaletteProblem(where, f"the {key} of {whose} is not text", "write words in quotes")
    elif not text.isprintable() or text != text.strip():
        what = f"the {key} of {whose} has blanks round it or signs that do not print"
        yield PaletteProblem(where, what, "write plain words on one line")
    elif len(text) > _LONGEST:
        what = f"the {key} of {whose} is {len(text)} letters long"
        yield PaletteProblem(where, what, f"keep to {_LONGEST} at most")


def _colour_problems(row: Mapping[str, object], path: KeyPath) -> Iterator[PaletteProblem]:
    whose = f"colour {int(path[-1]) + 1}"
    yield from _unknown_keys(row, _COLOUR_KEYS, path)
    yield from _text_problems(row, "name", path, whose)
    yield from _srgb_problems(row, path, whose)
    finish = row.get("finish", "matte")
    if finish not in FINISHES:
        what = f"the finish of {whose}, '{str(finish)[:_LONGEST]}', is not known"
        yield PaletteProblem((*path, "finish"), what, did_you_mean(str(finish), FINISHES))


def _srgb_problems(
    row: Mapping[str, object], path: KeyPath, whose: str
) -> Iterator[PaletteProblem]:
    if "srgb" not in row:
        yield PaletteProblem(path, f"{whose} has no srgb", 'add srgb = "#rrggbb"')
        return
    try:
        parse_hex(str(row["srgb"]))
    except NotAColour as fault:
        where = (*path, "srgb")
        yield PaletteProblem(where, f"the srgb of {whose}: {fault.what}", fault.instead)


def _repeated(rows: list[Mapping[str, object]]) -> Iterator[PaletteProblem]:
    first: dict[str, int] = {}
    for number, row in enumerate(rows):
        name = plain_form(str(row.get("name", "")))
        if name and first.setdefault(name, number) != number:
            what = f"colour {number + 1} bears the name of colour {first[name] + 1}, '{name}'"
            path = ("colour", number, "name")
            yield PaletteProblem(path, what[:200], "give each colour a name of its own")
