"""Every table and key of a studio book, with what holds where it says nothing."""

from __future__ import annotations

from decimal import Decimal

from mockup.design.kinds import Choice, Matching, Number, Text
from mockup.design.lists import ListOf
from mockup.design.measures import Length, Share
from mockup.design.model import FINISHES
from mockup.design.studio import PERS
from mockup.design.studio_kinds import Currency, Exact, Hour, Language, PerCent
from mockup.design.tables import Key, Table

INCH, FOOT = 25.4, 304.8
MOST_ROWS = 2000

_NAME = Text(60, may_be_empty=False)
_SIZE = Length(2 * INCH, 10 * FOOT)
_MONEY = Exact()
_AMOUNT = Exact(Decimal(100_000), "a number", "1")
_MINUTES = Exact(Decimal(10_000), "a number of minutes", "1.5")
_COUNT = Number(1, 100_000, whole=True, example="50")
_FINISH = Choice(FINISHES)
_NUMERALS = Matching("[0-9A-Z&]+", "numerals 0-9, capital letters or &", '"0123456789"')

_BALLOON = (
    Key("size", _SIZE, "Nominal size.", required=True, example='"5in"'),
    Key("colour", _NAME, "The colour's plain name.", required=True, example='"deep teal"'),
    Key("finish", _FINISH, "How its skin shines.", "matte"),
)
_SUPPLIER = Key("supplier", Text(80), "Where you buy it, in your own words.", "")

PUMP = Table(
    "a pump",
    "One of your pumps, measured.",
    (
        Key("name", _NAME, "What you call it.", required=True, example='"hand pump"'),
        Key("strokes", Number(0.25, 200), "So many strokes ...", 4),
        Key("gives", Length(INCH / 2, 10 * FOOT), "... give this diameter.", "4 1/2in"),
    ),
)

CALIBRATED = Table(
    "the calibrated figures",
    "What 'mockup calibrate' works out from your own builds.",
    (
        Key("squeeze", Share(0, 0.4), "How far clusters are pressed together by hand.", "10%"),
        Key("foil_shrink", Share(0, 0.5), "How much a foil loses in height when filled.", "12%"),
    ),
)

BAG = Table(
    "a bag",
    "A bag of balloons on sale.",
    (
        *_BALLOON,
        Key("count", _COUNT, "Balloons in it.", required=True, example="50"),
        Key("price", _MONEY, "Its price.", required=True, example="6.80"),
        _SUPPLIER,
    ),
)

FOIL = Table(
    "a foil",
    "Foil numerals on sale, singly.",
    (
        Key("height", _SIZE, "Flat height, as named.", required=True, example='"16in"'),
        Key("colour", _NAME, "The colour's plain name.", required=True, example='"brass"'),
        Key("finish", _FINISH, "How it shines.", "mirror"),
        Key("price", _MONEY, "Price of one.", required=True, example="4.50"),
        Key("numerals", _NUMERALS, "Which are sold; all of them without it."),
        _SUPPLIER,
    ),
)

ON_HAND = Table(
    "stock on hand",
    "Balloons, or foils of one numeral, that lie on the shelf.",
    (
        *_BALLOON,
        Key(
            "count",
            Number(0, 1_000_000, whole=True, example="30"),
            "How many.",
            required=True,
            example="30",
        ),
        Key("numeral", Matching("[0-9A-Z&]", "one numeral, capital letter or &", '"3"'), "A foil."),
    ),
)

MATERIAL = Table(
    "a material",
    "Anything else a piece takes.",
    (
        Key("name", _NAME, "What it is.", required=True, example='"glue dots"'),
        Key("per", Choice(PERS), "What it is counted by.", "piece"),
        Key("amount", _AMOUNT, "How much of it for each of those.", 1),
        Key("unit", Text(20), "The unit of the amount, such as m; none for things counted.", ""),
        Key(
            "pack",
            Exact(Decimal(100_000), "a number", "1", above_zero=True),
            "How much is in a pack.",
            1,
        ),
        Key("price", _MONEY, "Price of a pack.", required=True, example="3.20"),
        Key("on_hand", _AMOUNT, "How much lies on the shelf.", 0),
        _SUPPLIER,
    ),
)

SPARES = Table(
    "the spares",
    "How many more to buy than the piece has.",
    (
        Key("share", PerCent(), "Share of each colour.", "8%"),
        Key("outdoors", PerCent(), "Share of what stands outdoors.", "12%"),
        Key("least", Number(0, 1000, whole=True), "At least so many of each colour.", 1),
    ),
)

MINUTES = Table(
    "the minutes",
    "Minutes of one pair of hands for each task.",
    (
        Key("prepare", _MINUTES, "A job: gauge, pump, table, colours laid out.", 20),
        Key("inflate", _MINUTES, "A balloon: fill it to its hole and knot it.", 0.5),
        Key("tie", _MINUTES, "A cluster: tie its balloons together.", 0.75),
        Key("place", _MINUTES, "A cluster: set it on the frame and press it home.", 1.5),
        Key("numeral", _MINUTES, "A numeral: fill, trim and fix it.", 6),
        Key("finish", _MINUTES, "A piece: hide nozzles, square it, wipe it, look from 1 m.", 15),
        Key("load", _MINUTES, "A piece: wrap it and carry it to the van.", 10),
        Key("drive", _MINUTES, "A job: the way there; the price counts it there and back.", 30),
        Key("set_up", _MINUTES, "A piece: carry in, stand, weigh down, look it over.", 20),
        Key("take_down", _MINUTES, "A piece: after the event, with the way for it.", 20),
    ),
)

PRICE = Table(
    "the price",
    "From cost to price.",
    (
        Key("hourly", _MONEY, "Price of an hour of one pair of hands.", 0, example="32.00"),
        Key(
            "markup",
            PerCent(Decimal(10)),
            "Added to materials and labour, as a share of their cost.",
            example='"35%"',
        ),
        Key(
            "margin",
            PerCent(Decimal("0.95")),
            "Or: what is left of the price of the work when its cost is paid.",
            example='"40%"',
        ),
        Key("tax", PerCent(), "Tax on the whole.", "0%"),
        Key("tax_name", _NAME, "What the tax is called.", "Tax"),
        Key("deposit", PerCent(), "Share of the total that is due with the order.", "0%"),
        Key("valid_days", Number(1, 3650, whole=True), "How long a quote holds, in days.", 30),
    ),
    apart=(("markup", "margin"),),
)

HIRE = Table(
    "a hire fee",
    "A fee for something that is lent.",
    (
        Key("name", _NAME, "What is lent.", required=True, example='"ring on its stand"'),
        Key("fee", _MONEY, "The fee.", required=True, example="35.00"),
        Key("per", Choice(("piece", "job")), "For each piece, or once a job.", "piece"),
    ),
)

DELIVERY = Table(
    "the delivery",
    "What bringing it costs the client.",
    (
        Key("fee", _MONEY, "A fee a job.", 0, example="25.00"),
        Key(
            "each",
            _MONEY,
            "A fee for each unit of the way there, once.",
            0,
            example="0.90",
        ),
        Key("distance_unit", Choice(("mile", "km")), "Miles or kilometres.", "mile"),
    ),
)

DAY = Table(
    "the working day",
    "When the crew works, and how long filled latex keeps its looks.",
    (
        Key("starts", Hour('"08:00"'), "The day's work begins.", "08:00"),
        Key("ends", Hour('"18:00"'), "It ends.", "18:00"),
        Key("fresh_indoors", Number(1, 1000), "Hours from filling to the event, indoors.", 72),
        Key("fresh_outdoors", Number(1, 1000), "Hours from filling to the event, outdoors.", 12),
    ),
)

TAKEN_ROW = Table(
    "a row of a booking",
    "What was taken from the shelf.",
    (
        Key("count", _AMOUNT, "How much.", required=True, example="12"),
        Key("size", _SIZE, "Nominal size, or the flat height of a foil.", example='"5in"'),
        Key("colour", _NAME, "Its colour.", example='"deep teal"'),
        Key("finish", _FINISH, "Its finish.", "matte"),
        Key("numeral", Matching("[0-9A-Z&]", "one numeral, capital letter or &", '"3"'), "A foil."),
        Key("material", _NAME, "Or a material, by its name.", example='"glue dots"'),
    ),
    example="{ count = 12 }",
)

TAKEN = Table(
    "a booking",
    "What 'mockup buy --take' has booked out. It keeps this list itself.",
    (
        Key("title", Text(200), "Of which piece or job.", ""),
        Key("code", Matching("[0-9A-F]{8}", "a proof code", '"1A2B3C4D"'), "Code.", required=True),
        Key("revision", Number(1, 9999, whole=True), "Its revision.", 1),
        Key("rows", ListOf(TAKEN_ROW, "rows", 0, MOST_ROWS), "What was taken.", []),
    ),
)


def _rows(table: Table, of: str) -> ListOf:
    return ListOf(table, of, 0, MOST_ROWS, headed=True)


STUDIO = Table(
    "the studio book",
    "A decorator's own figures.",
    (
        Key("name", Text(80), "The studio's name, for the sheets.", ""),
        Key("contact", ListOf(Text(100), "lines", 0, 6), "Its contact lines.", []),
        Key("terms", Text(4000, several_lines=True), "Your terms, as they stand on a quote.", ""),
        Key("currency", Currency(), "The currency by its three letters.", "USD"),
        Key("locale", Language(), "How money and dates are written.", "en_US"),
        Key(
            "doorway",
            ListOf(Length(6 * INCH, 100 * FOOT), "lengths", 2, 2),
            "Clear width and height of the narrowest way in.",
            ["32in", "80in"],
        ),
        Key("pump", _rows(PUMP, "pumps"), PUMP.words, []),
        Key("calibrated", CALIBRATED, CALIBRATED.words),
        Key("bag", _rows(BAG, "bags"), BAG.words, []),
        Key("foil", _rows(FOIL, "foils"), FOIL.words, []),
        Key("on_hand", _rows(ON_HAND, "rows of stock"), ON_HAND.words, []),
        Key("material", _rows(MATERIAL, "materials"), MATERIAL.words, []),
        Key("spares", SPARES, SPARES.words),
        Key("minutes", MINUTES, MINUTES.words),
        Key("price", PRICE, PRICE.words),
        Key("hire", _rows(HIRE, "hire fees"), HIRE.words, []),
        Key("delivery", DELIVERY, DELIVERY.words),
        Key("day", DAY, DAY.words),
        Key("taken", _rows(TAKEN, "bookings"), TAKEN.words, []),
    ),
)
