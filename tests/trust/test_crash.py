"""Killed at every write, out of disk, in folders that take nothing, and several at once.

Nothing that stood is lost, nothing is half-written under its own name, and the next run works.
"""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from mockup.cli.main import main
from mockup.design.approvals import Log, read_log
from mockup.design.studio import Studio
from mockup.design.studio_reading import read_studio
from tests.trust.killing import killed_everywhere

PIECE = """title = "Small ring"
palette = "harbour"
frame = { outside = "30in" }
colours = { A = "deep teal" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""
BOOK = """# my own shelf
[[on_hand]]
size = "5in"
colour = "deep teal"
finish = "gloss"
count = 100

[[bag]]
size = "5in"
colour = "deep teal"
finish = "gloss"
count = 50
price = 6.80
"""
ON_HAND = 100
Run = Callable[[list[str], Path], tuple[int, str]]
needs_linux = pytest.mark.skipif(sys.platform != "linux", reason="it kills and mounts by Linux")


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """A folder with a small piece, its studio book, and a proof from before."""
    folder = tmp_path / "desk"
    folder.mkdir()
    (folder / "ring.toml").write_text(PIECE, "utf-8")
    (folder / "studio.toml").write_text(BOOK, "utf-8")
    for old in ("ring.svg", "ring.png"):
        (folder / old).write_bytes(b"the old proof")
    return folder


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """One command in this process, in a folder: how it ended, and what it said on stderr."""

    def command(words: list[str], folder: Path) -> tuple[int, str]:
        with monkeypatch.context() as there:
            there.chdir(folder)
            there.setattr("sys.argv", ["mockup", *words])
            try:
                main()
                code = 0
            except SystemExit as end:
                code = int(end.code or 0)
        return code, capsys.readouterr().err

    return command


def log_of(folder: Path) -> Log:
    return read_log(folder / "ring.toml")


def shelf(folder: Path) -> tuple[int, int]:
    """How many balloons are at hand and how many are booked out."""
    studio: Studio = read_studio(folder / "studio.toml")
    at_hand = sum(int(row.count) for row in studio.on_hand)
    return at_hand, sum(int(row.count) for taken in studio.taken for row in taken.rows)


def visible(folder: Path) -> set[str]:
    """What a person sees in the folder: no hidden part, no lock."""
    return {p.name for p in folder.iterdir() if p.name[0] != "." and p.suffix != ".lock"}


@needs_linux
def test_a_proof_killed_anywhere_is_the_old_one_or_the_new_one(
    desk: Path, tmp_path: Path, ran: Run
) -> None:
    words = ["proof", "ring.toml", "-o", "ring.svg", "-o", "ring.png", "--dpi", "36"]
    whole, killed = killed_everywhere(desk, tmp_path, words, limits=(5000,))
    assert len(killed) >= 10
    for folder in killed:
        for name in ("ring.svg", "ring.png"):
            found = (folder / name).read_bytes()
            assert found in (b"the old proof", (whole / name).read_bytes()), folder.name
        assert visible(folder) == visible(desk)
    assert ran(words, killed[len(killed) // 2])[0] == 0
    after = killed[len(killed) // 2] / "ring.svg"
    assert after.read_bytes() == (whole / "ring.svg").read_bytes()


@needs_linux
def test_an_approval_killed_anywhere_loses_no_earlier_one(
    desk: Path, tmp_path: Path, ran: Run
) -> None:
    earlier = ["approve", "ring.toml", "--by", "R. Alder", "--on", "2025-03-01"]
    assert ran(earlier, desk)[0] == 0
    (before,) = log_of(desk).records
    _, killed = killed_everywhere(desk, tmp_path, ["approve", "ring.toml", "--by", "S. Alder"])
    assert len(killed) >= 4
    torn = 0
    for folder in killed:
        log = log_of(folder)
        torn += len(log.faults)
        assert log.records[0] == before
        assert [r.by for r in log.records[1:]] in ([], ["S. Alder"])
    assert torn >= 1, "no kill fell inside the line"
    for folder in (each for each in killed if log_of(each).faults):
        assert ran(["approve", "ring.toml", "--by", "T. Alder"], folder)[0] == 0
        assert [record.by for record in log_of(folder).records] == ["R. Alder", "T. Alder"]


@needs_linux
def test_stock_taken_and_killed_anywhere_is_taken_once_or_not_at_all(
    desk: Path, tmp_path: Path, ran: Run
) -> None:
    words = ["buy", "ring.toml", "--take"]
    whole, killed = killed_everywhere(desk, tmp_path, words, limits=(64,))
    assert len(killed) >= 4
    left, booked = shelf(whole)
    assert booked > 0
    assert left + booked == ON_HAND
    for folder in killed:
        book = (folder / "studio.toml").read_bytes()
        assert book in (BOOK.encode(), (whole / "studio.toml").read_bytes()), folder.name
    for folder in (killed[0], killed[-1]):
        ran(words, folder)
        assert shelf(folder) == (left, booked)


def at_once(words: list[list[str]], folder: Path) -> list[int]:
    """Several commands started together; how each ended."""
    started = [
        subprocess.Popen(
            [sys.executable, "-m", "mockup", *each],
            cwd=folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for each in words
    ]
    return [each.wait(timeout=120) for each in started]


def test_several_approve_at_once_and_none_is_lost(desk: Path) -> None:
    names = [f"R. Alder {n}" for n in range(3)]
    words = [["approve", "ring.toml", "--by", name] for name in names]
    assert at_once(words, desk) == [0] * len(names)
    log = log_of(desk)
    assert log.faults == ()
    assert sorted(record.by for record in log.records) == names
    assert {record.revision for record in log.records} == {1}


def test_several_take_stock_at_once_and_it_is_taken_once(desk: Path) -> None:
    ends = at_once([["buy", "ring.toml", "--take"]] * 2, desk)
    assert sorted(ends) == [0, 2]
    left, booked = shelf(desk)
    assert booked > 0
    assert left + booked == ON_HAND


def test_two_proofs_at_once_leave_one_whole_proof(desk: Path) -> None:
    words = ["proof", "ring.toml", "-o", "ring.svg"]
    assert at_once([words, words], desk) == [0, 0]
    assert (desk / "ring.svg").read_text("utf-8").rstrip().endswith("</svg>")
    assert visible(desk) == {"ring.toml", "studio.toml", "ring.svg", "ring.png"}


@pytest.fixture
def small_disk(desk: Path, tmp_path: Path, ran: Run) -> Iterator[Path]:
    """The desk on a disk of 64 KB of its own that is full, where this user may mount one."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)]
    if shutil.which("mount") is None or subprocess.run(mount, check=False).returncode:
        pytest.skip("this user may not mount a small disk")
    try:
        for name in ("ring.toml", "studio.toml", "ring.svg"):
            shutil.copy(desk / name, disk / name)
        assert ran(["approve", "ring.toml", "--by", "R. Alder"], disk)[0] == 0
        _fill(disk / "filler")
        yield disk
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def _fill(path: Path) -> None:
    with path.open("wb", buffering=0) as filler:
        try:
            while True:
                filler.write(b"x" * 512)
        except OSError:
            return


COMMANDS = {
    "proof": ["proof", "ring.toml", "-o", "ring.svg"],
    "approve": ["approve", "ring.toml", "--by", "S. Alder", "--note", "x" * 8000],
    "take": ["buy", "ring.toml", "--take"],
}


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.name: path.read_bytes()
        for path in folder.iterdir()
        if path.is_file() and path.suffix != ".lock"
    }


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_a_full_disk_is_told_and_everything_stays(small_disk: Path, command: str, ran: Run) -> None:
    before = contents(small_disk)
    code, said = ran(COMMANDS[command], small_disk)
    assert code == 2
    assert len(said.strip().splitlines()) == 1
    assert contents(small_disk) == before


@pytest.fixture
def closed(desk: Path, tmp_path: Path, ran: Run) -> Iterator[Path]:
    """The desk as a folder that takes no file, whoever runs this."""
    assert ran(["approve", "ring.toml", "--by", "R. Alder"], desk)[0] == 0
    if os.geteuid() != 0:
        desk.chmod(0o555)
        yield desk
        desk.chmod(0o755)
        return
    bound = tmp_path / "closed"
    bound.mkdir()
    words = [["mount", "--bind", str(desk), str(bound)]]
    words += [["mount", "-o", "remount,bind,ro", str(bound)]]
    if any(subprocess.run(each, check=False, capture_output=True).returncode for each in words):
        pytest.skip("this user may write everywhere and mount nowhere")
    try:
        yield bound
    finally:
        subprocess.run(["umount", str(bound)], check=True)


def test_a_folder_that_takes_nothing_is_told_and_can_still_be_read(closed: Path, ran: Run) -> None:
    before = contents(closed)
    for command in COMMANDS.values():
        code, said = ran(command, closed)
        assert code == 2, command
        assert len(said.strip().splitlines()) == 1
    assert ran(["check", "ring.toml"], closed)[0] in (0, 1)
    assert contents(closed) == before


@pytest.mark.parametrize("broken", ["os.fsync", "os.write"])
def test_a_disk_that_fills_while_writing_is_told(
    desk: Path, broken: str, monkeypatch: pytest.MonkeyPatch, ran: Run
) -> None:
    """The same without a disk of its own: the system's call itself says ENOSPC."""
    real = os.write

    def full(handle: int, data: bytes = b"") -> int:
        if data:
            real(handle, data[: len(data) // 2])
        raise OSError(errno.ENOSPC, "No space left on device")

    before = contents(desk)
    for name in {"os.fsync": ["proof", "approve", "take"], "os.write": ["approve"]}[broken]:
        with monkeypatch.context() as patched:
            patched.setattr(broken, full)
            code, said = ran(COMMANDS[name], desk)
        assert code == 2
        assert len(said.strip().splitlines()) == 1
    after = contents(desk)
    assert {name: after[name] for name in before} == before
    assert [name for name in after if name[0] == "."] == []
    assert log_of(desk).faults == ()
