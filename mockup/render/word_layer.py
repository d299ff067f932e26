"""The words of a page as real text under the drawing, where the drawing sets them as outlines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from mockup.render.fonts import packaged_face
from mockup.render.record import Group, Item, Place, Symbol, Text, walk
from mockup.render.text import left_of_anchor, plain, runs

if TYPE_CHECKING:
    from mockup.render.painting import Painter


class WordLayer:
    """Lays words under one page of a ``painter``, in the colour that it has set."""

    def __init__(self, painter: Painter) -> None:
        self._painter = painter
        self._lettered: dict[str, bool] = {}

    def lay(self, items: tuple[Item, ...]) -> None:
        """The text of items that is not set as text of the packaged font already."""
        painter = self._painter
        for item in items:
            if isinstance(item, Text):
                if not all(map(painter.is_real, runs(item.text, item.height, item.weight))):
                    self._word(item)
            elif isinstance(item, Group):
                self.lay(item.items)
            elif isinstance(item, Place) and self._has_words(item.symbol):
                with painter.moved(item.at, item.turn, item.scale):
                    self.lay(item.symbol.items)

    def _has_words(self, symbol: Symbol) -> bool:
        """Whether any text is in a symbol; most are placed a hundred times and have none."""
        if symbol.id not in self._lettered:
            self._lettered[symbol.id] = any(
                isinstance(each, Text) or (isinstance(each, Place) and self._has_words(each.symbol))
                for each in walk(symbol.items)
            )
        return self._lettered[symbol.id]

    def _word(self, item: Text) -> None:
        face, painter = packaged_face(item.weight), self._painter
        with painter.moved(item.at, item.turn, 1.0):
            size = item.height * face.units_per_em / face.cap_height
            painter.letter_with(face, item.weight, size)
            painter.context.move_to(-left_of_anchor(item), 0.0)
            painter.context.show_text(plain(item.text))
