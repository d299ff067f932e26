"""Invented pieces for the tests of the sheets, assembled once each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from mockup.design.model import (
    ClusterSpec,
    ColourUse,
    Design,
    FrameSpec,
    PanelSpec,
    SectionSpec,
    StandSpec,
)
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding, Verdict
from mockup.piece.placed import Piece
from mockup.render.record import Document, Group, Item, Line, Sheet, Text, walk
from mockup.render.sheets.proof import Asked, proof_document

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.toml"))
FINISHES = ("matte", "gloss", "pearl", "mirror", "clear")
COLOURS = {
    "A": ColourUse("A", "deep teal", "#0f6b6b", "gloss"),
    "B": ColourUse("B", "oat", "#efe3c8", "matte"),
    "C": ColourUse("C", "brass", "#b07a35", "mirror"),
}


def finding(name: str, verdict: Verdict = "holds") -> Finding:
    """A finding of that name, as far as a sheet reads one."""
    return Finding(name, verdict, None, None, "", "")


WELL = (finding("nestle"), finding("alternation"), finding("numerals fit"), finding("doorway"))
ILL = (*WELL[:2], finding("numerals fit", "fails"), finding("fill", "fails"))


def quad(diameter: float, letters: str, turn: float | None = None) -> ClusterSpec:
    """A quad of 5 in balloons filled to ``diameter`` mm."""
    return ClusterSpec("quad", 127.0, diameter, None, letters, turn)


def section(name: str, at_deg: float, letters: tuple[str, ...], diameter: float) -> SectionSpec:
    """A mirrored crescent, one quad for each of ``letters`` from the middle outward."""
    side = tuple(quad(0.9 * diameter, each) for each in letters[1:])
    return SectionSpec(name, at_deg, quad(diameter, letters[0], 45.0), side, side)


def ring_design() -> Design:
    """A 30 in ring on a stand with a two-digit number."""
    letters = ("ABAB", "ABAB", "ACAC")
    return Design(
        title="Ruby turns thirty",
        client="Ana & Zoë Peña",
        venue="The old boathouse",
        event_date=date(2027, 3, 14),
        frame=FrameSpec(outside=762.0, tube=12.7),
        sections=(section("top", 0.0, letters, 104.0), section("bottom", 180.0, letters, 104.0)),
        colours=COLOURS,
        stand=StandSpec(),
        panel=PanelSpec("30", 406.4),
    )


def twelve_colours() -> Design:
    """Twelve colours on one ring, in centimetres."""
    names = "ABCDEFGHIJKL"
    colours = {
        letter: ColourUse(letter, f"colour number {n}", f"#{20 * n:02x}6{n:x}80", FINISHES[n % 5])  # type: ignore[arg-type] # a finish by its place in the list
        for n, letter in enumerate(names)
    }
    quads = ("ABCD", "EFGH", "IJKL")
    return replace(
        ring_design(),
        title="A dozen colours",
        unit="cm",
        colours=colours,
        sections=(section("top", 0.0, quads, 96.0), section("bottom", 180.0, quads, 96.0)),
    )


def arc_design() -> Design:
    """A half arc without numerals or stand."""
    letters = ("ABAB", "ACAC", "ABAB", "ACAC")
    return replace(
        ring_design(),
        title="Garden arc",
        unit="cm",
        frame=FrameSpec("arc", 2000.0, 25.0, 270.0, 90.0),
        sections=(section("top", 0.0, letters, 240.0),),
        stand=None,
        panel=None,
    )


@cache
def ring() -> Piece:
    """``ring_design`` assembled."""
    return assemble(ring_design())


@cache
def dozen() -> Piece:
    """``twelve_colours`` assembled."""
    return assemble(twelve_colours())


@cache
def arc() -> Piece:
    """``arc_design`` assembled."""
    return assemble(arc_design())


@cache
def sample(path: Path) -> Piece:
    """A shipped sample assembled."""
    return assemble(read_design(path))


def titled(piece: Piece, **words: str) -> Piece:
    """The same piece under other words (title, client, venue)."""
    return replace(piece, design=replace(piece.design, **words))  # type: ignore[arg-type] # texts only


def proof(
    piece: Piece, findings: tuple[Finding, ...] = WELL, asked: Asked | None = None
) -> Document:
    """A proof with shares that are as good as any."""
    shares = dict.fromkeys(piece.design.colours, 1.0) | {"foil": 1.0}
    return proof_document(piece, findings, code="1A2B3C4D", shares=shares, asked=asked)


def texts(sheet: Sheet) -> list[Text]:
    """Every text of a sheet."""
    return [item for item in walk(sheet.items) if isinstance(item, Text)]


def said(sheet: Sheet) -> str:
    """Everything a sheet says, words joined by blanks."""
    return " ".join(text.text for text in texts(sheet))


def groups(items: tuple[Item, ...], kind: str) -> Iterator[Group]:
    """Every group of a kind."""
    for item in walk(items):
        if isinstance(item, Group) and item.kind == kind:
            yield item


def lines(group: Group) -> list[Line]:
    """The lines of a group."""
    return [item for item in walk(group.items) if isinstance(item, Line)]
