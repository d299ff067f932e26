"""Stock booked out of the studio book: once a revision, undoable, and nothing of the book lost."""

from __future__ import annotations

import signal
import subprocess
import sys
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from mockup.design.studio_reading import read_studio
from mockup.errors import CannotWrite
from mockup.stock.book_file import change_book
from mockup.stock.booking import AlreadyTaken, Booking, NothingTaken, put_back, take
from mockup.stock.picking import Counts, Fill, FoilKind, FoilNeed, Kind, Need, Picking

BOOK = """\
# my own book
name = "Larkfield (invented)"

[[on_hand]]
size = "5in"
colour = "oat"
count = 34   # counted after the fair

[[on_hand]]
size = "16in"
colour = "brass"
finish = "mirror"
numeral = "3"
count = 2

[[material]]
name = "clear line"
per = "attach point"
amount = 0.4
price = 2.90
on_hand = 15.5

[spares]
share = "0%"
least = 0
"""
RUBY = Booking("Ruby turns thirty", "1A2B3C4D", 1)


def picking(count: int = 20) -> Picking:
    oat = Need(Kind(127.0, "oat", "matte"), "oat", "#ffffff", count, 0, (Fill(104.0, count),))
    three = FoilNeed(FoilKind("3", 406.4, "brass", "mirror"), "brass", "#c08a3e", 1)
    return Picking((oat,), (three,), Counts(attach_points=4))


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "studio.toml"
    path.write_text(BOOK, encoding="utf-8")
    return path


def shelf(book: Path) -> list[int]:
    return [row.count for row in read_studio(book).on_hand]


def test_taking_leaves_the_rest_on_the_shelf_and_the_comments_in_the_book(book: Path) -> None:
    take(book, RUBY, picking())
    text = book.read_text(encoding="utf-8")
    assert shelf(book) == [14, 1]
    assert "# my own book" in text
    assert "# counted after the fair" in text
    assert tomllib.loads(text)["material"][0]["on_hand"] == 13.9  # 15.5 - 4 x 0.4


def test_putting_back_restores_the_book_to_the_letter(book: Path) -> None:
    take(book, RUBY, picking())
    put_back(book, RUBY)
    assert book.read_text(encoding="utf-8") == BOOK


def test_one_revision_is_taken_once_and_the_next_one_again(book: Path) -> None:
    take(book, RUBY, picking(10))
    with pytest.raises(AlreadyTaken, match="booked out already"):
        take(book, RUBY, picking(10))
    with pytest.raises(AlreadyTaken, match=r"as another design \(1A2B3C4D\)"):
        take(book, Booking(RUBY.title, "00000000", 1), picking(10))
    take(book, Booking(RUBY.title, "99999999", 2), picking(10))
    assert shelf(book) == [14, 0]


def test_no_more_is_taken_than_lies_there(book: Path) -> None:
    rows = take(book, RUBY, picking(1000))
    assert [int(row.count) for row in rows[:2]] == [34, 1]
    assert shelf(book) == [0, 1]


def test_nothing_to_put_back_is_said(book: Path) -> None:
    with pytest.raises(NothingTaken, match="revision 1"):
        put_back(book, RUBY)


def test_balloons_return_even_when_their_row_was_deleted_since(book: Path) -> None:
    take(book, RUBY, picking())
    text = book.read_text(encoding="utf-8")
    start, end = text.index("[[on_hand]]"), text.rindex("[[on_hand]]")
    book.write_text(text[:start] + text[end:], encoding="utf-8")
    put_back(book, RUBY)
    assert sorted(shelf(book)) == [2, 20]


def test_an_edit_made_while_booking_is_kept(book: Path) -> None:
    edited = BOOK.replace("count = 34", "count = 40")
    calls = []

    def changed(text: str) -> str:
        calls.append(text)
        if len(calls) == 1:
            book.write_text(edited, encoding="utf-8")
        return text + "# booked\n"

    change_book(book, changed)
    assert book.read_text(encoding="utf-8") == edited + "# booked\n"
    assert calls == [BOOK, edited]


def test_eight_takers_at_once_lose_nothing(book: Path) -> None:
    bookings = [Booking(f"Ring {n}", f"{n:08X}", 1) for n in range(8)]
    with ThreadPoolExecutor(8) as crew:
        list(crew.map(lambda one: take(book, one, picking(3)), bookings))
    assert shelf(book)[0] == 34 - 8 * 3
    assert {entry.title for entry in read_studio(book).taken} == {b.title for b in bookings}


def test_a_book_that_another_program_holds_is_left_alone(book: Path) -> None:
    from filelock import FileLock

    with FileLock(f"{book}.lock"), pytest.raises(CannotWrite, match="another program"):
        change_book(book, lambda text: text + "#", wait=0.05)
    assert book.read_text(encoding="utf-8") == BOOK


def test_a_book_that_changes_again_and_again_is_left_alone(book: Path) -> None:
    def restless(text: str) -> str:
        book.write_text(text + "#\n", encoding="utf-8")
        return "lost"

    with pytest.raises(CannotWrite, match="being edited"):
        change_book(book, restless)
    assert "lost" not in book.read_text(encoding="utf-8")
    assert sorted(p.name for p in book.parent.iterdir()) == ["studio.toml", "studio.toml.lock"]


def test_a_book_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="unchanged"):
        change_book(tmp_path / "none.toml", lambda text: text)


def test_what_a_killed_run_left_is_swept_away(book: Path) -> None:
    left = book.with_name(".studio.toml.x1y2.part")
    other = book.with_name(".other.toml.x1y2.part")
    for each in (left, other):
        each.write_text("half", encoding="utf-8")
    take(book, RUBY, picking(3))
    assert not left.exists()
    assert other.exists()


def test_a_run_that_is_killed_leaves_the_book_whole_and_the_next_one_sweeps_up(book: Path) -> None:
    """SIGKILL between the new text's writing and its taking the old one's place."""
    script = (
        "import os, signal, sys\nfrom pathlib import Path\n"
        "from mockup.stock.book_file import change_book\n"
        "Path.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "change_book(Path(sys.argv[1]), lambda text: text + '# taken')\n"
    )
    done = subprocess.run([sys.executable, "-c", script, str(book)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert book.read_text(encoding="utf-8") == BOOK
    assert [path for path in book.parent.iterdir() if path.suffix == ".part"]
    take(book, RUBY, picking(3))
    assert not [path for path in book.parent.iterdir() if path.suffix == ".part"]
    assert shelf(book)[0] == 31


@pytest.mark.parametrize(
    ("single", "told"),
    [(False, "write revision = 2 into the job file"), (True, "rises by itself")],
)
def test_the_way_to_the_next_revision_is_the_one_there_is(
    book: Path, single: bool, told: str
) -> None:
    booking = Booking("Ruby", "1A2B3C4D", 1, single)
    take(book, booking, picking(1))
    with pytest.raises(AlreadyTaken, match=told):
        take(book, booking, picking(1))
