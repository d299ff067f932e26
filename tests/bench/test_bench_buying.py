"""What to buy and what it costs, and the options side by side: as the commands tell them."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.job_reading import read_job
from mockup.design.studio import Studio
from mockup.design.studio_reading import read_studio
from mockup.stock.buying import buy_list
from mockup.stock.money import money
from mockup.stock.order import order
from tests.bench.conftest import SAMPLES, Start


@pytest.fixture
def table_ring(tmp_path: Path) -> Path:
    """A piece beside a studio book that sells all it takes."""
    for name in ("alder-table-ring.toml", "studio.toml"):
        (tmp_path / name).write_bytes((SAMPLES / "jobs" / name).read_bytes())
    return tmp_path / "alder-table-ring.toml"


def test_without_a_book_the_needs_are_counted(start: Start, piece: Path) -> None:
    told = start(piece).call("buying").data
    assert (told["book"], told["cost"], told["tofind"]) == ("", [], "")
    needed = [line["cells"][1] for line in told["groups"][0]["lines"]]
    bought = buy_list(order(read_job(piece), Studio()).picking, Studio())
    assert needed == [f"{line.need.count:,}" for line in bought.balloons]


def test_with_a_book_it_is_priced(start: Start, table_ring: Path) -> None:
    told = start(table_ring).call("buying").data
    studio = read_studio(table_ring.with_name("studio.toml"))
    bought = buy_list(order(read_job(table_ring), studio).picking, studio)
    assert told["book"] == "studio.toml"
    assert told["total"] == money(bought.cost, studio.currency, studio.locale)
    assert [name for name, _ in told["cost"]][:1] == ["Material, as bought new"]


def test_it_is_counted_in_the_colourway_that_is_shown(start: Start, tmp_path: Path) -> None:
    copy = tmp_path / "lanterns.toml"
    copy.write_bytes((SAMPLES / "market-lanterns.toml").read_bytes())
    bench = start(copy)
    first = [line["cells"][0] for line in bench.call("buying").data["groups"][0]["lines"]]
    told = bench.call("buying", look={"way": 1}).data
    second = [line["cells"][0] for line in told["groups"][0]["lines"]]
    assert any("pepper red" in one for one in first)
    assert any("plum fizz" in one for one in second)
    assert not any("pepper red" in one for one in second)


def test_a_wrong_book_is_told_with_its_line(start: Start, table_ring: Path) -> None:
    bench = start(table_ring)
    table_ring.with_name("studio.toml").write_text("[[bag]]\nsizes = 5\n", "utf-8")
    told = bench.call("buying")
    assert told.status == 422
    assert "'sizes'" in told.data["said"]


def test_options_stand_beside_the_piece_as_it_is(start: Start, piece: Path) -> None:
    more = '\n[[option]]\nname = "wide"\nframe.outside = "34in"\n'
    piece.write_text(piece.read_text("utf-8") + more, "utf-8")
    told = start(piece).call("options").data
    assert [one["name"] for one in told["versions"]] == ["as it is", "wide"]
    assert {len(row["cells"]) for row in told["rows"]} == {2}
    balloons = next(row for row in told["rows"] if row["label"] == "Balloons")
    assert all(cell.isdigit() for cell in balloons["cells"])
    assert all("fails" not in one["failing"] for one in told["versions"])


def test_a_wrong_option_is_told(start: Start, piece: Path) -> None:
    more = '\n[[option]]\nname = "wide"\nframe.outsid = "34in"\n'
    piece.write_text(piece.read_text("utf-8") + more, "utf-8")
    told = start(piece).call("options")
    assert told.status == 422
    assert "outsid" in told.data["said"]


def test_options_are_of_the_text_though_it_is_not_saved(start: Start, piece: Path) -> None:
    bench = start(piece)
    value = {"name": "wide", "frame": {"outside": "34in"}}
    change = {"do": "insert", "path": ["option"], "at": 0, "value": value}
    assert bench.call("change", base=1, changes=[change]).status == 200
    assert len(bench.call("options").data["versions"]) == 2
    assert "option" not in piece.read_text("utf-8")
