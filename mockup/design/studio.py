"""The studio book: a decorator's own figures, as frozen data.

Lengths in mm, money and shares as exact decimals, times in minutes.
"""

from __future__ import annotations

from dataclasses import field
from datetime import time
from decimal import Decimal
from typing import Literal

from mockup.design.model import Finish, KeyPath
from mockup.records import dataclass

Per = Literal["piece", "job", "cluster", "balloon", "numeral", "attach point"]
PERS: tuple[Per, ...] = ("piece", "job", "cluster", "balloon", "numeral", "attach point")
ZERO = Decimal(0)


@dataclass(frozen=True)
class StudioPump:
    """A pump by name: ``strokes`` of it fill a balloon to ``gives`` mm."""

    name: str
    strokes: float
    gives: float
    path: KeyPath = ()


@dataclass(frozen=True)
class Bag:
    """A bag on sale: ``count`` balloons of one nominal size (mm), colour and finish."""

    size: float
    colour: str
    finish: Finish
    count: int
    price: Decimal
    supplier: str = ""
    path: KeyPath = ()


@dataclass(frozen=True)
class FoilOffer:
    """Foil numerals on sale, singly: those in ``numerals`` (all of them where it is empty)."""

    height: float
    colour: str
    finish: Finish
    price: Decimal
    numerals: str = ""
    supplier: str = ""
    path: KeyPath = ()


@dataclass(frozen=True)
class OnHand:
    """What lies on the shelf: balloons of one size, or one foil ``numeral`` of that flat height."""

    size: float
    colour: str
    finish: Finish
    count: int
    numeral: str = ""
    path: KeyPath = ()


@dataclass(frozen=True)
class Material:
    """Anything else: ``amount`` of it for each of what it is counted ``per``, sold in packs."""

    name: str
    per: Per
    amount: Decimal
    unit: str = ""
    pack: Decimal = Decimal(1)
    price: Decimal = ZERO
    on_hand: Decimal = ZERO
    supplier: str = ""
    path: KeyPath = ()


@dataclass(frozen=True)
class Spares:
    """How many more than counted: a share, a larger one outdoors, at least so many a colour."""

    share: Decimal = Decimal("0.08")
    outdoors: Decimal = Decimal("0.12")
    least: int = 1


@dataclass(frozen=True)
class Minutes:
    """Minutes of one pair of hands. Which of them are counted by what is in ``MINUTES_PER``."""

    prepare: Decimal = Decimal(20)
    inflate: Decimal = Decimal("0.5")
    tie: Decimal = Decimal("0.75")
    place: Decimal = Decimal("1.5")
    numeral: Decimal = Decimal(6)
    finish: Decimal = Decimal(15)
    load: Decimal = Decimal(10)
    drive: Decimal = Decimal(30)
    set_up: Decimal = Decimal(20)
    take_down: Decimal = Decimal(20)


MINUTES_PER: dict[str, Per] = {
    "prepare": "job",
    "inflate": "balloon",
    "tie": "cluster",
    "place": "cluster",
    "numeral": "numeral",
    "finish": "piece",
    "load": "piece",
    "drive": "job",
    "set_up": "piece",
    "take_down": "piece",
}
"""What the minutes of each task are counted by."""


@dataclass(frozen=True)
class Pricing:
    """From cost to price: ``markup`` on the cost, or ``margin`` as a share of the price."""

    hourly: Decimal = ZERO
    markup: Decimal | None = None
    margin: Decimal | None = None
    tax: Decimal = ZERO
    tax_name: str = "Tax"
    deposit: Decimal = ZERO
    valid_days: int = 30


@dataclass(frozen=True)
class Hire:
    """A fee for something lent, such as a ring on its stand, for each piece or once a job."""

    name: str
    fee: Decimal
    per: Per = "piece"
    path: KeyPath = ()


@dataclass(frozen=True)
class Delivery:
    """A fee a job, and a fee for each mile or kilometre of the job's distance."""

    fee: Decimal = ZERO
    each: Decimal = ZERO
    distance_unit: str = "mile"


@dataclass(frozen=True)
class WorkingDay:
    """From when to when the crew works, and how many hours filled latex keeps its looks."""

    starts: time = time(8)
    ends: time = time(18)
    fresh_indoors: float = 72.0
    fresh_outdoors: float = 12.0


@dataclass(frozen=True)
class TakenRow:
    """One thing booked out: balloons of one kind, one foil numeral, or a material by name."""

    count: Decimal
    size: float = 0.0
    colour: str = ""
    finish: Finish = "matte"
    numeral: str = ""
    material: str = ""


@dataclass(frozen=True)
class Taken:
    """What was booked out of the book for one revision of a piece or job."""

    title: str
    code: str
    revision: int
    rows: tuple[TakenRow, ...] = ()
    path: KeyPath = ()


@dataclass(frozen=True)
class Studio:
    """The whole book. ``file`` is where it was read, empty where only usual figures are in force.

    ``origins`` tells of each key path that the file wrote its ``file:line``.
    """

    name: str = ""
    contact: tuple[str, ...] = ()
    terms: str = ""
    currency: str = "USD"
    locale: str = "en_US"
    doorway: tuple[float, float] = (812.8, 2032.0)
    pumps: tuple[StudioPump, ...] = ()
    squeeze: float = 0.10
    foil_shrink: float = 0.12
    bags: tuple[Bag, ...] = ()
    foils: tuple[FoilOffer, ...] = ()
    on_hand: tuple[OnHand, ...] = ()
    materials: tuple[Material, ...] = ()
    spares: Spares = field(default_factory=Spares)
    minutes: Minutes = field(default_factory=Minutes)
    pricing: Pricing = field(default_factory=Pricing)
    hires: tuple[Hire, ...] = ()
    delivery: Delivery = field(default_factory=Delivery)
    day: WorkingDay = field(default_factory=WorkingDay)
    taken: tuple[Taken, ...] = ()
    file: str = ""
    origins: dict[KeyPath, str] = field(default_factory=dict, repr=False, compare=False)

    def origin(self, *path: str | int) -> str:
        """Where a value comes from: ``file:line``, or "usual" where the file says nothing of it."""
        return self.origins.get(path, "usual")
