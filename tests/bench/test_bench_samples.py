"""Every sample can be put on the bench: drawn, described and judged."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from mockup.bench.answers import findings, full
from mockup.bench.canvas import as_json
from mockup.bench.desk import Desk
from mockup.bench.looks import Look

SAMPLES = sorted((Path(__file__).parent.parent.parent / "samples").glob("*.toml"))


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_a_sample_is_drawn_and_described(sample: Path) -> None:
    desk = Desk(sample, sample.parent)
    told = json.loads(as_json(full(desk, Look(dimensions=True), frozenset())))
    width, height = told["drawing"]["width"], told["drawing"]["height"]
    places = told["places"]
    assert told["faults"] == []
    assert len(places["balloons"]) == told["design"]["count"]
    assert all(0 < x < width and 0 < y < height for x, y, *_ in places["balloons"])
    for one in places["clusters"]:
        twin = one["twin"]
        assert twin is None or places["clusters"][twin]["twin"] == places["clusters"].index(one)
    spots = [spot for section in places["sections"] for spot in section["ends"].values() if spot]
    knots = [one["at"] for one in places["clusters"]]
    assert all(spot in knots for spot in spots)
    for section in places["sections"]:
        x, y = section["middle"]
        assert 0 < x < width
        assert 0 < y < height
    assert {one["verdict"] for one in findings(desk)["findings"]} <= {"holds", "look", "fails"}
