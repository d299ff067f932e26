"""The buy list: what is needed and spare, less the shelf, then the cheapest bags that cover it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from mockup.design.studio import Bag, FoilOffer, Material, Studio
from mockup.spelling import plain_form
from mockup.stock.bags import BagKind, cheapest
from mockup.stock.picking import (
    SIZE_DECIMALS,
    Counts,
    FoilKind,
    FoilNeed,
    Kind,
    Need,
    Picking,
)
from mockup.stock.spares import spare_count

_COIN = 10_000
"""Money has at most four decimal places, so that costs are whole numbers of these parts."""

ZERO = Decimal(0)


@dataclass(frozen=True)
class BagLine:
    """``number`` of one bag."""

    bag: Bag
    number: int

    @property
    def cost(self) -> Decimal:
        """Their price together."""
        return self.bag.price * self.number


@dataclass(frozen=True)
class BalloonLine:
    """One kind of balloon. ``bags`` is empty where nothing is to buy, or no bag is on sale."""

    need: Need
    spares: int
    on_hand: int
    bags: tuple[BagLine, ...]
    to_find: int

    @property
    def wanted(self) -> int:
        """Needed and spare together."""
        return self.need.count + self.spares

    @property
    def from_shelf(self) -> int:
        """How many the shelf gives."""
        return min(self.wanted, self.on_hand)

    @property
    def to_buy(self) -> int:
        """How many the shelf does not give."""
        return self.wanted - self.from_shelf

    @property
    def bought(self) -> int:
        """Balloons in the bags."""
        return sum(line.bag.count * line.number for line in self.bags)

    @property
    def left_over(self) -> int:
        """Balloons in the bags beyond what is to buy."""
        return max(0, self.bought - self.to_buy)

    @property
    def cost(self) -> Decimal:
        """Price of the bags."""
        return sum((line.cost for line in self.bags), ZERO)


@dataclass(frozen=True)
class FoilLine:
    """One foil numeral; ``offer`` is None where none is on sale."""

    need: FoilNeed
    on_hand: int
    offer: FoilOffer | None

    @property
    def from_shelf(self) -> int:
        """How many the shelf gives."""
        return min(self.need.count, self.on_hand)

    @property
    def to_buy(self) -> int:
        """How many the shelf does not give."""
        return self.need.count - self.from_shelf

    @property
    def to_find(self) -> int:
        """How many nobody sells."""
        return 0 if self.offer else self.to_buy

    @property
    def cost(self) -> Decimal:
        """Price of those to buy."""
        return self.offer.price * self.to_buy if self.offer else ZERO


@dataclass(frozen=True)
class MaterialLine:
    """One other material, in whole packs."""

    material: Material
    needed: Decimal
    on_hand: Decimal
    packs: int

    @property
    def from_shelf(self) -> Decimal:
        """How much the shelf gives."""
        return min(self.needed, self.on_hand)

    @property
    def left_over(self) -> Decimal:
        """How much of the packs is left."""
        return self.packs * self.material.pack - (self.needed - self.from_shelf)

    @property
    def cost(self) -> Decimal:
        """Price of the packs."""
        return self.material.price * self.packs


@dataclass(frozen=True)
class BuyList:
    """Everything to buy for a piece or a job."""

    balloons: tuple[BalloonLine, ...]
    foils: tuple[FoilLine, ...]
    materials: tuple[MaterialLine, ...]
    counts: Counts

    @property
    def cost(self) -> Decimal:
        """Price of all of it, exact."""
        lines: tuple[BalloonLine | FoilLine | MaterialLine, ...]
        lines = (*self.balloons, *self.foils, *self.materials)
        return sum((line.cost for line in lines), ZERO)

    @property
    def to_find(self) -> int:
        """Balloons and foils that no bag or offer of the book covers."""
        lines: tuple[BalloonLine | FoilLine, ...] = (*self.balloons, *self.foils)
        return sum(line.to_find for line in lines)


def buy_list(picking: Picking, studio: Studio, *, from_shelf: bool = True) -> BuyList:
    """What to buy; without ``from_shelf`` as though nothing lay on the shelf."""
    shelf = _shelf(studio) if from_shelf else {}
    foil_shelf = _foil_shelf(studio) if from_shelf else {}
    bags = _bags_by_kind(studio.bags)
    return BuyList(
        balloons=tuple(_balloons(need, studio, shelf, bags) for need in picking.needs),
        foils=tuple(_foil(need, studio, foil_shelf) for need in picking.foils),
        materials=tuple(_materials(picking.counts, studio, from_shelf)),
        counts=picking.counts,
    )


def _shelf(studio: Studio) -> dict[Kind, int]:
    return {
        Kind.of(row.size, row.colour, row.finish): row.count
        for row in studio.on_hand
        if not row.numeral
    }


def _foil_shelf(studio: Studio) -> dict[FoilKind, int]:
    return {
        FoilKind(
            row.numeral, round(row.size, SIZE_DECIMALS), plain_form(row.colour), row.finish
        ): row.count
        for row in studio.on_hand
        if row.numeral
    }


def _bags_by_kind(bags: Iterable[Bag]) -> dict[Kind, list[Bag]]:
    kinds: dict[Kind, list[Bag]] = {}
    for bag in bags:
        kinds.setdefault(Kind.of(bag.size, bag.colour, bag.finish), []).append(bag)
    return kinds


def _balloons(
    need: Need, studio: Studio, shelf: Mapping[Kind, int], bags: Mapping[Kind, list[Bag]]
) -> BalloonLine:
    spares = spare_count(need.count, need.outdoors, studio.spares)
    on_hand = shelf.get(need.kind, 0)
    to_buy = max(0, need.count + spares - on_hand)
    on_sale = bags.get(need.kind, [])
    chosen = cheapest(to_buy, [BagKind(b.count, _coins(b.price)) for b in on_sale])
    lines = tuple(BagLine(on_sale[place], n) for place, n in (chosen or {}).items())
    return BalloonLine(need, spares, on_hand, lines, to_find=to_buy if chosen is None else 0)


def _coins(price: Decimal) -> int:
    return int(price * _COIN)


def _foil(need: FoilNeed, studio: Studio, shelf: Mapping[FoilKind, int]) -> FoilLine:
    offers = [offer for offer in studio.foils if _sells(offer, need.kind)]
    cheapest_one = min(offers, key=lambda offer: offer.price, default=None)
    return FoilLine(need, shelf.get(need.kind, 0), cheapest_one)


def _sells(offer: FoilOffer, kind: FoilKind) -> bool:
    return (
        round(offer.height, SIZE_DECIMALS) == kind.height
        and plain_form(offer.colour) == kind.colour
        and offer.finish == kind.finish
        and (not offer.numerals or kind.character in offer.numerals)
    )


def _materials(counts: Counts, studio: Studio, from_shelf: bool) -> Iterable[MaterialLine]:
    for material in studio.materials:
        needed = material.amount * counts.of(material.per)
        on_hand = material.on_hand if from_shelf else ZERO
        short = max(ZERO, needed - on_hand)
        packs = int((short / material.pack).to_integral_value(ROUND_CEILING))
        if needed:
            yield MaterialLine(material, needed, on_hand, packs)
