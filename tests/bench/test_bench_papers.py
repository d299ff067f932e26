"""The papers that the page makes: beside the piece, whole, of its own revision and colourways."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader

from mockup.bench.papers import PAPERS, place_of
from mockup.design.approvals import Record, add_record
from mockup.errors import CannotWrite
from tests.bench.conftest import SAMPLES, Running, Start, Told


@pytest.fixture
def lanterns(tmp_path: Path) -> Path:
    """A piece with a colourway."""
    copy = tmp_path / "lanterns.toml"
    copy.write_bytes((SAMPLES / "market-lanterns.toml").read_bytes())
    return copy


SHOWN_ELSEWHERE = ("proof", "quote", "options", "workbook", "lines")


def pages(data: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]


def made(bench: Running, kind: str) -> Told:
    told = bench.call("paper", kind=kind)
    assert told.status == 200, told.data
    return bench.ask("GET", f"/made/{told.data['name']}")


@pytest.mark.parametrize("kind", [kind for kind in PAPERS if kind not in SHOWN_ELSEWHERE])
def test_a_paper_is_written_beside_the_piece_and_offered(
    start: Start, piece: Path, kind: str
) -> None:
    """A page is sealed off: after CSP Level 3, 'sandbox' without allow-scripts runs nothing."""
    shown = made(start(piece), kind)
    written = piece.with_name(f"ruby{PAPERS[kind][0]}")
    assert shown.body == written.read_bytes()
    assert {each.name for each in piece.parent.iterdir()} == {"ruby.toml", written.name}
    policy = shown.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    if written.suffix == ".pdf":
        assert shown.headers["content-type"] == "application/pdf"
        assert "Ruby turns thirty" in " ".join(pages(shown.body))
    else:
        assert shown.headers["content-type"] == "text/html"
        assert b"Ruby turns thirty" in shown.body
        assert "sandbox" in policy
        assert "script" not in policy


def test_the_buy_list_is_a_workbook_and_plain_lines_too(start: Start, piece: Path) -> None:
    """Outside judges: openpyxl reads the one, Python's own csv the other; they say the same."""
    bench = start(piece)
    book, lines = made(bench, "workbook"), made(bench, "lines")
    assert book.headers["content-type"].endswith("spreadsheetml.sheet")
    assert lines.headers["content-type"] == "text/csv; charset=utf-8"
    rows = list(csv.DictReader(io.StringIO(lines.body.decode("utf-8-sig"))))
    cells = [c for row in load_workbook(io.BytesIO(book.body)).active.values for c in row]
    assert len(rows) >= 3
    for row in rows:
        assert {row["What"], row["Colour"] or None} <= set(cells), row
    names = {each.name for each in piece.parent.iterdir()}
    assert names == {"ruby.toml", "ruby-buy.xlsx", "ruby-buy.csv"}


def test_the_proof_shows_every_colourway_and_its_own_revision(start: Start, lanterns: Path) -> None:
    add_record(lanterns, Record("sent", "0000AAAA", 4, "2027-03-01", content={}))
    bench = start(lanterns)
    made = bench.call("paper", kind="proof").data
    told = pages(bench.ask("GET", f"/made/{made['name']}").body)
    assert made["revision"] == 5
    assert len(told) == 3
    assert any("after dark" in text for text in told)


def test_the_buy_list_is_of_the_colourway_that_is_shown(start: Start, lanterns: Path) -> None:
    bench = start(lanterns)
    told = bench.call("paper", kind="buy", look={"way": 1}).data
    text = " ".join(pages(bench.ask("GET", f"/made/{told['name']}").body))
    assert "plum fizz" in text
    assert "pepper red" not in text


def test_what_is_not_saved_is_saved_first(start: Start, piece: Path) -> None:
    bench = start(piece)
    change = {"do": "set", "path": ["title"], "value": "Opal"}
    bench.call("change", base=bench.served.desk.version, changes=[change])
    assert "Opal" in " ".join(pages(made(bench, "build").body))
    assert 'title = "Opal"' in piece.read_text("utf-8")


def test_a_quote_without_prices_is_told_and_leaves_what_stood_there(
    start: Start, piece: Path
) -> None:
    older = piece.with_name("ruby-quote.pdf")
    older.write_bytes(b"mine")
    told = start(piece).call("paper", kind="quote")
    assert told.status == 422
    assert "price" in told.data["said"]
    assert older.read_bytes() == b"mine"


def test_the_options_are_printed_side_by_side(start: Start, piece: Path) -> None:
    text = piece.read_text("utf-8") + '\n[[option]]\nname = "wide"\nframe.outside = "34in"\n'
    piece.write_text(text, "utf-8")
    assert "wide" in " ".join(pages(made(start(piece), "options").body))


@pytest.mark.parametrize("kind", ["", "../ruby", "ruby.toml", "nothing", 7, None])
def test_a_paper_of_another_name_is_none(start: Start, piece: Path, kind: object) -> None:
    assert start(piece).call("paper", kind=kind).status == 422
    assert [each.name for each in piece.parent.iterdir()] == ["ruby.toml"]


def test_a_faulty_text_makes_no_paper(start: Start, piece: Path) -> None:
    bench = start(piece)
    bench.call("write", base=bench.served.desk.version, text="title = ")
    told = bench.call("paper", kind="proof")
    assert (told.status, "mend the text" in told.data["said"]) == (422, True)


def test_a_change_on_disk_stops_a_paper(start: Start, piece: Path) -> None:
    bench = start(piece)
    change = {"do": "set", "path": ["title"], "value": "Opal"}
    bench.call("change", base=bench.served.desk.version, changes=[change])
    piece.write_text(piece.read_text("utf-8") + "# theirs\n", "utf-8")
    assert bench.call("paper", kind="proof").data["why"] == "disk"
    assert piece.read_text("utf-8").endswith("# theirs\n")


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.pdf"
    outside.write_bytes(b"mine")
    folder = tmp_path / "pieces"
    folder.mkdir()
    (folder / "ruby-proof.pdf").symlink_to(outside)
    with pytest.raises(CannotWrite, match="link"):
        place_of(folder / "ruby.toml", "-proof.pdf")
