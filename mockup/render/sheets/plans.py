"""A sheet's frame, title block and words, and the clear area they leave for the drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mockup.render.record import Group, Item, Rect, Style
from mockup.render.sheets.areas import PAD, Area, Block, cell
from mockup.render.sheets.columns import BESIDE, UNDER, Way, Words
from mockup.render.sheets.inks import ALARM, FRAME_LINE
from mockup.render.sheets.lettering import LARGE_SHEET, SMALL_SHEET, Hand, Lettering, set_height
from mockup.render.sheets.paper import MARGIN, Paper
from mockup.render.sheets.title_block import TitleBlock, title_block

LEAST_DRAWING = 60.0
"""An area smaller than this either way, mm, is none for a drawing."""
_STRIP = 7.0


@dataclass(frozen=True)
class Plan:
    """Words set on a sheet of ``paper``, and the area they leave for the drawing."""

    paper: Paper
    lettering: Lettering
    frame: Area
    items: tuple[Item, ...]
    drawing: Area
    way: Way | None = None

    def with_words(self, words: Words) -> Plan:
        """The same plan with words of the same size (another scale, another count of sheets)."""
        same = _planned(self.paper, self.lettering, words, self.way) if self.way else None
        return same or self


def plans(paper: Paper, words: Words) -> Iterator[Plan]:
    """The ways that hold all the words on this paper as it lies, the preferred first."""
    for lettering in _letterings(paper):
        for way in BESIDE if paper.landscape else UNDER:
            plan = _planned(paper, lettering, words, way)
            if plan is not None:
                yield plan


def further_plan(first: Plan, title: TitleBlock, small_print: str) -> Plan:
    """A further sheet after ``first``: the same frame and title block, a line of small print."""
    lettering, frame = first.lettering, first.frame
    column = first.way.grid_column(frame, lettering) if first.way else frame.width / 12
    items, body = _framed(frame, lettering, title, "", column)
    hand = Hand(lettering.small, role="caution")
    words = hand.at((body.right - PAD, body.bottom - PAD), small_print, "end")
    drawing = Area(body.x, body.y, body.width, body.height - 2 * hand.height).inset(PAD)
    return Plan(first.paper, lettering, frame, (*items, words), drawing, first.way)


def _letterings(paper: Paper) -> tuple[Lettering, ...]:
    return (LARGE_SHEET, SMALL_SHEET) if paper.large else (SMALL_SHEET,)


def _frame(paper: Paper) -> Area:
    return Area(0.0, 0.0, paper.width, paper.height).inset(MARGIN)


def _planned(paper: Paper, lettering: Lettering, words: Words, way: Way) -> Plan | None:
    """The plan of one way, or None where the words or a drawing do not go on the sheet."""
    frame = _frame(paper)
    column = way.grid_column(frame, lettering)
    items, body = _framed(frame, lettering, words.title, words.draft, column)
    setting = way.set(body, lettering, words)
    if setting is None or min(setting[1].width, setting[1].height) < LEAST_DRAWING:
        return None
    return Plan(paper, lettering, frame, (*items, *setting[0]), setting[1], way)


def _framed(
    frame: Area, lettering: Lettering, title: TitleBlock, draft: str, column: float
) -> tuple[tuple[Item, ...], Area]:
    """The frame with the title block at its foot and a draft's strip at its head."""
    tall = title_block((frame.x, 0.0), frame.width, lettering, title, column).height
    at_foot = (frame.x, frame.bottom - tall)
    foot = title_block(at_foot, frame.width, lettering, title, column)
    border = Rect(frame.x, frame.y, frame.width, frame.height, FRAME_LINE)
    strip = _strip(frame, lettering, draft) if draft else Block((), 0.0)
    block = Group(foot.items, kind="title block", name=title.code)
    clear = frame.height - strip.height - tall
    body = Area(frame.x, frame.y + strip.height, frame.width, clear)
    return (*strip.items, block, border), body


def _strip(frame: Area, lettering: Lettering, draft: str) -> Block:
    """White words on a dark ground across the head of the frame."""
    hand = Hand(lettering.body, "bold", "#ffffff", "draft", ALARM)
    hand, lines = hand.shrunk(draft, frame.width - 2 * PAD)
    tall = set_height(hand.height, len(lines))
    height = max(_STRIP, tall + 3.0)
    words, _ = hand.set(lines, (frame.x + PAD, frame.y + (height - tall) / 2 + 0.3))
    area = Area(frame.x, frame.y, frame.width, height)
    ground = Rect(area.x, area.y, area.width, area.height, Style(ALARM))
    return Block((cell("draft", area, (ground, *words)),), height)
