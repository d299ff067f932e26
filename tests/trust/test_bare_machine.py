"""A machine with nothing on it: no cairo library, no fonts, no home folder, LANG=C, other consoles.

The README's commands still run, say in one plain sentence what differs, and draw the same. With
TRUST_LONG=1 a whole PDF is made without cairo too: a page of 300 dpi, which takes its time.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from pypdf import PdfReader

from tests.trust.running import SAMPLES, environment, run

SAMPLE = SAMPLES / "juniper-two.toml"
NO_LIBRARY = "raise OSError('no library called \"cairo-2\" was found')\n"
"""What cairocffi does on import where it finds no cairo library."""

SEEN = 24
"""Levels of 255 by which a pixel must differ to be seen beside its like."""


def bare(nowhere: Path, **more: str) -> dict[str, str]:
    """No home, no locale, no font configuration."""
    return environment(
        HOME=None,
        USERPROFILE=None,
        XDG_CACHE_HOME=None,
        XDG_CONFIG_HOME=None,
        LANG="C",
        LC_ALL="C",
        FONTCONFIG_FILE=str(nowhere / "no-fonts.conf"),
        FONTCONFIG_PATH=str(nowhere),
        **more,
    )


@pytest.fixture
def without(tmp_path: Path) -> tuple[Path, dict[str, str]]:
    """A folder on a machine with nothing, and its surroundings."""
    folder = tmp_path / "without"
    mask = folder / "mask" / "cairocffi"
    mask.mkdir(parents=True)
    (mask / "__init__.py").write_text(NO_LIBRARY, "utf-8")
    return folder, bare(folder, PYTHONPATH=str(mask.parent))


def test_the_mask_hides_cairo(without: tuple[Path, dict[str, str]]) -> None:
    folder, env = without
    told = subprocess.run(
        [sys.executable, "-c", "import cairocffi"],
        cwd=folder,
        env=env,
        capture_output=True,
        text=True,
        check=False,
    )
    assert "OSError" in told.stderr


def levels(file: Path) -> NDArray[np.int16]:
    return np.asarray(Image.open(BytesIO(file.read_bytes())).convert("RGB"), dtype=np.int16)


def test_a_drawing_without_cairo_is_the_same_to_half_a_per_cent(
    without: tuple[Path, dict[str, str]], tmp_path: Path
) -> None:
    folder, env = without
    with_cairo = run(["proof", SAMPLE, "-o", "p.svg", "-o", "p.png"], tmp_path)
    assert (with_cairo.returncode, with_cairo.stderr) == (0, "")
    done = run(["proof", SAMPLE, "-o", "p.svg", "-o", "p.png"], folder, env)
    assert done.returncode == 0
    (said,) = done.stderr.splitlines()
    assert said.endswith(".")
    assert "cairo" in said
    assert (folder / "p.svg").read_bytes() == (tmp_path / "p.svg").read_bytes()
    ours, theirs = levels(folder / "p.png"), levels(tmp_path / "p.png")
    assert ours.shape == theirs.shape
    apart = float((np.abs(ours - theirs).max(axis=2) > SEEN).mean())
    assert apart <= 0.005


@pytest.mark.skipif(os.environ.get("TRUST_LONG") != "1", reason="long: TRUST_LONG=1 runs it")
def test_a_pdf_without_cairo_is_of_the_same_size(
    without: tuple[Path, dict[str, str]], tmp_path: Path
) -> None:
    folder, env = without
    done = run(["proof", SAMPLE, "-o", "p.pdf"], folder, env)
    assert done.returncode == 0
    (said,) = done.stderr.splitlines()
    assert said.endswith(".")
    assert run(["proof", SAMPLE, "-o", "p.pdf"], tmp_path).returncode == 0
    ours, theirs = (PdfReader(BytesIO((at / "p.pdf").read_bytes())) for at in (folder, tmp_path))
    assert len(ours.pages) == len(theirs.pages) == 1
    box, other = ours.pages[0].mediabox, theirs.pages[0].mediabox
    assert float(box.width) == pytest.approx(float(other.width), abs=0.1)
    assert float(box.height) == pytest.approx(float(other.height), abs=0.1)


NAMES = """title = "יעל ☂ 🎈"
client = "Łukasz & Zoë"
colours = { A = { name = "żółć", srgb = "#b3202c" } }
[[section]]
at = "12"
name = "☂ é"
clusters = [{ strokes = 3 }]
"""


@pytest.mark.parametrize("console", ["cp1252", "utf-8"])
def test_a_console_of_any_encoding_shows_what_it_can(tmp_path: Path, console: str) -> None:
    """Code page 1252 is the usual one where a Windows program's output is piped."""
    (tmp_path / "ring.toml").write_text(NAMES, "utf-8")
    env = environment(PYTHONIOENCODING=console, PYTHONUTF8="0")

    def said(*words: str) -> bytes:
        done = subprocess.run(
            [sys.executable, "-m", "mockup", *words],
            cwd=tmp_path,
            env=env,
            capture_output=True,
            check=False,
        )
        assert b"Traceback" not in done.stderr
        assert done.returncode in (0, 1)
        return done.stdout

    assert said("check", "ring.toml").decode(console)
    told = json.loads(said("layout", "ring.toml", "--json").decode(console))
    assert told["title"] == "יעל ☂ 🎈"
    assert told["clusters"][0]["section"] == "☂ é"
