"""The tables of a piece file for deciding: what is wished of ``suggest``, and the climate."""

from __future__ import annotations

from mockup.design.kinds import Choice, Matching, Number, Text, YesNo
from mockup.design.lists import ListOf, MapOf
from mockup.design.measures import Clock, Length, Turn
from mockup.design.tables import Key, Table
from mockup.design.wishes_kinds import HALF, NONE, FillWords, Temperature

RANKS = ("fullness", "smoothness", "cost", "minutes")
MOST_BEST = 12
_FOOT = 304.8
_LETTER = Matching("[A-Z]", "one capital letter", "A")

WISHES = Table(
    "the wishes",
    "What 'mockup suggest' may vary, must keep to, and looks for.",
    (
        Key(
            "sections",
            ListOf(Text(40, may_be_empty=False, example='"top"'), "sections", 1, 60),
            "Sections to vary, all alike; every one that is no whole ring without it.",
        ),
        Key("fills", ListOf(FillWords(), "fills", 1, 40), "Fills to choose from."),
        Key(
            "a_side",
            ListOf(Number(0, 40, whole=True, example="2"), "numbers", 2, 2),
            "Least and most clusters a side beside the middle one.",
            [1, 4],
            example="[1, 4]",
        ),
        Key(
            "alike",
            YesNo(),
            "Whether the crescents are all as long; false lets top and bottom differ in length.",
            True,
        ),
        Key(
            "turns",
            ListOf(Turn(), "turns", 1, 8),
            "Turns of the middle cluster to try; without it the file's own, or else valley in and "
            "point in.",
            example='["valley in", "point in"]',
        ),
        Key(
            "end_caps",
            ListOf(FillWords((HALF, NONE)), "end caps", 1, 20),
            "End caps to try: strokes, a size, half or none; as in the file without it.",
            example='["half"]',
        ),
        Key(
            "places",
            ListOf(ListOf(Clock(), "places", 1, 60), "sets of places", 1, 24),
            "Where the sections may sit, a list of clock positions for each try.",
            example='[["12", "6"]]',
        ),
        Key("room", Length(0.0, 10 * _FOOT, example='"1/2in"'), "Room to spare round numerals."),
        Key("rank", Choice(RANKS), "What the best is judged by.", "fullness"),
        Key("best", Number(1, MOST_BEST, whole=True), "How many designs to return.", 3),
        Key(
            "most_step",
            Length(0.0, _FOOT, example='"3/8in"'),
            "Most by which a cluster may be smaller than the one before it.",
        ),
        Key("most_balloons", Number(1, 100_000, whole=True, example="60"), "No more balloons."),
        Key("most_cost", Number(0, 1e9, example="80"), "No more material cost."),
        Key("most_minutes", Number(0, 1e6, example="120"), "No more minutes of build."),
        Key(
            "stock",
            MapOf(_LETTER, Number(0, 100_000, whole=True, example="40"), "letters"),
            "Balloons at hand, by letter; no more are used of it.",
        ),
        Key(
            "rings",
            ListOf(Length(101.6, 40 * _FOOT, example='"24in"'), "rings", 1, 60),
            "Rings to try, in order, when none fits.",
        ),
    ),
    example='{ room = "1/2in" }',
)

_ALTITUDE = Length(-1500 * _FOOT, 30_000 * _FOOT, signed=True, example='"5280ft"')

AIR = Table(
    "the air",
    "The air where balloons are filled or where the piece stands.",
    (
        Key("temperature", Temperature(), "How warm it is.", "70F"),
        Key("altitude", _ALTITUDE, "How high above the sea.", "0ft"),
        Key(
            "pressure",
            Number(300, 1100, example="1013"),
            "Air pressure there in hectopascals; that of the altitude without it.",
        ),
    ),
    apart=(("altitude", "pressure"),),
    defined="air",
    example='{ temperature = "70F" }',
)

CLIMATE = Table(
    "the climate",
    "From the air in which the balloons are filled to the air in which the piece stands.",
    (
        Key("filled", AIR, "Where they are filled.", example='{ temperature = "70F" }'),
        Key("stands", AIR, "Where the piece stands.", example='{ temperature = "90F" }'),
    ),
    example='{ stands = { temperature = "90F" } }',
)
