"""The approval log: append-only, shared by two writers, unharmed by damage."""

from __future__ import annotations

import errno
import multiprocessing
import os
from pathlib import Path

import pytest

from mockup.design.approvals import Record, add_counted, add_record, log_path, read_log
from mockup.errors import CannotWrite


def record(code: str = "1A2B3C4D", revision: int = 1, **more: str) -> Record:
    said = {"on": "2027-03-01", "by": "Zoë Łuk", **more}
    return Record("approved", code, revision, content={"title": "Ruby"}, **said)


def test_what_is_added_is_read_back_in_order(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    first, second = record(), record("99999999", 2, note="a\nb \u2028 <&")
    add_record(piece, first)
    add_record(piece, second)
    assert read_log(piece).records == (first, second)
    assert read_log(piece).faults == ()


def test_no_log_is_an_empty_one(tmp_path: Path) -> None:
    assert read_log(tmp_path / "ruby.toml").records == ()


def test_a_line_damaged_in_the_middle_is_told_and_the_rest_kept(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    for number in range(3):
        add_record(piece, record(f"0000000{number}", number + 1))
    lines = log_path(piece).read_bytes().split(b"\n")
    lines[1] = lines[1].replace(b"2027", b"2028")
    log_path(piece).write_bytes(b"\n".join(lines))
    log = read_log(piece)
    assert [r.revision for r in log.records] == [1, 3]
    assert [fault.where for fault in log.faults] == ["ruby.approvals.jsonl:2"]
    add_record(piece, record("77777777", 4))
    assert log_path(piece).read_bytes().split(b"\n")[1] == lines[1]


@pytest.mark.parametrize("line", [b"\xff\xfe\x00", b"null", b"[1]", b'{"seal":1}', b"[" * 99999])
def test_a_line_that_is_no_record_is_told(tmp_path: Path, line: bytes) -> None:
    piece = tmp_path / "ruby.toml"
    log_path(piece).write_bytes(line + b"\n")
    assert len(read_log(piece).faults) == 1


def test_every_way_a_crash_can_cut_the_last_line_leaves_the_others(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    add_record(piece, record())
    add_record(piece, record("22222222", 2))
    whole = log_path(piece).read_bytes()
    first = whole.index(b"\n") + 1
    for cut in range(first + 1, len(whole) - 1, 7):
        log_path(piece).write_bytes(whole[:cut])
        add_record(piece, record("33333333", 3))
        assert [r.revision for r in read_log(piece).records] == [1, 3]


def test_a_full_disk_takes_back_the_part_that_went_through(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    piece = tmp_path / "ruby.toml"
    add_record(piece, record())
    before = log_path(piece).read_bytes()
    real = os.write

    def half(handle: int, data: bytes) -> int:
        if len(data) < 100:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(handle, data[: len(data) // 2])

    monkeypatch.setattr("mockup.design.approvals.os.write", half)
    with pytest.raises(CannotWrite, match="nothing was added"):
        add_record(piece, record("22222222", 2))
    monkeypatch.undo()
    assert log_path(piece).read_bytes() == before


def _many(piece: Path, writer: int) -> None:
    for number in range(25):
        add_record(piece, record(f"{writer}{number:07}", number + 1))


def test_two_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_many, args=(piece, n)) for n in (1, 2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    log = read_log(piece)
    assert not log.faults
    for writer_number in ("1", "2"):
        own = [r.revision for r in log.records if r.code.startswith(writer_number)]
        assert own == list(range(1, 26))


def _many_designs(piece: Path, writer: int) -> None:
    for number in range(25):
        add_counted(piece, record(f"{writer}{number:07}"))


def test_two_programs_that_count_at_once_give_no_number_twice(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_many_designs, args=(piece, n)) for n in (1, 2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert [each.revision for each in read_log(piece).records] == list(range(1, 51))


def test_once_keeps_what_the_log_already_holds(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    first = add_counted(piece, record(revision=7))
    assert first.revision == 1
    assert add_counted(piece, record(by="Another"), once=True) == first
    assert add_counted(piece, record("22222222"), once=True).revision == 2
    assert [each.by for each in read_log(piece).records] == ["Zoë Łuk"] * 2


def test_revisions_count_themselves(tmp_path: Path) -> None:
    piece = tmp_path / "ruby.toml"
    assert read_log(piece).revision_of("1A2B3C4D") == 1
    add_record(piece, record())
    assert read_log(piece).revision_of("1A2B3C4D") == 1
    assert read_log(piece).revision_of("22222222") == 2
