"""Where a proof's words stand: in columns beside the drawing, or in a band under it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from mockup.render.record import Item, Line
from mockup.render.sheets.areas import PAD, Area
from mockup.render.sheets.blocks import GAP, Blocks
from mockup.render.sheets.inks import HAIRLINE
from mockup.render.sheets.lettering import Lettering

CLEAR = 3.0
"""White round the drawing's area, mm; its outermost lines are thin."""


class Way(Protocol):
    """One way to set the words in the body of a sheet."""

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Width of a column of the title block's grid, so that it lines up with the words, mm."""

    def room(self, body: Area, blocks: Blocks) -> Area | None:
        """What is left for the drawing, or None where the words do not go in."""

    def set(self, body: Area, blocks: Blocks) -> tuple[Item, ...]:
        """The words where they stand."""


@dataclass(frozen=True)
class Stack:
    """One column: blocks from its top, and blocks that stand on its foot."""

    top: tuple[str, ...]
    foot: tuple[str, ...] = ()

    def height(self, blocks: Blocks, width: float) -> float:
        """How tall the whole stands, mm."""
        return blocks.stack_height((*self.top, *self.foot), width)

    def set(self, blocks: Blocks, area: Area, foot: float) -> tuple[Item, ...]:
        """The column in ``area``, its foot beginning ``foot`` mm above the bottom."""
        low = (area.x, area.bottom - foot)
        return (
            *blocks.set_stack(self.top, (area.x, area.y), area.width),
            *blocks.set_stack(self.foot, low, area.width),
        )


@dataclass(frozen=True)
class Beside:
    """Columns at the right of the drawing; ``strip`` runs under the drawing alone.

    Each column is ``wide`` heights of the body lettering and holds ``grid`` columns of the title
    block's grid.
    """

    stacks: tuple[Stack, ...]
    strip: str = ""
    wide: float = 32.0
    grid: int = 3

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Width of a column of the title block's grid, so that it lines up with the words, mm."""
        del frame
        return self._each(lettering) / self.grid

    def _each(self, lettering: Lettering) -> float:
        return lettering.body * self.wide

    def _inner(self, body: Area, lettering: Lettering) -> Area:
        """A column's own room at the left edge."""
        return Area(PAD, body.y + PAD, self._each(lettering) - 2 * PAD, body.height - 2 * PAD)

    def _foot(self, blocks: Blocks, width: float) -> float:
        """How tall the tallest foot is, so that all begin level."""
        return max(blocks.stack_height(stack.foot, width) for stack in self.stacks)

    def _rest(self, body: Area, lettering: Lettering) -> Area:
        wide = len(self.stacks) * self._each(lettering)
        return Area(body.x, body.y, body.width - wide, body.height)

    def room(self, body: Area, blocks: Blocks) -> Area | None:
        """What is left for the drawing, or None where a column is too short."""
        inner = self._inner(body, blocks.lettering)
        top = max(blocks.stack_height(stack.top, inner.width) for stack in self.stacks)
        if top + GAP + self._foot(blocks, inner.width) > inner.height:
            return None
        rest = self._rest(body, blocks.lettering)
        strip = self._strip_height(rest, blocks)
        return Area(rest.x, rest.y, rest.width, rest.height - strip).inset(CLEAR)

    def _strip_height(self, rest: Area, blocks: Blocks) -> float:
        return blocks.height(self.strip, rest.width - 2 * PAD) + PAD if self.strip else 0.0

    def set(self, body: Area, blocks: Blocks) -> tuple[Item, ...]:
        """The words where they stand, a hairline at the left of each column."""
        each, inner = self._each(blocks.lettering), self._inner(body, blocks.lettering)
        foot = self._foot(blocks, inner.width)
        items: list[Item] = []
        for number, stack in enumerate(reversed(self.stacks), start=1):
            left = body.right - number * each
            items += stack.set(blocks, inner.moved(left, 0.0), foot)
            items.append(Line((left, body.y), (left, body.bottom), HAIRLINE))
        rest = self._rest(body, blocks.lettering)
        top = rest.bottom - self._strip_height(rest, blocks)
        under = (rest.x + PAD, top)
        strip = blocks.set(self.strip, under, rest.width - 2 * PAD) if self.strip else ()
        return (*items, *strip)


@dataclass(frozen=True)
class Under:
    """A band in thirds under the drawing; each stack spans some of them."""

    stacks: tuple[tuple[int, Stack], ...]

    def grid_column(self, frame: Area, lettering: Lettering) -> float:
        """Two columns of the grid to a third."""
        del lettering
        return frame.width / 6

    def _top(self, body: Area, blocks: Blocks) -> float:
        """Where the band begins."""
        tall = max(stack.height(blocks, width) for _, width, stack in self._columns(body))
        return body.bottom - PAD - tall

    def room(self, body: Area, blocks: Blocks) -> Area | None:
        """What is left for the drawing, or None where the band is too tall."""
        high = self._top(body, blocks) - PAD - body.y
        return Area(body.x, body.y, body.width, high).inset(CLEAR) if high > 0 else None

    def set(self, body: Area, blocks: Blocks) -> tuple[Item, ...]:
        """The words where they stand."""
        top = self._top(body, blocks)
        items: list[Item] = []
        for x, width, stack in self._columns(body):
            area = Area(x, top, width, body.bottom - PAD - top)
            items += stack.set(blocks, area, blocks.stack_height(stack.foot, width))
        return tuple(items)

    def _columns(self, body: Area) -> Iterator[tuple[float, float, Stack]]:
        third, x = body.width / 3, body.x
        for span, stack in self.stacks:
            yield x + PAD, span * third - 2 * PAD, stack
            x += span * third


_REPLY = Stack(("answers",), ("approval",))
BESIDE: tuple[Way, ...] = (
    Beside((Stack(("key", "answers"), ("cautions", "approval")),)),
    Beside((Stack(("tight key", "answers"), ("cautions", "approval")),)),
    Beside((Stack(("key", "answers"), ("approval",)),), "cautions in three"),
    Beside((Stack(("key",), ("answers",)), Stack(("cautions",), ("approval",))), wide=25.0, grid=2),
    Beside(
        (Stack(("tight key",), ("answers",)), Stack(("cautions",), ("approval",))),
        wide=25.0,
        grid=2,
    ),
    Beside((Stack(("tight key", "answers"), ("approval",)),), "cautions in three"),
    Beside((Stack(("tight key",)), _REPLY), "cautions in two", wide=25.0, grid=2),
    Beside((Stack(("key in two", "answers"), ("approval",)),), "cautions in two", 50.0, 4),
)
"""Ways for a sheet that lies across, in the order in which they are preferred."""

UNDER: tuple[Way, ...] = (
    Under(((1, Stack(("key",))), (1, _REPLY), (1, Stack(("cautions",))))),
    Under(((2, Stack(("key in two", "cautions in two"))), (1, _REPLY))),
)
"""Ways for a sheet that stands, in the order in which they are preferred."""
