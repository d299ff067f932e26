"""How much an order of colours makes one buy: by the studio book where it sells every colour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from mockup.suggest.orders import Purchase, usual_purchase

if TYPE_CHECKING:
    from mockup.design.studio import Bag, Studio
    from mockup.piece.placed import Piece

_COIN = 10_000


@dataclass(frozen=True)
class Purchases:
    """The figure that orders are ranked by, and what it is in words."""

    figure: Purchase
    says: str


_USUAL = Purchases(usual_purchase, "balloons in bags of 10, 12, 25, 50, 100")


def purchase_for(piece: Piece, folder: Path) -> Purchases:
    """The cost of the cheapest bags of the book in force; without one balloons in usual bags."""
    from mockup.design.studio_book import studio_for

    studio = studio_for(folder)
    on_sale = _on_sale(piece, studio)
    if not on_sale or not all(on_sale.values()):
        return _USUAL

    @lru_cache(maxsize=4096)
    def cost(letter: str, count: int) -> float:
        return _cheapest(on_sale[letter], count)

    def figure(counts: Mapping[str, int]) -> float:
        return round(sum(cost(letter, count) for letter, count in counts.items()), 4)

    return Purchases(figure, f"{studio.currency} for the cheapest bags in the studio book")


def _on_sale(piece: Piece, studio: Studio) -> dict[str, list[Bag]]:
    """The bags that each letter's balloons come in; none where sizes are mixed."""
    from mockup.stock.picking import Kind

    sizes = {balloon.nominal for balloon in piece.balloons}
    if len(sizes) != 1:
        return {}
    (size,) = sizes
    found: dict[str, list[Bag]] = {}
    for letter in sorted({balloon.letter for balloon in piece.balloons}):
        use = piece.design.colours[letter]
        kind = Kind.of(size, use.name, use.finish)
        found[letter] = [b for b in studio.bags if Kind.of(b.size, b.colour, b.finish) == kind]
    return found


def _cheapest(bags: list[Bag], count: int) -> float:
    from mockup.stock.bags import BagKind, cheapest

    kinds = [BagKind(bag.count, int(bag.price * _COIN)) for bag in bags]
    chosen = cheapest(count, kinds) or {}
    return float(sum(bags[place].price * number for place, number in chosen.items()))
