"""Every wrong thing a user can hand over ends in a sentence, exit 2, and nothing written."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]
GOOD = """title = "Law"
[frame]
outside = "30in"
[colours]
A = "deep teal"
B = "oat"
[[section]]
at = "12"
clusters = [{ strokes = 3, colours = "AB" }]
[panel]
numerals = "30"
height = "13in"
"""
PLACE = re.compile(r"^\S+\.toml:\d+: .+; .+$")


def refuses(run: Run, file: Path, *words: str) -> str:
    """The command refuses the file: exit 2, every line with its place, no output, no traceback."""
    before = sorted(file.parent.iterdir())
    ran = run("proof", file)
    assert ran.code == 2, ran.out
    assert ran.out == ""
    assert "Traceback" not in ran.err
    assert sorted(file.parent.iterdir()) == before
    for word in words:
        assert word in ran.err
    return str(ran.err)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"30in"', '"30"', "has no unit"),
        ('"30in"', '"30,5in"', "comma"),
        ('"30in"', '"-3in"', "below zero"),
        ('"30in"', '"0in"', ":3:"),
        ('"30in"', '"nan in"', "not a length"),
        ('"30in"', '"1e400in"', ":3:"),
        ('"30in"', "1e400", ":3:"),
        ('"30in"', "nan", ":3:"),
        ("outside", "outsied", "did you mean 'outside'?"),
        ('"deep teal"', '"deep teel"', "did you mean 'deep teal'?"),
        ('title = "Law"', 'title = "Law"\npalette = "harbor"', "did you mean 'harbour'?"),
        ('colours = "AB"', 'colours = "AX"', "X"),
        ('numerals = "30"', 'numerals = "3é"', "é"),
        ('title = "Law"', 'title = "Law"\ntitle = "Twice"', "twice"),
        ('title = "Law"', 'title = "a\\u0007b"', ":1:"),
        ("strokes = 3", "strokes = -3", ":9:"),
        ("strokes = 3", "strokes = 1.5.5", ":9: a number has a second point"),
        ("strokes = 3", "strokes = 2 1/2", ":9: a number has a fraction; write it with a point"),
        ("strokes = 3", "strokes = 0", ":9:"),
        ("strokes = 3,", "strokes = 3, times = 10000,", ":9:"),
        ("strokes = 3,", "strokes = 3, times = 60,", "longer than the ring"),
    ],
)
def test_a_slip_is_told_with_its_line(
    run: Run, tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert old in GOOD
    file = tmp_path / "piece.toml"
    file.write_text(GOOD.replace(old, new, 1), encoding="utf-8")
    err = refuses(run, file, said)
    for line in err.splitlines():
        assert PLACE.match(line), line


def test_the_piece_without_a_slip_is_drawn(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "piece.toml"
    file.write_text(GOOD, encoding="utf-8")
    assert run("proof", file).code == 0
    assert (tmp_path / "piece-proof.pdf").read_bytes().startswith(b"%PDF")


def test_all_slips_are_told_in_one_run(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "piece.toml"
    bad = (
        GOOD.replace('"30in"', '"30"')
        .replace("deep teal", "deep teel")
        .replace("strokes", "stroks")
    )
    file.write_text(bad, encoding="utf-8")
    lines = refuses(run, file).splitlines()
    assert [re.sub(r".*toml:(\d+):.*", r"\1", line) for line in lines][:3] == ["3", "5", "9"]


def test_sections_that_run_into_each_other_are_told(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "piece.toml"
    more = '[[section]]\nat = "12:10"\nclusters = [{ strokes = 3, colours = "AB" }]\n[panel]'
    file.write_text(GOOD.replace("[panel]", more), encoding="utf-8")
    refuses(run, file, "runs into section 'top'", "piece.toml:10:")


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("empty", b""),
        ("binary", bytes(range(256)) * 40),
        ("utf-16", GOOD.encode("utf-16")),
        ("deep", b"a = " + b"[" * 50_000),
        ("digits", b"a = " + b"9" * 5_000),
        ("nul", GOOD.encode() + b"\x00"),
    ],
)
def test_what_is_no_piece_file_is_refused(run: Run, tmp_path: Path, name: str, data: bytes) -> None:
    file = tmp_path / f"{name}.toml"
    file.write_bytes(data)
    refuses(run, file, name)


def test_a_file_of_200_mb_is_refused_unread(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "huge.toml"
    with file.open("wb") as out:
        out.truncate(200_000_000)
    refuses(run, file, "huge.toml")


def test_a_folder_and_a_missing_file_are_refused(run: Run, tmp_path: Path) -> None:
    (tmp_path / "piece.toml").write_text(GOOD, encoding="utf-8")
    assert "folder" in refuses(run, tmp_path)
    assert "piece.toml" in refuses(run, tmp_path / "peice.toml")


def test_marks_of_a_page_in_a_name_are_plain_text(run: Run, tmp_path: Path) -> None:
    file = tmp_path / "piece.toml"
    hostile = '</svg><script>alert(1)</script> & "Co"'
    file.write_text(GOOD.replace('"Law"', f"'{hostile}'"), encoding="utf-8")
    ran = run("proof", file, "-o", tmp_path / "out.svg")
    assert ran.code == 0, ran.err
    drawn = (tmp_path / "out.svg").read_text(encoding="utf-8")
    assert "<script" not in drawn
    assert drawn.count("</svg>") == 1


@pytest.mark.parametrize(
    ("out", "said"),
    [
        ("nowhere/out.pdf", "make it first"),
        ("out.doc", ".pdf, .html, .svg or .png"),
        ("out", "has no ending"),
    ],
)
def test_an_output_that_cannot_be_is_told(run: Run, piece: Path, out: str, said: str) -> None:
    ran = run("proof", piece, "-o", piece.parent / out)
    assert ran.code == 2
    assert said in ran.err
    assert sorted(p.name for p in piece.parent.iterdir()) == ["ruby.toml"]


def test_an_output_that_is_a_folder_is_told(run: Run, piece: Path) -> None:
    (piece.parent / "out.pdf").mkdir()
    ran = run("proof", piece, "-o", piece.parent / "out.pdf")
    assert ran.code == 2
    assert "folder" in ran.err


def test_ctrl_c_while_writing_leaves_the_old_output_whole(
    run: Run, piece: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = piece.parent / "ruby-proof.pdf"
    out.write_bytes(b"the old proof")

    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("mockup.render.writing.os.fsync", stop)
    ran = run("proof", piece)
    assert ran.code == 130
    assert "Stopped" in ran.err
    assert out.read_bytes() == b"the old proof"
    assert sorted(p.name for p in piece.parent.iterdir()) == ["ruby-proof.pdf", "ruby.toml"]


@pytest.mark.parametrize("words", [["--scale", "big"], ["--scale", "1:3"], ["--paper", "A9"]])
def test_a_paper_or_scale_that_is_none_is_told(run: Run, piece: Path, words: list[str]) -> None:
    ran = run("proof", piece, *words)
    assert ran.code == 2
    assert "Traceback" not in ran.err
    assert len(ran.err.strip()) > 10


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--ring", "24", "--numerals", "30", "--height", "13in"], "has no unit"),
        (["--numerals", "30", "--height", "13in"], "--ring"),
        (["--ring", "24in", "--numerals", "3é", "--height", "13in"], "é"),
        (["--ring", "24in", "--numerals", "30", "--height", "13in", "--top", "x"], "--top"),
        (["--ring", "24in", "--numerals", "30", "--height", "13in", "--pump", "x"], "--pump"),
        (["--ring", "24in", "--numerals", "30", "--height", "13in", "--top", "end 1, 3"], "last"),
    ],
)
def test_fit_tells_which_word_it_did_not_understand(run: Run, words: list[str], said: str) -> None:
    ran = run("fit", *words)
    assert ran.code == 2
    assert said in ran.err
    assert "Traceback" not in ran.err


def test_an_unknown_command_offers_the_nearest(run: Run) -> None:
    ran = run("chek")
    assert ran.code == 2
    assert "Did you mean 'check'?" in ran.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--paper", "a5"), "--paper: 'a5' is not one of them; write A4, A3, letter or tabloid"),
        (("--seen-as", "x"), "--seen-as: 'x' is not one of them; write deutan, protan or tritan"),
        (("--figure", "dog"), "--figure: 'dog' is not one of them; write person or table"),
    ],
)
def test_an_option_of_few_words_names_them(
    run: Run, tmp_path: Path, words: tuple[str, str], said: str
) -> None:
    file = tmp_path / "piece.toml"
    file.write_text(GOOD, encoding="utf-8")
    ran = run("proof", file, *words)
    assert (ran.code, ran.out, ran.err.strip()) == (2, "", said)
    assert list(tmp_path.iterdir()) == [file]
