"""The numbers of build sheets and buy lists, read back from their SVG, are those of the layout.

All is reckoned anew from the balloons and clusters of ``mockup layout --json``: how many to fill to
which hole, how many clusters to tie, how far each sits from its mark, how large the piece is, and
how many of each colour the buy list needs.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from typing import Any

import pytest

from mockup.piece.layout import layout_data
from mockup.render.record import Document
from mockup.render.svg import svg_text
from mockup.stock.order import Order
from mockup.worksheets.documents import build_document, buy_document
from mockup.worksheets.opening import paper_for, read_order
from tests.trust.printed import length, words
from tests.trust.running import SAMPLES

NAMES = sorted(path.stem for path in SAMPLES.glob("*.toml"))
SLACK = 25.4 / 16 + 0.02
"""Half of the last digit of a distance: eighths of an inch, or tenths of a centimetre with room."""
_SIZE = r"(?:\d[\d /.]*) (?:in|cm|ft|m|mm)"


@cache
def order_of(name: str) -> Order:
    return read_order(SAMPLES / f"{name}.toml", None, "")


def said(document: Document) -> list[str]:
    return [text for sheet in document.sheets for text in words(svg_text(sheet, title=sheet.name))]


@cache
def build_words(name: str) -> tuple[str, ...]:
    order = order_of(name)
    return tuple(said(build_document(order, paper_for(order, None))))


def layout(name: str) -> dict[str, Any]:
    ((piece, count),) = order_of(name).pieces
    assert count == 1
    return layout_data(piece)


def fills(text: tuple[str, ...]) -> list[tuple[float, int]]:
    """Each row of the filling table: the hole's diameter in mm, and how many."""
    found: list[tuple[float, int]] = []
    hole = None
    for at, each in enumerate(text):
        named = re.match(rf"Hole ({_SIZE})", each)
        if named:
            hole = length(named[1])
        elif hole is not None and re.fullmatch(rf"{_SIZE} .+", each):
            count = next(t for t in text[at + 1 : at + 4] if re.fullmatch(r"[\d,]+", t))
            found.append((hole, int(count.replace(",", ""))))
        elif ": tie" in each or ": place" in each:
            break
    return found


def require_true_fills(name: str) -> None:
    """Every hole has as many balloons as the layout has of that diameter, to the hole's digits."""
    told: Counter[float] = Counter()
    for hole, count in fills(build_words(name)):
        told[hole] += count
    true = Counter(ball["diameter"] for ball in layout(name)["balloons"])
    assert sum(told.values()) == sum(true.values())
    near: Counter[float] = Counter()
    for diameter, count in true.items():
        hole = min(told, key=lambda each: abs(each - diameter))
        assert abs(hole - diameter) <= 0.5, (hole, diameter)
        near[hole] += count
    assert near == told


def require_true_distances(name: str) -> None:
    """What is printed from each mark is the layout's own, as often as it is printed."""
    told = sorted(
        length(found[1])
        for text in build_words(name)
        if (found := re.fullmatch(rf"({_SIZE}) (?:anti)?clockwise", text))
    )
    clusters = layout(name)["clusters"]
    true = sorted(abs(c["along_mm"]) for c in clusters if abs(c["along_mm"]) >= 0.05)
    if told:
        assert len(told) == len(true)
        assert told == pytest.approx(true, abs=SLACK)


def require_true_size(name: str) -> None:
    """The width, height and depth for loading are the layout's overall ones."""
    size = re.compile(rf"({_SIZE}) × ({_SIZE}) × ({_SIZE})")
    (found,) = (match for text in build_words(name) if (match := size.fullmatch(text)))
    overall = layout(name)["overall"]
    told = [length(each) for each in found.groups()]
    assert told == pytest.approx([overall[k] for k in ("width", "height", "depth")], abs=SLACK)


def require_true_needs(name: str) -> None:
    """The buy list fills and needs, in all, as many balloons as the layout has."""
    order = order_of(name)
    joined = " ".join(said(buy_document(order, paper_for(order, None))))
    told = Counter[float]()
    rows = re.findall(r"filled: ((?:[\d,]+ to [\d /.]+ (?:in|cm)(?:, )?)+) ([\d,]+) ", joined)
    for row, needed in rows:
        parts = re.findall(r"([\d,]+) to ([\d /.]+ (?:in|cm))", row)
        counts = [int(count.replace(",", "")) for count, _ in parts]
        assert sum(counts) == int(needed.replace(",", "")), row
        for count, (_, size) in zip(counts, parts, strict=True):
            told[length(size)] += count
    true = [ball["diameter"] for ball in layout(name)["balloons"]]
    assert sum(told.values()) == len(true)
    each = sorted(size for size, count in told.items() for _ in range(count))
    assert each == pytest.approx(sorted(true), abs=0.5)


@pytest.mark.parametrize("name", NAMES)
def test_every_number_of_a_build_sheet_and_a_buy_list_is_true(name: str) -> None:
    require_true_fills(name)
    require_true_distances(name)
    require_true_size(name)
    require_true_needs(name)


def test_a_wrong_count_would_be_noticed() -> None:
    text = build_words("ruby-thirty")
    wrong = list(text)
    at = wrong.index("Hole 4 1/2 in, 4 strokes")
    wrong[wrong.index("4", at)] = "5"
    assert fills(text) != fills(tuple(wrong))
