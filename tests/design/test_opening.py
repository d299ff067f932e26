"""What is no piece file is refused at the door, in words, at once."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from mockup.design.opening import MOST_BYTES, read_text
from mockup.design.reading import read_design
from mockup.errors import FaultsFound


def refusal(path: Path) -> str:
    with pytest.raises(FaultsFound) as told:
        read_design(path)
    (fault,) = told.value.faults
    return str(fault).replace(f"{path.parent}{os.sep}", "")


def written(folder: Path, data: bytes) -> Path:
    path = folder / "ruby.toml"
    path.write_bytes(data)
    return path


NEW = "'mockup new NAME' writes a piece to start from"
SAVE = "save it as plain text in UTF-8"


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", f"ruby.toml: is empty; {NEW}"),
        (b" \r\n\t\n", f"ruby.toml: is empty; {NEW}"),
        (b"\xef\xbb\xbf\n", f"ruby.toml: is empty; {NEW}"),
        (b"%PDF-1.7 ...", "ruby.toml: is a PDF, not a text file; name a .toml file"),
        (b"\x89PNG\r\n\x1a\n", "ruby.toml: is a picture, not a text file; name a .toml file"),
        (
            b"PK\x03\x04 xl/workbook.xml",
            "ruby.toml: is a packed document, such as a spreadsheet, not a text file; "
            "name a .toml file",
        ),
        (bytes(range(256)), "ruby.toml: is not a text file; name a .toml file"),
        (b"\x7fELF\x02\x01\x01\x00", "ruby.toml: is not a text file; name a .toml file"),
        (b'title = "a"\nvenue = "caf\xe9"\n', f"ruby.toml:2: is not written in UTF-8; {SAVE}"),
        ('title = "Ruby"'.encode("utf-16"), f"ruby.toml: is written in UTF-16; {SAVE}"),
        ('title = "Ruby"'.encode("utf-32"), f"ruby.toml: is written in UTF-32; {SAVE}"),
        (
            'title = "Ruby"'.encode("utf-16-le"),
            f"ruby.toml: looks like UTF-16 without its mark; {SAVE}",
        ),
    ],
)
def test_what_is_no_piece_file_is_told_in_one_line(tmp_path: Path, data: bytes, said: str) -> None:
    assert refusal(written(tmp_path, data)) == said


def test_a_file_of_200_mb_is_refused_without_reading_it_all(tmp_path: Path) -> None:
    path = tmp_path / "ruby.toml"
    with path.open("wb") as stream:
        stream.truncate(200_000_000)
    start = time.perf_counter()
    said = "ruby.toml: is larger than 1 MB; a piece file has some dozen lines of text"
    assert refusal(path) == said
    assert time.perf_counter() - start < 0.5


def test_a_file_of_just_a_megabyte_is_read(tmp_path: Path) -> None:
    path = written(tmp_path, b"#" * MOST_BYTES)
    assert len(read_text(path)) == MOST_BYTES


def test_a_mark_at_the_start_of_the_text_is_no_part_of_it(tmp_path: Path) -> None:
    assert read_text(written(tmp_path, b"\xef\xbb\xbftitle = 1")) == "title = 1"


def test_a_folder_names_a_piece_in_it(tmp_path: Path) -> None:
    folder = tmp_path / "pieces"
    folder.mkdir()
    assert refusal(folder) == "pieces: is a folder; name a .toml file"
    (folder / "a.palette.toml").touch()
    (folder / "gala.toml").touch()
    with pytest.raises(FaultsFound) as told:
        read_design(folder)
    assert told.value.faults[0].instead == f"name a file in it, such as {folder / 'gala.toml'}"


@pytest.mark.parametrize(
    "asked", ["rubi-thirty.toml", "ruby-thirty", "ruby_thirty.tml", "RUBY-THIRTY"]
)
def test_a_missing_file_offers_the_nearest(tmp_path: Path, asked: str) -> None:
    (tmp_path / "ruby-thirty.toml").touch()
    (tmp_path / "gala.toml").touch()
    with pytest.raises(FaultsFound) as told:
        read_design(tmp_path / asked)
    fault = told.value.faults[0]
    assert fault.what == "there is no such file"
    assert fault.instead == f"did you mean {tmp_path / 'ruby-thirty.toml'}?"


@pytest.mark.parametrize("asked", ["nosuch.toml", "toml", "ruby.toml", "gale-force.toml"])
def test_a_missing_file_offers_none_that_is_far_from_it(tmp_path: Path, asked: str) -> None:
    """All of them end alike: that makes no two names near."""
    for name in ("c.toml", "gala.toml", "o.toml"):
        (tmp_path / name).touch()
    assert refusal(tmp_path / asked) == f"{asked}: there is no such file; {NEW}"


def test_a_missing_file_in_an_empty_or_missing_folder_tells_how_to_begin(tmp_path: Path) -> None:
    assert refusal(tmp_path / "ruby.toml") == f"ruby.toml: there is no such file; {NEW}"
    assert refusal(tmp_path / "no" / "ruby.toml") == f"ruby.toml: there is no such file; {NEW}"


def test_a_name_that_no_file_can_have_is_told(tmp_path: Path) -> None:
    with pytest.raises(FaultsFound, match="the name is not one a file can have") as told:
        read_design(tmp_path / "a\0b.toml")
    assert str(told.value).isprintable()


def test_a_name_far_too_long_is_told(tmp_path: Path) -> None:
    with pytest.raises(FaultsFound, match="cannot be read"):
        read_design(tmp_path / ("a" * 5000))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_what_is_no_ordinary_file_is_refused_without_waiting(tmp_path: Path) -> None:
    path = tmp_path / "pipe.toml"
    os.mkfifo(path)
    assert refusal(path) == "pipe.toml: is no ordinary file; name a .toml file"


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the owner of all may read all"
)
def test_a_file_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    path = written(tmp_path, b'title = "Ruby"')
    path.chmod(0)
    assert refusal(path) == "ruby.toml: cannot be read (Permission denied)"
