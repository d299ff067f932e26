"""A design from a few words on the command line: a ring, its numerals, and two crescents.

A crescent is written from the middle outward, as strokes or as a diameter, with the end pair last:
``"3, 2, 2, end 1"`` is a quad of 3 strokes, two quads of 2 strokes a side, and end pairs of 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.model import (
    ClusterSpec,
    ColourUse,
    Design,
    FrameSpec,
    Kind,
    PanelPlace,
    PanelSpec,
    Pump,
    SectionSpec,
)
from mockup.errors import Fault, FaultsFound
from mockup.lengths import NotALength, Unit, parse_length
from mockup.packing.clusters import turn_for
from mockup.packing.inflation import diameter_for_strokes
from mockup.panel.numerals import KNOWN, unknown_characters
from mockup.records import dataclass

CRESCENT_FORM = "write it from the middle outward, such as '3, 2, 2, end 1' or '4 1/2in, 4in'"
_PUMP_FORM = "write strokes and what they give, such as '4 = 4 1/2in'"
_PUMP = Pump()
_COLOURS = {
    "A": ColourUse("A", "teal", "#1f6f74", "gloss"),
    "B": ColourUse("B", "oat", "#efe3cb", "matte"),
}


@dataclass(frozen=True)
class Wish:
    """The words of one question, each as it was typed."""

    ring: str
    numerals: str
    height: str
    top: str
    bottom: str
    tube: str = "1/2in"
    size: str = "5in"
    gap: str = "1/2in"
    measured: bool = False
    place: PanelPlace = "in front"
    unit: Unit = "in"
    pump: Pump = _PUMP


def design_from_wish(wish: Wish) -> Design:
    """The design that a wish describes; raises ``FaultsFound`` with every word not understood."""
    faults: list[Fault] = []
    lengths = {
        name: _length(f"--{name}", getattr(wish, name), faults)
        for name in ("ring", "height", "tube", "size", "gap")
    }
    crescents = [
        (name, at, list(_crescent(f"--{name}", text, lengths["size"], wish.pump, faults)))
        for name, at, text in (("top", 0.0, wish.top), ("bottom", 180.0, wish.bottom))
    ]
    faults += _numeral_faults(wish.numerals)
    if lengths["ring"] and lengths["tube"] * 4 > lengths["ring"]:
        faults.append(Fault("--tube", "the tube is too thick for the ring", "write a thinner one"))
    if faults:
        raise FaultsFound(faults)
    named = None if wish.measured else lengths["height"]
    return Design(
        title=f"{wish.numerals} in a {wish.ring} ring",
        frame=FrameSpec("ring", lengths["ring"], lengths["tube"]),
        sections=tuple(_section(name, at, run) for name, at, run in crescents if run),
        colours=_COLOURS,
        unit=wish.unit,
        panel=PanelSpec(
            wish.numerals,
            named,
            measured=lengths["height"] if wish.measured else None,
            place=wish.place,
            gap=lengths["gap"],
        ),
        pump=wish.pump,
    )


def pump_from_words(text: str) -> Pump:
    """A pump from ``"4 = 4 1/2in"``: strokes, and the diameter they give.

    >>> pump_from_words("4 = 4 1/2in")
    Pump(strokes=4.0, gives=114.3)
    """
    strokes, _, gives = text.partition("=")
    try:
        pump = Pump(float(strokes), parse_length(gives))
    except ValueError as wrong:
        raise FaultsFound([Fault("--pump", f"'{text}' is not understood", _PUMP_FORM)]) from wrong
    if not (0 < pump.strokes < 1000 and pump.gives > 0):
        raise FaultsFound([Fault("--pump", f"'{text}' is out of reach", _PUMP_FORM)])
    return pump


def _length(where: str, text: str, faults: list[Fault]) -> float:
    try:
        value = parse_length(text)
    except NotALength as wrong:
        faults.append(Fault(where, wrong.what, wrong.instead))
        return 0.0
    if value <= 0:
        faults.append(Fault(where, f"'{text}' is nothing", "write a length above zero"))
    return value


def _numeral_faults(text: str) -> Iterator[Fault]:
    unknown = unknown_characters(text)
    if not text.strip():
        yield Fault("--numerals", "there are none", "write the numerals, such as 30")
    if unknown:
        yield Fault(
            "--numerals",
            f"no foil shape is known for {', '.join(repr(c) for c in unknown)}",
            f"use {KNOWN}",
        )


def _crescent(
    where: str, text: str, nominal: float, pump: Pump, faults: list[Fault]
) -> Iterator[tuple[ClusterSpec, bool]]:
    parts = [part.strip() for part in text.split(",")] if text.strip() else []
    for number, part in enumerate(parts):
        end = part.startswith("end ")
        fill = _fill(where, part.removeprefix("end ").strip(), pump, faults)
        if fill is None:
            continue
        if end and number != len(parts) - 1:
            faults.append(Fault(where, f"'{part}' is not last", CRESCENT_FORM))
        diameter, strokes = fill
        kind: Kind = "pair" if end else "quad"
        turn = turn_for("valley in", 4) if number == 0 else None
        yield ClusterSpec(kind, nominal, diameter, strokes, "AA" if end else "ABAB", turn), end


def _fill(
    where: str, text: str, pump: Pump, faults: list[Fault]
) -> tuple[float, float | None] | None:
    try:
        strokes = float(text)
    except ValueError:
        try:
            return parse_length(text), None
        except NotALength:
            faults.append(Fault(where, f"'{text}' is neither strokes nor a size", CRESCENT_FORM))
            return None
    if not 0.25 <= strokes <= 200:
        faults.append(Fault(where, f"{text} strokes is out of reach", "write 0.25 to 200"))
        return None
    diameter = diameter_for_strokes(strokes, ref_strokes=pump.strokes, ref_diameter=pump.gives)
    return diameter, strokes


def _section(name: str, at: float, run: list[tuple[ClusterSpec, bool]]) -> SectionSpec:
    clusters = tuple(spec for spec, end in run if not end)
    cap = next((spec for spec, end in run if end), None)
    side = clusters[1:]
    middle = clusters[0] if clusters else None
    return SectionSpec(name, at, middle, side, side, end_right=cap, end_left=cap)
