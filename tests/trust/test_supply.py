"""What the program takes from others: few libraries, each with its reason and licence in the guide.

The licence is read from what is installed: SPDX's expression where the package has one, else the
words of its licence field, its classifier or its licence file.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution

import pytest

from tests.trust.running import ROOT

GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
PERMISSIVE = {
    "0BSD", "Apache-2.0", "BSD", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0", "MIT", "MIT-0",
    "MIT-CMU", "OFL-1.1", "PSF-2.0", "Zlib",
}  # fmt: skip
WORDS = (
    (r"SIL OFL 1\.1", "OFL-1.1"),
    (r"Apache.* 2\.0", "Apache-2.0"),
    (r"BSD.3.Clause", "BSD-3-Clause"),
    (r"BSD License|\bBSD\b", "BSD"),
    (r"\bMIT\b|Permission is hereby granted, free of charge", "MIT"),
)


def plain(name: str) -> str:
    """A package's name as PEP 503 writes it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def asked_for() -> set[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    return {plain(re.split(r"[<>=; ]", each)[0]) for each in project["dependencies"]}


def behind(names: set[str]) -> dict[str, Distribution]:
    """Those packages and all that they need in turn, as far as this machine has it."""
    found: dict[str, Distribution] = {}
    waiting = list(names)
    while waiting:
        name = plain(waiting.pop())
        if name in found:
            continue
        try:
            found[name] = distribution(name)
        except PackageNotFoundError:
            continue  # one that only other Pythons or systems need
        needs = (each for each in found[name].requires or () if "extra ==" not in each)
        waiting += [re.split(r"[<>=!~; \[(]", each)[0] for each in needs]
    return found


def licence(package: Distribution) -> str:
    for said in package.metadata.get_all("License-Expression") or ():
        return str(said)
    for text in _told(package):
        for words, spdx in WORDS:
            if re.search(words, text):
                return spdx
    raise AssertionError(f"{package.name} says nothing of its licence")


def _told(package: Distribution) -> Iterator[str]:
    """What a package says of its licence, the most exact first."""
    yield " ".join(package.metadata.get_all("License") or ())[:80]
    yield " ".join(package.metadata.get_all("Classifier") or ())
    for file in package.files or ():
        if re.search(r"licen[cs]e|copying", file.name, re.IGNORECASE):
            yield file.read_text("utf-8")[:400]


def rows(head: str) -> dict[str, list[str]]:
    """The rows of the guide's table under a heading row, by each library's name."""
    (table,) = re.findall(rf"^\| {re.escape(head)}.*\|\n\|[-|]+\|\n((?:\|.*\|\n)+)", GUIDE, re.M)
    cells = ([cell.strip() for cell in row.strip("|").split(" | ")] for row in table.splitlines())
    return {name: rest for name, *rest in cells}


def test_every_library_stands_in_the_guide_with_its_reason_and_licence() -> None:
    told = rows("library | licence | why")
    assert set(told) == asked_for()
    for name, (said, why) in told.items():
        assert said == licence(distribution(name)), name
        assert len(why) > 8, name


def test_what_they_need_in_turn_stands_there_too() -> None:
    told = rows("behind them | licence")
    needed = behind(asked_for())
    assert set(told) == set(needed) - asked_for()
    for name, (said,) in told.items():
        assert said == licence(needed[name]), name


def test_every_licence_lets_a_user_do_as_they_like() -> None:
    for name, package in behind(asked_for()).items():
        parts = set(re.split(r" AND | OR ", licence(package)))
        assert parts <= PERMISSIVE, name


def test_every_package_is_pinned_by_name() -> None:
    """One that is not would change under our feet: no lock file is kept."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["uv"]
    pinned = {plain(each.split("==")[0]) for each in settings["constraint-dependencies"]}
    assert set(behind(asked_for())) <= pinned


@pytest.mark.parametrize("text", ["Proprietary", ""])
def test_a_licence_that_is_not_told_would_be_noticed(text: str) -> None:
    assert not [spdx for words, spdx in WORDS if re.search(words, text)]
