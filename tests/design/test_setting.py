"""The setting of a job file: what it says, and every fault of it told by its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.job_reading import read_job
from mockup.errors import FaultsFound

RING = """\
title = "Ring"
colours = { A = "oat" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""


def job(folder: Path, setting: str, row: str = "") -> Path:
    (folder / "ring.toml").write_text(RING, encoding="utf-8")
    path = folder / "job.toml"
    text = f'title = "J"\n{setting}\n[[piece]]\nfile = "ring.toml"\n{row}\n'
    path.write_text(text, encoding="utf-8")
    return path


def test_a_stage_with_its_exits_and_a_row(tmp_path: Path) -> None:
    setting = """[setting]
kind = "stage"
width = "20ft"
height = "2ft"
clear = "1m"
figure = "170cm"
exits = [{ name = "steps", at = "-8ft", width = "3ft" }]"""
    row = 'count = 2\nat = "-3ft"\napart = "6ft"\non = "floor"\nup = "4in"\nforward = "-2in"'
    found = read_job(job(tmp_path, setting, row))
    assert found.setting is not None
    spec, stands = found.setting, found.pieces[0].stands
    assert (spec.kind, spec.width, spec.top, spec.clear) == ("stage", 6096.0, 609.6, 1000.0)
    assert [(one.name, one.at, one.width) for one in spec.exits] == [("steps", -2438.4, 914.4)]
    assert (stands.at, stands.apart, stands.on) == (-914.4, 1828.8, "floor")
    assert (stands.up, stands.forward) == (101.6, -50.8)


def test_a_job_without_a_setting_has_none(tmp_path: Path) -> None:
    assert read_job(job(tmp_path, "")).setting is None


@pytest.mark.parametrize(
    ("setting", "row", "words"),
    [
        ('[setting]\nkind = "stage"\nwidth = "9ft"', "", "job.toml:2: the stage has no 'height'"),
        ('[setting]\nkind = "doorway"\nwidth = "9ft"', "", "the height of its opening"),
        (
            '[setting]\nkind = "floor"\nwidth = "9ft"\nheight = "9ft"',
            "",
            "job.toml:5: a bare floor",
        ),
        ('[setting]\nkind = "stge"\nwidth = "9ft"', "", "did you mean 'stage'"),
        ('[setting]\nkind = "floor"', "", "job.toml:2: the setting has no 'width'"),
        ('[setting]\nkind = "floor"\nwidth = 9', "", "has no unit"),
        (
            '[setting]\nkind = "floor"\nwidth = "9ft"\nexits = [{ at = "2ft" }]',
            "",
            "an exit has no 'width'",
        ),
        ("", 'at = "3ft"', "job.toml:5: 'at' says where the piece stands, and the job has no"),
        ('[setting]\nkind = "floor"\nwidth = "9ft"', 'on = "table"', "'on' cannot be 'table'"),
    ],
)
def test_a_fault_of_the_setting(tmp_path: Path, setting: str, row: str, words: str) -> None:
    with pytest.raises(FaultsFound) as found:
        read_job(job(tmp_path, setting, row))
    assert len(found.value.faults) == 1
    assert words in str(found.value)
