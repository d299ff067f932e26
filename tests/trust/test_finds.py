"""Files that a hunt once brought down, kept as they were found but for their words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from mockup.cli.main import mockup
from mockup.design.approvals import Record, add_record, read_log
from mockup.design.job_reading import read_job
from mockup.design.reading import design_from_text, read_design
from mockup.design.studio_reading import studio_from_text
from mockup.errors import FaultsFound
from mockup.packing.frames import frame_from
from mockup.piece.assemble import assemble
from mockup.piece.code import content
from mockup.piece.findings import find_all
from mockup.piece.recalled import NotADesign
from mockup.piece.revisions import record_words, standing

TOP = 'title = "Found"\ncolours = { A = "deep teal" }\n'


def test_clusters_that_slip_into_each_other_close_no_ring() -> None:
    """A small cluster between large ones takes no length at all: no count closes the ring."""
    text = (
        f'{TOP}frame = {{ outside = "18in" }}\n[[section]]\nat = "12"\nwhole = true\n'
        'clusters = [{ strokes = 0.25 }, { fill = "9 1/2in", size = "11in" }]\n'
    )
    with pytest.raises(FaultsFound) as told:
        assemble(design_from_text(text, "found.toml"))
    (fault,) = told.value.faults
    assert fault.where == "found.toml:4"
    assert "slip" in fault.what


@pytest.mark.parametrize("kind", ["hexagon", "square"])
def test_a_frame_of_any_size_has_a_clock_face(kind: str) -> None:
    """One in some sizes had one mark more than places, by the last digit of a division."""
    for eighths in range(160, 480):
        frame = frame_from(kind=kind, outside=25.4 * eighths / 8, tube=12.7, corner=50.8)
        for deg in (0.0, 90.0, 200.0):
            assert frame.deg_at(frame.s_at_deg(deg)) == pytest.approx(deg, abs=0.01)


def test_a_hexagon_goes_round_whole() -> None:
    text = (
        f'{TOP}frame = {{ kind = "hexagon", outside = "40.125in" }}\n'
        '[[section]]\nat = "12"\nwhole = true\nclusters = [{ strokes = 3 }]\n'
    )
    piece = assemble(design_from_text(text, "found.toml"))
    assert piece.wholes
    assert find_all(piece)


@pytest.mark.parametrize("size", ['"layers"', '"0in"', "3", "nan"])
def test_a_topper_of_no_size_is_told_with_its_line(size: str) -> None:
    text = (
        f'{TOP}frame = {{ kind = "pole", height = "60in" }}\n[[section]]\nat = "1/2"\n'
        f"clusters = [{{ strokes = 3 }}]\n[topper]\nsize = {size}\n"
    )
    with pytest.raises(FaultsFound) as told:
        design_from_text(text, "found.toml")
    (fault,) = told.value.faults
    assert fault.where == "found.toml:8"
    assert "size" in fault.what


@pytest.mark.parametrize("doorway", ['["32", "80in"]', '["32in", 80]', '["32", 80]'])
def test_a_doorway_of_one_length_is_told_with_its_line(doorway: str) -> None:
    with pytest.raises(FaultsFound) as told:
        studio_from_text(f'name = "Found"\ndoorway = {doorway}\n', "found.toml")
    assert {fault.where for fault in told.value.faults} == {"found.toml:2"}


@pytest.mark.parametrize("name", ["x" * 400 + ".toml", "x" * 5000, "a\\u0000b", "no/such.toml"])
def test_a_name_that_no_file_can_have_is_told_with_its_line(name: str, tmp_path: Path) -> None:
    """It was said that the answer could not be written (found by atheris)."""
    job = tmp_path / "found.toml"
    job.write_text(f'title = "Found"\n[[piece]]\nfile = "{name}"\n', "utf-8")
    with pytest.raises(FaultsFound) as told:
        read_job(job)
    (fault,) = told.value.faults
    assert fault.where == f"{job}:3"
    assert fault.what.isprintable()


RECORD = Record("approved", "1A2B3C4D", 1, "2027-03-01", "R. Alder", content={"title": "Found"})


@pytest.mark.parametrize(
    "wrong",
    [
        {"revision": "1"}, {"revision": 0}, {"revision": 1.5}, {"revision": True}, {"kind": "seen"},
        {"code": ["1A2B3C4D"]}, {"by": None}, {"on": 3}, {"note": {}}, {"content": "Found"},
    ],
)  # fmt: skip
def test_a_sealed_line_of_wrong_values_is_a_damaged_one(
    wrong: dict[str, Any], tmp_path: Path
) -> None:
    piece = tmp_path / "found.toml"
    add_record(piece, replace(RECORD, **wrong))
    add_record(piece, RECORD)
    log = read_log(piece)
    assert [fault.where for fault in log.faults] == ["found.approvals.jsonl:1"]
    assert log.records == (RECORD,)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("sections", "x"), ("panel", {}), ("panel", "30"), ("colours", 3), ("frame", True),
        ("frame", {"outside": float("inf")}), ("frame", {"outside": 10**400}),
        ("colours", {"A": {"name": "\x1b[31m", "srgb": "#fff", "finish": "matte"}}),
    ],
)  # fmt: skip
def test_what_changed_since_a_record_without_a_design_is_said_in_words(
    key: str, value: object, tmp_path: Path
) -> None:
    """A line that a program put a seal on, of a version that knew other keys, or by hand."""
    piece = tmp_path / "found.toml"
    piece.write_text(f'{TOP}[[section]]\nat = "12"\nclusters = [{{ strokes = 3 }}]\n', "utf-8")
    now = read_design(piece)
    add_record(piece, replace(RECORD, content=content(now) | {key: value}))
    (said,) = standing(now, piece).changed()
    assert said.startswith("the log's record cannot be read")
    done = CliRunner().invoke(mockup, ["changes", str(piece)])
    assert isinstance(done.exception, NotADesign)


def test_a_name_of_control_characters_is_spelled_out() -> None:
    assert record_words(replace(RECORD, by="R.\x1b[2JAlder")).endswith(
        "\\u001b[2JAlder on 1 Mar 2027"
    )
