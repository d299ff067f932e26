"""Golden drawings: an SVG as canonical text, kept in a file and compared line by line.

Canonical text has one element a line, sorted attributes and rounded numbers. Glyph outlines are
left out (they are the font's); a run of letters is one line; long path data are summed up. The
comparison allows small differences of numbers, as other processors round otherwise.

To store the goldens anew, run the tests with STORE_GOLDENS=1 and look at what changed.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path
from xml.etree import ElementTree as ET

STORE = "STORE_GOLDENS"
TOLERANCE = 0.021
"""How far two numbers above 1 may lie apart: two hundredths of a mm or of a degree."""

FINE = 0.006
"""How far two numbers up to 1 may lie apart (shares, opacities)."""

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")
_IN_HEX = re.compile(r"#[0-9a-f]{6}")
_GLYPH = re.compile(r"[rbuv]-[\w.]+")
_HREF = "{http://www.w3.org/1999/xlink}href"
_SCALE = re.compile(r"scale\(([^)]*)\)")
_AS_THEY_ARE = {"id", "class", "href", "font-family", "lang", "version", "clip-path"}
_LONG = 240


def canonical(svg: str) -> str:
    """The text that stands for ``svg`` in a golden file."""
    return "\n".join(_lines(ET.fromstring(svg), 0)) + "\n"


def differences(expected: str, got: str, tolerance: float = TOLERANCE) -> list[str]:
    """What differs between two canonical texts, as lines of a diff; empty when nothing does."""
    wanted, had = expected.splitlines(), got.splitlines()
    if len(wanted) == len(had):
        had = [w if _alike(w, h, tolerance) else h for w, h in zip(wanted, had, strict=True)]
    return list(unified_diff(wanted, had, "stored", "drawn", lineterm="", n=1))


def check(path: Path, svg: str) -> None:
    """Fail unless ``svg`` is the drawing stored at ``path``; store it when asked to."""
    drawn = canonical(svg)
    if os.environ.get(STORE) == "1":
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(drawn, encoding="utf-8", newline="\n")
        return
    if not path.exists():
        raise AssertionError(f"no golden {path.name} yet; store it with {STORE}=1")
    found = differences(path.read_text(encoding="utf-8"), drawn)
    if found:
        shown = "\n".join(found[:40])
        raise AssertionError(f"{path.name} is drawn otherwise ({STORE}=1 stores it):\n{shown}")


def _lines(element: ET.Element, depth: int) -> Iterator[str]:
    if _GLYPH.fullmatch(element.get("id", "")):
        return
    letters = [_glyph_of(child) for child in element]
    tag = element.tag.rpartition("}")[2]
    said = [f"{name}={_value(name, value)}" for name, value in _attributes(element)]
    if letters and all(letters):
        yield " ".join(["  " * depth + tag, *said, f"letters={','.join(letters)}"])
        return
    text = (element.text or "").strip()
    yield " ".join(["  " * depth + tag, *said, *([f"| {text}"] if text else [])])
    for child in element:
        yield from _lines(child, depth + 1)


def _attributes(element: ET.Element) -> list[tuple[str, str]]:
    return sorted((name.rpartition("}")[2], value) for name, value in element.attrib.items())


def _glyph_of(element: ET.Element) -> str:
    target = element.get(_HREF, "").removeprefix("#")
    if not _GLYPH.fullmatch(target):
        return ""
    return f"{target}@{element.get('x', '0')}"


def _value(name: str, value: str) -> str:
    if name in _AS_THEY_ARE:
        return value
    rounded = _outside_hex(_SCALE.sub(_in_thousandths, value))
    return rounded if len(rounded) <= _LONG else _summed_up(rounded)


def _outside_hex(value: str) -> str:
    parts = re.split(f"({_IN_HEX.pattern})", value)
    return "".join(p if k % 2 else _NUMBER.sub(_rounded, p) for k, p in enumerate(parts))


def _rounded(found: re.Match[str]) -> str:
    return f"{float(found[0]):.2f}"


def _in_thousandths(found: re.Match[str]) -> str:
    """A scale times 1000, since letters are scaled by a few thousandths."""
    return f"thousandths({_NUMBER.sub(lambda part: str(1000 * float(part[0])), found[1])})"


def _summed_up(data: str) -> str:
    """Long path data as their steps' count, and the least, mean and greatest number."""
    steps = Counter(re.findall("[A-Za-z]", data))
    numbers = [float(found) for found in _NUMBER.findall(data)]
    counted = " ".join(f"{letter}x{count}" for letter, count in sorted(steps.items()))
    mean = sum(numbers) / len(numbers)
    return f"[{counted} from {min(numbers):.2f} to {max(numbers):.2f} mean {mean:.3f}]"


def _alike(wanted: str, had: str, tolerance: float) -> bool:
    """Whether two lines are the same but for small differences of their numbers."""
    if _NUMBER.sub("0", wanted) != _NUMBER.sub("0", had):
        return False
    if _IN_HEX.findall(wanted) != _IN_HEX.findall(had) or _words(wanted) != _words(had):
        return False
    pairs = zip(_numbers(wanted), _numbers(had), strict=True)
    return all(
        abs(a - b) <= (max(tolerance, 1e-4 * abs(a)) if abs(a) > 1.0 else FINE) for a, b in pairs
    )


def _words(line: str) -> str:
    return line.partition(" | ")[2]


def _numbers(line: str) -> list[float]:
    return [float(found) for found in _NUMBER.findall(_IN_HEX.sub("#", line))]
