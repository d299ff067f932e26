"""Lettering of a sheet: four heights of ISO 3098 that belong together, and text set in a box."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from mockup.render.record import Anchor, Item, Point, Text, Weight
from mockup.render.sheets.inks import INK
from mockup.render.text import DEPTH, HEIGHTS, shrink_to, width, wrap

SMALLEST = min(HEIGHTS)
PITCH = 1.75
"""Base line to base line in heights (ISO 3098 type B: 1.5 without accents, 1.9 with)."""


@dataclass(frozen=True)
class Lettering:
    """Heights in mm: ``small`` for labels and small print, ``body``, ``lead``, ``title``."""

    small: float = 1.8
    body: float = 2.5
    lead: float = 3.5
    title: float = 7.0


SMALL_SHEET = Lettering()
LARGE_SHEET = Lettering(small=2.5, body=3.5, lead=5.0, title=10.0)


@dataclass(frozen=True)
class Hand:
    """How a run of text is set: its height, weight, ink and what it is."""

    height: float
    weight: Weight = "regular"
    colour: str = INK
    role: str = ""
    ground: str = "#ffffff"

    def at(self, point: Point, text: str, anchor: Anchor = "start", turn: float = 0.0) -> Text:
        """One line on a base line."""
        return Text(
            point,
            text,
            self.height,
            anchor=anchor,
            weight=self.weight,
            colour=self.colour,
            turn=turn,
            role=self.role,
            ground=self.ground,
        )

    def width(self, text: str) -> float:
        """Its width in mm."""
        return width(text, self.height, self.weight)

    @property
    def pitch(self) -> float:
        """From one base line to the next, mm."""
        return PITCH * self.height

    def wrapped(self, text: str, room: float) -> list[str]:
        """The lines it takes within ``room`` mm."""
        return wrap(text, self.height, room, self.weight)

    def shrunk(self, text: str, room: float, most_lines: int = 1) -> tuple[Hand, tuple[str, ...]]:
        """Itself at the largest height up to its own at which the text takes ``most_lines``.

        At the smallest height it takes as many lines as it needs.
        """
        heights = tuple(h for h in HEIGHTS if h <= self.height)
        fitted = shrink_to(text, room, heights, self.weight, most_lines)
        return replace(self, height=fitted.height), fitted.lines

    def level(self, texts: Sequence[str], room: float, most_lines: int = 1) -> Hand:
        """Itself at the largest height at which every text takes ``most_lines`` whole words wide.

        One height for rows that stand together; the smallest where none does.
        """
        hands = [replace(self, height=height) for height in HEIGHTS if height <= self.height]
        for hand in hands:
            if all(hand.sits(text, room, most_lines) for text in texts):
                return hand
        return hands[-1]

    def sits(self, text: str, room: float, most_lines: int) -> bool:
        """Whether a text takes at most ``most_lines`` without breaking a word."""
        unbroken = all(self.width(word) <= room for word in text.split())
        return unbroken and len(self.wrapped(text, room)) <= most_lines

    def fitted(self, text: str, room: float, tall: float) -> tuple[Hand, tuple[str, ...]]:
        """Itself at the largest height up to its own at which the text stays in ``tall`` mm.

        At the smallest height it takes as many lines as it needs.
        """
        hand, lines = self, tuple(self.wrapped(text, room))
        for height in (h for h in HEIGHTS if h < self.height):
            if set_height(hand.height, len(lines)) <= tall:
                break
            hand = replace(self, height=height)
            lines = tuple(hand.wrapped(text, room))
        return hand, lines

    def set(
        self, lines: list[str] | tuple[str, ...], at: Point, anchor: Anchor = "start"
    ) -> tuple[tuple[Item, ...], float]:
        """Lines set from the top edge at ``at``; also their height down to the last tail, mm."""
        items = tuple(
            self.at((at[0], at[1] + self.height + row * self.pitch), line, anchor)
            for row, line in enumerate(lines)
        )
        return items, set_height(self.height, len(lines))


def set_height(height: float, lines: int) -> float:
    """How tall ``lines`` lines stand from the top of a capital to the last tail, mm."""
    return height * (1 + DEPTH + PITCH * (lines - 1)) if lines else 0.0
