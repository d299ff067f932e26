"""From what a section and its clusters say to clusters with every figure filled in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple, cast

from mockup.design.faults import FaultList
from mockup.design.model import KIND_COUNTS, ClusterSpec, KeyPath, Kind, Pump
from mockup.design.tables import Given
from mockup.lengths import Unit, format_length
from mockup.packing.inflation import diameter_for_strokes, fill_share
from mockup.symmetry.patterns import PATTERNS

TURN_WORDS = ("valley in", "point in")
USUAL_FILL = 0.85
"""Share of the nominal size a balloon is filled to where a file does not say (common practice:
5 in balloons to 4-4.5 in, 11-12 in to 9-10.5 in, no source)."""

LEAST_FILL, MOST_FILL = 0.10, 1.30
_HAIR = 1e-9
END_CAP_VOLUME = 0.5


class Ground(NamedTuple):
    """What holds for the whole file, for clusters that do not say it themselves.

    ``letters`` are those of the colours in order; ``known`` are all that were meant to be one,
    and none where the file's colours could not be read.
    """

    kind: Kind
    size: float
    pump: Pump
    letters: tuple[str, ...]
    known: frozenset[str]
    unit: Unit
    faults: FaultList
    shown: Mapping[str, str] = MappingProxyType({})
    """The sRGB of every letter that names a colour."""


class Filled(NamedTuple):
    """How far a cluster's balloons are filled: diameter in mm, strokes where these were given."""

    diameter: float
    strokes: float | None
    path: KeyPath


def cluster_spec(table: Given, section: Given, step: int, ground: Ground) -> ClusterSpec:
    """One cluster, ``step`` places from the middle; what it leaves out its section says."""
    kind = cast(Kind, _said("kind", table, section)[0] or ground.kind)
    nominal = cast(float, _said("size", table, section)[0] or ground.size)
    filled = _filled(table, section, nominal, ground)
    check_fill(filled, nominal, ground)
    return ClusterSpec(
        kind=kind,
        nominal=nominal,
        diameter=filled.diameter,
        strokes=filled.strokes,
        letters=_letters(kind, _said("colours", table, section), step, ground),
        turn_deg=turn_degrees(table.values.get("turn"), kind),
        path=table.path,
        by_pattern=_by_pattern(table, section),
        double=_double(table.table("double"), kind, nominal, ground),
    )


def _double(
    table: Given | None, kind: Kind, outer_nominal: float, ground: Ground
) -> ClusterSpec | None:
    """The second ring of a doubled cluster: as many balloons, half as large unless it says so."""
    if table is None:
        return None
    nominal = table.get("size", outer_nominal / 2)
    filled = _filled(table, table, nominal, ground)
    check_fill(filled, nominal, ground)
    letters = _letters(kind, (table.values.get("colours"), table.at("colours")), 0, ground)
    return ClusterSpec(kind, nominal, filled.diameter, filled.strokes, letters, path=table.path)


def topper_spec(table: Given | None, ground: Ground) -> ClusterSpec | None:
    """The large balloon on top, where there is one; of the first colour unless it says so."""
    nominal = table.get("size", 0.0) if table else 0.0
    if table is None or not nominal:  # a size that is none has been told of already
        return None
    filled = _filled(table, table, nominal, ground)
    check_fill(filled, nominal, ground)
    letters = _letters("single", (table.values.get("colours"), table.at("colours")), 0, ground)
    return ClusterSpec("single", nominal, filled.diameter, filled.strokes, letters, path=table.path)


def _by_pattern(table: Given, section: Given) -> bool:
    """Whether the section's pattern colours a cluster: where neither of them names colours."""
    patterned = section.get("pattern", "alternate") in PATTERNS
    return patterned and _said("colours", table, section)[0] is None


def _said(key: str, table: Given, section: Given) -> tuple[object, KeyPath]:
    """The value of a key and where it stands: in the cluster itself, or in its section."""
    holder = table if table.values.get(key) is not None else section
    return holder.values.get(key), holder.at(key)


def _filled(table: Given, section: Given, nominal: float, ground: Ground) -> Filled:
    for holder in (table, section):
        strokes: float | None = holder.get("strokes", None)
        fill: float | None = holder.get("fill", None)
        if strokes is not None:
            return Filled(diameter_of(strokes, ground.pump), strokes, holder.at("strokes"))
        if fill is not None:
            return Filled(fill, None, holder.at("fill"))
    return Filled(USUAL_FILL * nominal, None, table.path)


def filled_of(table: Given, nominal: float, ground: Ground) -> Filled:
    """How far a table says its balloons are filled, or the usual fill of their size."""
    return _filled(table, table, nominal, ground)


def diameter_of(strokes: float, pump: Pump) -> float:
    """The diameter in mm that so many strokes of the pump give."""
    return diameter_for_strokes(strokes, ref_strokes=pump.strokes, ref_diameter=pump.gives)


def check_fill(filled: Filled, nominal: float, ground: Ground) -> None:
    """A fault for balloons filled far too much or too little for their size."""
    share = fill_share(filled.diameter, nominal)
    if LEAST_FILL - _HAIR <= share <= MOST_FILL + _HAIR:
        return
    gives, size = (format_length(mm, ground.unit) for mm in (filled.diameter, nominal))
    said = f"{filled.strokes:g} strokes fill to {gives}" if filled.strokes else f"a fill of {gives}"
    too, instead = ("much", "less") if share > MOST_FILL else ("little", "more")
    what = f"{said}, far too {too} for a balloon of nominal size {size}"
    ground.faults.add(filled.path, what, f"fill it {instead}, or take another size")


def _letters(kind: str, said: tuple[object, KeyPath], step: int, ground: Ground) -> str:
    count = KIND_COUNTS[kind]
    written, path = said
    if not isinstance(written, str):
        return usual_letters(count, step, ground.letters)
    _check_known(written, path, ground)
    if count % len(written):
        what = f"'{written}' has {len(written)} letters for a {kind}"
        ground.faults.add(path, what, letters_needed(kind))
    return repeated(written, count)


def _check_known(written: str, path: KeyPath, ground: Ground) -> None:
    unknown = sorted(set(written) - ground.known)
    if not unknown or not ground.known:
        return
    named = " and ".join(f"'{letter}'" for letter in unknown)
    within = f" in '{written}'" if len(written) > 1 else ""
    what = f"{named}{within} {'is' if len(unknown) == 1 else 'are'} not among the colours"
    instead = f"add {unknown[0]} to [colours], or use {', '.join(ground.letters)}"
    ground.faults.add(path, what, instead)


def repeated(letters: str, count: int) -> str:
    """Letters repeated to one a balloon.

    >>> repeated("AB", 4), repeated("A", 3)
    ('ABAB', 'AAA')
    """
    return (letters * count)[:count]


def letters_needed(kind: str) -> str:
    """How many letters suit a kind of cluster.

    >>> letters_needed("quad")
    'a quad takes 4 letters, or 1 or 2 that repeat'
    >>> letters_needed("single")
    'a single takes 1 letter'
    """
    count = KIND_COUNTS[kind]
    fewer = [str(n) for n in range(1, count) if count % n == 0]
    plural = "" if count == 1 else "s"
    repeat = f", or {' or '.join(fewer)} that repeat{'s' if len(fewer) == 1 else ''}"
    return f"a {kind} takes {count} letter{plural}{repeat if fewer else ''}"


def usual_letters(count: int, step: int, letters: tuple[str, ...]) -> str:
    """The colours of a cluster that names none: the first two letters in turn round it.

    An odd number cannot alternate round its knot, so there each cluster is of one colour and the
    colours alternate from cluster to cluster.

    >>> usual_letters(4, 0, ("A", "B")), usual_letters(3, 1, ("A", "B"))
    ('ABAB', 'BBB')
    """
    two = (letters[:2] or ("A",)) * 2
    return repeated(two[step % 2], count) if count % 2 else repeated(two[0] + two[1], count)


def turn_degrees(written: object, kind: str) -> float | None:
    """The turn of a cluster in degrees; None where nothing is written.

    >>> turn_degrees("valley in", "quad"), turn_degrees(-30, "quad")
    (45.0, 330.0)
    """
    if isinstance(written, str):
        from mockup.packing.clusters import turn_for  # brings numpy, which a faulty file need not

        return turn_for(written, KIND_COUNTS[kind])
    return float(written) % 360 if isinstance(written, int | float) else None


def turn_words(turn_deg: float, kind: str) -> str:
    """A turn by its word where it has one, else in degrees.

    >>> turn_words(45.0, "quad"), turn_words(0.0, "quad"), turn_words(20.0, "quad")
    ('valley in', 'point in', '20 degrees')
    """
    named = [word for word in TURN_WORDS if turn_degrees(word, kind) == turn_deg]
    return named[0] if named else f"{turn_deg:g} degrees"


def end_cap(table: Given, last: ClusterSpec, ground: Ground) -> ClusterSpec:
    """The cap beside a side's last cluster: half its strokes, or half its volume, in its colour."""
    kind = cast(Kind, table.get("kind", "pair"))
    nominal = table.get("size", last.nominal)
    filled = _cap_filled(table, last, ground)
    check_fill(filled, nominal, ground)
    written, path = table.values.get("colours"), table.at("colours")
    letters = (
        _letters(kind, (written, path), 0, ground)
        if written is not None
        else repeated(last.letters[0], KIND_COUNTS[kind])
    )
    turn = turn_degrees(table.values.get("turn"), kind)
    return ClusterSpec(
        kind, nominal, filled.diameter, filled.strokes, letters, turn, path=table.path
    )


def _cap_filled(table: Given, last: ClusterSpec, ground: Ground) -> Filled:
    strokes: float | None = table.get("strokes", None)
    fill: float | None = table.get("fill", None)
    if fill is not None:
        return Filled(fill, None, table.at("fill"))
    if strokes is None and last.strokes is not None:
        strokes = last.strokes * END_CAP_VOLUME
    if strokes is not None:
        return Filled(diameter_of(strokes, ground.pump), strokes, table.at("strokes"))
    return Filled(last.diameter * END_CAP_VOLUME ** (1 / 3), None, table.path)
