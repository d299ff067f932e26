"""A job file: its pieces, its faults, and a piece that is a job of its own."""

from __future__ import annotations

from datetime import date, time
from decimal import Decimal
from pathlib import Path

import pytest

from mockup.design.job_reading import read_job
from mockup.errors import FaultsFound

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
RING = """\
title = "Ring"
colours = { A = "oat" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""


def written(folder: Path, job: str, ring: str = RING) -> Path:
    (folder / "ring.toml").write_text(ring, encoding="utf-8")
    path = folder / "job.toml"
    path.write_text(job, encoding="utf-8")
    return path


def faults(path: Path) -> list[str]:
    with pytest.raises(FaultsFound) as found:
        read_job(path)
    return [str(fault).replace(str(path.parent) + "/", "") for fault in found.value.faults]


def test_the_sample_job() -> None:
    job = read_job(JOBS / "alder-weekend.toml")
    assert [(one.design.title, one.count) for one in job.pieces] == [
        ("Alder table ring", 12),
        ("Alder arch", 1),
    ]
    assert (job.event_date, job.ready, job.helpers) == (date(2027, 5, 8), time(14), 1)
    assert (job.distance, job.stem, job.single) == (Decimal(12), "alder-weekend", None)


def test_a_piece_alone_is_a_job_of_one() -> None:
    job = read_job(JOBS / "alder-arch.toml")
    assert job.single is not None
    assert (job.title, job.pieces[0].count) == ("Alder arch", 1)


def test_one_file_named_twice_is_one_design(tmp_path: Path) -> None:
    row = '[[piece]]\nfile = "ring.toml"\n'
    job = read_job(written(tmp_path, 'title = "J"\n' + row + row))
    assert job.pieces[0].design is job.pieces[1].design


@pytest.mark.parametrize(
    ("job", "words"),
    [
        ('title = "J"\n[[piece]]\nfile = "rong.toml"', "job.toml:3: there is no piece file"),
        ('title = "J"\n[[piece]]\nfile = "job.toml"', "is a job, and a job holds pieces"),
        ('title = "J"\n[[piece]]\nfile = "ring.toml"\ncount = 0', "job.toml:4: 'count' is 0"),
        ('title = "J"\npiece = []', "job.toml:2: 'piece' is empty"),
        ('[[piece]]\nfile = "ring.toml"', "has no 'title'"),
        ('title = "J"\nready = "25:00"\n[[piece]]\nfile = "ring.toml"', "job.toml:2: 'ready'"),
        ('title = "J"\nhelprs = 1\n[[piece]]\nfile = "ring.toml"', "did you mean 'helpers'"),
    ],
)
def test_a_fault_of_the_job(tmp_path: Path, job: str, words: str) -> None:
    told = faults(written(tmp_path, job))
    assert len(told) == 1
    assert words in told[0]


def test_faults_of_job_and_piece_are_told_together(tmp_path: Path) -> None:
    job = 'title = "J"\nhelpers = -1\n[[piece]]\nfile = "ring.toml"\n'
    told = faults(written(tmp_path, job, RING.replace("strokes", "stroks")))
    assert [one.split(":")[0] for one in told] == ["job.toml", "ring.toml"]


def test_a_job_without_pieces_shows_how_one_is_written(tmp_path: Path) -> None:
    for text in ('title = "x"\npiece = []\n', 'title = "x"\npiece = "ring.toml"\n'):
        with pytest.raises(FaultsFound) as found:
            read_job(written(tmp_path, text))
        assert "begin each one with [[piece]]" in str(found.value)
