"""Every table and key of a piece file: what the reader accepts and what editors complete."""

from __future__ import annotations

from mockup.design.frame_keys import FRAME
from mockup.design.garlands import GARLAND, GARLANDS, PORTION
from mockup.design.kinds import Choice, Matching, Number, Text, YesNo
from mockup.design.lists import Either, ListOf, MapOf
from mockup.design.measures import Day, Length, Share, Turn
from mockup.design.model import FINISHES, KIND_COUNTS
from mockup.design.options_keys import Patch
from mockup.design.pattern_keys import PATTERN_KEYS
from mockup.design.places import Place
from mockup.design.tables import Key, Table
from mockup.design.tapers import MOST_A_SIDE, TaperWords
from mockup.design.wall_keys import WALL
from mockup.design.wishes_keys import AIR, CLIMATE, WISHES

INCH, FOOT = 25.4, 304.8
MOST_CLUSTERS = 2000
MIRRORS = ("left/right", "top/bottom")

_LETTER = Matching("[A-Z]", "one capital letter", "A")
_LETTERS = Matching("[A-Z]{1,5}", "capital letters, one a balloon", '"ABAB"')
_SRGB = Matching("#[0-9a-fA-F]{6}", "# and six hexadecimal digits", '"#b3202c"')
_DRAWN = "0-9A-Z&+!?.\\-"
_NUMERALS = Matching(
    f"[{_DRAWN}](?:[{_DRAWN} ]*[{_DRAWN}])?",
    "numerals 0-9, capital letters or & + - ! ? .",
    '"30"',
    most=12,
)
_CHARACTER = Matching(f"[{_DRAWN}]", "one numeral, capital letter or sign", "1")
_KIND = Choice(tuple(KIND_COUNTS))
_NOMINAL = Length(2 * INCH, 10 * FOOT)
_FILL = Length(INCH / 2, 10 * FOOT, example='"4 1/2in"')
_STROKES = Number(0.25, 200)
_FINISH = Choice(FINISHES)

COLOUR = Table(
    "a colour",
    "A palette's colour, or one of your own by its sRGB value.",
    (
        Key("colour", Text(60, may_be_empty=False), "A palette colour's name.", example='"oat"'),
        Key("palette", Text(60, may_be_empty=False), "The palette it is in.", example='"harbour"'),
        Key("name", Text(60, may_be_empty=False), "What you call your own colour."),
        Key("srgb", _SRGB, "Your own colour as it shows on a screen, #rrggbb."),
        Key("finish", _FINISH, "How its skin shines; the palette's suggestion without it."),
    ),
    apart=(("colour", "srgb"), ("colour", "name"), ("palette", "srgb")),
    defined="colour",
    example='{ colour = "oat", finish = "matte" }',
)
_COLOUR = Either((Text(60, may_be_empty=False, example='"deep teal"'), COLOUR), "a colour")

STAND = Table(
    "the stand",
    "A pole on a base plate.",
    (
        Key("rise", Length(0.0, 20 * FOOT), "From the floor to the frame's lowest point.", "12in"),
        Key("plate", Length(INCH, 10 * FOOT), "Diameter of the base plate.", "16in"),
        Key("plate_thickness", Length(0.5, 12 * INCH), "Its thickness.", "8mm"),
    ),
    example='{ rise = "12in" }',
)

_FILLED = (
    Key("strokes", _STROKES, "Strokes of the pump in each balloon."),
    Key("fill", _FILL, "Or the diameter each balloon is filled to."),
    Key("colours", _LETTERS, "Colour letters from the first balloon round; fewer repeat."),
)

DOUBLE = Table(
    "a double",
    "A second ring of balloons tied at the same knot, in the valleys of the first.",
    (
        Key("size", _NOMINAL, "Their nominal size; half the cluster's without it."),
        *_FILLED,
    ),
    apart=(("strokes", "fill"),),
    defined="double",
    example='{ size = "5in", colours = "C" }',
)

CLUSTER = Table(
    "a cluster",
    "Balloons tied at one knot. What it leaves out comes from its section.",
    (
        Key("kind", _KIND, "How many balloons: single 1, pair 2, trio 3, quad 4, five 5."),
        Key("size", _NOMINAL, "Nominal size of its balloons."),
        *_FILLED,
        Key("turn", Turn(), "How it sits on the frame; it nestles into the one before without it."),
        Key("double", DOUBLE, DOUBLE.words),
        Key("times", Number(1, MOST_CLUSTERS, whole=True), "That many of it in a row.", 1),
    ),
    apart=(("strokes", "fill"),),
    defined="cluster",
    example="{ strokes = 3 }",
)

END_CAP = Table(
    "an end cap",
    "The small cluster that closes a section and hides the last knot.",
    (
        Key("kind", _KIND, "How many balloons.", "pair"),
        Key("size", _NOMINAL, "Nominal size; that of the last cluster without it."),
        *_FILLED,
        Key("turn", Turn(), "How it sits; a pair stands front and back without it."),
    ),
    apart=(("strokes", "fill"),),
    defined="end_cap",
    example="{ strokes = 1 }",
)

_CLUSTERS = ListOf(CLUSTER, "clusters", 1, MOST_CLUSTERS)

SECTION = Table(
    "a section",
    "One stretch of clusters, mirrored to both sides of its middle.",
    (
        Key(
            "at",
            Place(),
            "Where its middle is: on the clock, a length from the frame's start, or a share of it.",
            required=True,
        ),
        Key(
            "on",
            Choice(("frame", "stand")),
            "What it is tied round; on the stand, 'at' is how far up its pole from the plate.",
            "frame",
        ),
        Key(
            "name",
            Text(40, may_be_empty=False),
            "What the sheets call it; top, bottom, left, right, ring or its hour without it.",
        ),
        Key("clusters", _CLUSTERS, "Its clusters from the middle outward."),
        Key("taper", TaperWords(), "Or the taper they follow: even, gentle, strong, or its ends."),
        Key(
            "a_side",
            Number(0, MOST_A_SIDE, whole=True),
            "Clusters a side of a named taper, beside the middle one; 3 without it.",
        ),
        Key("left", _CLUSTERS, "The left side outward, where it differs from the right."),
        Key("middle", YesNo(), "false: no cluster sits on the middle, the sides meet there.", True),
        Key("end_cap", Either((YesNo(), END_CAP), "true, false or a table"), "What closes it."),
        Key(
            "toward",
            Choice(("up", "down", "right", "left")),
            "The only side of its middle that has clusters; up and down go with a pole or stand.",
        ),
        Key("whole", YesNo(), "true: the clusters go on round the whole ring.", False),
        Key(
            "count",
            Number(4, MOST_CLUSTERS, whole=True, even=True, example="24"),
            "How many clusters close the whole ring; the number that closes best without it.",
        ),
        *PATTERN_KEYS,
        Key("kind", _KIND, "Its clusters' kind unless they say otherwise."),
        Key("size", _NOMINAL, "Their nominal size."),
        *_FILLED,
        Key("turn", Turn(), "The turn of its first cluster; the others nestle into it."),
    ),
    apart=(("strokes", "fill"), ("clusters", "taper")),
    defined="section",
    example='{ at = "12", clusters = [{ strokes = 3 }] }',
)

TOPPER = Table(
    "the topper",
    "One large balloon on the end of a pole, or on top of another frame.",
    (
        Key("size", _NOMINAL, "Nominal size.", "36in"),
        *_FILLED,
    ),
    apart=(("strokes", "fill"),),
    example='{ size = "36in", colours = "A" }',
)

PANEL = Table(
    "the panel",
    "The foil numerals in the opening.",
    (
        Key("numerals", _NUMERALS, "What they spell.", required=True),
        Key("height", Length(2 * INCH, 12 * FOOT, example='"16in"'), "Flat height, as named."),
        Key("measured", Length(2 * INCH, 12 * FOOT, example='"14in"'), "Filled height, measured."),
        Key(
            "widths",
            MapOf(_CHARACTER, Length(INCH / 2, 12 * FOOT, example='"8in"'), "widths", most=37),
            "Filled widths, measured, by numeral.",
        ),
        Key("colour", _COLOUR, "The foil: a letter, a palette colour or a table."),
        Key("finish", _FINISH, "How the foil shines; mirror without it."),
        Key(
            "place", Choice(("in front", "inside")), "Before the ring or in its plane.", "in front"
        ),
        Key("gap", Length(0.0, 10 * FOOT), "Room between two numerals.", "1/2in"),
        Key("thickness", Length(1.0, 24 * INCH), "Thickness at the seam.", "8mm"),
        Key(
            "raised",
            Length(-20 * FOOT, 20 * FOOT, signed=True, example='"1in"'),
            "How far they are moved up (- for down); the best fit without it.",
        ),
    ),
    example='{ numerals = "30", height = "16in" }',
)

PUMP = Table(
    "the pump",
    "Your own pump, measured once.",
    (
        Key("strokes", _STROKES, "So many strokes ...", 4),
        Key(
            "gives", Length(INCH / 2, 10 * FOOT), "... give a balloon of this diameter.", "4 1/2in"
        ),
    ),
    example='{ strokes = 4, gives = "4 1/2in" }',
)

_PUMP = Either(
    (PUMP, Text(60, may_be_empty=False, example='"hand pump"')), "a pump's name or a table"
)

LIMITS = Table(
    "the limits",
    "The figures that the checks judge by.",
    (
        Key("squeeze", Share(0, 0.4), "How far clusters are pressed together by hand.", "10%"),
        Key("crossing", Share(0, 1), "Most that two placed balloons may cross.", "25%"),
        Key("swing", Number(1, 180), "Most degrees a balloon may swing about its knot.", 45),
        Key("daylight", Share(0, 1), "Most holes that may show in a section.", "8%"),
        Key("bare_frame", Share(0, 1), "Most of a section's frame that may lie bare.", "20%"),
        Key(
            "doorway",
            ListOf(Length(6 * INCH, 100 * FOOT), "lengths", 2, 2),
            "Clear width and height of the doorway it must pass.",
            ["32in", "80in"],
            example='["32in", "80in"]',
        ),
        Key(
            "fill",
            ListOf(Share(0.05, 1.5), "shares", 2, 2),
            "Least and most fill of a balloon's nominal size.",
            ["50%", "95%"],
            example='["50%", "95%"]',
        ),
        Key("colour_difference", Number(0, 100), "Least difference (CIEDE2000) of colours.", 10),
        Key("foil_shrink", Share(0, 0.5), "How much a foil loses in height when filled.", "12%"),
    ),
    example='{ squeeze = "10%" }',
)

_COLOURS = MapOf(_LETTER, _COLOUR, "colours", 1)

COLOURWAY = Table(
    "a colourway",
    "The same piece in other colours.",
    (
        Key("name", Text(40, may_be_empty=False, example='"B"'), "Its name.", required=True),
        Key("colours", _COLOURS, "A colour for every letter of the design.", required=True),
        Key("foil", _COLOUR, "Another foil."),
    ),
    defined="colourway",
    example='{ name = "B", colours = { A = "oat" } }',
)

PIECE = Table(
    "the file",
    "A framed balloon piece.",
    (
        Key(
            "title",
            Text(200, may_be_empty=False, example='"Ruby turns thirty"'),
            "What the piece is called.",
            required=True,
        ),
        Key("client", Text(200), "Who it is for."),
        Key("date", Day(), "Day of the event."),
        Key("venue", Text(200), "Where it will stand."),
        Key("unit", Choice(("in", "cm")), "Unit in which sheets show lengths.", "in"),
        Key(
            "palette", Text(60, may_be_empty=False, example='"harbour"'), "Palette of its colours."
        ),
        Key("kind", _KIND, "Kind of cluster unless a section says otherwise.", "quad"),
        Key("size", _NOMINAL, "Nominal size of balloon unless a section says otherwise.", "5in"),
        Key("outdoors", YesNo(), "Whether it stands outdoors.", False),
        Key("overhead", YesNo(), "Whether it hangs over people.", False),
        Key(
            "mirror",
            Either((ListOf(Choice(MIRRORS), "mirrors", 0, 2), YesNo()), "a list, true or false"),
            "Which mirrors the piece must keep; those it has room for without it, false for none.",
            example='["left/right"]',
        ),
        Key("note", Text(2000, several_lines=True), "A note for the sheets."),
        Key("frame", FRAME, FRAME.words),
        Key("stand", STAND, STAND.words),
        Key("colours", _COLOURS, "Letters of the design and their colours.", required=True),
        Key("garland", GARLANDS, "Loose garlands of mixed sizes."),
        Key(
            "section",
            ListOf(SECTION, "sections", 1, 60, headed=True),
            "Stretches of clusters; a file with a garland or a wall needs none.",
            example="[[section]]",
        ),
        Key("topper", TOPPER, TOPPER.words),
        Key("wall", WALL, WALL.words),
        Key("panel", PANEL, PANEL.words),
        Key("pump", _PUMP, "A pump of the studio book by its name, or one measured."),
        Key("limits", LIMITS, LIMITS.words),
        Key("colourway", ListOf(COLOURWAY, "colourways", 0, 12, headed=True), "Other colours."),
        Key("climate", CLIMATE, CLIMATE.words),
        Key("wishes", WISHES, WISHES.words),
        Key("option", ListOf(Patch(), "options", 0, 12, headed=True), "Versions to compare."),
    ),
)

DEFINED = (COLOUR, DOUBLE, CLUSTER, END_CAP, SECTION, PORTION, GARLAND, COLOURWAY, AIR)
"""The tables that the schema defines once."""
