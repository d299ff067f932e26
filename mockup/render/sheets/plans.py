"""A sheet's frame, title block and words, and the clear area they leave for the drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from mockup.render.record import Group, Item, Rect
from mockup.render.sheets.areas import PAD, Area
from mockup.render.sheets.blocks import Blocks
from mockup.render.sheets.columns import BESIDE, UNDER, Way
from mockup.render.sheets.inks import FRAME_LINE
from mockup.render.sheets.lettering import LARGE_SHEET, SMALL_SHEET, Hand, Lettering
from mockup.render.sheets.paper import MARGIN, Paper

LEAST_DRAWING = 60.0
"""An area smaller than this either way, mm, is none for a drawing."""


@dataclass(frozen=True)
class Plan:
    """One way to set the words on a sheet of ``paper``, and the area it leaves for the drawing."""

    paper: Paper
    lettering: Lettering
    way: Way
    drawing: Area

    @property
    def frame(self) -> Area:
        """The frame within the margins."""
        return _frame(self.paper)

    def set(self, blocks: Blocks) -> tuple[Item, ...]:
        """Frame, title block and all the words."""
        items, body = self._framed(blocks)
        return (*items, *self.way.set(body, blocks))

    def set_bare(self, blocks: Blocks, small_print: str) -> tuple[Item, ...]:
        """Frame and title block of a further sheet, with a line of small print at its foot."""
        items, body = self._framed(blocks)
        hand = Hand(self.lettering.small, role="caution")
        return (*items, hand.at((body.right - PAD, body.bottom - PAD), small_print, "end"))

    def bare(self, blocks: Blocks) -> Plan:
        """The plan of a further sheet, whose drawing has it nearly all."""
        body = self._framed(blocks)[1]
        height = body.height - 2 * self.lettering.small
        drawing = Area(body.x, body.y, body.width, height).inset(PAD)
        return Plan(self.paper, self.lettering, self.way, drawing)

    def _framed(self, blocks: Blocks) -> tuple[tuple[Item, ...], Area]:
        """The frame with the title block at its foot and a draft's strip at its head."""
        frame = self.frame
        column = self.way.grid_column(frame, self.lettering)
        top = frame.bottom - blocks.title_height(frame.width, column)
        block = Group(
            blocks.title((frame.x, top), frame.width, column).items,
            kind="title block",
            name=blocks.words.title.code,
        )
        border = Rect(frame.x, frame.y, frame.width, frame.height, FRAME_LINE)
        strip = blocks.strip((frame.x, frame.y), frame.width)
        return (*strip.items, block, border), _body(frame, self.way, blocks)


def plans(
    paper: Paper,
    blocks_in: Callable[[Lettering], Blocks],
    ways: tuple[tuple[Way, ...], tuple[Way, ...]] = (BESIDE, UNDER),
) -> Iterator[Plan]:
    """The ways that hold all the words on this paper as it lies, the preferred first.

    ``ways`` are those for a sheet that lies across and for one that stands.
    """
    frame = _frame(paper)
    for lettering in (LARGE_SHEET, SMALL_SHEET) if paper.large else (SMALL_SHEET,):
        blocks = blocks_in(lettering)
        for way in ways[0] if paper.landscape else ways[1]:
            room = way.room(_body(frame, way, blocks), blocks)
            if room is not None and min(room.width, room.height) >= LEAST_DRAWING:
                yield Plan(paper, lettering, way, room)


def _frame(paper: Paper) -> Area:
    return Area(0.0, 0.0, paper.width, paper.height).inset(MARGIN)


def _body(frame: Area, way: Way, blocks: Blocks) -> Area:
    """The frame's inside between a draft's strip and the title block."""
    foot = blocks.title_height(frame.width, way.grid_column(frame, blocks.lettering))
    head = blocks.strip((frame.x, frame.y), frame.width).height
    return Area(frame.x, frame.y + head, frame.width, frame.height - head - foot)
