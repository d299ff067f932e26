"""The same piece gives the same bytes, whatever the hash seed, locale, zone, fonts or folder."""

from __future__ import annotations

import shutil
import subprocess
from concurrent.futures import ThreadPoolExecutor
from io import BytesIO
from pathlib import Path

from pypdf import PdfReader

from tests.trust.running import SAMPLES, environment, run_all

COMMANDS = [
    ["proof", "juniper-two.toml", "--dpi", "40", "--both-units"]
    + [word for name in ("p.svg", "p.pdf", "p.png", "p.html") for word in ("-o", name)],
    ["layout", "winter-ring.toml", "--json"],
    ["check", "garden-arc.toml", "--json"],
    ["buy", "jobs/alder-weekend.toml", "-o", "b.xlsx", "-o", "b.csv"],
    ["schema"],
]
KINDS = (".svg", ".pdf", ".png", ".html", ".xlsx", ".csv", ".txt")


def german(folder: Path) -> str:
    """A folder with a locale whose decimal sign is a comma, made by the C library's own tool."""
    made = folder / "de_DE.UTF-8"
    if shutil.which("localedef") is None:
        return ""
    words = ["localedef", "--no-archive", "-i", "de_DE", "-f", "UTF-8", str(made)]
    subprocess.run(words, capture_output=True, check=False)
    return str(folder) if made.exists() else ""


def surroundings(scratch: Path) -> dict[str, dict[str, str]]:
    """Two places that differ in everything a drawing must not depend on."""
    scratch.mkdir()
    return {
        "here": environment(PYTHONHASHSEED="0", LC_ALL="C", TZ="UTC", OPENBLAS_NUM_THREADS="1"),
        "elsewhere": environment(
            PYTHONHASHSEED="4242",
            LANG="de_DE.UTF-8",
            LC_ALL="de_DE.UTF-8",
            LOCPATH=german(scratch) or None,
            TZ="Pacific/Kiritimati",
            OPENBLAS_NUM_THREADS="2",
            HOME=None,
            XDG_CONFIG_HOME=None,
            XDG_CACHE_HOME=None,
            FONTCONFIG_FILE=str(scratch / "no-fonts.conf"),
            FONTCONFIG_PATH=str(scratch),
        ),
    }


def made_in(folder: Path, env: dict[str, str]) -> dict[str, bytes]:
    """What the commands make and say there, by file name."""
    shutil.copytree(SAMPLES, folder)
    return run_all(COMMANDS, folder, env)


def test_the_bytes_are_the_same_everywhere(tmp_path: Path) -> None:
    """One test, so that the drawings are made twice and no more, however many workers test."""
    envs = surroundings(tmp_path / "locales")
    folders = [tmp_path / "one" / "f", tmp_path / "two" / "a folder with Ä"]
    with ThreadPoolExecutor(2) as pool:
        here, there = pool.map(made_in, folders, envs.values())
    assert {Path(name).suffix for name in here} == set(KINDS)
    assert len(here) >= len(COMMANDS) + 6
    assert all(here.values())
    assert here.keys() == there.keys()
    assert [name for name in here if here[name] != there[name]] == []
    (page,) = PdfReader(BytesIO(there["p.pdf"])).pages
    assert "Juniper is two" in page.extract_text()  # with no font installed
