"""Every table and key of a job file."""

from __future__ import annotations

from decimal import Decimal

from mockup.design.kinds import Number, Text
from mockup.design.lists import ListOf
from mockup.design.measures import Day
from mockup.design.setting_keys import SETTING, STANDS
from mockup.design.studio_kinds import Exact, Hour
from mockup.design.tables import Key, Table

MOST_PIECES = 500

JOB_PIECE = Table(
    "a piece of the job",
    "A piece file, and how many of it.",
    (
        Key(
            "file",
            Text(400, may_be_empty=False, example='"table-ring.toml"'),
            "The piece file, from the job file's folder.",
            required=True,
        ),
        Key("count", Number(1, 10_000, whole=True, example="12"), "How many of it.", 1),
        *STANDS,
    ),
    example='file = "table-ring.toml" under [[piece]]',
)

JOB = Table(
    "the job",
    "Several pieces for one client and one day.",
    (
        Key(
            "title",
            Text(200, may_be_empty=False, example='"Alder weekend"'),
            "What the job is called.",
            required=True,
        ),
        Key("client", Text(200), "Who it is for.", ""),
        Key("date", Day(), "Day of the event."),
        Key("venue", Text(200), "Where it will stand.", ""),
        Key("ready", Hour(), "The hour at which everything stands."),
        Key("helpers", Number(0, 50, whole=True), "Pairs of hands beside your own.", 0),
        Key(
            "distance",
            Exact(Decimal(10_000), "a number", "12"),
            "The way there, in the book's unit.",
            0,
        ),
        Key("revision", Number(1, 9999, whole=True), "Number of this revision.", 1),
        Key("note", Text(2000, several_lines=True), "A note for the sheets.", ""),
        Key("setting", SETTING, "What the pieces stand on, drawn to one scale."),
        Key(
            "piece",
            ListOf(JOB_PIECE, "pieces", 1, MOST_PIECES, headed=True),
            "The pieces.",
            required=True,
            example="[[piece]]",
        ),
    ),
)
