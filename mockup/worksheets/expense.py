"""What a version costs, from the studio book in force."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from mockup.suggest.comparing import Expense, Price

if TYPE_CHECKING:
    from mockup.piece.placed import Piece


def price_of(folder: Path) -> Price:
    """Prices pieces by the studio book in force in ``folder``; without one only minutes.

    The cost is that of the cheapest bags for what the piece takes with its spares, as though
    nothing lay on the shelf, so that versions are compared alike.
    """
    from mockup.design.studio_book import studio_for
    from mockup.stock.buying import buy_list
    from mockup.stock.money import money
    from mockup.stock.picking import pick
    from mockup.stock.time_plan import labour_minutes

    studio = studio_for(folder)

    def price(piece: Piece) -> Expense:
        picking = pick([(piece.design, 1)])
        labour = labour_minutes(picking.counts, studio.minutes)
        minutes = float(sum(labour.values()))
        if not studio.bags:
            return Expense(minutes)
        bought = buy_list(picking, studio, from_shelf=False)
        said = money(bought.cost, studio.currency, studio.locale)
        if bought.to_find:
            return Expense(minutes, None, f"{said} + {bought.to_find} to find")
        return Expense(minutes, float(bought.cost), said)

    return price
