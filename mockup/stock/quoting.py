"""From what a job takes to its price, in exact decimals; every rule of rounding is stated here.

Each line is rounded to the currency's smallest coin, half a coin up, and sums are sums of rounded
lines, so that whoever adds up the page gets the same total. Tax is worked out once, on the sum.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from mockup.design.studio import Pricing, Studio
from mockup.stock.buying import BuyList, buy_list
from mockup.stock.money import in_coins
from mockup.stock.order import Order
from mockup.stock.picking import Picking
from mockup.stock.time_plan import labour_minutes

ZERO = Decimal(0)
_MINUTES_AN_HOUR = 60


@dataclass(frozen=True)
class QuoteLine:
    """One line of a price."""

    name: str
    amount: Decimal


@dataclass(frozen=True)
class LabourLine:
    """One task: minutes of one pair of hands, and what they cost."""

    task: str
    minutes: Decimal
    cost: Decimal


@dataclass(frozen=True)
class ClientQuote:
    """All that the client is told about money. It holds no cost, so that none can be shown."""

    lines: tuple[QuoteLine, ...]
    net: Decimal
    tax: Decimal
    total: Decimal
    deposit: Decimal
    valid_until: date

    @property
    def balance(self) -> Decimal:
        """What is left to pay after the deposit."""
        return self.total - self.deposit


@dataclass(frozen=True)
class Quote:
    """The studio's own view: what the work costs, and what the client is asked for."""

    bought: BuyList
    labour: tuple[LabourLine, ...]
    materials: Decimal
    work: Decimal
    client: ClientQuote

    @property
    def labour_cost(self) -> Decimal:
        """All tasks together."""
        return sum((line.cost for line in self.labour), ZERO)

    @property
    def cost(self) -> Decimal:
        """Materials and labour."""
        return self.materials + self.labour_cost

    @property
    def gain(self) -> Decimal:
        """What is left of the price of the work when its cost is paid."""
        return self.work - self.cost

    @property
    def margin(self) -> Decimal:
        """That as a share of the price of the work."""
        return self.gain / self.work if self.work else ZERO

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What the book has no price for, in words."""
        balloons = (
            f"{line.need.name}, {line.need.kind.finish}"
            for line in self.bought.balloons
            if line.to_find
        )
        foils = (
            f"foil {foil.need.kind.character} in {foil.need.name}"
            for foil in self.bought.foils
            if foil.to_find
        )
        return (*balloons, *foils)


def quote(order: Order, issued: date) -> Quote:
    """The price of a job. Materials count as bought new, whatever lies on the shelf."""
    studio, picking = order.studio, order.picking
    bought = buy_list(picking, studio, from_shelf=False)
    materials = in_coins(bought.cost, studio.currency)
    labour = _labour(picking, studio)
    cost = materials + sum((line.cost for line in labour), ZERO)
    work = in_coins(priced(cost, studio.pricing), studio.currency)
    client = _client(order, picking, work, issued)
    return Quote(bought, labour, materials, work, client)


def priced(cost: Decimal, pricing: Pricing) -> Decimal:
    """The price of work that costs ``cost``: by mark-up, by margin, or as it is.

    >>> priced(Decimal("100.00"), Pricing(markup=Decimal("0.35")))
    Decimal('135.0000')
    >>> priced(Decimal(60), Pricing(margin=Decimal("0.4"))) == 100
    True
    """
    if pricing.margin is not None:
        return cost / (1 - pricing.margin)
    return cost * (1 + (pricing.markup or ZERO))


def _labour(picking: Picking, studio: Studio) -> tuple[LabourLine, ...]:
    hourly = studio.pricing.hourly
    return tuple(
        LabourLine(task, spent, in_coins(spent * hourly / _MINUTES_AN_HOUR, studio.currency))
        for task, spent in labour_minutes(picking.counts, studio.minutes).items()
        if spent
    )


def _client(order: Order, picking: Picking, work: Decimal, issued: date) -> ClientQuote:
    studio = order.studio
    lines = (
        QuoteLine("Balloon work: design, balloons, making, setting up, taking down", work),
        *_hires(picking, studio),
        *_delivery(order, studio),
    )
    net = sum((line.amount for line in lines), ZERO)
    tax = in_coins(net * studio.pricing.tax, studio.currency)
    total = net + tax
    deposit = in_coins(total * studio.pricing.deposit, studio.currency)
    until = issued + timedelta(days=studio.pricing.valid_days)
    return ClientQuote(lines, net, tax, total, deposit, until)


def _hires(picking: Picking, studio: Studio) -> tuple[QuoteLine, ...]:
    rows = ((hire, picking.counts.of(hire.per)) for hire in studio.hires)
    return tuple(
        QuoteLine(
            f"Hire: {count} × {hire.name}" if count > 1 else f"Hire: {hire.name}",
            in_coins(hire.fee * count, studio.currency),
        )
        for hire, count in rows
        if count
    )


def _delivery(order: Order, studio: Studio) -> tuple[QuoteLine, ...]:
    own = studio.delivery
    amount = in_coins(own.fee + own.each * order.job.distance, studio.currency)
    return (QuoteLine("Delivery", amount),) if amount else ()
