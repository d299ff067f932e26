"""``--json`` of the commands for stock: one object alone on stdout, its counts those of others."""

from __future__ import annotations

import json
import shutil
from collections import Counter
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from mockup.cli.main import mockup

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
NAMES = {"A": "ivory husk", "B": "moss"}
"""What both sample pieces call their letters."""

COUNT = {"type": "integer", "minimum": 0}
WORDS = {"type": "string"}
MONEY = {"type": "string", "pattern": r"^\d+(\.\d+)?$"}
LIST = {"type": "array"}


def closed(**properties: Any) -> dict[str, Any]:
    """An object with exactly these keys (JSON Schema 2020-12)."""
    return {
        "type": "object",
        "properties": properties,
        "required": sorted(properties),
        "additionalProperties": False,
    }


def rows(**properties: Any) -> dict[str, Any]:
    return {"type": "array", "minItems": 1, "items": closed(**properties)}


ABOUT = {
    "version": {"const": 1},
    "title": WORDS,
    "code": {"type": "string", "pattern": "^[0-9A-F]{8}$"},
    "revision": COUNT,
    "colourway": WORDS,
    "pieces": COUNT,
    "balloons": COUNT,
    "changed": LIST,
    "written": {"type": "array", "items": WORDS},
}
MM = {"type": "number", "exclusiveMinimum": 0}
BALLOON = {"size_mm": MM, "colour": WORDS, "finish": WORDS}
BOUGHT = {"needed": COUNT, "on_hand": COUNT, "to_buy": COUNT, "to_find": COUNT, "cost": MONEY}
SHAPES: dict[str, dict[str, Any]] = {
    "buy": closed(
        **ABOUT,
        currency=WORDS,
        kinds=rows(
            **BALLOON,
            **BOUGHT,
            fills=rows(diameter_mm=MM, count=COUNT),
            spares=COUNT,
            left_over=COUNT,
            bags=rows(holds=COUNT, number=COUNT, price=MONEY, supplier=WORDS),
        ),
        foils=rows(
            numeral=WORDS, height_mm=MM, colour=WORDS, finish=WORDS, supplier=WORDS, **BOUGHT
        ),
        materials=rows(
            **dict.fromkeys(("needed", "on_hand", "pack", "left_over", "cost"), MONEY),
            name=WORDS,
            unit=WORDS,
            packs=COUNT,
            supplier=WORDS,
        ),
        gauge_sheets=COUNT,
        to_find=COUNT,
        cost=MONEY,
        booked={"type": "null"},
    ),
    "quote": closed(
        **ABOUT,
        marked_for={"const": "client"},
        currency=WORDS,
        lines=rows(name=WORDS, amount=MONEY),
        **dict.fromkeys(("net", "tax", "total", "deposit", "balance"), MONEY),
        valid_until={"type": "string", "pattern": r"^\d{4}-\d\d-\d\d$"},
    ),
    "build": closed(
        **ABOUT,
        hands=COUNT,
        times=rows(task=WORDS, starts=WORDS, ends=WORDS),
        fill=rows(**BALLOON, diameter_mm=MM, strokes=MM, count=COUNT),
        builds=rows(
            title=WORDS,
            code=WORDS,
            count=COUNT,
            tie=rows(
                sign=WORDS,
                kind=WORDS,
                letters=WORDS,
                size_mm=MM,
                diameter_mm=MM,
                strokes=MM,
                count=COUNT,
            ),
            place=rows(
                number=COUNT,
                sign=WORDS,
                section=WORDS,
                along_mm={"type": "number"},
                turn=WORDS,
                first=WORDS,
                end_cap={"type": "boolean"},
            ),
        ),
    ),
    "gauge": closed(
        **ABOUT,
        holes=rows(diameter_mm=MM, strokes=LIST, uses=rows(**BALLOON, count=COUNT)),
        sheets=COUNT,
    ),
}


def run(*words: object) -> Result:
    return CliRunner().invoke(mockup, [str(word) for word in words])


@pytest.fixture(scope="module")
def told() -> dict[str, Any]:
    """What each command says of the sample job, read from stdout alone."""
    job = JOBS / "alder-weekend.toml"
    return {name: json.loads(run(name, job, "--json").stdout) for name in SHAPES}


@pytest.mark.parametrize("name", SHAPES)
def test_the_object_has_exactly_these_keys(told: dict[str, Any], name: str) -> None:
    Draft202012Validator.check_schema(SHAPES[name])
    Draft202012Validator(SHAPES[name]).validate(told[name])


def test_the_counts_are_those_of_the_layout(told: dict[str, Any]) -> None:
    """An independent recount: every balloon that ``layout --json`` lists, piece by piece."""
    counts: Counter[tuple[str, float]] = Counter()
    for name, times in (("alder-table-ring.toml", 12), ("alder-arch.toml", 1)):
        layout = json.loads(run("layout", JOBS / name, "--json").stdout)
        for balloon in layout["balloons"]:
            counts[NAMES[balloon["colour"]], round(balloon["diameter"], 1)] += times
    bought: Counter[tuple[str, float]] = Counter()
    for kind in told["buy"]["kinds"]:
        for fill in kind["fills"]:
            bought[kind["colour"], fill["diameter_mm"]] += fill["count"]
        assert sum(fill["count"] for fill in kind["fills"]) == kind["needed"]
    assert bought == counts
    filled = sum(one["count"] for one in told["build"]["fill"])
    holes = sum(use["count"] for hole in told["gauge"]["holes"] for use in hole["uses"])
    assert filled == holes == sum(counts.values()) == told["buy"]["balloons"]


def test_the_costs_add_up(told: dict[str, Any]) -> None:
    lines = [*told["buy"]["kinds"], *told["buy"]["foils"], *told["buy"]["materials"]]
    assert sum(Decimal(line["cost"]) for line in lines) == Decimal(told["buy"]["cost"])
    quoted = told["quote"]
    net = sum(Decimal(line["amount"]) for line in quoted["lines"])
    assert net + Decimal(quoted["tax"]) == Decimal(quoted["total"])


def test_the_clients_data_hold_no_cost(told: dict[str, Any], tmp_path: Path) -> None:
    own = tmp_path / "own.pdf"
    done = run("quote", JOBS / "alder-weekend.toml", "--json", "--internal", own)
    said = done.stdout
    assert f"Wrote {own}." in done.stderr
    assert own.exists()
    assert str(own) not in said
    secret = [told["buy"]["cost"], *(kind["cost"] for kind in told["buy"]["kinds"])]
    figures = {line["amount"] for line in json.loads(said)["lines"]}
    assert not figures & set(secret)
    for word in ("cost", "margin", "markup", "hourly", "market hall", "224.15", "766.27"):
        assert word not in said, word


def test_data_alone_write_no_file(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    shutil.copytree(JOBS, folder)
    before = sorted(folder.iterdir())
    for name in SHAPES:
        assert json.loads(run(name, folder / "alder-arch.toml", "--json").stdout)["written"] == []
    assert sorted(folder.iterdir()) == before


def test_what_is_written_and_booked_is_told(tmp_path: Path) -> None:
    folder, out = tmp_path / "jobs", tmp_path / "buy.csv"
    shutil.copytree(JOBS, folder)
    done = run("buy", folder / "alder-weekend.toml", "--json", "--take", "-o", out)
    said = json.loads(done.stdout)
    assert said["written"] == [str(out)]
    assert said["booked"]["done"] == "take"
    assert {"size_mm": 127.0, "colour": "moss", "finish": "matte", "count": "9"} in said["booked"][
        "rows"
    ]


def test_the_book_as_data_tells_each_figures_origin() -> None:
    said = json.loads(run("studio", "show", JOBS, "--json").stdout)
    assert said["version"] == 1
    assert said["file"] == str(JOBS / "studio.toml")
    figures = {one["name"]: one for one in said["figures"]}
    assert figures["spares.share"]["value"] == '"8%"'
    assert figures["spares.share"]["origin"].startswith(f"{JOBS / 'studio.toml'}:")


@pytest.mark.parametrize(
    ("words", "key", "value"),
    [
        (("pump", "hand pump", "4=4.5in"), "gives_mm", 114.3),
        (("squeeze", "12 quads of 4 1/2in took 38.83in"), "share", 0.1),
        (("foil", "40cm=35cm"), "share", 0.125),
    ],
)
def test_a_calibration_as_data(words: tuple[str, ...], key: str, value: float) -> None:
    said = json.loads(run("calibrate", *words, "--json").stdout)
    assert said[key] == pytest.approx(value, rel=2e-3)
    assert said["version"] == 1
    assert said["written"] is None
    assert [sorted(one) for one in said["measurements"]] == [
        ["fit_mm", "measured", "off", "value_mm"]
    ]


def test_a_plan_without_a_day_tells_no_moments(tmp_path: Path) -> None:
    piece = tmp_path / "bare.toml"
    piece.write_text(
        'title = "Bare"\ncolours = { A = "oat" }\n[[section]]\nat = "12"\n'
        'clusters = [{ strokes = 3, colours = "AAAA" }]\n',
        encoding="utf-8",
    )
    said = json.loads(run("build", piece, "--json").stdout)
    assert {(one["starts"], one["ends"]) for one in said["times"]} == {(None, None)}
    assert [one["count"] for one in said["fill"]] == [4]
