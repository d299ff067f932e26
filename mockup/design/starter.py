"""A first piece file: short, commented, right as it stands, and good to look at."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import suppress
from math import floor, hypot, pi

from mockup.design.faults import At, FaultList
from mockup.design.frame_keys import FRAME
from mockup.design.keys import INCH, PANEL, PIECE
from mockup.design.starter_frames import Beginning
from mockup.design.tables import Table
from mockup.design.toml_text import as_toml
from mockup.errors import Fault, FaultsFound, printable
from mockup.lengths import NotALength, Unit, format_length, parse_length, written_length

_LONGEST_NAME = 60
_RESERVED = {"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in range(1, 10))}

# Round figures of the pieces this starts: a 5 in balloon at 2-3 strokes of the usual pump.
_DEEPEST, _PITCH, _ENDS = 4.5 * INCH, 2.57 * INCH, 4.7 * INCH
_CRESCENT = 0.11  # half a crescent as a share of the ring's round
_DIGIT_WIDTH, _FILLED, _EASE = 0.64, 0.88, 0.85

_HEAD = """\
# 'mockup check FILE' says whether it holds, 'mockup proof FILE' draws it.
title = {title}
client = ""
{unit}palette = "harbour"            # 'mockup palettes' shows them all
"""

_RING = """\
frame = {{ outside = {ring} }}
stand = {{ rise = "12in" }}
colours = {{ A = "night tide", B = "oat", C = "brass" }}

[[section]]                    # clusters from the middle outward, the same on both sides
at = "12"                      # where its middle is, on the clock
clusters = [{{ strokes = 3 }}, {{ strokes = 2, times = {times} }}]
end_cap = {{ strokes = 1, colours = "C" }}

[[section]]
at = "6"
clusters = [{{ strokes = 3 }}, {{ strokes = 2, times = {times} }}]
end_cap = {{ strokes = 1, colours = "C" }}

[panel]
numerals = {numerals}
height = {height}                # flat height, as the foil is named
colour = "C"
"""


def starter_text(title: str, *, ring: str = "30in", numerals: str = "30", unit: Unit = "in") -> str:
    """The text of a first piece file for a ring of that size with those numerals.

    Raises ``FaultsFound`` for a title, a ring or numerals that a piece file cannot have.

    >>> starter_text("Ruby").splitlines()[1]
    'title = "Ruby"'
    """
    _refuse({"NAME": (PIECE, "title", title), "--ring": (FRAME, "outside", ring),
             "--numerals": (PANEL, "numerals", numerals)})  # fmt: skip
    outside = parse_length(ring)
    return _head(title, unit) + _RING.format(
        ring=as_toml(ring),
        numerals=as_toml(numerals),
        times=max(1, round((_CRESCENT * pi * outside - _ENDS) / _PITCH)),
        height=as_toml(_round_height(_numeral_height(outside, len(numerals)), unit)),
    )


def begun_text(
    title: str, begin: Beginning, *, size: str, numerals: str = "", unit: Unit = "in"
) -> str:
    """The text of a first piece file on another frame than a ring, its one measure given.

    Raises ``FaultsFound`` for a title, a size or numerals that such a file cannot have.

    >>> from mockup.design.starter_frames import BEGINNINGS
    >>> begun_text("Fair", BEGINNINGS["arch"], size="8ft").splitlines()[5]
    'frame = { kind = "arch", width = "8ft", height = "86in", tube = "3/4in" }'
    """
    told = {"NAME": (PIECE, "title", title), f"--{begin.name}": (FRAME, begin.key, size)}
    if numerals:
        told["--numerals"] = (PANEL, "numerals", numerals)
    _refuse(told, _unfit(begin, size, numerals, unit))
    second = begin.share * parse_length(size)
    return _head(title, unit) + begin.text.format(
        size=as_toml(size),
        second=as_toml(_second(second, unit)),
        numerals=as_toml(numerals or begin.numerals),
    )


def _unfit(begin: Beginning, size: str, numerals: str, unit: Unit) -> Iterator[Fault]:
    """What the file could hold, and this beginning cannot."""
    a_frame = f"{'an' if begin.name[0] in 'aeiou' else 'a'} {begin.name}"
    with suppress(NotALength):
        mm = parse_length(size)
        if not begin.least <= mm <= begin.most:
            what = f"'{printable(size)}' is no size to begin {a_frame} with"
            least, most = (format_length(each, unit) for each in (begin.least, begin.most))
            yield Fault(f"--{begin.name}", what, f"write from {least} to {most}")
    if numerals and not begin.numerals:
        yield Fault(
            "--numerals",
            f"{a_frame} has no numerals inside",
            "leave --numerals out, or begin with --ring or --garland",
        )


def _second(mm: float, unit: Unit) -> str:
    """A measure in whole inches or centimetres, a small one in halves."""
    step = (10.0 if unit == "cm" else INCH) / (2 if mm < 10 * INCH else 1)
    return written_length(floor(mm / step) * step, unit)


def _head(title: str, unit: Unit) -> str:
    return _HEAD.format(title=as_toml(title.strip()), unit='unit = "cm"\n' if unit == "cm" else "")


def _refuse(words: dict[str, tuple[Table, str, str]], others: Iterable[Fault] = ()) -> None:
    told: list[Fault] = []
    for where, (table, key, written) in words.items():
        faults = FaultList()
        of = table.by_name[key]
        of.kind.read(written, At(faults, (key, 0), of.right_value()))
        told += [Fault(where, what, instead) for (_, what), instead in faults.found.items()]
    named = {fault.where for fault in told}
    told += [fault for fault in others if fault.where not in named]
    if told:
        raise FaultsFound(told)


def _numeral_height(outside: float, count: int) -> float:
    """Flat height, mm, of a row that clears two crescents and the ring with ease."""
    corner = outside / hypot(1.0, _DIGIT_WIDTH * count)
    between = outside - 2 * _DEEPEST
    return _EASE * max(min(corner, between), outside / 4) / _FILLED


def _round_height(mm: float, unit: Unit) -> str:
    step = 10.0 if unit == "cm" else INCH
    return f"{max(2, floor(mm / step))}{unit}"


def starter_name(title: str) -> str:
    """The file name of a piece of that title.

    >>> starter_name("Ruby turns thirty"), starter_name("Zoë & Łukasz")
    ('ruby-turns-thirty.toml', 'zoe-ukasz.toml')
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    plain = plain.removesuffix(".toml")
    name = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST_NAME].strip("-") or "piece"
    return f"{name}-piece.toml" if name in _RESERVED else f"{name}.toml"
