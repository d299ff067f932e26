"""The buy list as plain rows, one for each kind of bag, as spreadsheets want them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from mockup.design.studio import Bag
from mockup.lengths import Unit, format_length, format_true
from mockup.stock.buying import BagLine, BalloonLine, BuyList, FoilLine, MaterialLine

ZERO = Decimal(0)
GAUGE_SHEETS = "sheets of card for the gauge"
TO_FIND = "to find: no bag in the studio book"


@dataclass(frozen=True)
class BuyRow:
    """One line to buy by. ``first`` is false for a second kind of bag of the same thing.

    ``needed``, ``spares`` and ``on_hand`` stand on the first row only; ``pack`` is how much one
    pack holds and ``packs`` how many are bought.
    """

    what: str
    size: str
    colour: str
    finish: str
    filled: str
    needed: Decimal
    spares: Decimal
    on_hand: Decimal
    pack: Decimal
    packs: int
    price: Decimal
    supplier: str
    note: str = ""
    first: bool = True

    @property
    def cost(self) -> Decimal:
        """Price of the packs."""
        return self.price * self.packs


def buy_rows(bought: BuyList, unit: Unit, gauge_sheets: int = 0) -> Iterator[BuyRow]:
    """Every row of the list, in its order; lengths in ``unit``; the gauge's card last."""
    for line in bought.balloons:
        yield from _balloon_rows(line, unit)
    for foil in bought.foils:
        yield _foil_row(foil, unit)
    for material in bought.materials:
        yield _material_row(material)
    if gauge_sheets:
        yield _gauge_row(gauge_sheets)


def fills(line: BalloonLine, unit: Unit) -> str:
    """The diameters they are filled to, with how many of each."""
    return ", ".join(
        f"{fill.count} to {format_true(fill.diameter, unit)}" for fill in line.need.fills
    )


def _balloon_rows(line: BalloonLine, unit: Unit) -> Iterator[BuyRow]:
    for place, bag in enumerate(line.bags or (_no_bag(line),)):
        first = place == 0
        yield BuyRow(
            what="balloon",
            size=format_length(line.need.kind.size, unit),
            colour=line.need.name,
            finish=line.need.kind.finish,
            filled=fills(line, unit) if first else "",
            needed=Decimal(line.need.count if first else 0),
            spares=Decimal(line.spares if first else 0),
            on_hand=Decimal(line.on_hand if first else 0),
            pack=Decimal(bag.bag.count),
            packs=bag.number,
            price=bag.bag.price,
            supplier=bag.bag.supplier,
            note=TO_FIND if line.to_find else "",
            first=first,
        )


def _no_bag(line: BalloonLine) -> BagLine:
    kind = line.need.kind
    return BagLine(Bag(kind.size, kind.colour, kind.finish, 0, ZERO), 0)


def _foil_row(line: FoilLine, unit: Unit) -> BuyRow:
    offer = line.offer
    return BuyRow(
        what=f"foil {line.need.kind.character}",
        size=format_length(line.need.kind.height, unit),
        colour=line.need.name,
        finish=line.need.kind.finish,
        filled="",
        needed=Decimal(line.need.count),
        spares=ZERO,
        on_hand=Decimal(line.on_hand),
        pack=Decimal(1 if offer else 0),
        packs=line.to_buy if offer else 0,
        price=offer.price if offer else ZERO,
        supplier=offer.supplier if offer else "",
        note="to find: no such foil in the studio book" if line.to_find else "",
    )


def _material_row(line: MaterialLine) -> BuyRow:
    material = line.material
    return BuyRow(
        what=f"{material.name}, {material.unit}" if material.unit else material.name,
        size="",
        colour="",
        finish="",
        filled="",
        needed=line.needed,
        spares=ZERO,
        on_hand=line.on_hand,
        pack=material.pack,
        packs=line.packs,
        price=material.price,
        supplier=material.supplier,
    )


def _gauge_row(sheets: int) -> BuyRow:
    note = "print with 'mockup gauge'"
    count = Decimal(sheets)
    return BuyRow(*(GAUGE_SHEETS, "", "", "", "", count, ZERO, ZERO, ZERO, 0, ZERO, ""), note=note)
