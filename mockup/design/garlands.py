"""Loose garlands in a piece file: their keys, and from these to what is asked."""

from __future__ import annotations

from typing import cast

from mockup.design.clusters import Filled, Ground, check_fill, filled_of
from mockup.design.kinds import Choice, Matching, Number, Text
from mockup.design.lists import ListOf
from mockup.design.measures import Length, Share
from mockup.design.model import Balance, FrameSpec, GarlandSpec, PlaceSpec, PortionSpec
from mockup.design.places import Along, Place
from mockup.design.tables import Given, Key, Table

_INCH, _FOOT = 25.4, 304.8
_MOST_SIZES, _MOST_GARLANDS = 8, 12
# Shares are written to a tenth of a per cent or so; this much may be lost in rounding.
_SUM = 1e-3

PORTION = Table(
    "a size",
    "One size of balloon in the recipe.",
    (
        Key("size", Length(2 * _INCH, 10 * _FOOT), "Nominal size.", required=True, example='"5in"'),
        Key("strokes", Number(0.25, 200), "Strokes of the pump in each balloon."),
        Key("fill", Length(_INCH / 2, 10 * _FOOT), "Or the diameter each is filled to."),
        Key("share", Share(0.001, 1.0), "Its share of the count.", required=True),
    ),
    apart=(("strokes", "fill"),),
    defined="portion",
    example='{ size = "5in", share = "45%" }',
)

GARLAND = Table(
    "a garland",
    "Balloons of mixed sizes that fill a stretch of the frame, as thick as asked.",
    (
        Key("name", Text(40, may_be_empty=False), "What the sheets call it.", "garland"),
        Key("from", Place('"9"'), "Where it begins; the frame's start without it."),
        Key("to", Place('"3"'), "Where it ends; the frame's end without it."),
        Key("width", Length(4 * _INCH, 20 * _FOOT), "Its width over all.", "22in"),
        Key(
            "coverage",
            Share(0.5, 1.0),
            "How much of its band must show neither gap nor frame.",
            "99%",
        ),
        Key("recipe", ListOf(PORTION, "sizes", 1, _MOST_SIZES), "Its sizes.", required=True),
        Key(
            "colours",
            Matching("[A-Z]{1,40}", "capital letters", '"AABC"'),
            "Its colours; a letter written twice comes twice as often. All without it.",
        ),
        Key("seed", Number(1, 10**9, whole=True), "Another number gives another arrangement.", 1),
        Key("balance", Choice(("even", "left", "right")), "Which side is the heavier.", "even"),
    ),
    defined="garland",
    example='{ recipe = [{ size = "5in", share = "100%" }] }',
)

GARLANDS = ListOf(GARLAND, "garlands", 0, _MOST_GARLANDS, headed=True)


def garland_specs(tables: list[Given], frame: FrameSpec, ground: Ground) -> tuple[GarlandSpec, ...]:
    """Every garland of the file."""
    del frame
    found = tuple(_garland(table, ground) for table in tables)
    names = [one.name for one in found]
    for one in found:
        if names.count(one.name) > 1:
            what = f"two garlands are called '{one.name}'"
            ground.faults.add((*one.path, "name"), what, "give one of them another name")
            break
    return found


def _garland(table: Given, ground: Ground) -> GarlandSpec:
    recipe = tuple(_portion(one, ground) for one in table.tables("recipe"))
    total = sum(one.share for one in recipe)
    if recipe and abs(total - 1.0) > _SUM and not ground.faults.touches(table.at("recipe")):
        what = f"the shares of the recipe come to {100 * total:.4g} %"
        ground.faults.add(table.at("recipe"), what, "write shares that come to 100 %")
    letters: str = table.get("colours", "") or "".join(ground.letters)
    unknown = sorted(set(letters) - ground.known) if ground.known else []
    if unknown:
        what = f"'{unknown[0]}' in 'colours' is not among the colours"
        ground.faults.add(table.at("colours"), what, f"add {unknown[0]} to [colours]")
    return GarlandSpec(
        name=table.get("name", "garland"),
        begins=_place(table.values.get("from"), 0.0),
        ends=_place(table.values.get("to"), 1.0),
        width=table.get("width", 22 * _INCH),
        coverage=table.get("coverage", 0.99),
        recipe=recipe,
        letters=letters,
        seed=int(table.get("seed", 1)),
        balance=cast(Balance, table.get("balance", "even")),
        path=table.path,
    )


def _place(written: object, share: float) -> PlaceSpec:
    if isinstance(written, Along):
        return PlaceSpec(share=written.share, mm=written.mm)
    return PlaceSpec(deg=written) if isinstance(written, float) else PlaceSpec(share=share)


def _portion(table: Given, ground: Ground) -> PortionSpec:
    nominal: float = table.get("size", 5 * _INCH)
    filled: Filled = filled_of(table, nominal, ground)
    check_fill(filled, nominal, ground)
    return PortionSpec(nominal, filled.diameter, filled.strokes, table.get("share", 0.0))
