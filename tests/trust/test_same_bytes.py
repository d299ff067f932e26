"""The same piece gives the same bytes, whatever the hash seed, locale, zone, fonts or folder."""

from __future__ import annotations

import shutil
import subprocess
from concurrent.futures import ThreadPoolExecutor
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.trust.running import SAMPLES, environment, run_all

COMMANDS = [
    ["proof", "ruby-thirty.toml", "--dpi", "40", "--both-units"]
    + [word for name in ("p.svg", "p.pdf", "p.png", "p.html") for word in ("-o", name)],
    ["layout", "winter-ring.toml", "--json"],
    ["check", "garden-arc.toml", "--json"],
    ["buy", "jobs/alder-weekend.toml", "-o", "b.xlsx", "-o", "b.csv", "-o", "b.pdf"],
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


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """What each of the surroundings gave, by file name."""
    top = tmp_path_factory.mktemp("same")
    envs = surroundings(top / "locales")

    def one(name: str) -> dict[str, bytes]:
        folder = top / name / ("a folder with Ä" if name == "elsewhere" else "f")
        shutil.copytree(SAMPLES, folder)
        return run_all(COMMANDS, folder, envs[name])

    with ThreadPoolExecutor(2) as pool:
        return dict(zip(envs, pool.map(one, envs), strict=True))


def test_every_kind_of_file_is_compared(made: dict[str, dict[str, bytes]]) -> None:
    here = made["here"]
    assert {Path(name).suffix for name in here} == set(KINDS)
    assert len(here) >= len(COMMANDS) + 7
    assert all(here.values())


@pytest.mark.parametrize("kind", KINDS)
def test_the_bytes_are_the_same(made: dict[str, dict[str, bytes]], kind: str) -> None:
    here, there = (
        {name: data for name, data in made[where].items() if name.endswith(kind)}
        for where in ("here", "elsewhere")
    )
    assert here.keys() == there.keys()
    assert [name for name in here if here[name] != there[name]] == []


def test_the_words_of_a_pdf_are_found_without_any_font_installed(
    made: dict[str, dict[str, bytes]],
) -> None:
    (page,) = PdfReader(BytesIO(made["elsewhere"]["p.pdf"])).pages
    assert "Ruby turns thirty" in page.extract_text()
