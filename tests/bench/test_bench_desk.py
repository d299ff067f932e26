"""The desk: steps without end, the file never overwritten unseen, work that is not saved kept."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest

from mockup.bench.desk import ChangedOnDisk, Desk, OutOfStep


@pytest.fixture
def desk(piece: Path) -> Desk:
    return Desk(piece, piece.parent)


def retitled(desk: Desk, title: str, hold: str = "") -> None:
    change = {"do": "set", "path": ["title"], "value": title}
    desk.change(desk.version, [change], hold)


def test_every_step_goes_back_and_forward(desk: Desk) -> None:
    texts = [desk.now.text]
    for number in range(30):
        retitled(desk, f"Title {number}")
        texts.append(desk.now.text)
    for text in reversed(texts[:-1]):
        desk.undo()
        assert desk.now.text == text
    desk.undo()
    for text in texts[1:]:
        desk.redo()
        assert desk.now.text == text


def test_a_drag_is_one_step(desk: Desk) -> None:
    before = desk.now.text
    for number in range(5):
        retitled(desk, f"Dragged {number}", hold="h1")
    retitled(desk, "Next", hold="h2")
    desk.undo()
    assert "Dragged 4" in desk.now.text
    desk.undo()
    assert desk.now.text == before


def test_a_change_of_an_older_text_is_refused(desk: Desk) -> None:
    old = desk.version
    retitled(desk, "Newer")
    with pytest.raises(OutOfStep):
        desk.write(old, "title = 'x'")
    assert "Newer" in desk.now.text


def test_a_faulty_text_keeps_the_last_good_piece(desk: Desk) -> None:
    good = desk.good
    desk.write(desk.version, desk.now.text.replace("30in", "30"))
    assert desk.now.faults[0].where.endswith(":13") or desk.now.faults
    assert desk.good is good
    desk.undo()
    assert not desk.now.faults


def test_line_ends_and_everything_else_come_back_as_they_were(piece: Path) -> None:
    data = piece.read_bytes().replace(b"\n", b"\r\n")
    piece.write_bytes(data)
    desk = Desk(piece, piece.parent)
    assert "\r" not in desk.now.text
    desk.save()
    assert piece.read_bytes() == data


def test_saving_over_a_changed_file_needs_that_very_file_seen(desk: Desk, piece: Path) -> None:
    retitled(desk, "Mine")
    piece.write_text("title = 'theirs'", "utf-8")
    seen = desk.seen()
    with pytest.raises(ChangedOnDisk):
        desk.save()
    piece.write_text("title = 'theirs again'", "utf-8")
    with pytest.raises(ChangedOnDisk):
        desk.save(seen)
    assert "again" in piece.read_text("utf-8")
    desk.save(desk.seen())
    assert "Mine" in piece.read_text("utf-8")


def test_a_file_that_is_gone_is_told_and_written_again(desk: Desk, piece: Path) -> None:
    piece.unlink()
    assert desk.disk() == "gone"
    desk.save()
    assert desk.disk() == "same"
    assert piece.exists()


def test_taking_up_what_is_on_disk_is_a_step(desk: Desk, piece: Path) -> None:
    retitled(desk, "Mine")
    mine = desk.now.text
    piece.write_text(mine.replace("Mine", "Theirs"), "utf-8")
    desk.reload()
    assert "Theirs" in desk.now.text
    assert desk.is_saved
    desk.undo()
    assert desk.now.text == mine


def test_work_not_saved_lies_in_a_draft_until_it_is(desk: Desk, piece: Path) -> None:
    retitled(desk, "Not saved")
    desk.keep_draft()
    again = Desk(piece, piece.parent)
    assert again.draft_text() == desk.now.text
    assert "Not saved" not in again.now.text
    desk.save()
    assert [each.name for each in piece.parent.iterdir()] == [piece.name]
    assert Desk(piece, piece.parent).draft_text() == ""


def test_many_edits_leave_nothing_behind_but_their_texts(desk: Desk) -> None:
    """Steps are kept without limit; pieces, documents and designs of earlier steps are not."""

    def left(count: int) -> int:
        for number in range(count):
            retitled(desk, f"Title {number}")
        gc.collect()
        return len(gc.get_objects())

    first = left(20)
    assert left(60) - first < 60
