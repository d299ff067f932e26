"""A job file in ``check``, ``layout`` and ``proof``: its pieces, then its elevation."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.conftest import Run

PIECE = """
title = "{title}"
colours = {{ A = "oat", B = "moss" }}
frame = {{ outside = "20in" }}
[[section]]
at = "12"
clusters = [{{ fill = "{fill}" }}, {{ fill = "{fill}" }}]
"""
JOB = """
title = "Alder weekend"
[setting]
kind = "floor"
width = "20ft"
[[piece]]
file = "ring.toml"
count = 2
apart = "{apart}"
[[piece]]
file = "arch.toml"
at = "8ft"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    for name in ("ring", "arch"):
        text = PIECE.format(title=f"Alder {name}", fill="3 5/8in")
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    path = tmp_path / "job.toml"
    path.write_text(JOB.format(apart="4ft"), encoding="utf-8")
    return path


def test_check_tells_of_each_piece_and_of_the_whole(run: Run, job: Path) -> None:
    ran = run("check", job)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.count("Alder ring: 12 balloons") == 1
    assert "Alder arch: 12 balloons" in ran.out
    assert "3 pieces on one elevation (floor)" in ran.out
    assert "All checks hold." in ran.out


def test_check_ends_with_1_when_two_pieces_meet(run: Run, job: Path) -> None:
    job.write_text(JOB.format(apart="1ft"), encoding="utf-8")
    ran = run("check", job)
    assert ran.code == 1
    assert "Alder ring (1, no. 1 from the left)" in ran.out
    assert "1 check fails." in ran.out


def test_check_ends_with_1_when_a_piece_fails(run: Run, job: Path) -> None:
    text = PIECE.format(title="Alder arch", fill="6in")
    job.with_name("arch.toml").write_text(text, encoding="utf-8")
    assert run("check", job).code == 1


def test_check_as_json_is_one_object(run: Run, job: Path) -> None:
    data = json.loads(run("check", job, "--json").out)
    assert [one["title"] for one in data["pieces"]] == ["Alder ring", "Alder arch"]
    assert all(one["findings"] and one["approval"]["code"] for one in data["pieces"])
    assert {one["name"] for one in data["elevation"]} == {"stand apart", "way through"}


def test_without_a_setting_it_says_so(run: Run, job: Path) -> None:
    job.write_text('title = "J"\n[[piece]]\nfile = "ring.toml"\n', encoding="utf-8")
    ran = run("check", job)
    assert ran.code == 0
    assert "no [setting] in the job" in ran.out
    assert json.loads(run("check", job, "--json").out)["elevation"] is None


def test_layout_tells_where_each_piece_stands(run: Run, job: Path) -> None:
    said = run("layout", job).out
    assert "Alder ring: marks on the tube" in said
    assert "(2) Alder arch" in said
    assert "96 in right" in said
    data = json.loads(run("layout", job, "--json").out)
    assert [one["x"] for one in data["places"]] == pytest.approx([-609.6, 609.6, 2438.4])
    assert [len(one["balloons"]) for one in data["pieces"]] == [12, 12]


def test_the_elevation_is_the_first_page(run: Run, job: Path) -> None:
    ran = run("proof", job, "--json")
    report = json.loads(ran.out)
    pages = [page.extract_text() for page in PdfReader(job.with_name("job-proof.pdf")).pages]
    assert report["sheets"] == len(pages) == 3
    assert report["elevation"]["code"] in pages[0]
    assert "Elevation" in pages[0]
    for code in (piece["code"] for piece in report["pieces"]):
        assert code in pages[0]
    for number, page in enumerate(pages, start=1):
        assert f"{number} of 3" in page
        assert page.count(" of 3") == 1


def narrow(job: Path) -> None:
    """A floor so narrow that A3 holds it at 1:20."""
    text = JOB.format(apart="4ft").replace('"20ft"', '"10ft"').replace('"8ft"', '"4ft"')
    job.write_text(text, encoding="utf-8")


def test_the_elevation_follows_what_is_asked_of_the_proof(run: Run, job: Path) -> None:
    narrow(job)
    told = run(
        "proof", job, "--scale", "1:20", "--letters", "--paper", "A3", "-o", job.with_name("a.svg")
    )
    assert told.code == 0
    assert " at 1:20; proofs:" in told.out
    assert told.err.splitlines() == ["A letter on the elevation is that of its piece's own proof."]
    drawn = job.with_name("a.svg").read_text(encoding="utf-8")
    assert drawn.count(">A</text>") + drawn.count(">A</tspan>") > 3
    assert ">1:20<" in drawn


def test_what_the_elevation_cannot_follow_is_said_once_each(run: Run, job: Path) -> None:
    narrow(job)
    asked = ("--scale", "1:10", "--views", "front,side", "--figure", "table", "--paper", "A3")
    told = run("proof", job, *asked, "--letters", "-o", job.with_name("b.svg"))
    assert told.code == 0
    assert told.err.splitlines() == [
        "The elevation is at 1:20: at 1:10 it does not fit its paper.",
        "The elevation shows the front alone; --views is for the pieces' own sheets.",
        "A letter on the elevation is that of its piece's own proof.",
        "The elevation has the figure that its [setting] says; --figure is for the pieces.",
    ]
    far = job.read_text("utf-8").replace('width = "10ft"', 'width = "90ft"')
    job.write_text(far, encoding="utf-8")
    told = run("proof", job, "--letters", "-o", job.with_name("c.svg"))
    assert "are too small to take letters" in told.err


def test_it_is_written_as_svg_and_png_too(run: Run, job: Path) -> None:
    assert run("proof", job, "-o", job.with_name("a.svg"), "-o", job.with_name("a.png")).code == 0
    assert "Alder weekend" in job.with_name("a.svg").read_text(encoding="utf-8")
    assert job.with_name("a.png").read_bytes().startswith(b"\x89PNG")


def test_no_final_proof_while_the_elevation_fails(run: Run, job: Path) -> None:
    job.write_text(JOB.format(apart="1ft"), encoding="utf-8")
    ran = run("proof", job, "--final")
    assert ran.code == 1
    assert "the elevation fails: stand apart" in ran.err
    assert not job.with_name("job-proof.pdf").exists()
    draft = run("proof", job)
    assert "1 check fails" in draft.out
