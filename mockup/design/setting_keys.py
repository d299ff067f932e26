"""The setting of a job: its keys, and from these to where the pieces stand."""

from __future__ import annotations

from typing import cast

from mockup.design.faults import FaultList
from mockup.design.kinds import Choice, Text
from mockup.design.lists import ListOf
from mockup.design.measures import Length
from mockup.design.setting import ExitSpec, SettingKind, SettingSpec, StandsOn, StandsSpec
from mockup.design.tables import Given, Key, Table

_INCH, _FOOT = 25.4, 304.8
_FAR = 300 * _FOOT
_NEEDS_HEIGHT: dict[str, str] = {
    "stage": 'height = "2ft", how high it stands',
    "table": 'height = "30in", how high its top is',
    "doorway": 'height = "80in", the height of its opening',
}

EXIT = Table(
    "an exit",
    "A way that must stay clear.",
    (
        Key("name", Text(40, may_be_empty=False), "What the sheet calls it.", "exit"),
        Key(
            "at",
            Length(-_FAR, _FAR, True, '"8ft"'),
            "Its middle, from the setting's.",
            required=True,
        ),
        Key("width", Length(_FOOT, _FAR, example='"3ft"'), "Its width.", required=True),
    ),
    example='{ at = "8ft", width = "3ft" }',
)

SETTING = Table(
    "the setting",
    "What the pieces of the job stand on, drawn with them to one scale.",
    (
        Key(
            "kind",
            Choice(("stage", "doorway", "table", "floor")),
            "What it is.",
            required=True,
        ),
        Key("width", Length(_FOOT, _FAR, example='"20ft"'), "Its width.", required=True),
        Key(
            "height",
            Length(_INCH, 60 * _FOOT, example='"2ft"'),
            "Of a stage or a table its top, of a doorway its opening.",
        ),
        Key(
            "clear",
            Length(_INCH, 60 * _FOOT, example='"36in"'),
            "Least clear width of a way; 36in, in a doorway 32in, without it.",
        ),
        Key(
            "figure",
            Length(2 * _FOOT, 8 * _FOOT, example='"5ft 6in"'),
            "The height of a person drawn beside it.",
        ),
        Key("exits", ListOf(EXIT, "exits", 0, 20), "Ways that must stay clear.", []),
    ),
)

STANDS = (
    Key(
        "at",
        Length(-_FAR, _FAR, True, '"-6ft"'),
        "Its middle, from the setting's; left is below 0.",
        "0in",
    ),
    Key("apart", Length(_INCH, _FAR, example='"4ft"'), "From one to the next, middle to middle."),
    Key(
        "on",
        Choice(("setting", "floor", "elsewhere")),
        "What it stands on; pieces elsewhere are not drawn there.",
        "setting",
    ),
    Key("up", Length(0, 60 * _FOOT), "How high its lowest point hangs above that.", "0in"),
    Key("forward", Length(-_FAR, _FAR, True), "How far before the others it stands.", "0in"),
)


def setting_spec(table: Given | None, faults: FaultList) -> SettingSpec | None:
    """The setting, where there is one."""
    if table is None:
        return None
    kind = cast(SettingKind, table.get("kind", "floor"))
    height: float = table.get("height", 0.0)
    if not faults.touches(table.at("kind"), table.at("height")):
        if kind in _NEEDS_HEIGHT and not height:
            faults.add(table.path, f"the {kind} has no 'height'", f"write {_NEEDS_HEIGHT[kind]}")
        elif kind == "floor" and height:
            faults.add(table.at("height"), "a bare floor has no height", "take 'height' out")
    exits = tuple(
        ExitSpec(one.get("name", "exit"), one.get("at", 0.0), one.get("width", 0.0), one.path)
        for one in table.tables("exits")
    )
    return SettingSpec(
        kind,
        table.get("width", 0.0),
        height,
        table.get("clear", None),
        table.get("figure", None),
        exits,
        table.path,
    )


def stands_spec(row: Given, setting: Given | None, faults: FaultList) -> StandsSpec:
    """Where a piece stands; its keys need a setting to stand in."""
    written = [key.name for key in STANDS if key.name in row.written]
    if written and setting is None:
        what = f"'{written[0]}' says where the piece stands, and the job has no setting"
        faults.add(row.at(written[0]), what, 'add [setting] with kind = "stage" and its width')
    return StandsSpec(
        row.get("at", 0.0),
        row.get("apart", None),
        cast(StandsOn, row.get("on", "setting")),
        row.get("up", 0.0),
        row.get("forward", 0.0),
    )
