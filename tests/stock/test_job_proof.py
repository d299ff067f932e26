"""The proof of a job: a page for each piece, the job's words and the studio's name on each."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from mockup.cli.main import mockup
from mockup.design.approvals import read_log
from mockup.design.reading import read_design
from mockup.piece.code import proof_code

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
client = "The Alder family"
venue = "Village hall"
[[piece]]
file = "ring.toml"
count = 11
[[piece]]
file = "arch.toml"
[[piece]]
file = "ring.toml"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job of two small pieces, one of them named twice, with a studio book beside it."""
    (tmp_path / "studio.toml").write_text('name = "Larkfield (invented)"', encoding="utf-8")
    for name in ("ring", "arch"):
        text = PIECE.format(title=f"Alder {name}", fill="3 5/8in")
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return tmp_path / "job.toml"


def proof(*words: object) -> Result:
    return CliRunner().invoke(mockup, ["proof", *(str(word) for word in words)])


def test_a_job_gives_one_pdf_with_a_page_for_each_piece(job: Path) -> None:
    done = proof(job, "--final", "--json")
    assert done.exit_code == 0, done.output
    report = json.loads(done.output)
    pages = [page.extract_text() for page in PdfReader(job.with_name("job-proof.pdf")).pages]
    files = [job.with_name(name) for name in ("ring.toml", "arch.toml")]
    codes = [proof_code(read_design(file)) for file in files]
    assert report["sheets"] == len(pages) == 2
    assert [piece["code"] for piece in report["pieces"]] == codes
    for page, code in zip(pages, codes, strict=True):
        for words in (code, "Larkfield (invented)", "The Alder family", "Village hall"):
            assert words in page
    assert "12 ×" in pages[0]
    assert "×" not in pages[1]
    assert [[one.code for one in read_log(file).records] for file in files] == [[c] for c in codes]


def test_a_piece_that_fails_stops_a_final_proof_of_the_job(job: Path) -> None:
    text = PIECE.format(title="Alder arch", fill="6in")
    job.with_name("arch.toml").write_text(text, encoding="utf-8")
    assert "no final proof while" in str(proof(job, "--final").exception)
    assert not job.with_name("job-proof.pdf").exists()
    assert not read_log(job.with_name("ring.toml")).records
    draft = proof(job, "-o", job.with_name("draft.svg"))
    assert "2 checks fail" in draft.output
    assert job.with_name("draft-2.svg").exists()


def test_a_page_is_of_one_piece(job: Path, tmp_path: Path) -> None:
    assert ".pdf, .svg or .png" in str(proof(job, "-o", tmp_path / "job.html").exception)


def test_the_studio_asked_for_wins_over_the_books(job: Path, tmp_path: Path) -> None:
    for asked, printed in (([], "Larkfield"), (["--studio", "Otherwise"], "Otherwise")):
        assert proof(job.with_name("ring.toml"), "-o", tmp_path / "a.svg", *asked).exit_code == 0
        said = (tmp_path / "a.svg").read_text(encoding="utf-8")
        assert printed in said
        assert ("Larkfield" in said) == (not asked)
