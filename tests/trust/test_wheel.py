"""The wheel: built from this repository, unpacked and installed, and used from another folder.

It is installed into a fresh environment without a network, so that the libraries it needs are those
of the Python that tests: a path file leads to them, behind the packages of the environment.
Building needs ``uv`` and the build backend in its store (``uv run`` put it there); where neither
can be had the tests are skipped and say so.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from email import message_from_string
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from mockup import __version__
from tests.trust.running import ROOT, SAMPLES, environment, run


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("dist")
    if shutil.which("uv") is None:
        pytest.skip("uv is not on the path")
    for offline in (["--offline"], []):
        words = ["uv", "build", "--wheel", *offline, "-o", str(out), str(ROOT)]
        done = subprocess.run(words, capture_output=True, text=True, check=False, timeout=300)
        if done.returncode == 0:
            (built,) = out.glob("*.whl")
            return built
    if "hatchling" in done.stderr and "fail" in done.stderr.lower():
        pytest.skip("the build backend is neither stored nor to be had from a registry")
    raise AssertionError(done.stderr)


@pytest.fixture(scope="module")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("installed")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(folder)
    return folder


@pytest.fixture
def alone(unpacked: Path) -> dict[str, str]:
    """Surroundings in which ``mockup`` is the unpacked one and no other."""
    return environment(PYTHONPATH=str(unpacked), PYTHONDONTWRITEBYTECODE="1")


def tracked(folder: str) -> set[str]:
    """The files of a folder that this repository holds."""
    words = ["git", "ls-files", "-z", folder]
    listed = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git clone")
    return {name for name in listed.stdout.split("\0") if name}


def test_everything_a_user_needs_is_inside_and_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as packed:
        inside = set(packed.namelist())
    data = {name for folder in ("samples", "palettes") for name in tracked(folder)}
    assert {f"mockup/{name}" for name in data} <= inside
    assert tracked("mockup") <= inside
    assert {name.split("/")[0] for name in inside} == {
        "mockup",
        f"balloon_mockup-{__version__}.dist-info",
    }
    assert not [name for name in inside if name.endswith((".pyc", ".part", ".lock"))]


def test_its_papers_say_what_it_is(unpacked: Path) -> None:
    (papers,) = unpacked.glob("*.dist-info")
    told = message_from_string((papers / "METADATA").read_text("utf-8"))
    assert (told["Name"], told["Version"]) == ("balloon-mockup", __version__)
    assert told["License-Expression"] == "MIT" or told["License"] == "MIT"
    assert "mockup = mockup.cli.main:main" in (papers / "entry_points.txt").read_text("utf-8")
    assert (papers / "licenses" / "LICENSE").exists()


def test_it_is_the_unpacked_one_that_runs(
    unpacked: Path, alone: dict[str, str], tmp_path: Path
) -> None:
    words = [sys.executable, "-c", "import mockup; print(mockup.__file__)"]
    told = subprocess.run(
        words, cwd=tmp_path, env=alone, capture_output=True, text=True, check=True
    )
    assert Path(told.stdout.strip()).is_relative_to(unpacked)
    assert __version__ in run(["--version"], tmp_path, alone).stdout


def test_a_sample_is_proved_from_another_folder_and_nothing_is_written_inside(
    unpacked: Path, alone: dict[str, str], tmp_path: Path
) -> None:
    """Nothing is written where the package lies, as on a machine where it cannot be."""
    before = {path: path.stat().st_mtime_ns for path in unpacked.rglob("*")}
    sample = unpacked / "mockup/samples/ruby-thirty.toml"
    done = run(["proof", sample, "-o", "ruby.svg", "-o", "ruby.pdf"], tmp_path, alone)
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "ruby.pdf").read_bytes().startswith(b"%PDF-")
    assert (tmp_path / "ruby.svg").read_text("utf-8").rstrip().endswith("</svg>")
    assert "harbour" in run(["palettes"], tmp_path, alone).stdout
    assert {path: path.stat().st_mtime_ns for path in unpacked.rglob("*")} == before


READ_ONLY = 'mount --bind "$0" "$0" && mount -o remount,bind,ro "$0" && exec "$@"'
"""Root writes whatever the modes say, so that for it the folder is mounted read-only."""
NOBODY = 65534
"""The user to whom nothing belongs (Debian Policy 9.2.2, from memory)."""
DROPPED = (
    *("setpriv", f"--reuid={NOBODY}", f"--regid={NOBODY}", "--clear-groups"),
    *("--inh-caps=-all", "--ambient-caps=-all"),
)
READS = (*DROPPED[:-2], "--inh-caps=-all,+dac_read_search", "--ambient-caps=+dac_read_search")
"""The same, but with leave to read: root's Python may lie where nobody else can look."""
ROOT_RUNS = sys.platform != "win32" and os.geteuid() == 0
WAYS = ("mounted", "modes") if ROOT_RUNS else ("modes",)


@dataclass(frozen=True)
class Installed:
    """A fresh environment: its folder, where its packages lie, and words that begin a command.

    ``desk`` is where its user works and is at home.
    """

    folder: Path
    packages: Path
    desk: Path
    begins: tuple[str, ...] = ()

    def ran(self, *words: object) -> subprocess.CompletedProcess[str]:
        """A program of the environment, run from the desk."""
        program, *others = map(str, words)
        bare = {"PYTHONPATH": None, "PYTHONDONTWRITEBYTECODE": None, "VIRTUAL_ENV": None}
        return subprocess.run(
            [*self.begins, str(self.folder / "bin" / program), *others],
            cwd=self.desk,
            env=environment(**bare, HOME=str(self.desk), XDG_CONFIG_HOME=None),
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=120,
            check=False,
        )


@pytest.fixture(scope="module")
def installed(wheel: Path) -> Iterator[Installed]:
    """In a folder that every user may enter, which pytest's own are not."""
    if sys.platform == "win32":
        pytest.skip("the programs of an environment lie elsewhere on Windows")
    with TemporaryDirectory(prefix="fresh-") as name:
        place = Path(name)
        place.chmod(0o755)
        folder = place / "environment"
        uv = ("uv", "--offline", "--quiet")
        alone = ("--no-deps", "--link-mode", "copy")
        for words in (
            (*uv, "venv", "--python", sys.executable, str(folder)),
            (*uv, "pip", "install", *alone, "--python", str(folder / "bin/python"), str(wheel)),
        ):
            done = subprocess.run(words, capture_output=True, text=True, check=False, timeout=120)
            assert done.returncode == 0, done.stderr
        (packages,) = folder.glob("lib/python*/site-packages")
        (packages / "libraries.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
        yield Installed(folder, packages, place)


@pytest.fixture(params=WAYS)
def read_only(request: pytest.FixtureRequest, installed: Installed) -> Iterator[Installed]:
    """The environment where nothing can be written into it: for root, and for any other user."""
    desk = installed.desk / request.param
    desk.mkdir()
    shut = replace(installed, desk=desk)
    if request.param == "mounted":
        begins = ("unshare", "--mount", "--map-root-user", "sh", "-c", READ_ONLY)
        shut = replace(shut, begins=(*begins, str(installed.folder)))
        if shutil.which("unshare") is None or shut.ran("python", "-c", "").returncode:
            pytest.skip("root writes everywhere here: no folder can be mounted read-only")
        yield shut
        return
    if ROOT_RUNS:
        for path in (desk, installed.folder, *installed.folder.rglob("*")):
            os.chown(path, NOBODY, NOBODY, follow_symlinks=False)
        shut = as_nobody(shut)
    folders = [path for path in (installed.folder, *installed.folder.rglob("*")) if path.is_dir()]
    for path in folders:
        path.chmod(0o555)
    yield shut
    for path in folders:
        path.chmod(0o755)


def as_nobody(shut: Installed) -> Installed:
    """The same, run by the user nobody."""
    who = f"import os, sys; print(os.geteuid(), {sys.version!r} == sys.version)"
    for begins in (READS, DROPPED):
        tried = replace(shut, begins=begins)
        if shutil.which(begins[0]) and tried.ran("python", "-c", who).stdout == f"{NOBODY} True\n":
            return tried
    pytest.skip("root cannot become another user here who may read this Python")


def test_an_installed_one_draws_what_this_one_draws_where_its_packages_can_only_be_read(
    read_only: Installed, tmp_path: Path
) -> None:
    tries = "import mockup; print(mockup.__file__); open(mockup.__file__ + '.new', 'w')"
    tried = read_only.ran("python", "-c", tries)
    assert Path(tried.stdout.strip()).is_relative_to(read_only.packages)
    refused = "OSError: [Errno 30]" if read_only.desk.name == "mounted" else "PermissionError"
    assert tried.stderr.splitlines()[-1].startswith(refused)
    assert not list(read_only.packages.rglob("__pycache__"))

    sample = read_only.packages / "mockup/samples/ruby-thirty.toml"
    outputs = [word for name in ("r.svg", "r.pdf") for word in ("-o", name)]
    done = read_only.ran("mockup", "proof", sample, *outputs)
    assert (done.returncode, done.stderr) == (0, "")
    here = tmp_path / "here"
    here.mkdir()
    assert run(["proof", SAMPLES / "ruby-thirty.toml", *outputs], here).returncode == 0
    for name in ("r.svg", "r.pdf"):
        assert (read_only.desk / name).read_bytes() == (here / name).read_bytes()
    assert "numerals 30 stand" in read_only.ran("mockup", "fit", sample).stdout
