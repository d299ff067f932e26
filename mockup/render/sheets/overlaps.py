"""The check of a sheet before it is written: labels that collide or leave their frame."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mockup.errors import MockupError
from mockup.render.record import Group, Item, Line, Rect, Sheet, Style, Text, walk
from mockup.render.text import bounds

PICTURE = "picture"
"""The kind of a group that holds the drawn piece; its own lines and letters may cross."""

LETTER = "letter"
"""The role of the colour letters on the balloons of the picture."""

SLACK = 0.15
EDGE = 3.0
"""Most printers leave at least this much white at the edge of the paper, mm."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Overlap:
    """A fault of the lettering: ``what`` happened to ``text``, and with what."""

    what: str
    text: str
    other: str

    def __str__(self) -> str:
        return f"'{self.text[:40]}' {self.what} {self.other[:40]}"


class LabelsCollide(MockupError):
    """A sheet whose labels do not keep clear of each other."""


def require_clear(sheet: Sheet) -> Sheet:
    """The sheet itself, when its labels keep clear; otherwise ``LabelsCollide`` tells them."""
    found = overlaps(sheet)
    if found:
        told = "; ".join(map(str, found[:3]))
        raise LabelsCollide(
            f"the labels of sheet '{sheet.name}' do not keep clear ({told}); "
            "take a larger paper or shorter words"
        )
    return sheet


def overlaps(sheet: Sheet) -> list[Overlap]:
    """Every label that meets another label or a line, or leaves its cell or the sheet."""
    texts = [(text, bounds(text)) for text in _texts(sheet.items)]
    lines = [(line, _line_box(line)) for line in _lines(sheet.items)]
    return [
        *_on_each_other(texts),
        *_on_lines(texts, lines),
        *_out_of_cells(sheet),
        *_off_sheet(sheet, texts),
    ]


def _texts(items: tuple[Item, ...]) -> list[Text]:
    return [item for item in walk(items) if isinstance(item, Text) and item.text.strip()]


def _lines(items: tuple[Item, ...]) -> Iterator[Line]:
    for item in items:
        if isinstance(item, Line):
            yield item
        elif isinstance(item, Group) and item.kind != PICTURE:
            yield from _lines(item.items)


def _on_each_other(texts: list[tuple[Text, Box]]) -> Iterator[Overlap]:
    """Two labels that meet; letters, of which there are as many as balloons, are not compared."""
    words = [(at, pair) for at, pair in enumerate(texts) if pair[0].role != LETTER]
    every = list(enumerate(texts))
    for at, (a, box_a) in every:
        others = every[at + 1 :] if a.role != LETTER else words
        for other, (b, box_b) in others:
            if other > at and _overlap(box_a, box_b):
                yield Overlap("meets", a.text, f"'{b.text}'")


def _on_lines(texts: list[tuple[Text, Box]], lines: list[tuple[Line, Box]]) -> Iterator[Overlap]:
    for text, box in texts:
        if text.role == LETTER:
            continue  # the lines round the picture may pass behind it
        for line, line_box in lines:
            if _overlap(box, line_box):
                yield Overlap("is crossed by the line at", text.text, f"{line.start}")


def _out_of_cells(sheet: Sheet) -> Iterator[Overlap]:
    for item in walk(sheet.items):
        if not isinstance(item, Group) or item.kind != "cell":
            continue
        frame = next(rect for rect in item.items if isinstance(rect, Rect))
        for text in _texts(item.items):
            if not _within(bounds(text), frame):
                yield Overlap("leaves its cell", text.text, f"'{item.name}'")


def _off_sheet(sheet: Sheet, texts: list[tuple[Text, Box]]) -> Iterator[Overlap]:
    page = Rect(EDGE, EDGE, sheet.width - 2 * EDGE, sheet.height - 2 * EDGE, Style())
    for text, box in texts:
        if not _within(box, page):
            yield Overlap("leaves the sheet", text.text, f"'{sheet.name}'")


def _within(box: Box, frame: Rect) -> bool:
    return (
        box[0] >= frame.x - SLACK
        and box[1] >= frame.y - SLACK
        and box[2] <= frame.x + frame.width + SLACK
        and box[3] <= frame.y + frame.height + SLACK
    )


def _overlap(a: Box, b: Box) -> bool:
    return (
        a[0] < b[2] - SLACK and b[0] < a[2] - SLACK and a[1] < b[3] - SLACK and b[1] < a[3] - SLACK
    )


def _line_box(line: Line) -> Box:
    """The box of a line, as thick as the slack so that an upright one can be met at all."""
    (x0, y0), (x1, y1) = line.start, line.end
    grown = 1.01 * SLACK
    return (
        min(x0, x1) - grown,
        min(y0, y1) - grown,
        max(x0, x1) + grown,
        max(y0, y1) + grown,
    )
