"""Where a proof's words stand: in columns beside the drawing, or in a band under it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Protocol

from mockup.render.record import Item, Line, Point
from mockup.render.sheets.answers import Answer, answers_block
from mockup.render.sheets.approval import approval_block
from mockup.render.sheets.areas import PAD, Area, Block, Builder, stacked
from mockup.render.sheets.cautions import cautions_block
from mockup.render.sheets.inks import HAIRLINE
from mockup.render.sheets.key import KeyRow, key_block
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.title_block import TitleBlock

GAP = 4.0
CLEAR = 3.0
"""White round the drawing's area, mm; its outermost lines are thin."""
_ONE, _EACH_OF_TWO = 32.0, 25.0
"""Widths of a column beside the drawing, in heights of the body lettering."""

Setting = tuple[tuple[Item, ...], Area]
"""The words where they stand, and the area left for the drawing."""
Blocks = Mapping[str, Builder]


@dataclass(frozen=True)
class Words:
    """Everything on a proof beside the drawing."""

    key: tuple[KeyRow, ...]
    answers: tuple[Answer, ...]
    cautions: tuple[str, ...]
    title: TitleBlock
    draft: str = ""


class Way(Protocol):
    """One way to set the words."""

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Width of a column of the title block's grid, so that it lines up with the words, mm."""

    def set(self, body: Area, lettering: Lettering, words: Words) -> Setting | None:
        """The words in ``body``, or None where they do not go in."""


def blocks_of(lettering: Lettering, words: Words, tight: bool) -> Blocks:
    """Each block by name, as a function of where and how wide."""

    def key(at: Point, width: float, columns: int = 1) -> Block:
        return key_block(at, width, lettering, words.key, tight=tight, columns=columns)

    def answers(at: Point, width: float) -> Block:
        return answers_block(at, width, lettering, words.answers)

    def approval(at: Point, width: float) -> Block:
        return approval_block(at, width, lettering, words.title.code, words.title.design.revision)

    def cautions(at: Point, width: float, columns: int = 1) -> Block:
        return cautions_block(at, width, lettering, words.cautions, columns)

    return {
        "key": key,
        "key in two": partial(key, columns=2),
        "answers": answers,
        "approval": approval,
        "cautions": cautions,
        "cautions in two": partial(cautions, columns=2),
        "cautions in three": partial(cautions, columns=3),
    }


@dataclass(frozen=True)
class Stack:
    """One column: blocks from its top, and blocks that stand on its foot."""

    top: tuple[str, ...]
    foot: tuple[str, ...] = ()

    def heights(self, blocks: Blocks, width: float) -> tuple[float, float]:
        """How tall the two parts stand at a width, mm."""
        top = _stack(blocks, self.top, (0.0, 0.0), width).height
        return top, _stack(blocks, self.foot, (0.0, 0.0), width).height

    def set(self, blocks: Blocks, area: Area, foot: float) -> tuple[Item, ...]:
        """The column in ``area``, its foot beginning ``foot`` mm above the bottom."""
        top = _stack(blocks, self.top, (area.x, area.y), area.width)
        low = _stack(blocks, self.foot, (area.x, area.bottom - foot), area.width)
        return (*top.items, *low.items)


def _stack(blocks: Blocks, names: tuple[str, ...], at: Point, width: float) -> Block:
    return stacked(tuple(blocks[name] for name in names), at, width, GAP)


@dataclass(frozen=True)
class Beside:
    """Columns at the right of the drawing; ``strip`` runs under the drawing alone."""

    stacks: tuple[Stack, ...]
    strip: str = ""
    tight: bool = False

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Three columns of the grid to one column of words, or two each to two."""
        del frame
        return self._each(lettering) / (3 if len(self.stacks) == 1 else 2)

    def _each(self, lettering: Lettering) -> float:
        return lettering.body * (_ONE if len(self.stacks) == 1 else _EACH_OF_TWO)

    def set(self, body: Area, lettering: Lettering, words: Words) -> Setting | None:
        """The words in ``body``, or None where they do not go in."""
        blocks, each = blocks_of(lettering, words, self.tight), self._each(lettering)
        inner = Area(0.0, body.y + PAD, each - 2 * PAD, body.height - 2 * PAD)
        foot = _foot(self.stacks, blocks, inner)
        if foot is None:
            return None
        items: list[Item] = []
        for number, stack in enumerate(reversed(self.stacks), start=1):
            left = body.right - number * each
            items += stack.set(blocks, inner.moved(left + PAD, 0.0), foot)
            items.append(Line((left, body.y), (left, body.bottom), HAIRLINE))
        rest = Area(body.x, body.y, body.width - len(self.stacks) * each, body.height)
        under, rest = self._under(rest, blocks)
        return (*items, *under), rest.inset(CLEAR)

    def _under(self, rest: Area, blocks: Blocks) -> Setting:
        if not self.strip:
            return (), rest
        inner = rest.inset(PAD)
        height = blocks[self.strip]((0.0, 0.0), inner.width).height
        block = blocks[self.strip]((inner.x, inner.bottom - height), inner.width)
        return block.items, Area(rest.x, rest.y, rest.width, rest.height - height - PAD)


@dataclass(frozen=True)
class Under:
    """A band in thirds under the drawing; each stack spans some of them."""

    stacks: tuple[tuple[int, Stack], ...]
    tight: bool = False

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Two columns of the grid to a third."""
        del lettering
        return frame.width / 6

    def set(self, body: Area, lettering: Lettering, words: Words) -> Setting | None:
        """The words in ``body``, or None where they do not go in."""
        blocks = blocks_of(lettering, words, self.tight)
        columns = list(self._columns(body))
        heights = [stack.heights(blocks, width) for _, width, stack in columns]
        tall = max(top + foot + (GAP if top and foot else 0.0) for top, foot in heights)
        top = body.bottom - PAD - tall
        if top < body.y:
            return None
        items: list[Item] = []
        for (x, width, stack), (_, foot) in zip(columns, heights, strict=True):
            items += stack.set(blocks, Area(x, top, width, tall), foot)
        rest = Area(body.x, body.y, body.width, top - PAD - body.y)
        return tuple(items), rest.inset(CLEAR)

    def _columns(self, body: Area) -> Iterator[tuple[float, float, Stack]]:
        third, x = body.width / 3, body.x
        for span, stack in self.stacks:
            yield x + PAD, span * third - 2 * PAD, stack
            x += span * third


def _foot(stacks: tuple[Stack, ...], blocks: Blocks, area: Area) -> float | None:
    """How tall the tallest foot is, so that all begin level; None where a column is too short."""
    heights = [stack.heights(blocks, area.width) for stack in stacks]
    foot = max(low for _, low in heights)
    top = max(high for high, _ in heights)
    return foot if top + foot + GAP <= area.height else None


BESIDE: tuple[Way, ...] = (
    Beside((Stack(("key", "answers"), ("cautions", "approval")),)),
    Beside((Stack(("key", "answers"), ("cautions", "approval")),), tight=True),
    Beside((Stack(("key", "answers"), ("approval",)),), strip="cautions in three"),
    Beside((Stack(("key",), ("answers",)), Stack(("cautions",), ("approval",)))),
    Beside((Stack(("key",), ("answers",)), Stack(("cautions",), ("approval",))), tight=True),
    Beside((Stack(("key", "answers"), ("approval",)),), strip="cautions in three", tight=True),
)
"""Ways for a sheet that lies across, in the order in which they are preferred."""

UNDER: tuple[Way, ...] = (
    Under(
        ((1, Stack(("key",))), (1, Stack(("answers",), ("approval",))), (1, Stack(("cautions",))))
    ),
    Under(
        (
            (2, Stack(("key in two", "cautions in two"))),
            (1, Stack(("answers",), ("approval",))),
        ),
        tight=True,
    ),
)
"""Ways for a sheet that stands, in the order in which they are preferred."""
