"""What the client gets, and their yes: proof, approve, check and changes as they are typed."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from importlib import import_module
from pathlib import Path
from typing import Any

import matplotlib as mpl
import pytest

from mockup.cli import drawing
from mockup.design.approvals import log_path, read_log
from mockup.render.sheets import tuck_detail
from tests.cli.conftest import Run

DEJAVU = Path(mpl.get_data_path()) / "fonts/ttf/DejaVuSans.ttf"


def report(run: Run, *words: object) -> dict[str, Any]:
    ran = run(*words, "--json")
    assert ran.code in (0, 1), ran.err
    data: dict[str, Any] = json.loads(ran.out)
    return data


def edit(piece: Path, *pairs: tuple[str, str]) -> None:
    text = piece.read_text("utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    piece.write_text(text, "utf-8")


@pytest.fixture
def market(tmp_path: Path, samples: Path) -> Path:
    """A copy of the sample with a second colourway."""
    copy = tmp_path / "market.toml"
    copy.write_bytes((samples / "market-lanterns.toml").read_bytes())
    return copy


@pytest.fixture
def juniper(tmp_path: Path, samples: Path) -> Path:
    """A copy of a small sample, with a second colourway."""
    copy = tmp_path / "juniper.toml"
    way = '[[colourway]]\nname = "B"\ncolours = { A = "fern", B = "radish", C = "butter bean" }\n'
    text = (samples / "juniper-two.toml").read_text("utf-8")
    copy.write_text(f"{text}\n{way}", "utf-8")
    return copy


def tool(name: str) -> str:
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"{name} is not installed.")
    return found


def asked(name: str, *words: object) -> str:
    done = subprocess.run(
        [tool(name), *map(str, words)], capture_output=True, text=True, check=True
    )
    return done.stdout


def test_several_outputs_of_one_run_are_laid_out_once(
    run: Run, market: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    laid_out = drawing.laid_out
    calls: list[Path] = []

    def counted(file: Path, words: dict[str, Any]) -> drawing.Proof:
        calls.append(file)
        return laid_out(file, words)

    # What takes the name from there as it is imported must have taken the real one.
    import_module("mockup.cli.job_proof")
    monkeypatch.setattr(drawing, "laid_out", counted)
    outs = [market.with_name(f"m.{ending}") for ending in ("pdf", "html", "svg")]
    data = report(run, "proof", market, *(w for out in outs for w in ("-o", out)))
    assert len(calls) == 1
    assert all(out.exists() for out in outs)
    assert data["written"] == [
        *map(str, outs[:2]),
        *(str(market.with_name(name)) for name in ("m.svg", "m-2.svg", "m-3.svg")),
    ]
    assert data["colourways"] == ["A", "after dark"]


def test_the_pdf_is_sound_searchable_and_all_vector(run: Run, juniper: Path) -> None:
    out = juniper.with_suffix(".pdf")
    words = ("--studio", "Żółw & Łuk", "--views", "front, side, plan")
    data = report(run, "proof", juniper, "-o", out, *words)
    # qpdf judges the file; poppler's tools are a second reader of it.
    assert "No syntax or stream encoding errors" in asked("qpdf", "--check", out)
    fonts = asked("pdffonts", out).splitlines()[2:]
    assert fonts
    assert all("SourceSansPro" in font and "Type 3" not in font for font in fonts)
    assert len(asked("pdfimages", "-list", out).splitlines()) == 2
    text = " ".join(asked("pdftotext", out, "-").split())
    for said in (
        "Żółw & Łuk",
        "butter bean",
        "The Marsh-Okoro family",
        "colourway B",
        data["code"],
    ):
        assert said.lower() in text.lower()
    about = asked("pdfinfo", out)
    assert re.search(r"Author:\s+Żółw & Łuk", about)
    assert f"Pages:           {data['sheets']}" in about


def test_grey_is_said_and_lettered_and_does_not_go_with_another_sight(
    run: Run, juniper: Path
) -> None:
    out = juniper.with_suffix(".pdf")
    assert report(run, "proof", juniper, "-o", out, "--grey")["shown"] == "in grey"
    text = asked("pdftotext", out, "-")
    assert "in grey" in text
    assert sum(line.strip() == "A" for line in text.splitlines()) > 10
    deutan = report(run, "proof", juniper, "-o", out, "--seen-as", "deutan")
    assert deutan["shown"] == "deutan sight"
    ran = run("proof", juniper, "-o", out, "--grey", "--seen-as", "deutan")
    assert (ran.code, "leave one of them out" in ran.err) == (2, True)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--views", "front,sid"), "did you mean 'side'"),
        (("--views", ""), "write front, side or plan"),
        (("--scale", "1:0"), "is no scale"),
        (("--scale", "9" * 99), "is no scale"),
        (("--bold-font", "x.ttf"), "give --font as well"),
        (("--font", "no-such.ttf"), "there is no such font file"),
        (("--seen-as", "hawk"), "deutan"),
        (("--portrait", "--landscape"), "--landscape: does not go with --portrait"),
        (("--reply-to", "lark example"), "--reply-to: 'lark example' is no address"),
        (("--reply-to", 'a"@b.example?bcc=x'), "write one such as proofs@lark.example"),
        (("--issued", "2027/03/01"), "--issued: '2027/03/01' is no day; write it as year-month"),
        (("--issued", "2027-02-30"), "'2027-02-30' is no day"),
        (("--dpi", "9000"), "--dpi: '9000' is no such whole number; write one from 36 to 1200"),
        (("--dpi", "-1"), "write one from 36 to 1200"),
        (("--issued", "soon", "--reply-to", "me"), "--reply-to: 'me' is no address"),
    ],
)
def test_an_option_that_is_wrong_is_told(
    run: Run, piece: Path, words: tuple[str, ...], said: str
) -> None:
    ran = run("proof", piece, *words)
    assert ran.code == 2
    assert said in ran.err
    assert "Traceback" not in ran.err
    assert not piece.with_name("ruby-proof.pdf").exists()


def test_a_font_that_is_none_is_told(run: Run, piece: Path) -> None:
    ran = run("proof", piece, "--font", piece)
    assert (ran.code, "not a font that can be read" in ran.err) == (2, True)


def test_arabic_and_hebrew_are_drawn_with_a_font_that_has_them(run: Run, piece: Path) -> None:
    edit(piece, ("The Alder family", "محمد וליאת"))
    without = run("proof", piece, "-o", piece.with_suffix(".svg"))
    assert "ARABIC LETTER MEEM" in without.err
    assert "Give a font that has it with --font" in without.err
    given = run("proof", piece, "-o", piece.with_suffix(".svg"), "--font", DEJAVU)
    assert (given.code, given.err) == (0, "")


def test_a_tuck_that_no_sheet_has_room_for_is_told(
    run: Run, juniper: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "tucks" not in run("proof", juniper).err
    monkeypatch.setattr(tuck_detail, "nearest_spots", lambda *_: iter(()))
    ran = run("proof", juniper)
    assert ran.code == 0
    assert "behind a balloon, and the proof has no room to show it; take a larger" in ran.err
    assert len(report(run, "proof", juniper)["notes"]) == 1


def test_characters_that_no_font_has_are_named(run: Run, piece: Path) -> None:
    edit(piece, ("Ruby turns thirty", "Ruby 🎈 thirty"))
    ran = run("proof", piece, "-o", piece.with_suffix(".pdf"), "-o", piece.with_suffix(".html"))
    assert ran.code == 0
    assert "BALLOON, U+1F388" in ran.err
    assert "🎈" in piece.with_suffix(".html").read_text("utf-8")


def test_hostile_words_come_to_no_harm(run: Run, piece: Path) -> None:
    edit(piece, ("The Alder family", "</svg><script>alert(1)</script>"))
    html, svg = piece.with_suffix(".html"), piece.with_suffix(".svg")
    assert run("proof", piece, "-o", html, "-o", svg).code == 0
    assert "<script" not in html.read_text("utf-8") + svg.read_text("utf-8")


def test_a_colourway_that_misses_a_letter_is_told_with_its_line(run: Run, market: Path) -> None:
    edit(market, (', C = "kite blue" }', " }"))
    line = market.read_text("utf-8").splitlines().index("[[colourway]]") + 1
    ran = run("proof", market)
    assert ran.code == 2
    assert re.search(rf"market\.toml:{line + 2}: C has no colour in this colourway", ran.err)


def test_revisions_count_themselves_by_what_went_out(run: Run, piece: Path) -> None:
    assert report(run, "proof", piece)["revision"] == 1
    assert not log_path(piece).exists()
    assert report(run, "proof", piece, "--final", "--issued", "2027-02-01")["revision"] == 1
    assert report(run, "proof", piece, "--final")["revision"] == 1
    (sent,) = read_log(piece).records
    assert (sent.kind, sent.revision, sent.on) == ("sent", 1, "2027-02-01")
    edit(piece, ('B = "oat"', 'B = "driftwood"'))
    out = piece.with_suffix(".pdf")
    assert report(run, "proof", piece, "-o", out)["revision"] == 2
    assert "revision 2" in " ".join(asked("pdftotext", out, "-").split())
    edit(piece, ('B = "driftwood"', 'B = "oat"'))
    assert report(run, "proof", piece)["revision"] == 1


def test_a_piece_file_no_longer_names_its_revision(run: Run, piece: Path) -> None:
    edit(piece, ('client = "', 'revision = 3\nclient = "'))
    ran = run("check", piece)
    assert (ran.code, "revision" in ran.err) == (2, True)


def test_a_log_that_takes_nothing_breaks_no_proof(run: Run, piece: Path) -> None:
    # A folder in the log's place refuses as a read-only one does, for every user.
    log_path(piece).mkdir()
    ran = run("proof", piece)
    assert ran.code == 0
    assert "cannot be read" in ran.err
    final = run("proof", piece, "--final")
    assert (final.code, "revision 1 is not kept" in final.err) == (0, True)
    refused = run("approve", piece, "--by", "R. Alder")
    assert (refused.code, "cannot be written" in refused.err) == (2, True)


def test_an_approval_is_kept_for_the_proof_that_was_signed_alone(run: Run, piece: Path) -> None:
    code = report(run, "proof", piece)["code"]
    edit(piece, ("strokes = 2.5", "strokes = 2"))
    refused = run("approve", piece, "--by", "R. Alder", "--proof", code)
    assert (refused.code, refused.out, log_path(piece).exists()) == (2, "", False)
    assert refused.err.startswith(f"--proof: the signed sheet is proof {code}, and ")
    edit(piece, ("strokes = 2,", "strokes = 2.5,"))
    assert run("approve", piece, "--by", "R. Alder", "--proof", f" {code.lower()} ").code == 0


def test_check_says_what_has_changed_since_the_approval(run: Run, piece: Path) -> None:
    assert run("approve", piece, "--by", "R. Alder", "--on", "2025-03-01").code == 0
    ran = run("check", piece)
    assert ran.err == ""
    assert report(run, "check", piece)["approval"]["holds"] is True
    edit(piece, ("strokes = 2.5", "strokes = 2"))
    ran = run("check", piece)
    assert "Changed since revision 1, approved by R. Alder on 1 Mar 2025" in ran.err
    assert "top section: last cluster was 2.5 strokes, is 2 strokes" in ran.err
    told = report(run, "check", piece)["approval"]
    assert (told["holds"], told["revision"], told["approved"]["revision"]) == (False, 2, 1)
    assert told["changes"] == ["top section: last cluster was 2.5 strokes, is 2 strokes"]


def test_a_damaged_line_of_the_log_is_told_and_the_rest_kept(run: Run, piece: Path) -> None:
    for strokes in ("2.5", "2.25", "2"):
        edit(piece, ("strokes = 2.5", f"strokes = {strokes}"))
        run("approve", piece, "--by", "R. Alder", "--even-so")
        edit(piece, (f"strokes = {strokes}", "strokes = 2.5"))
    lines = log_path(piece).read_bytes().splitlines(keepends=True)
    broken = b"".join([lines[0], lines[1][:40] + b"\n", lines[2]])
    log_path(piece).write_bytes(broken)
    for words in (("check", piece), ("proof", piece), ("changes", piece, 1)):
        assert "ruby.approvals.jsonl:2: this line is damaged" in run(*words).err
    assert log_path(piece).read_bytes() == broken
    assert "it holds 1, 3" in run("changes", piece, 2).err


@pytest.mark.parametrize(("name", "kept"), [("after dark", "after dark"), ("A", "")])
def test_the_first_colours_may_be_called_a(run: Run, market: Path, name: str, kept: str) -> None:
    ran = run("approve", market, "--by", "M", "--colourway", name)
    assert (ran.code, f"M approved colourway {name} of proof" in ran.out) == (0, True)
    assert read_log(market).records[0].colourway == kept


def test_an_unknown_colourway_offers_the_nearest(run: Run, market: Path, piece: Path) -> None:
    ran = run("approve", market, "--by", "M", "--colourway", "after drak")
    assert (ran.code, "did you mean 'after dark'" in ran.err) == (2, True)
    ran = run("approve", piece, "--by", "M", "--colourway", "B")
    assert (ran.code, "this piece has no colourways" in ran.err) == (2, True)


def test_an_approval_says_which_of_several_colourways(run: Run, market: Path) -> None:
    ran = run("approve", market, "--by", "M")
    assert ran.code == 2
    assert "several colourways: A, after dark; say which was approved" in ran.err
    assert not log_path(market).exists()


def test_an_approval_names_someone_and_a_day_that_has_come(run: Run, piece: Path) -> None:
    ran = run("approve", piece, "--by", " \t", "--on", "2999-03-01")
    assert ran.code == 2
    assert "--by: names nobody; write who approved" in ran.err
    assert "--on: 2999-03-01 is still to come" in ran.err
    assert "is long past" in run("approve", piece, "--by", "M", "--on", "0025-03-01").err
    assert "is no day" in run("approve", piece, "--by", "M", "--on", "yesterday").err
    assert not log_path(piece).exists()


def test_a_draft_is_approved_only_even_so(run: Run, samples: Path, tmp_path: Path) -> None:
    copy = tmp_path / "two.toml"
    copy.write_bytes((samples / "two-checks-fail.toml").read_bytes())
    ran = run("approve", copy, "--by", "M")
    assert (ran.code, "2 checks fail (numerals fit, fill)" in ran.err) == (1, True)
    assert not log_path(copy).exists()
    ran = run("approve", copy, "--by", "M", "--even-so")
    assert (ran.code, "Kept although 2 checks fail" in ran.out) == (0, True)
    assert len(read_log(copy).records) == 1


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("x",), "REV: 'x' is no such whole number"),
        (("0",), "write one from 1 to 99999"),
        (("1", "--dpi", "high"), "--dpi: 'high' is no such whole number"),
    ],
)
def test_changes_says_what_is_wrong_in_plain_words(
    run: Run, piece: Path, words: tuple[str, ...], said: str
) -> None:
    ran = run("changes", piece, *words)
    assert (ran.code, said in ran.err) == (2, True)


def test_changes_are_told_and_drawn(run: Run, piece: Path) -> None:
    assert "the log holds no revision yet" in run("changes", piece).err
    run("approve", piece, "--by", "R. Alder", "--on", "2025-03-01")
    assert "Nothing has changed." in run("changes", piece).out
    edit(piece, ("strokes = 2.5", "strokes = 2"), ('B = "oat"', 'B = "driftwood"'))
    run("approve", piece, "--by", "R. Alder", "--even-so")
    out = piece.with_name("changes.pdf")
    ran = run("changes", piece, 1, "-o", out)
    assert "from revision 1, approved by R. Alder on 1 Mar 2025 to the file as it is" in ran.out
    assert "top section: last cluster was 2.5 strokes, is 2 strokes" in ran.out
    text = " ".join(asked("pdftotext", out, "-").split())
    assert "last cluster was 2.5 strokes, is 2 strokes" in text
    assert "What has changed" in text
    between = report(run, "changes", piece, 1, 2)
    assert [between[end]["revision"] for end in ("from", "to")] == [1, 2]
    assert len(between["changes"]) == 2
    assert "name one or two" in run("changes", piece, 1, 2, 3).err


def test_a_draft_is_never_final_and_keeps_no_revision(
    run: Run, samples: Path, tmp_path: Path
) -> None:
    copy = tmp_path / "two.toml"
    copy.write_bytes((samples / "two-checks-fail.toml").read_bytes())
    ran = run("proof", copy, "--final")
    assert ran.code == 1
    assert not log_path(copy).exists()
    assert not copy.with_name("two-proof.pdf").exists()


def test_a_figure_for_scale_is_drawn_on_sheet_and_page(
    run: Run, juniper: Path, tmp_path: Path
) -> None:
    page, plain = tmp_path / "with.html", tmp_path / "plain.html"
    assert run("proof", juniper, "--figure", "person", "-o", page).code == 0
    assert run("proof", juniper, "-o", plain).code == 0
    assert "A person" in page.read_text("utf-8")
    assert "A person" not in plain.read_text("utf-8")
    wrong = run("proof", juniper, "--figure", "horse")
    assert wrong.code == 2
    assert "person" in wrong.err
