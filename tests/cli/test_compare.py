"""``mockup compare`` as it is typed, and its sheet."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]
OPTION = '\n[[option]]\nname = "strong taper"\nsection.all.taper = "strong"\n'


@pytest.fixture
def optioned(piece: Path) -> Path:
    piece.write_text(piece.read_text("utf-8") + OPTION, "utf-8")
    return piece


def test_the_options_of_a_file_stand_side_by_side(run: Run, optioned: Path) -> None:
    ran = run("compare", optioned)
    assert ran.code == 0
    head = ran.out.splitlines()[0]
    assert head.split("  ")[-1].strip() == "strong taper"
    assert "(widest)" not in ran.out
    assert "(most)" in ran.out


def test_files_are_called_by_their_titles(run: Run, samples: Path) -> None:
    ran = run("compare", samples / "ruby-thirty.toml", samples / "trade-reference.toml", "--json")
    data = json.loads(ran.out)
    assert data["versions"][0] == "Ruby turns thirty"
    window = next(row for row in data["rows"] if row["label"] == "Window width")
    assert window["best"] == [0]


def test_every_format_is_written(run: Run, optioned: Path) -> None:
    outs = [optioned.with_name(f"sheet.{kind}") for kind in ("svg", "pdf", "html")]
    ran = run("compare", optioned, *(word for out in outs for word in ("-o", out)))
    assert ran.code == 0
    svg, pdf, page = (out.read_bytes() for out in outs)
    assert b"<svg" in svg
    assert pdf.startswith(b"%PDF")
    assert b"<svg" in page
    assert b"http://" not in page
    assert b"https://" not in page
    assert b"default-src 'none'" in page
    assert b"<script" not in page


def test_the_same_sheet_has_the_same_bytes(run: Run, optioned: Path) -> None:
    first, second = (optioned.with_name(name) for name in ("a.svg", "b.svg"))
    run("compare", optioned, "-o", first)
    run("compare", optioned, "-o", second)
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--only", "weak"], "There is no option 'weak'"),
        (["-o", "sheet.doc"], "ends in .doc"),
    ],
)
def test_wrong_words_end_in_a_sentence(
    run: Run, optioned: Path, words: list[str], says: str
) -> None:
    ran = run("compare", optioned, *words)
    assert ran.code == 2
    assert says in ran.err
