"""The suggestions on the page: sought beside it, stopped, and taken up in the text."""

from __future__ import annotations

import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from mockup.bench.edits import edited
from mockup.bench.seeking import Seeking, changes_to
from mockup.design.reading import design_from_text
from mockup.design.wishes import wishes_from_text
from mockup.piece.code import content
from mockup.suggest.comparing import Expense
from mockup.suggest.searching import suggested
from tests.bench.conftest import SAMPLES, Running, Start

HUNDRED = SAMPLES / "wishes-hundred.toml"


def ended(bench: Running, **asked: Any) -> dict[str, Any]:
    """The answer of a search once it has ended."""
    end = time.monotonic() + 60
    while time.monotonic() < end:
        told: dict[str, Any] = bench.call("sought", **asked).data
        if not told["running"]:
            return told
        time.sleep(0.02)
    raise TimeoutError("the search has not ended")


@pytest.fixture
def hundred(tmp_path: Path) -> Path:
    copy = tmp_path / "hundred.toml"
    copy.write_bytes(HUNDRED.read_bytes())
    return copy


def test_three_designs_are_found_and_one_is_taken_up(start: Start, hundred: Path) -> None:
    bench = start(hundred)
    assert bench.call("seek").data["running"] in (True, False)
    told = ended(bench)
    assert len(told["designs"]) == 3
    assert told["looked"] > 0
    assert all(one["drawing"]["width"] > 0 for one in told["designs"])
    first = told["designs"][0]
    taken = bench.call("change", base=bench.served.desk.version, changes=first["changes"])
    assert taken.data["faults"] == []
    assert first["name"].startswith(f"{taken.data['design']['count']} balloons")
    assert "# clear of everything by as much" in bench.served.desk.now.text


@pytest.mark.parametrize(
    ("sample", "wishes"),
    [
        ("wishes-hundred", ""),
        ("ruby-thirty", 'rank = "minutes"\na_side = [1, 3]\nend_caps = ["none", "half"]'),
        ("club-hundred", 'fills = ["4in", "3 1/2in"]\na_side = [1, 2]'),
        ("garden-arc", 'turns = ["point in", 20]\na_side = [1, 2]'),
    ],
)
def test_a_design_found_is_what_its_changes_write(sample: str, wishes: str) -> None:
    text = (SAMPLES / f"{sample}.toml").read_text("utf-8")
    text += f"\n[wishes]\n{wishes}\n" if wishes else ""
    design, wished = wishes_from_text(text, "x.toml", SAMPLES)
    wished = replace(wished, room=0.0)
    found = suggested(
        design, wished, lambda piece: Expense(float(len(piece.balloons))), at_most=400
    )
    assert found.best
    for one in found.best:
        changed = edited(text, list(changes_to(one.design, design, wished, text)))
        again = design_from_text(changed, "x.toml", SAMPLES)
        assert content(again)["sections"] == content(one.design)["sections"]
        assert [line for line in text.splitlines() if line.startswith("#")] == [
            line for line in changed.splitlines() if line.startswith("#")
        ]


def test_a_search_that_is_stopped_says_so(hundred: Path) -> None:
    class Stopping(Seeking):
        def _note(self, looked_at: int, total: int, found: int) -> None:
            self.stop()
            super()._note(looked_at, total, found)

    text = hundred.read_text("utf-8").replace("most_balloons = 64", "most_balloons = 32")
    seeking = Stopping(text, hundred)
    seeking.thread.join(60)
    told = seeking.told()
    assert not told["running"]
    assert told["says"] == ["Stopped; none was found so far."]
    assert 0 < told["looked"] < told["total"]


def test_wishes_that_cannot_hold_together_are_told(start: Start, hundred: Path) -> None:
    hundred.write_text(hundred.read_text("utf-8").replace('"1/2in" ', '"9in" '), "utf-8")
    bench = start(hundred)
    bench.call("seek")
    told = ended(bench)
    assert told["designs"] == []
    assert "cannot both hold" in told["says"][0]


def test_where_none_fits_a_larger_ring_is_offered(start: Start, hundred: Path) -> None:
    text = hundred.read_text("utf-8").replace('height = "13in"', 'height = "16in"')
    hundred.write_text(text.replace('room = "1/2in"', 'room = "1/8in"'), "utf-8")
    bench = start(hundred)
    bench.call("seek")
    told = ended(bench)
    assert "None fits" in told["says"][0] or "cannot both hold" in told["says"][0]


def test_a_text_with_faults_is_mended_first(start: Start, hundred: Path) -> None:
    bench = start(hundred)
    bench.call("write", base=bench.served.desk.version, text="title = ")
    assert bench.call("seek").status == 422
    assert bench.call("sought").status == 422


def test_the_bench_ends_though_something_is_sought(start: Start, hundred: Path) -> None:
    bench = start(hundred)
    bench.call("seek")
    bench.stop()
    assert bench.served.desk.seeking is not None
    assert bench.served.desk.seeking.stopping
