"""What differs between Linux, Windows and macOS, tried with each platform's own values.

The program is run on Linux only; the folders below are the platforms' published ones.
"""

from __future__ import annotations

import ast
import io
import sys
from collections.abc import Callable
from pathlib import Path

import platformdirs.windows
import pytest

from mockup.design.studio_book import settings_book
from mockup.platforms import encoding_knows, knows_every_letter, settings_folder, settle_console

PACKAGE = Path(__file__).parent.parent / "mockup"
PROGRAM = "balloon-mockup"


def test_linux_keeps_settings_by_the_xdg_specification(monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG Base Directory Specification 0.8: $XDG_CONFIG_HOME, or ~/.config."""
    monkeypatch.setenv("HOME", "/home/alder")
    given = {"XDG_CONFIG_HOME": "/elsewhere"}
    assert settings_folder(PROGRAM, "linux", given) == Path("/elsewhere") / PROGRAM
    assert settings_folder(PROGRAM, "linux", {}) == Path("/home/alder/.config") / PROGRAM
    assert settings_folder(PROGRAM, "freebsd14", {}) == Path("/home/alder/.config") / PROGRAM


def test_macos_keeps_settings_in_application_support(monkeypatch: pytest.MonkeyPatch) -> None:
    """The File System Programming Guide: ~/Library/Application Support."""
    monkeypatch.setenv("HOME", "/Users/alder")
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    told = settings_folder(PROGRAM, "darwin", {}).as_posix()
    assert told == f"/Users/alder/Library/Application Support/{PROGRAM}"


def test_windows_keeps_settings_in_local_application_data(monkeypatch: pytest.MonkeyPatch) -> None:
    """FOLDERID_LocalAppData, which %LOCALAPPDATA% names."""
    by_name: Callable[[str], str] = platformdirs.windows.get_win_folder_from_env_vars
    monkeypatch.setattr(platformdirs.windows, "_RESOLVE_WIN_FOLDER", by_name)
    monkeypatch.setenv("LOCALAPPDATA", r"C:\Users\Alder\AppData\Local")
    told = str(settings_folder(PROGRAM, "win32", {})).replace("\\", "/")
    assert told == f"C:/Users/Alder/AppData/Local/{PROGRAM}"


def test_the_book_lies_there() -> None:
    assert settings_book() == settings_folder(PROGRAM) / "studio.toml"


CONSOLES = [
    ("utf-8", True),  # Linux and macOS
    ("cp65001", True),  # Windows set to UTF-8
    ("utf-16-le", True),
    ("cp1252", False),  # Windows, western Europe
    ("cp437", False),  # Windows, a console of the United States
    ("cp932", False),  # Windows, Japan
    ("ascii", False),  # LANG=C of old
    ("no such one", False),
]


@pytest.mark.parametrize(("encoding", "knows"), CONSOLES)
def test_which_consoles_know_every_letter(encoding: str, knows: bool) -> None:
    assert encoding_knows(encoding) is knows


@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "cp437", "cp932", "ascii"])
def test_any_console_shows_what_it_can(encoding: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A name in Hebrew, Polish and with a sign: spelled out where the console lacks it."""
    held = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(held, encoding))
    settle_console()
    print("יעל Łukasz ☂ 🎈")
    sys.stdout.flush()
    said = held.getvalue().decode(encoding)
    assert ("🎈" in said) == knows_every_letter()
    assert ("\\U0001f388" in said) == (not knows_every_letter())


def test_nothing_else_asks_which_platform_this_is() -> None:
    """Every difference lies in one file, where it is tried with each platform's values."""
    asking = set()
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            asked = isinstance(node, ast.Attribute) and ast.unparse(node) in (
                "sys.platform", "os.name", "sys.getwindowsversion", "os.uname",
            )  # fmt: skip
            asked |= isinstance(node, ast.Import) and "platform" in {a.name for a in node.names}
            if asked:
                asking.add(path.relative_to(PACKAGE).as_posix())
    assert asking == {"platforms.py"}
