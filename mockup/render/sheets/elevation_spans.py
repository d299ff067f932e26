"""What an elevation is dimensioned by: the setting, the whole, its rows and its clear ways."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.piece.elevation.standing import Elevation
from mockup.piece.elevation.ways import Way
from mockup.render.elevation_view import drawn_box
from mockup.render.sheets.measures import SAME, Span

_LEAST = 300.0
"""A stretch narrower than this, mm, is between two pieces and no way."""


def elevation_spans(elevation: Elevation, ways: Sequence[Way]) -> list[Span]:
    """Each length once, equal ones side by side only the first time."""
    return [
        *_clear(elevation, ways),
        *_rows(elevation),
        *_across(elevation),
        *_upright(elevation),
    ]


def _clear(elevation: Elevation, ways: Sequence[Way]) -> Iterator[Span]:
    setting = elevation.setting
    ground = setting.top if setting.kind == "stage" else 0.0
    for way in ways:
        if not way.must and way.width < _LEAST:
            continue
        name = f"{way.name} clear" if way.must else "clear"
        ends = ((way.low, ground), (way.high, ground))
        yield Span(name, way.width, "bottom", ends, chain="clear")


def _rows(elevation: Elevation) -> Iterator[Span]:
    """From the middle of a row's first piece to that of the next."""
    for row in elevation.rows:
        if len(row) > 1:
            first, second = row[0], row[1]
            ends = ((first.at[0], first.over), (second.at[0], second.over))
            apart = second.at[0] - first.at[0]
            yield Span(f"{row[0].row} apart", apart, "bottom", ends, chain="apart")


def _across(elevation: Elevation) -> Iterator[Span]:
    setting, pieces = elevation.setting, elevation.pieces_box
    half = setting.width / 2
    top = setting.top
    yield Span(setting.kind, setting.width, "bottom", ((-half, top), (half, top)))
    if abs(pieces.width - setting.width) > SAME or abs(pieces.x[0] + half) > SAME:
        low = ((pieces.x[0], top), (pieces.x[1], top))
        yield Span("overall width", pieces.width, "bottom", low)


def _upright(elevation: Elevation) -> Iterator[Span]:
    setting, pieces = elevation.setting, elevation.pieces_box
    left, _, right, _ = drawn_box(elevation)
    high = max(pieces.y[1], setting.top)
    yield Span("overall height", high, "left", ((left, 0.0), (left, high)))
    if setting.height:
        name = f"{setting.kind} height"
        yield Span(name, setting.height, "right", ((right, 0.0), (right, setting.height)))
