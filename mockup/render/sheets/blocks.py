"""The words of a proof as blocks that can be measured at any width before they are set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from mockup.render.record import Item, Point, Rect, Style
from mockup.render.sheets.answers import Answer, answers_block
from mockup.render.sheets.approval import (
    approval_block,
    approval_sentence,
    not_for_approval_block,
)
from mockup.render.sheets.areas import PAD, Area, Block, Builder, cell, stacked
from mockup.render.sheets.cautions import cautions_block
from mockup.render.sheets.inks import ALARM
from mockup.render.sheets.key import KeyRow, key_block
from mockup.render.sheets.lettering import Hand, Lettering, set_height
from mockup.render.sheets.title_block import TitleBlock, title_block
from mockup.render.tones import Recolour, as_it_is

GAP = 4.0
"""Between blocks one under another, mm."""
_STRIP = 7.0


@dataclass(frozen=True)
class Words:
    """Everything on a proof beside the drawing."""

    key: tuple[KeyRow, ...]
    answers: tuple[Answer, ...]
    cautions: tuple[str, ...]
    title: TitleBlock
    draft: str = ""
    seen: str = ""
    recolour: Recolour = as_it_is


class Blocks:
    """The blocks of one lot of words in one lettering, by name; each height is found once."""

    def __init__(self, lettering: Lettering, words: Words) -> None:
        self.lettering = lettering
        self.words = words
        self._builders = _builders(lettering, words)
        self._heights: dict[tuple[str, float], float] = {}

    def height(self, name: str, width: float) -> float:
        """How tall a block comes out at ``width``, mm."""
        key = (name, width)
        if key not in self._heights:
            self._heights[key] = self._builders[name]((0.0, 0.0), width).height
        return self._heights[key]

    def set(self, name: str, at: Point, width: float) -> tuple[Item, ...]:
        """A block from its top left corner."""
        return self._builders[name](at, width).items

    def stack_height(self, names: Sequence[str], width: float) -> float:
        """How tall blocks stand one under another, mm."""
        return sum(self.height(name, width) for name in names) + GAP * max(0, len(names) - 1)

    def set_stack(self, names: Sequence[str], at: Point, width: float) -> tuple[Item, ...]:
        """Blocks one under another."""
        return stacked([self._builders[name] for name in names], at, width, GAP).items

    def title(self, at: Point, width: float, column: float) -> Block:
        """The title block on a grid of ``column`` mm."""
        return title_block(at, width, self.lettering, self.words.title, column)

    def title_height(self, width: float, column: float) -> float:
        """How tall the title block comes out, mm."""
        key = (f"title {column:.6f}", width)
        if key not in self._heights:
            self._heights[key] = self.title((0.0, 0.0), width, column).height
        return self._heights[key]

    def strip(self, at: Point, width: float) -> Block:
        """The strip of a draft: white words on a dark ground; nothing for a piece that is well."""
        if not self.words.draft:
            return Block((), 0.0)
        alarm = self.words.recolour(ALARM)
        hand = Hand(self.lettering.body, "bold", "#ffffff", "draft", alarm)
        hand, lines = hand.shrunk(self.words.draft, width - 2 * PAD)
        tall = set_height(hand.height, len(lines))
        height = max(_STRIP, tall + 3.0)
        words, _ = hand.set(lines, (at[0] + PAD, at[1] + (height - tall) / 2 + 0.3))
        ground = Rect(at[0], at[1], width, height, Style(alarm))
        return Block((cell("draft", Area(*at, width, height), (ground, *words)),), height)


def _builders(lettering: Lettering, words: Words) -> dict[str, Builder]:
    heading = f"Colours, {words.seen}" if words.seen else "Colours"
    key = partial(key_block, lettering=lettering, rows=words.key, title=heading)
    cautions = partial(cautions_block, lettering=lettering, cautions=words.cautions)
    title = words.title
    sentence = approval_sentence(title.code, title.design.revision, title.colourway)
    return {
        "key": key,
        "tight key": partial(key, tight=True),
        "key in two": partial(key, tight=True, columns=2),
        "answers": partial(answers_block, lettering=lettering, given=words.answers),
        "approval": (
            partial(not_for_approval_block, lettering=lettering)
            if words.draft
            else partial(approval_block, lettering=lettering, sentence=sentence)
        ),
        "cautions": cautions,
        "cautions in two": partial(cautions, columns=2),
        "cautions in three": partial(cautions, columns=3),
    }
