"""A coverage-guided hunt through the readers, bounded in time; no part of the test run.

Atheris is no dependency of the project, so it comes for this run only:

    uv run --with atheris python tests/trust/fuzz_reading.py FOLDER -max_total_time=240

FOLDER keeps what reached new lines; it is sown with the samples. A file that brings a reader down
is written beside it as ``crash-...``; make it small and put it into ``test_finds.py``.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["mockup"]):
    from mockup.design.reading import design_from_text
    from mockup.design.studio_reading import studio_from_text
    from mockup.errors import FaultsFound

ROOT = Path(__file__).parents[2]
FILE = "whole.toml"
WORDS = (
    "[[section]]", "[panel]", "[wall]", "[[garland]]", "[[colourway]]", "[[bag]]", "[[on_hand]]",
    "[[price]]", "frame = {", "clusters = [{", "strokes = ", "times = ", "fill = ", 'at = "12"',
    'size = "5in"', "end_cap = ", "numerals = ", "colours = {", "taper = ", "whole = true",
    "pattern = ", "kind = ", '"4 1/2in"', '"2ft 6in"', "1e400", "nan", "\u00bd", "1979-05-27",
    "limits = {", "stand = {", "climate = {", "mirror = ", 'unit = "cm"', '"""', "\\u0000",
)  # fmt: skip


def require_told(told: FaultsFound, text: str) -> None:
    """Every fault stands on a line that exists, in words that can be printed."""
    for fault in told.faults:
        found = re.fullmatch(rf"{FILE}(?::(\d+))?", fault.where)
        if not (found and fault.what and fault.what.isprintable() and fault.instead.isprintable()):
            raise AssertionError(fault)
        if found[1] and not 1 <= int(found[1]) <= len(text.split("\n")):
            raise AssertionError(fault)


def piece(text: str) -> None:
    design_from_text(text, FILE)


def book(text: str) -> None:
    studio_from_text(text, FILE)


READERS: tuple[Callable[[str], None], ...] = (piece, piece, piece, book)


def one(data: bytes) -> None:
    """One file: its first byte says which reader has it, the rest is its text."""
    text = data[1:].decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n")
    try:
        READERS[data[0] % len(READERS) if data else 0](text)
    except FaultsFound as told:
        require_told(told, text)


def sown(folder: Path) -> None:
    """The samples as seeds, and the words of the files as a dictionary."""
    folder.mkdir(parents=True, exist_ok=True)
    for number, sample in enumerate(sorted((ROOT / "samples").rglob("*.toml"))):
        first = b"\x03" if "studio" in sample.name else b"\x00"
        (folder / f"sample-{number}").write_bytes(first + sample.read_bytes())
    quoted = (json_like(word) for word in WORDS)
    folder.with_suffix(".dict").write_text("\n".join(quoted) + "\n", "ascii")


def json_like(word: str) -> str:
    """A word as libFuzzer's dictionaries write it: bytes beyond ASCII, quotes and \\ as \\xNN."""
    safe = (chr(b) if 32 <= b < 127 and b not in b'"\\' else f"\\x{b:02x}" for b in word.encode())
    return f'"{"".join(safe)}"'


if __name__ == "__main__":
    sown(Path(sys.argv[1]))
    atheris.Setup(
        [*sys.argv, f"-dict={Path(sys.argv[1]).with_suffix('.dict')}", "-max_len=6000"], one
    )
    atheris.Fuzz()
