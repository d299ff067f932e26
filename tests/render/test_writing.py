"""Files are written whole or not at all, whatever goes wrong, and say so in plain words."""

from __future__ import annotations

import errno
import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from mockup.errors import CannotWrite
from mockup.render.writing import UnknownEnding, format_of, write_new, write_whole

OLD = b"the old proof, whole"


@pytest.fixture
def proof(tmp_path: Path) -> Path:
    path = tmp_path / "ruby-proof.pdf"
    path.write_bytes(OLD)
    return path


def nothing_else(folder: Path, *names: str) -> bool:
    return sorted(path.name for path in folder.iterdir()) == sorted(names)


@pytest.mark.parametrize("data", [b"", b"new", b"x" * 3_000_000])
def test_the_whole_of_the_new_file_stands_there(proof: Path, data: bytes) -> None:
    write_whole(proof, data)
    write_whole(proof.parent / "new.svg", data)
    assert proof.read_bytes() == (proof.parent / "new.svg").read_bytes() == data
    assert nothing_else(proof.parent, "ruby-proof.pdf", "new.svg")


def failing(error: BaseException) -> Callable[..., None]:
    def fail(*_: object, **__: object) -> None:
        raise error

    return fail


FAILURES: list[tuple[BaseException, str]] = [
    (OSError(errno.ENOSPC, "No space left on device"), "the disk is full"),
    (OSError(errno.EDQUOT, "Disk quota exceeded"), "the disk is full"),
    (PermissionError(errno.EACCES, "Permission denied"), "may not write"),
    (OSError(errno.EROFS, "Read-only file system"), "can only be read"),
    (OSError(errno.EIO, "Input/output error"), "Input/output error"),
]


@pytest.mark.parametrize("step", ["os.fsync", "pathlib.Path.replace", "pathlib.Path.chmod"])
@pytest.mark.parametrize(
    ("error", "words"), FAILURES, ids=lambda v: v if isinstance(v, str) else ""
)
def test_on_a_failure_the_old_file_stays_and_the_new_one_goes(
    proof: Path, monkeypatch: pytest.MonkeyPatch, step: str, error: BaseException, words: str
) -> None:
    monkeypatch.setattr(step, failing(error))
    with pytest.raises(CannotWrite, match=words):
        write_whole(proof, b"new")
    assert proof.read_bytes() == OLD
    assert nothing_else(proof.parent, proof.name)


@pytest.mark.parametrize("step", ["os.fsync", "pathlib.Path.replace"])
def test_ctrl_c_leaves_the_old_file_whole(
    proof: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    monkeypatch.setattr(step, failing(KeyboardInterrupt()))
    with pytest.raises(KeyboardInterrupt):
        write_whole(proof, b"new")
    assert proof.read_bytes() == OLD
    assert nothing_else(proof.parent, proof.name)


def test_ctrl_c_from_outside_in_mid_write(proof: Path) -> None:
    """A real signal while a real process sits between writing and replacing."""
    code = (
        "import os, sys, time; from mockup.render.writing import write_whole\n"
        "def wait(file): print('writing', flush=True); time.sleep(30)\n"
        "os.fsync = wait\n"
        "write_whole(sys.argv[1], b'new' * 100000)\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, proof], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=20)
    assert b"KeyboardInterrupt" in said
    assert proof.read_bytes() == OLD
    assert nothing_else(proof.parent, proof.name)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A folder on a real file system of 64 KB, where this user may make one."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mounted = (
        subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", folder],
            capture_output=True,
            check=False,
        )
        if sys.platform == "linux"
        else None
    )
    if mounted is None or mounted.returncode:
        pytest.skip("this user cannot make a small disk")
    yield folder
    subprocess.run(["umount", folder], check=True)


def test_a_full_disk(small_disk: Path) -> None:
    proof = small_disk / "proof.png"
    proof.write_bytes(OLD)
    with pytest.raises(CannotWrite, match="the disk is full"):
        write_whole(proof, b"x" * 200_000)
    assert proof.read_bytes() == OLD
    assert nothing_else(small_disk, "proof.png")


def test_a_file_larger_than_this_process_may_write(proof: Path) -> None:
    """The kernel's own refusal (RLIMIT_FSIZE), which any user can have."""
    kept = resource.getrlimit(resource.RLIMIT_FSIZE)
    ignored = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, kept[1]))
    try:
        with pytest.raises(CannotWrite, match="too large"):
            write_whole(proof, b"x" * 5000)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, kept)
        signal.signal(signal.SIGXFSZ, ignored)
    assert proof.read_bytes() == OLD
    assert nothing_else(proof.parent, proof.name)


def test_a_new_file_is_written_only_where_there_is_none(proof: Path) -> None:
    write_new(proof.parent / "ruby.toml", b"new")
    assert (proof.parent / "ruby.toml").read_bytes() == b"new"
    with pytest.raises(CannotWrite, match="is there already"):
        write_new(proof, b"new")
    assert proof.read_bytes() == OLD


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match=r"no folder .*proofs; make it first"):
        write_whole(tmp_path / "proofs" / "a.pdf", b"new")
    assert nothing_else(tmp_path)


def test_a_folder_given_as_a_file(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="is a folder"):
        write_whole(tmp_path, b"new")


def test_a_file_given_as_a_folder(proof: Path) -> None:
    with pytest.raises(CannotWrite, match="is a file, not a folder"):
        write_whole(proof / "a.pdf", b"new")


def test_a_name_too_long(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="too long"):
        write_whole(tmp_path / ("a" * 300 + ".pdf"), b"new")


def test_a_device_is_not_replaced() -> None:
    with pytest.raises(CannotWrite, match="not an ordinary file"):
        write_whole(os.devnull, b"new")


@pytest.mark.skipif(os.geteuid() == 0, reason="this user may write anywhere")
def test_a_folder_without_permission(proof: Path) -> None:
    proof.parent.chmod(0o500)
    try:
        with pytest.raises(CannotWrite, match="may not write"):
            write_whole(proof, b"new")
    finally:
        proof.parent.chmod(0o700)
    assert proof.read_bytes() == OLD


def test_a_link_stays_a_link_and_the_rights_stay(proof: Path) -> None:
    proof.chmod(0o640)
    link = proof.parent / "latest.pdf"
    link.symlink_to(proof.name)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert proof.read_bytes() == b"new"
    assert proof.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("name", "format_"),
    [("a.pdf", "pdf"), ("a.SVG", "svg"), ("b.c.Png", "png"), ("./x y.pdf", "pdf")],
)
def test_the_ending_says_the_format(name: str, format_: str) -> None:
    assert format_of(name) == format_


@pytest.mark.parametrize("name", ["a.jpg", "a", "a.pdf.zip", ".pdf", ""])
def test_other_endings_are_refused_with_the_known_ones(name: str) -> None:
    with pytest.raises(UnknownEnding, match=r"end it in \.pdf, \.svg or \.png"):
        format_of(name)


def test_what_a_killed_run_left_goes_once_it_is_old_and_a_young_one_stays(proof: Path) -> None:
    """A young one may be another run's that still writes; other names are somebody else's."""
    old, young = (proof.with_name(f".{proof.name}.0a1b2c3{last}.part") for last in "45")
    others = [
        proof.with_name(name)
        for name in (".other.pdf.0a1b2c34.part", f".{proof.name}.mine.part", f"{proof.name}.part")
    ]
    for path in (old, young, *others):
        path.write_bytes(b"half a pro")
        if path is not young:
            os.utime(path, (0.0, time.time() - 2 * 3600))
    write_whole(proof, b"new")
    assert proof.read_bytes() == b"new"
    assert nothing_else(proof.parent, proof.name, young.name, *(path.name for path in others))


def test_a_name_full_of_signs_sweeps_only_its_own(tmp_path: Path) -> None:
    starred = tmp_path / "ruby-[ab]*.svg"
    left = [tmp_path / f".ruby-{name}.svg.01234567.part" for name in ("[ab]*", "axx")]
    for path in left:
        path.write_bytes(b"half")
        os.utime(path, (0.0, 0.0))
    write_whole(starred, b"new")
    assert nothing_else(tmp_path, starred.name, left[1].name)
