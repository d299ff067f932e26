"""The commands for stock and build, run on the sample job."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from mockup.cli.main import mockup
from mockup.design.approvals import Record, add_record
from mockup.design.reading import read_design
from mockup.errors import MockupError
from mockup.piece.code import proof_code

JOBS = Path(__file__).parents[2] / "samples" / "jobs"


TWO_WAYS = """
title = "Two ways"
colours = { A = "oat" }
[[section]]
at = "12"
clusters = [{ strokes = 3, colours = "AAAA" }]
[[colourway]]
name = "B"
colours = { A = "brass" }
"""
OAT_BAG = '[[bag]]\nsize = "5in"\ncolour = "oat"\ncount = 50\nprice = 7\n'


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The sample job with its pieces and its book, in a folder of its own."""
    folder = tmp_path / "jobs"
    shutil.copytree(JOBS, folder)
    return folder / "alder-weekend.toml"


def run(*words: object) -> Result:
    return CliRunner().invoke(mockup, [str(word) for word in words])


def printed(path: Path) -> str:
    return " ".join(page.extract_text() for page in PdfReader(path).pages)


def test_buy_shows_the_list_and_writes_every_file(job: Path, tmp_path: Path) -> None:
    outs = [tmp_path / f"buy.{ending}" for ending in ("csv", "xlsx", "pdf")]
    done = run("buy", job, *(word for out in outs for word in ("-o", out)))
    assert done.exit_code == 0, done.output
    assert "5 in ivory husk, matte" in done.output
    assert "Total $131.10." in done.output
    assert all(out.stat().st_size > 500 for out in outs)
    assert "$131.10" in printed(outs[2])


def test_buy_takes_once_and_puts_back(job: Path) -> None:
    book = job.with_name("studio.toml")
    before = book.read_text(encoding="utf-8")
    assert "Booked out of" in run("buy", job, "--take").output
    assert isinstance(run("buy", job, "--take").exception, MockupError)
    assert "Put back into" in run("buy", job, "--put-back").output
    assert book.read_text(encoding="utf-8") == before


def test_taking_without_a_book_is_told(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from mockup.design import studio_book

    monkeypatch.setattr(studio_book, "places", lambda _: iter(()))
    trouble = run("buy", job, "--take").exception
    assert isinstance(trouble, MockupError)
    assert "mockup studio new" in str(trouble)


def test_a_piece_alone_is_bought_for_too(job: Path) -> None:
    assert "Total" in run("buy", job.with_name("alder-arch.toml")).output


def test_an_unknown_ending_writes_nothing(job: Path, tmp_path: Path) -> None:
    trouble = run("buy", job, "-o", tmp_path / "buy.doc").exception
    assert "end it in .pdf, .xlsx or .csv" in str(trouble)
    assert not (tmp_path / "buy.doc").exists()


@pytest.mark.parametrize("command", ["buy", "build", "gauge", "quote"])
def test_a_piece_changed_after_its_approval_is_told_loudly(tmp_path: Path, command: str) -> None:
    piece = tmp_path / "two.toml"
    piece.write_text(TWO_WAYS, encoding="utf-8")
    code = proof_code(read_design(piece))
    add_record(piece, Record("approved", "00C0FFEE", 1, "2027-01-02"))
    out, book = tmp_path / "out.pdf", tmp_path / "studio.toml"
    book.write_text(OAT_BAG, encoding="utf-8")
    done = run(command, piece, "-o", out)
    assert done.exit_code == 0, done.exception
    assert "CHANGED SINCE APPROVAL: 'Two ways' was approved as 00C0FFEE" in done.output
    texts = [" ".join(page.extract_text().split()) for page in PdfReader(out).pages]
    if command in ("buy", "build"):
        assert all("CHANGED SINCE APPROVAL" in text for text in texts)
        assert "Revision 2" in texts[0]
    if command == "quote":
        said = f"has changed since you approved proof 00C0FFEE: this quote is for proof {code}"
        assert all(said in text for text in texts)
        assert all("before you buy" not in text for text in texts)


def test_build_writes_a_sheet_and_a_page_beside_the_piece(job: Path) -> None:
    piece = job.with_name("alder-table-ring.toml")
    assert run("build", piece, "--paper", "A4").exit_code == 0
    sheet = printed(job.with_name("alder-table-ring-build.pdf"))
    page = job.with_name("alder-table-ring-build.html").read_text(encoding="utf-8")
    for words in ("Time plan", "Hole 3.57 in", "on the mark", "valley in", "Take down"):
        assert words in sheet, words
        assert words in page, words


def test_the_sheet_and_the_layout_agree_on_every_mark(job: Path) -> None:
    """The distances printed for the tube are those that ``layout`` promises."""
    piece = job.with_name("alder-arch.toml")
    assert run("build", piece, "-o", job.with_name("arch.pdf")).exit_code == 0
    sheet = printed(job.with_name("arch.pdf"))
    clusters = json.loads(run("layout", piece, "--json").output)["clusters"]
    from mockup.lengths import format_length

    for cluster in clusters:
        mm = cluster["along_mm"]
        way = "clockwise" if mm > 0 else "anticlockwise"
        words = f"{format_length(abs(mm), 'in')} {way}" if abs(mm) > 0.05 else "on the mark"
        assert words in sheet, words


def test_gauge_writes_beside_the_job(job: Path) -> None:
    done = run("gauge", job)
    assert "Print at 100 %" in done.output
    assert job.with_name("alder-weekend-gauge.pdf").stat().st_size > 1000


def test_studio_new_keeps_what_is_there_and_show_tells_origins(tmp_path: Path) -> None:
    book = tmp_path / "studio.toml"
    assert run("studio", "new", "-o", book).exit_code == 0
    assert "left as it is" in str(run("studio", "new", "-o", book).exception)
    shown = run("studio", "show", tmp_path).output
    assert f"In force: {book}" in shown
    assert "spares.share" in shown
    assert "(usual)" in shown


def test_the_approved_colourway_is_bought_or_the_difference_told(tmp_path: Path) -> None:
    piece = tmp_path / "two.toml"
    piece.write_text(TWO_WAYS, encoding="utf-8")
    code = proof_code(read_design(piece))
    add_record(piece, Record("approved", code, 1, "2027-01-02", "R. Alder", "B"))
    first = run("buy", piece)
    assert "OTHER COLOURS THAN APPROVED" in first.output
    assert "Add --colourway B." in first.output
    second = run("buy", piece, "--colourway", "B")
    assert "OTHER COLOURS" not in second.output
    assert "brass" in second.output
    assert "oat" not in second.output


def test_a_colourway_that_no_piece_offers_is_told(tmp_path: Path) -> None:
    piece = tmp_path / "two.toml"
    piece.write_text(TWO_WAYS, encoding="utf-8")
    assert "there is no colourway 'C'" in str(run("buy", piece, "--colourway", "C").exception)


def test_characters_that_the_font_lacks_are_named(job: Path, tmp_path: Path) -> None:
    text = job.read_text(encoding="utf-8").replace("Village hall", "Village hall ⛷")
    job.write_text(text, encoding="utf-8")
    done = run("buy", job, "-o", tmp_path / "buy.pdf")
    assert "SKIER" in done.output
    assert (tmp_path / "buy.pdf").exists()


def test_without_cairo_the_sheets_come_out_by_another_way(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from mockup.render import pdf
    from mockup.render.painting import NoCairo

    def no_cairo() -> None:
        raise NoCairo("not here")

    monkeypatch.setattr(pdf, "cairo", no_cairo)
    done = run("buy", job.with_name("alder-arch.toml"), "-o", tmp_path / "buy.pdf")
    assert "cairo library is not installed" in done.output
    assert (tmp_path / "buy.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("command", "name", "told"),
    [
        ("gauge", "g.html", "ends in .html, which is not written here; end it in .pdf"),
        ("gauge", "g", "has no ending; end it in .pdf"),
        ("quote", "q.docx", "end it in .pdf"),
        ("build", "b.txt", "end it in .pdf or .html"),
        ("buy", "b.ods", "end it in .pdf, .xlsx or .csv"),
    ],
)
def test_an_ending_that_is_not_written_is_told_before_anything_is_made(
    job: Path, tmp_path: Path, command: str, name: str, told: str
) -> None:
    good = ["-o", tmp_path / "good.pdf"] if command in ("buy", "build") else []
    trouble = run(command, job, *good, "-o", tmp_path / name).exception
    assert isinstance(trouble, MockupError)
    assert trouble.exit_code == 2
    assert told in str(trouble)
    assert not (tmp_path / "good.pdf").exists()


def test_the_page_of_cost_never_takes_the_place_of_the_quote(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "q.pdf"
    trouble = run("quote", job, "-o", out, "--internal", out).exception
    assert "named for two outputs" in str(trouble)
    beside = job.with_name("alder-weekend-quote.pdf")
    assert "two outputs" in str(run("quote", job, "--internal", beside).exception)
    assert not out.exists()
    assert not beside.exists()


def test_the_first_colours_may_be_asked_for_by_their_name_as_approve_does(tmp_path: Path) -> None:
    piece = tmp_path / "two.toml"
    piece.write_text(TWO_WAYS, encoding="utf-8")
    assert run("buy", piece, "--colourway", "A").output == run("buy", piece).output
    for command in (["buy", piece], ["approve", piece, "--by", "me"]):
        said = str(run(*command, "--colourway", "C").exception)
        assert "there is no colourway 'C'" in said
        assert "known here: A, B" in said


def test_a_book_of_another_name_is_shown_how_to_be_used(tmp_path: Path) -> None:
    book = tmp_path / "st.toml"
    said = run("studio", "new", "-o", book).output
    assert f"--book {book}" in said
    assert f"In force: {book}" in run("studio", "show", tmp_path, "--book", book).output
    assert "--book" not in run("studio", "new", "-o", tmp_path / "studio.toml").output
    assert "no such folder" in str(run("studio", "show", tmp_path / "none").exception)


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """The text of every page that the commands print of the sample job."""
    folder = tmp_path_factory.mktemp("sheets")
    texts: dict[str, list[str]] = {}
    for command in ("buy", "build", "gauge", "quote"):
        out = folder / f"{command}.pdf"
        assert run(command, JOBS / "alder-weekend.toml", "-o", out).exit_code == 0
        texts[command] = [" ".join(p.extract_text().split()) for p in PdfReader(out).pages]
    return texts


def test_every_sheet_of_latex_says_what_it_can_do_to_children(
    sheets: dict[str, list[str]],
) -> None:
    """US 16 CFR 1500.19 and 15 USC 1278; NIOSH 97-135."""
    for command, pages in sheets.items():
        said = " ".join(pages)
        assert "Children under 8 can choke" in said, command
        assert "Natural latex can cause allergic reactions" in said, command
        assert ("Foil conducts" in said) == (command != "gauge"), command


def test_acceptance_stands_on_the_page_of_the_price(sheets: dict[str, list[str]]) -> None:
    (signed,) = (page for page in sheets["quote"] if "I accept quote" in page)
    assert "Deposit with the order" in signed
    assert "The deposit holds the date." in signed


def test_the_order_of_placing_stands_on_the_page_of_its_view(sheets: dict[str, list[str]]) -> None:
    ring, arch = (page for page in sheets["build"] if "First colour goes" in page)
    assert "from the middle outward, by turns; front view at 1:6" in ring
    assert "End caps last" in ring
    assert ring.count("end cap, pair") == 4
    assert "front view at 1:20" in arch
    assert arch.count("quad ABAB") == 19


def test_every_sheet_says_the_size_that_is_cut(sheets: dict[str, list[str]]) -> None:
    """One stroke of the sample's pump fills to 114.3 mm / 4^(1/3) = 72.0 mm, which is 2.83 in."""
    for command in ("gauge", "build", "buy"):
        said = " ".join(sheets[command])
        assert "2.83 in" in said
        assert "2 7/8 in, 1 stroke" not in said
    names = {"3.57 in, 2 strokes", "3.24 in, 1.5 strokes", "2.83 in, 1 stroke", "9 in, 32 strokes"}
    for name in names:
        assert name in " ".join(sheets["gauge"])
        assert f"Hole {name}" in " ".join(sheets["build"])
        assert f"filled to {name}" in " ".join(sheets["build"])


def test_the_clients_quote_names_nothing_internal(sheets: dict[str, list[str]]) -> None:
    said = " ".join(sheets["quote"])
    for word in ("market hall", "corner shop", "studio.toml", "mark-up", "margin", "an hour"):
        assert word not in said, word
