"""The keys of a flat wall in a piece file."""

from __future__ import annotations

from mockup.design.kinds import Choice, Matching, Number, Text
from mockup.design.lists import ListOf
from mockup.design.measures import Length
from mockup.design.tables import Key, Table

_INCH, _FOOT = 25.4, 304.8
MOST_ROWS, MOST_COLUMNS = 200, 200
MOST_BALLOONS = 20_000
MESHES = ("square", "staggered")
WALL_PATTERN_WORDS = (
    "alternate",
    "bands",
    "stripes",
    "slant",
    "blocks",
    "diamond",
    "gradual",
)  # a test holds them against symmetry.wall_patterns, which no other piece needs to import
NO_BALLOON = "."
_ONE = Matching("[A-Z]|none", "one capital letter, or none", '"A"')

WALL = Table(
    "the wall",
    "Balloons over a whole mesh, each a cell of a pattern, a word or a picture.",
    (
        Key("kind", Choice(("single", "quad")), "Singles, or quads two by two.", "single"),
        Key("mesh", Choice(MESHES), "Rows straight over each other, or each moved by half.",
            "square"),
        Key("size", Length(2 * _INCH, 10 * _FOOT), "Nominal size of its balloons."),
        Key("strokes", Number(0.25, 200), "Strokes of the pump in each balloon."),
        Key("fill", Length(_INCH / 2, 10 * _FOOT, example='"9in"'),
            "Or the diameter each is filled to."),
        Key(
            "rows",
            ListOf(
                Matching(r"[A-Z.]{1,200}", "capital letters, and . for no balloon", '"AABA"',
                         most=MOST_COLUMNS),
                "rows", 1, MOST_ROWS,
            ),
            "Its colours row by row from the top, a letter a balloon; . is left out.",
        ),
        Key("letters", Matching(r"[0-9A-Z&+!?.\-](?:[0-9A-Z&+!?.\- ]*[0-9A-Z&+!?.\-])?",
                                "capital letters, numerals or & + - ! ? .", '"MIA"', most=24),
            "Or a word, set in balloons as large as goes on it."),
        Key("picture", Text(200, may_be_empty=False, example='"logo.png"'),
            "Or a .png beside the piece file: each balloon takes the nearest colour."),
        Key("pattern", Choice(WALL_PATTERN_WORDS),
            "Or a pattern; also the ground of a word or a picture."),
        Key("order", Matching("[A-Z]{1,12}", "capital letters, one a colour", '"ABC"'),
            "The colours of the pattern in order; every colour of the file without it."),
        Key("each", Number(1, 100, whole=True, example="2"),
            "How many balloons wide a band, stripe, block or diamond is.", 1),
        Key("ground", _ONE,
            "The colour round a word or a picture; none leaves those places without a balloon."),
        Key("colours", Matching("[A-Z]{1,26}", "capital letters", '"BC"'),
            "The colours of the word, letter by letter in turn; those that a picture may use."),
        Key("high", Length(2 * _INCH, 100 * _FOOT, example='"3ft"'), "How high the word stands."),
        Key("difference", Number(0, 100), "How far (CIEDE2000) a picture's colour may be from its "
            "balloon's before it is told.", 10),
    ),
    apart=(
        ("strokes", "fill"), ("rows", "letters"), ("rows", "picture"), ("rows", "pattern"),
        ("letters", "picture"), ("ground", "pattern"),
    ),
    example='{ pattern = "diamond" }',
)  # fmt: skip
