"""The elevation of a job: one scale, everything dimensioned, and the same drawing again."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.job import Job
from mockup.design.job_reading import read_job
from mockup.lengths import format_room
from mockup.piece.assemble import assemble
from mockup.piece.elevation.findings import find_elevation
from mockup.piece.elevation.standing import Elevation, elevation_of
from mockup.render.elevation_view import drawn_box
from mockup.render.record import Group, Sheet, Text, walk
from mockup.render.sheets.elevation import Drawn, elevation_sheet
from mockup.render.sheets.proof import Asked
from mockup.render.svg import svg_text
from tests.render import golden

ROOT = Path(__file__).parent.parent.parent
STAGE = ROOT / "samples" / "jobs" / "larkspur-stage.toml"
STORED = Path(__file__).parent / "goldens" / "elevations" / "larkspur-stage.txt"
RING = f'[[piece]]\nfile = "{ROOT}/samples/jobs/alder-table-ring.toml"\n'


def made(path: Path) -> tuple[Job, Elevation]:
    job = read_job(path)
    whole = elevation_of(job, {one.file: assemble(one.design) for one in job.pieces})
    assert whole is not None
    return job, whole


def drawn(job: Job, whole: Elevation, asked: Asked | None = None) -> Drawn:
    codes = dict.fromkeys(range(1, len(job.pieces) + 1), "1A2B3C4D")
    found = find_elevation(whole)
    return elevation_sheet(job, whole, found, code="5E6F7A8B", codes=codes, asked=asked or Asked())


@pytest.fixture(scope="module")
def stage() -> tuple[Job, Elevation, Drawn]:
    job, whole = made(STAGE)
    return job, whole, drawn(job, whole)


def texts(sheet: Sheet) -> list[str]:
    return [item.text for item in walk(sheet.items) if isinstance(item, Text)]


def test_the_sample_is_drawn_as_it_was(stage: tuple[Job, Elevation, Drawn]) -> None:
    golden.check(STORED, svg_text(stage[2].sheet, title="Larkspur prize evening"))


def test_every_piece_is_drawn_to_the_one_scale(stage: tuple[Job, Elevation, Drawn]) -> None:
    _, whole, one = stage
    scale = int(one.scale.removeprefix("1:"))
    pieces = [i for i in walk(one.sheet.items) if isinstance(i, Group) and i.kind == "piece"]
    assert len(pieces) == len(whole.standings) == 4
    for group in pieces:
        row, number = map(int, group.name.split("-"))
        standing = next(o for o in whole.standings if (o.row, o.number) == (row, number))
        balloons = {
            i.name: i for i in walk(group.items) if isinstance(i, Group) and i.kind == "balloon"
        }
        assert len(balloons) == len(standing.piece.balloons)
    assert f"SCALE 1:{scale}" in texts(one.sheet)


def test_the_overall_size_and_the_ways_are_dimensioned(
    stage: tuple[Job, Elevation, Drawn],
) -> None:
    _, whole, one = stage
    said = [i for i in walk(one.sheet.items) if isinstance(i, Group) and i.kind == "dimension"]
    told = {group.title for group in said}
    box = whole.pieces_box
    assert f"overall width {format_room(box.width, 'in')}" in told
    assert f"overall height {format_room(box.y[1], 'in')}" in told
    assert {"stage 30 ft", "stage height 24 in", "1 apart 14 ft", "steps clear 48 in"} <= told
    assert len([each for each in told if each.startswith("clear ")]) >= 3


def test_each_row_is_listed_and_marked(stage: tuple[Job, Elevation, Drawn]) -> None:
    said = texts(stage[2].sheet)
    assert "2 × Lamplight column" in said
    assert "Larkspur arch" in said
    marks = [i.text for i in walk(stage[2].sheet.items) if isinstance(i, Text) and i.role == "mark"]
    assert set(marks) == {"1", "2", "3"}


@pytest.mark.parametrize("paper", ["A4", "letter", "A3", "tabloid"])
def test_it_goes_on_every_paper(stage: tuple[Job, Elevation, Drawn], paper: str) -> None:
    # The sheet's own check raises where labels collide.
    one = drawn(stage[0], stage[1], Asked(paper=paper))
    assert one.sheet.width > 200.0


@pytest.mark.parametrize(
    "setting",
    [
        'kind = "doorway"\nwidth = "6ft"\nheight = "7ft"',
        'kind = "table"\nwidth = "40ft"\nheight = "30in"',
        'kind = "floor"\nwidth = "60ft"',
    ],
)
def test_a_long_row_in_every_setting(tmp_path: Path, setting: str) -> None:
    text = f'title = "Row"\n[setting]\n{setting}\n{RING}count = 12\napart = "3ft"\n'
    path = tmp_path / "row.toml"
    path.write_text(text, encoding="utf-8")
    job, whole = made(path)
    left, low, right, high = drawn_box(whole)
    assert left <= whole.pieces_box.x[0]
    assert right >= whole.pieces_box.x[1]
    assert low < 0.0 < high
    assert "12 × Alder table ring" in texts(drawn(job, whole).sheet)
