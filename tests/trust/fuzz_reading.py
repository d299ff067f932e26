"""A coverage-guided hunt through the readers, bounded in time; no part of the test run.

Atheris is no dependency of the project, so it comes for this run only:

    uv run --with atheris python tests/trust/fuzz_reading.py FOLDER -max_total_time=240

FOLDER keeps what reached new lines; it is sown with the samples. A file that brings a reader down
is written beside it as ``crash-...``; make it small and put it into ``test_finds.py``.
"""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import mkdtemp

import atheris

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

with atheris.instrument_imports(include=["mockup"]):
    from mockup.design.reading import design_from_text
    from mockup.errors import FaultsFound
    from tests.trust.all_files import FILE, READERS, laid, require_told, seeds

WORDS = (
    "[[section]]", "[panel]", "[wall]", "[[garland]]", "[[colourway]]", "[[bag]]", "[[on_hand]]",
    "[[price]]", "frame = {", "clusters = [{", "strokes = ", "times = ", "fill = ", 'at = "12"',
    'size = "5in"', "end_cap = ", "numerals = ", "colours = {", "taper = ", "whole = true",
    "pattern = ", "kind = ", '"4 1/2in"', '"2ft 6in"', "1e400", "nan", "\u00bd", "1979-05-27",
    "limits = {", "stand = {", "climate = {", "mirror = ", 'unit = "cm"', '"""', "\\u0000",
)  # fmt: skip


def piece(text: str, _: Path) -> None:
    try:
        design_from_text(text, FILE)
    except FaultsFound as told:
        require_told(told, text)


KINDS = {"piece": piece, **READERS}
DESK = laid(Path(mkdtemp(prefix="read-")))


def one(data: bytes) -> None:
    """One file: its first byte says of which kind it is, the rest is its text."""
    text = data[1:].decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n")
    list(KINDS.values())[data[0] % len(KINDS) if data else 0](text, DESK)


def sown(folder: Path) -> None:
    """The samples as seeds, and the words of the files as a dictionary."""
    folder.mkdir(parents=True, exist_ok=True)
    pieces = [path.read_text("utf-8") for path in sorted((ROOT / "samples").glob("*.toml"))]
    for first, kind in enumerate(KINDS):
        for number, text in enumerate(seeds(kind) if kind in READERS else pieces):
            (folder / f"{kind}-{number}").write_bytes(bytes([first]) + text.encode())
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
