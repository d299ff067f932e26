"""Text that is not TOML: what is wrong with it, in plain words, with as many slips as can be told.

The standard reader stops at the first slip. A line ``key = value`` whose value lacks its quotes,
or a key given twice, is mended in memory, so that the lines below it are judged too.
"""

from __future__ import annotations

import re
import tomllib
from typing import NamedTuple

from mockup.design.lines import key_lines
from mockup.design.toml_text import as_toml
from mockup.errors import Fault, printable

MOST_SLIPS = 20
MOST_DEPTH = 20

# Patterns are compiled where a slip needs them: a sound file, and so a start, pays for none.
_PART = r"""(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')"""
_TOO_DEEP = rf"(?<![\w-]){_PART}(?:[ \t]*+\.[ \t]*+{_PART}){{{MOST_DEPTH}}}"
_PLACE = r"(?s)^(.*) \(at (?:line (\d+), column (\d+)|end of document)\)$"
_ASSIGNMENT = r"""^(\s*)([\w.-]+|"[^"]*"|'[^']*')\s*=\s*(.*?)\s*(?:#[^"']*)?$"""
_BARE = r"""[^\s"'\[\]{}#=,][^"'\[\]{}#=]*"""
_COMMA_NUMBER = r"[0-9]+,[0-9]+"
_LONG_NUMBER = r"[0-9][0-9_]{4000}"
_TWICE = r"overwrite|twice|Duplicate|immutable|redefine"
_HEADER = r"\s*\[\[?[\w. -]+\]\]?\s*(?:#.*)?$"
_NEXT_ITEM = rf"""(?!{_HEADER})(?:["'{{\[0-9+-]|[\w-]+\s*[\]}},]|(?:true|false)\b)"""
_NEXT_KEY = r"""[\w"'-]"""
_PLAIN_WORDS: tuple[tuple[str, str, str], ...] = (
    (r"end of the table|table declaration", "a [table] line does not end with ]", ""),
    (r"array declaration", "a [[table]] line does not end with ]]", ""),
    (r"Unclosed array", "a list is not closed", "write ] at its end"),
    (r"Unclosed inline table", "a table in braces is not closed", "write } at its end"),
    (
        r"Unterminated string|Found invalid character '\\n'|Illegal character '\\n'|Expected \"'",
        "a text is not closed",
        'write " at its end',
    ),
    (r"Illegal character|Found invalid character", "holds a control character", "take it out"),
    (r"Unescaped", "a backslash in a text needs another", "write \\\\ for \\"),
    (r"hex value|scalar value", "a \\u in a text is not followed by a character's number", ""),
    (r"date or", "is no day of the calendar", "write a date as 2027-03-14"),
    (r"Expected '='", "is no line of the form key = value", 'write it as title = "..."'),
    (
        r"Invalid initial character|Invalid statement",
        "does not begin with a key",
        'write it as title = "..."; a comment begins with #',
    ),
    (r"Invalid value", "has no value that can be read", "put text and lengths in quotes"),
    (
        r"Expected newline",
        "goes on after its value",
        "put text and lengths in quotes, and each key on a line of its own",
    ),
)


class Slip(NamedTuple):
    """One slip of the TOML on a line; ``mended`` tells whether reading could go on past it.

    ``quoted`` marks a bare value that was read as text: what is said of that value then counts
    for more than the missing quotes.
    """

    line: int
    what: str
    instead: str
    mended: bool = False
    quoted: bool = False


class Parsed(NamedTuple):
    """What the text says; ``data`` is None where a slip could not be read past."""

    data: dict[str, object] | None
    text: str
    slips: list[Slip]

    @property
    def silent_lines(self) -> set[int]:
        """Lines on which further faults would only repeat a slip."""
        return {slip.line for slip in self.slips if not slip.quoted}


def by_line(parsed: Parsed, told: list[tuple[int, Fault]], file_name: str) -> list[Fault]:
    """Slips of the TOML and faults of what it says by line, each line's trouble told once."""
    meant = {line for line, _ in told}
    slips = [
        (slip.line, Fault(f"{file_name}:{slip.line}", slip.what, slip.instead))
        for slip in parsed.slips
        if not (slip.quoted and slip.line in meant)
    ]
    rest = [(line, fault) for line, fault in told if line not in parsed.silent_lines]
    return [fault for _, fault in sorted(slips + rest, key=lambda one: one[0])]


def parse(text: str) -> Parsed:
    """TOML as plain data, with every slip that can be told."""
    slips: list[Slip] = []
    deep = re.search(_TOO_DEEP, text) if _dotted(text) else None
    if deep:
        line = text.count("\n", 0, deep.start()) + 1
        slip = Slip(line, "a key has more dots than a piece file needs", "take them out")
        return Parsed(None, text, [slip])
    while True:
        try:
            return Parsed(tomllib.loads(text), text, slips)
        except tomllib.TOMLDecodeError as trouble:
            slip, text = _mended(text, _judged(text, str(trouble)))
        except RecursionError:
            slip = Slip(1, "lists or tables are nested too deep", "a piece file needs four levels")
        except ValueError:
            slip = _long_number(text)
        stuck = bool(slips) and slip.line <= slips[-1].line
        if not stuck:
            slips.append(slip)
        if stuck or not slip.mended or len(slips) >= MOST_SLIPS:
            return Parsed(None, text, slips)


def _dotted(text: str) -> bool:
    """Whether a line has dots enough for a key that is too deep."""
    return any(line.count(".") >= MOST_DEPTH for line in text.split("\n"))


def _long_number(text: str) -> Slip:
    found = re.search(_LONG_NUMBER, text)
    line = text.count("\n", 0, found.start()) + 1 if found else 1
    return Slip(line, "a number has thousands of digits", "write a number such as 3")


def _judged(text: str, trouble: str) -> Slip:
    found = re.match(_PLACE, trouble)
    message = found[1] if found else trouble
    line = int(found[2]) if found and found[2] else _last_understood(text)
    if re.search(_TWICE, message):
        return _given_twice(text, line, message)
    if found and found[3] and message.startswith("Unclosed"):
        missed = _left_over(text.split("\n")[line - 1][int(found[3]) - 1 :], line, message)
        if missed:
            return missed
    if message == "Invalid value" and _runs_on(text, line, found and found[2]):
        message = "Unclosed array"
    for pattern, what, instead in _PLAIN_WORDS:
        if re.search(pattern, message):
            return Slip(line, what, instead)
    return Slip(line, f"is not TOML: {printable(message, 120)}", "")


def _runs_on(text: str, line: int, placed: str | None) -> bool:
    """Whether a list's next value is wanted where a header stands, or where the file ends."""
    if placed:
        return re.match(_HEADER, text.split("\n")[line - 1]) is not None
    return re.search(r"=\s*\[[^\]]*$", text) is not None


def _left_over(rest: str, line: int, message: str) -> Slip | None:
    """The slip where the ``rest`` of the line is the next item of a list or a table in braces,
    or what is left of a number."""
    if re.match(r"\.\d", rest):
        return Slip(line, "a number has a second point", "write it with one, such as 1.5")
    if re.match(r"\d+/\d+", rest):
        return Slip(line, "a number has a fraction", "write it with a point, such as 2.5")
    if not re.match(_NEXT_ITEM if "array" in message else _NEXT_KEY, rest):
        return None
    return Slip(line, f"has no comma before {printable(rest, 20)}", "write a comma between the two")


def _last_understood(text: str) -> int:
    """The line of the last key before the text runs out unclosed."""
    return max(key_lines(text).values(), default=1)


def _given_twice(text: str, line: int, message: str) -> Slip:
    """A key or table given again: its name, and where it stands first."""
    written = text.split("\n")[line - 1]
    before = key_lines("\n".join(text.split("\n")[: line - 1]))
    header = re.match(r"\s*(\[\[?)\s*([^\]#]*?)\s*\]", written)
    key = re.match(r"""\s*([\w-]+|"[^"]*"|'[^']*')(?=\s*[=.])""", written)
    within = re.search(r"inline table key '(.*)'", message)
    if within:
        return Slip(line, f"'{printable(within[1])}' is given twice in one table", "keep one")
    name = header[2] if header else key[1].strip("\"'") if key else ""
    first = _last_named(before, name.split(".")[-1].strip("\"' ") if header else name)
    called = f"[{printable(name)}]" if header else f"'{printable(name)}'" if name else "a key"
    since = f" (first on line {first})" if first else ""
    several = f", or begin each with [[{name}]]" if header and _may_repeat(name) else ""
    return Slip(line, f"{called} is given twice{since}", f"keep one of them{several}")


def _may_repeat(name: str) -> bool:
    """Whether a piece file may have several tables of that name."""
    from mockup.design.keys import PIECE

    return name in PIECE.by_name and getattr(PIECE.by_name[name].kind, "headed", False)


def _last_named(lines: dict[tuple[str | int, ...], int], name: str) -> int | None:
    return max((at for path, at in lines.items() if path[-1:] == (name,)), default=None)


def _mended(text: str, slip: Slip) -> tuple[Slip, str]:
    """The slip and the text without it, where the slip lies within one ``key = value`` line."""
    lines = text.split("\n")
    found = re.match(_ASSIGNMENT, lines[slip.line - 1]) if slip.line <= len(lines) else None
    if found is None:
        return slip, text
    indent, key, value = found.groups()
    if "given twice" in slip.what:
        lines[slip.line - 1] = "#"
        return Slip(slip.line, slip.what, slip.instead, mended=True), "\n".join(lines)
    simple = re.fullmatch(_BARE, value) is not None and "calendar" not in slip.what
    simple = simple and not slip.what.endswith("not closed")
    lines[slip.line - 1] = f"{indent}{key} = {_as_meant(value)}"
    if simple:
        what = f"'{printable(key)}' has {_trouble(value)}"
        instead = f"write {printable(key)} = {printable(_suggested(value), 60)}"
        return Slip(slip.line, what, instead, mended=True, quoted=True), "\n".join(lines)
    return Slip(slip.line, slip.what, slip.instead, mended=True), "\n".join(lines)


def _as_meant(value: str) -> str:
    """A bare value as it was most likely meant: a flag, a number, or else text."""
    if value.lower() in ("true", "false"):
        return value.lower()
    if re.fullmatch(_COMMA_NUMBER, value):
        return _with_point(value)
    return as_toml(value)


def _suggested(value: str) -> str:
    pointed = _with_point(value)
    return pointed if re.fullmatch(_COMMA_NUMBER, value) else _as_meant(pointed)


def _with_point(value: str) -> str:
    return re.sub(r"(?<=[0-9]),(?=[0-9])", ".", value)


def _trouble(value: str) -> str:
    if value.lower() in ("true", "false"):
        return "a capital letter in true or false"
    pointless = re.fullmatch(_COMMA_NUMBER, value)
    return "a comma for its point" if pointless else "a value without quotes"
