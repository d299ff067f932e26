"""The answers of the proof: does it nestle, mirror, alternate, and do the numerals fit?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mockup.lengths import format_spare
from mockup.piece.finding import Finding, Verdict
from mockup.piece.findings.colours import IN_GREY
from mockup.piece.placed import Piece
from mockup.render.record import Circle, Item, Path, Point, Style
from mockup.render.sheets.areas import Area, Block, cell
from mockup.render.sheets.headings import heading
from mockup.render.sheets.inks import ALARM, CARE, GOOD
from mockup.render.sheets.lettering import Hand, Lettering, set_height
from mockup.render.tones import Recolour, as_it_is

# Finding name: words when it holds, wants a look, fails. What holds and interests only the maker
# is left out.
_WORDS: dict[str, tuple[str, str, str]] = {
    "nestle": ("Balloons nestle", "Balloons nearly crowd", "Balloons crowd each other"),
    "mirror left/right": ("Left mirrors right", "Left and right differ", "Left and right differ"),
    "mirror top/bottom": ("Top mirrors bottom", "Top and bottom differ", "Top and bottom differ"),
    "alternation": ("Colours alternate", "Colours do not alternate", "Colours do not alternate"),
    "doorway": ("Passes a doorway", "Does not pass a doorway", "Does not pass a doorway"),
    "swing": ("", "A balloon swings far", "A balloon leaves its valley"),
    "end caps": ("", "An end cap shows its knot", "An end cap shows its knot"),
    "closing": ("", "The ring closes oddly", "The ring does not close"),
    "pattern": ("Pattern holds", "The pattern is broken", "The pattern is broken"),
    "coverage": ("The garland is full", "Gaps show in the garland", ""),
    "colours apart": ("", "Some of a colour touch", ""),
    "balance": ("", "The garland leans to a side", ""),
    "garland": ("", "", ""),
    "wall": ("", "", ""),
    "wall edges": ("", "The balloons leave frame bare", ""),
    "letters": ("", "The letters are small", ""),
    "picture": ("Colours follow the picture", "Colours are off the picture's", ""),
    "bends": ("", "A bend is tight", "A bend is too tight"),
    "path": ("", "The frame crosses itself", "The frame crosses itself"),
    "daylight": ("", "Daylight shows through", "Daylight shows through"),
    "bare frame": ("", "Some frame shows bare", "Some frame shows bare"),
    "fill": ("", "A balloon is filled small", "A balloon is overfilled"),
    "colours told apart": ("", "Some colours alike to some eyes", "Two colours look alike"),
    "off the floor": ("", "Hangs near the floor", "Hangs below the floor"),
}
_INDENT = 2.2
"""Room for the mark before the words, in heights of the body lettering."""
_ORDER = {"holds": 0, "look": 1, "fails": 2}


@dataclass(frozen=True)
class Answer:
    """A few words on one finding, and how the colours of its mark are shown (grey in grey)."""

    verdict: Verdict
    says: str
    recolour: Recolour = as_it_is


def answers(
    piece: Piece, findings: Sequence[Finding], recolour: Recolour = as_it_is
) -> tuple[Answer, ...]:
    """Short words on each finding; those that hold and interest only the maker are left out."""
    said = (Answer(f.verdict, _said(piece, f), recolour) for f in findings)
    return tuple(answer for answer in said if answer.says)


def _said(piece: Piece, finding: Finding) -> str:
    if finding.name == "numerals fit":
        return numerals_words(piece)
    if finding.verdict == "holds" and finding.name == "mirror top/bottom" and finding.balloons:
        return "Top and bottom alike, one longer"
    if finding.verdict == "holds" and finding.name == "mirror left/right" and _spirals(piece):
        return "Places mirror, colours spiral"
    if finding.name == "colours told apart" and IN_GREY in finding.says:
        return "Some colours alike in grey"
    words = _WORDS.get(finding.name)
    if words is None:
        return f"{finding.name}: {finding.verdict}"
    return words[_ORDER[finding.verdict]]


def _spirals(piece: Piece) -> bool:
    """Whether colours wind on over the middle, so that only places can mirror."""
    return any(section.pattern == "spiral" for section in piece.design.sections)


def numerals_words(piece: Piece) -> str:
    """How the numerals fit, with the room to spare in the design's unit."""
    fit = piece.fit
    if fit is None:
        return ""
    room = format_spare(fit.room, piece.design.unit)
    return {
        "clear": f"Numerals fit, {room} to spare",
        "tucks": f"Numerals tuck, {room} to spare",
        "overhangs": "Numerals overhang the frame",
        "clashes": "Numerals hit the balloons",
    }[fit.verdict]


def failed(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings that fail."""
    return tuple(finding for finding in findings if finding.verdict == "fails")


def answers_block(at: Point, width: float, lettering: Lettering, given: Sequence[Answer]) -> Block:
    """A row for each answer, with a mark that reads in grey as well."""
    top = heading(at, width, lettering, "Checked")
    room = width - _INDENT * lettering.body
    hand = Hand(lettering.body, role="answer").level([each.says for each in given], room, 2)
    items: list[Item] = [*top.items]
    y = at[1] + top.height
    for answer in given:
        block = _row((at[0], y), width, lettering, answer, hand)
        items += block.items
        y += block.height
    return Block(tuple(items), y - at[1])


def _row(at: Point, width: float, lettering: Lettering, answer: Answer, hand: Hand) -> Block:
    unit, (x, y) = lettering.body, at
    lines = hand.wrapped(answer.says, width - _INDENT * unit)
    tall = set_height(hand.height, len(lines))
    height = max(1.95 * unit, tall + 0.5 * unit)
    words, _ = hand.set(lines, (x + _INDENT * unit, y + 0.3 * unit))
    draw, ink = _MARKS[answer.verdict]
    at = (x + 0.6 * unit, y + 0.3 * unit + hand.height / 2)
    mark = draw(at, 0.58 * unit, answer.recolour(ink))
    return Block((cell("answer", Area(x, y, width, height), (*mark, *words)),), height)


def _tick(at: Point, r: float, ink: str) -> tuple[Item, ...]:
    (x, y), line = at, Style(stroke=ink, stroke_width=0.35, round_ends=True)
    points = ((x - 0.8 * r, y + 0.05 * r), (x - 0.2 * r, y + 0.7 * r), (x + 0.9 * r, y - 0.75 * r))
    return (Path(_polyline(points), line),)


def _care(at: Point, r: float, ink: str) -> tuple[Item, ...]:
    (x, y), line = at, Style(stroke=ink, stroke_width=0.35, round_ends=True)
    return (
        Circle(at, r, Style(stroke=ink, stroke_width=0.25)),
        Path(_polyline(((x, y - 0.5 * r), (x, y + 0.1 * r))), line),
        Circle((x, y + 0.52 * r), 0.16, Style(ink)),
    )


def _cross(at: Point, r: float, ink: str) -> tuple[Item, ...]:
    (x, y), line = at, Style(stroke="#ffffff", stroke_width=0.35, round_ends=True)
    s = 0.42 * r
    return (
        Circle(at, 1.1 * r, Style(ink)),
        Path(_polyline(((x - s, y - s), (x + s, y + s))), line),
        Path(_polyline(((x - s, y + s), (x + s, y - s))), line),
    )


_MARKS: dict[str, tuple[Callable[[Point, float, str], tuple[Item, ...]], str]] = {
    "holds": (_tick, GOOD),
    "look": (_care, CARE),
    "fails": (_cross, ALARM),
}


def _polyline(points: Sequence[Point]) -> str:
    return "M" + " L".join(f"{x:.3f} {y:.3f}" for x, y in points)
