"""Dimensions after ISO 129-1, and a placer that keeps every label clear."""

from __future__ import annotations

from math import atan2, degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.render.dimensions import Edge, Heights, Measure, dimensioned
from mockup.render.record import Group, Line, Path, Sheet, Text
from mockup.render.sheets.overlaps import overlaps
from mockup.render.text import bounds

OUTLINE = (100.0, 80.0, 200.0, 220.0)
EDGES: tuple[Edge, ...] = ("top", "bottom", "left", "right")


def across(low: float, high: float, edge: Edge = "bottom", figure: str = "30 in") -> Measure:
    return Measure("ring", figure, edge, (low, 150.0), (high, 150.0))


def upright(low: float, high: float, edge: Edge = "right") -> Measure:
    return Measure("window", "20 in", edge, (150.0, low), (150.0, high))


def only(measure: Measure) -> Group:
    (group,) = dimensioned([measure], OUTLINE).over.items
    assert isinstance(group, Group)
    return group


def line_of(group: Group) -> Line:
    return next(item for item in group.items if isinstance(item, Line))


def text_of(group: Group, role: str) -> Text:
    return next(i for i in group.items if isinstance(i, Text) and i.role == role)


def points(arrow: Path) -> list[tuple[float, float]]:
    numbers = [float(each) for each in arrow.d.replace("M", "").replace("L", "").split()[:-1]]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def arrows_of(group: Group) -> list[list[tuple[float, float]]]:
    return [points(item) for item in group.items if isinstance(item, Path)]


def test_the_first_line_lies_10_mm_off_the_outline_and_the_next_6_to_8_further() -> None:
    """ISO 129-1, as the project's notes quote it: 10 mm, then 6 to 8 mm."""
    two = dimensioned([across(110, 190), across(105, 195)], OUTLINE)
    first, second = (line_of(g) for g in two.over.items if isinstance(g, Group))
    assert first.start[1] == OUTLINE[3] + 10
    assert 6 <= second.start[1] - first.start[1] <= 8


def test_the_shorter_of_two_lies_nearer_to_the_view() -> None:
    two = dimensioned([across(105, 195), across(110, 190)], OUTLINE)
    first = two.over.items[0]
    assert isinstance(first, Group)
    assert line_of(first).end[0] - line_of(first).start[0] == pytest.approx(80)


def test_arrows_open_15_degrees_and_touch_the_extension_lines() -> None:
    """ISO 129-1: filled arrow of 15 degrees."""
    group = only(across(110, 190))
    for tip, one, other in arrows_of(group):
        spread = [degrees(atan2(y - tip[1], abs(x - tip[0]))) for x, y in (one, other)]
        assert abs(spread[0] - spread[1]) == pytest.approx(15, abs=0.05)
        assert tip[0] in (110, 190)


def test_the_figure_stands_above_the_line_and_reads_from_below() -> None:
    group = only(across(110, 190))
    figure = text_of(group, "dimension")
    assert figure.turn == 0
    assert bounds(figure)[3] <= line_of(group).start[1]


def test_an_upright_figure_reads_from_the_right_on_the_left_of_its_line() -> None:
    group = only(upright(90, 210))
    figure = text_of(group, "dimension")
    assert figure.turn == -90
    assert bounds(figure)[2] <= line_of(group).start[0]


def test_a_short_dimension_has_its_arrows_and_figure_outside() -> None:
    group = only(across(145, 152))
    figure = bounds(text_of(group, "dimension"))
    assert figure[0] > 152
    for tip, back, _ in arrows_of(group):
        assert (back[0] < 145) if tip[0] == 145 else (back[0] > 152)


def test_arrows_go_outside_before_the_figure_does() -> None:
    """A span that holds the figure but not figure and arrows."""
    group = only(across(145, 157))
    figure = bounds(text_of(group, "dimension"))
    assert figure[0] > 145
    assert figure[2] < 157
    assert all(not 145 < back[0] < 157 for _, back, _ in arrows_of(group))


def test_extension_lines_begin_at_the_feature_and_pass_the_line_a_little() -> None:
    made = dimensioned([across(110, 190)], OUTLINE)
    (group,) = made.over.items
    assert isinstance(group, Group)
    at = line_of(group).start[1]
    for extension in made.behind.items:
        assert isinstance(extension, Line)
        assert extension.start[1] == 150
        assert 1 <= extension.end[1] - at <= 2


def test_the_line_is_as_long_as_what_it_measures() -> None:
    line = line_of(only(upright(90, 210)))
    assert line.end[1] - line.start[1] == pytest.approx(120)


def test_the_box_holds_every_label() -> None:
    made = dimensioned([across(110, 190), upright(90, 210)], OUTLINE)
    left, top, right, bottom = made.box
    for group in made.over.items:
        assert isinstance(group, Group)
        for text in (item for item in group.items if isinstance(item, Text)):
            box = bounds(text)
            assert left <= box[0]
            assert top <= box[1]
            assert right >= box[2]
            assert bottom >= box[3]


SPANS = st.tuples(st.sampled_from(EDGES), st.floats(0.0, 0.7), st.floats(0.02, 1.0), st.booleans())


@settings(max_examples=60, deadline=None)
@given(st.lists(SPANS, min_size=1, max_size=7), st.sampled_from([Heights(), Heights(3.5, 2.5)]))
def test_whatever_is_measured_no_label_meets_a_label_or_a_line(
    spans: list[tuple[Edge, float, float, bool]], heights: Heights
) -> None:
    measures = [
        measure(edge, low, low + (1 - low) * share, long) for edge, low, share, long in spans
    ]
    made = dimensioned(measures, OUTLINE, heights)
    sheet = Sheet(800.0, 800.0, tuple(moved(item) for item in (made.behind, made.over)))
    assert overlaps(sheet) == []


def measure(edge: Edge, low: float, high: float, long: bool) -> Measure:
    left, top, right, bottom = OUTLINE
    figure = "38 1/8 in (96.8 cm)" if long else "8 in"
    if edge in ("top", "bottom"):
        ends = (left + low * (right - left), 150.0), (left + high * (right - left), 150.0)
    else:
        ends = (150.0, top + low * (bottom - top)), (150.0, top + high * (bottom - top))
    return Measure("row of numerals", figure, edge, *ends)


def moved(group: Group) -> Group:
    """The group 250 mm to the right and down, so that nothing leaves the sheet."""
    return Group(tuple(_moved(item) for item in group.items))


def _moved(item: object) -> Line | Text | Group:
    from dataclasses import replace

    if isinstance(item, Group):
        kept = [each for each in item.items if isinstance(each, Line | Text)]
        return Group(tuple(_moved(each) for each in kept))
    if isinstance(item, Line):
        return replace(item, start=_by(item.start), end=_by(item.end))
    assert isinstance(item, Text)
    return replace(item, at=_by(item.at))


def _by(point: tuple[float, float]) -> tuple[float, float]:
    return point[0] + 250, point[1] + 250
