"""What the studio book says of reading a piece: what the piece file says wins, all else agrees."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import platformdirs
import pytest

from mockup.design import studio_book
from mockup.design.job_reading import read_job
from mockup.design.reading import design_from_text, read_design
from mockup.design.studio_usual import Usual, usual_for
from mockup.errors import FaultsFound
from mockup.piece.code import proof_code

BOOK = """\
name = "Larkfield (invented)"
doorway = ["30in", "78in"]
[[pump]]
name = "hand pump"
strokes = 3
gives = "100mm"
[[pump]]
name = "floor pump"
strokes = 2
gives = "120mm"
[calibrated]
squeeze = "14%"
foil_shrink = "9%"
"""
PIECE = """\
title = "Ruby"
colours = { A = "oat" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""


@pytest.fixture
def piece(tmp_path: Path) -> Path:
    """A piece in a folder below a studio book."""
    (tmp_path / "studio.toml").write_text(BOOK, encoding="utf-8")
    file = tmp_path / "ruby" / "ruby.toml"
    file.parent.mkdir()
    file.write_text(PIECE, encoding="utf-8")
    return file


def faults(piece: Path) -> list[str]:
    with pytest.raises(FaultsFound) as found:
        read_design(piece)
    return [str(fault) for fault in found.value.faults]


def test_the_book_says_what_the_piece_leaves_out(piece: Path) -> None:
    design = read_design(piece)
    assert (design.pump.strokes, design.pump.gives) == (3, 100)
    assert design.sections[0].middle is not None
    assert design.sections[0].middle.diameter == pytest.approx(100)
    assert (design.limits.squeeze, design.limits.foil_shrink) == pytest.approx((0.14, 0.09))
    assert design.limits.doorway == pytest.approx((762, 1981.2))
    assert design.limits.daylight == 0.08


def test_what_the_piece_says_wins(piece: Path) -> None:
    own = '\n[pump]\nstrokes = 1\ngives = "70mm"\n[limits]\nsqueeze = "5%"\ndaylight = "20%"\n'
    piece.write_text(PIECE + own, encoding="utf-8")
    design = read_design(piece)
    assert (design.pump.strokes, design.pump.gives) == (1, 70)
    assert (design.limits.squeeze, design.limits.daylight) == (0.05, 0.2)
    assert design.limits.foil_shrink == pytest.approx(0.09)
    assert design.limits.doorway == pytest.approx((762, 1981.2))


def test_a_piece_that_writes_the_usual_figure_means_it(piece: Path) -> None:
    piece.write_text(PIECE + '[limits]\nsqueeze = "10%"\ndoorway = ["32in", "80in"]\n', "utf-8")
    limits = read_design(piece).limits
    assert limits.squeeze == 0.10
    assert limits.doorway == pytest.approx((812.8, 2032))


def test_a_piece_may_name_one_of_the_pumps(piece: Path) -> None:
    piece.write_text('pump = "Floor-Pump"\n' + PIECE, encoding="utf-8")
    assert read_design(piece).pump.gives == 120


def test_an_unknown_pump_offers_the_nearest(piece: Path) -> None:
    piece.write_text('pump = "flor pump"\n' + PIECE, encoding="utf-8")
    said = f"{piece}:1: there is no pump 'flor pump' in a studio book; did you mean 'floor pump'?"
    assert faults(piece) == [said]


def test_a_pump_without_a_book_says_how_to_come_by_one() -> None:
    with pytest.raises(FaultsFound) as found:
        design_from_text('pump = "hand pump"\n' + PIECE, "ruby.toml")
    assert "'mockup studio new'" in str(found.value)
    assert "pump = { strokes = 4" in str(found.value)


def test_faults_of_the_book_are_told_with_those_of_the_piece(piece: Path) -> None:
    book = piece.parent.parent / "studio.toml"
    book.write_text(BOOK.replace("100mm", "100"), encoding="utf-8")
    piece.write_text(PIECE.replace("oat", "oatt"), encoding="utf-8")
    mine, of_the_book = faults(piece)
    assert mine.startswith(f"{piece}:2: ")
    assert of_the_book.startswith(f"{book}:6: ")


def test_a_book_that_is_edited_is_read_again(piece: Path) -> None:
    assert read_design(piece).pump.gives == 100
    book = piece.parent.parent / "studio.toml"
    book.write_text(BOOK.replace("100mm", "90.5mm"), encoding="utf-8")
    assert read_design(piece).pump.gives == 90.5


def test_a_job_reads_its_pieces_by_the_same_book(piece: Path) -> None:
    job = piece.with_name("job.toml")
    job.write_text('title = "Job"\n[[piece]]\nfile = "ruby.toml"\n', encoding="utf-8")
    assert read_job(job).pieces[0].design == read_design(piece)
    other = read_job(job, Usual(squeeze=0.2)).pieces[0].design
    assert other.limits.squeeze == 0.2
    assert proof_code(other) != proof_code(read_design(piece))


def test_the_nearest_book_counts(piece: Path) -> None:
    (piece.parent / "studio.toml").write_text('name = "Nearer (invented)"\n', encoding="utf-8")
    assert usual_for(piece.parent).studio == "Nearer (invented)"
    assert read_design(piece).limits.squeeze == 0.10


@pytest.mark.parametrize("home", ["", "  ", "/elsewhere/settings"])
def test_the_settings_folder_is_the_platforms(monkeypatch: pytest.MonkeyPatch, home: str) -> None:
    """On Linux it is worked out by the XDG Base Directory Specification: as platformdirs does."""
    monkeypatch.setenv("XDG_CONFIG_HOME", home)
    expected = platformdirs.user_config_path("balloon-mockup", appauthor=False) / "studio.toml"
    assert studio_book.settings_book() == expected


def test_without_a_book_reading_a_piece_loads_nothing_of_the_studio(tmp_path: Path) -> None:
    file = tmp_path / "ruby.toml"
    file.write_text(PIECE, encoding="utf-8")
    says = (
        "import sys; from mockup.design.reading import read_design; read_design(sys.argv[1]);"
        "print([m for m in sys.modules if m in ('mockup.design.studio', 'platformdirs',"
        " 'mockup.design.studio_reading', 'decimal', 'babel')])"
    )
    done = subprocess.run(
        [sys.executable, "-c", says, str(file)], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
