"""The proof: what it says, that its figures are the layout's own, and that it prints true."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from functools import cache
from math import hypot
from pathlib import Path

import pytest
from shapely import LineString

from mockup.colour.srgb import contrast
from mockup.lengths import format_length, parse_length
from mockup.piece.extent import feet
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.render.record import Document, Group, Line, Rect, Sheet, walk
from mockup.render.record import Path as Outline
from mockup.render.sheets.aspects import Aspect
from mockup.render.sheets.measures import front_spans
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.proof import Asked, NotFinal, proof_document
from mockup.render.svg import svg_text
from mockup.render.text import HEIGHTS
from mockup.render.viewpoint import ViewOptions
from tests.render.sheet_pieces import (
    ILL,
    SAMPLES,
    WELL,
    arc,
    dozen,
    groups,
    lines,
    proof,
    ring,
    said,
    sample,
    texts,
)

PIECES = {"ring": ring, "dozen": dozen, "arc": arc}
EIGHTH = 25.4 / 8


def front(piece: Piece, asked: Asked | None = None) -> Sheet:
    return proof(piece, asked=asked).sheets[0]


def figures(sheet: Sheet) -> dict[str, str]:
    """Printed figure by the name of its dimension and the way it runs."""
    return {
        f"{group.name} {'across' if _runs_across(lines(group)[0]) else 'up'}": next(
            text.text for text in texts(Sheet(1, 1, group.items)) if text.role == "dimension"
        )
        for group in groups(sheet.items, "dimension")
    }


def _runs_across(line: Line) -> bool:
    return line.start[1] == line.end[1]


def mm(figure: str) -> float:
    return parse_length(figure.removeprefix("Ø ").split(" (")[0])


@cache
def drawn(path: Path) -> Document:
    """The proof of a sample with all its views and in both units."""
    piece = sample(path)
    asked = Asked(views=("front", "side", "plan"), units="both")
    return proof_document(piece, find_all(piece), code="1A2B3C4D", asked=asked)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_labels_of_every_sample_keep_clear(path: Path) -> None:
    for sheet in drawn(path).sheets:
        assert overlaps(sheet) == []


@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid"])
@pytest.mark.parametrize("landscape", [True, False])
@pytest.mark.parametrize("name", PIECES)
def test_the_labels_keep_clear_on_every_paper(name: str, landscape: bool, paper: str) -> None:
    sheet = front(PIECES[name](), Asked(paper=paper, landscape=landscape))
    assert overlaps(sheet) == []
    assert (sheet.width > sheet.height) == landscape


def test_the_figures_are_the_layouts_own() -> None:
    """Within half an eighth of an inch, as they are printed in eighths."""
    piece = ring()
    assert piece.fit is not None
    assert piece.opening is not None
    printed = figures(front(piece))
    wanted = {
        "ring, overall width across": piece.design.frame.outside,
        "overall height up": piece.extent.height,
        "numerals up": piece.fit.height,
        "row of numerals across": piece.fit.width,
        "window up": piece.opening.height,
    }
    for name, size in wanted.items():
        key = next(each for each in printed if _names(each, name))
        assert mm(printed[key]) == pytest.approx(size, abs=EIGHTH / 2 + 1e-9)


def _names(key: str, wanted: str) -> bool:
    words, way = wanted.rsplit(" ", 1)
    return key.endswith(way) and set(words.split(", ")) <= set(_parts(key.rsplit(" ", 1)[0]))


def _parts(name: str) -> list[str]:
    """``ring, window and overall width`` in its parts, without what stands in brackets."""
    return re.split(r", | and ", re.sub(r" \(.*?\)", "", name))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_line_is_as_long_as_its_figure_says(path: Path) -> None:
    """The drawn length times the scale against the printed figure, on every sample."""
    sheet = drawn(path).sheets[0]
    scale = int(drawn(path).extra["scale"].removeprefix("1:"))
    found = list(groups(sheet.items, "dimension"))
    assert len(found) >= 2
    printed = figures(sheet)
    by_name = {
        f"{g.name} {'across' if _runs_across(lines(g)[0]) else 'up'}": _tips(g) for g in found
    }
    for name, figure in printed.items():
        assert by_name[name] * scale == pytest.approx(mm(figure), abs=EIGHTH / 2 + 0.05)


def _tips(group: Group) -> float:
    """The distance between the tips of a dimension's two arrows, mm."""
    first, second = (
        [float(each) for each in item.d.replace("M", "").split()[:2]]
        for item in walk(group.items)
        if isinstance(item, Outline)
    )
    return max(abs(first[0] - second[0]), abs(first[1] - second[1]))


def test_each_dimension_is_given_once() -> None:
    for piece in (ring(), dozen(), arc()):
        names = [group.name for group in groups(front(piece).items, "dimension")]
        words = [word for name in names for word in _parts(name)]
        assert words.count("overall width") == words.count("overall height") == 1
        assert words.count("window") <= 2


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_dimension_of_the_outline_begins_at_something_drawn(path: Path) -> None:
    piece = sample(path)
    outline = [s for s in front_spans(piece) if "window" not in s.name and "numeral" not in s.name]
    assert outline
    for span in outline:
        for end in span.ends:
            assert _gap(piece, *end) < 1.0, span.name


def _gap(piece: Piece, x: float, y: float) -> float:
    """From a point to the nearest edge of a balloon, the frame or a base plate, mm."""
    to_line = min(hypot(x - a, y - b) for a, b in piece.frame.sample(2.0).tolist())
    gaps = [abs(to_line - piece.frame.tube / 2)]
    gaps += [abs(hypot(x - b.centre[0], y - b.centre[1]) - b.radius) for b in piece.balloons]
    stand = piece.design.stand
    if stand:
        low = piece.extent.y[0]
        gaps += [hypot(abs(x - foot) - stand.plate / 2, y - low) for foot in feet(piece.frame)]
    return min(gaps)


def test_the_chord_of_the_window_is_its_exact_span() -> None:
    piece = ring()
    assert piece.opening is not None
    upright = LineString([(0.0, -9999.0), (0.0, 9999.0)])
    _, low, _, high = LineString(piece.window).intersection(upright).bounds
    assert high - low == pytest.approx(piece.opening.height, rel=1e-3)


def test_depth_is_dimensioned_in_the_side_view() -> None:
    document = proof(ring(), asked=Asked(views=("front", "side", "plan")))
    depth = {name: f for sheet in document.sheets for name, f in figures(sheet).items()}
    assert mm(depth["overall depth across"]) == pytest.approx(ring().extent.depth, abs=EIGHTH / 2)


def test_further_views_come_beside_the_front_or_on_further_sheets_at_its_scale() -> None:
    views: tuple[Aspect, ...] = ("front", "side", "plan")
    apart = proof(ring(), asked=Asked(views=views))
    assert len(apart.sheets) > 1
    assert f"1 of {len(apart.sheets)}" in said(apart.sheets[0])
    assert len({said(sheet).split("SCALE ")[1].split()[0] for sheet in apart.sheets}) == 1
    beside = proof(ring(), asked=Asked(views=views, paper="tabloid", scale=10))
    assert len(beside.sheets) == 1
    assert "From the right" in said(beside.sheets[0])


def test_both_units_are_printed_on_request() -> None:
    assert "Ø 30 in (76.2 cm)" in said(front(ring(), Asked(units="both")))
    assert "cm" not in said(front(ring()))


@pytest.mark.parametrize(("name", "long"), [("ring", 50.8), ("dozen", 50.0)])
def test_the_scale_bar_is_as_long_as_it_says(name: str, long: float) -> None:
    """2 in or 5 cm on paper, to a micrometre."""
    sheet = front(PIECES[name]())
    (bar,) = groups(sheet.items, "scale bar")
    boxes = [item for item in bar.items if isinstance(item, Rect)]
    assert boxes[-1].x + boxes[-1].width - boxes[0].x == pytest.approx(long, abs=1e-3)
    paper, unit = ("2", "in") if name == "ring" else ("5", "cm")
    assert f"must measure {paper} {unit}" in said(sheet)


def test_the_scale_bars_words_agree_with_the_scale() -> None:
    words = next(t.text for t in texts(front(ring())) if "must measure 2 in" in t.text)
    real, scale = float(words.split()[0]), int(words.split("1:")[1].split()[0])
    assert real == 2 * scale


@pytest.mark.parametrize(("name", "long"), [("ring", 101.6), ("dozen", 100.0)])
def test_two_rulers_measure_both_ways(name: str, long: float) -> None:
    across, down = groups(front(PIECES[name]()).items, "check ruler")
    xs = [line.start[0] for line in lines(across)]
    ys = [line.start[1] for line in lines(down)]
    assert max(xs) - min(xs) == pytest.approx(long)
    assert max(ys) - min(ys) == pytest.approx(long)


def test_it_says_who_what_when_and_where() -> None:
    asked = Asked(studio="Paper Lantern Studio", issued=date(2027, 1, 9))
    words = said(front(ring(), asked))
    for each in (
        "Ruby turns thirty", "for Ana & Zoë Peña", "The old boathouse", "14 Mar 2027",
        "Paper Lantern Studio", "9 Jan 2027", "Colour proof", "1A2B3C4D", "Revision", "1 of 1",
        "SCALE 1:10", "Approved by", "Signature", "deep teal", "mirror foil", "30",
        "shows size and look only", "I approve proof 1A2B3C4D, revision 1",
    ):  # fmt: skip
        assert each in words


def test_shares_are_whole_and_sum_to_100() -> None:
    shown = [t.text for t in texts(front(dozen())) if t.text.endswith(" %")]
    assert len(shown) == 13
    assert sum(int(each.removesuffix(" %")) for each in shown) == 100


def test_without_shares_none_are_printed() -> None:
    words = said(proof_document(ring(), WELL, code="1A2B3C4D").sheets[0])
    assert "%" not in words
    assert "share" not in words


def test_a_draft_says_how_many_checks_fail_and_which() -> None:
    assert "Draft: 2 checks fail: numerals fit, fill" in said(proof(ring(), ILL).sheets[0])
    assert "Draft" not in said(front(ring()))


def test_the_window_is_dimensioned_with_its_clearance_to_the_numerals() -> None:
    piece = sample(next(path for path in SAMPLES if path.stem == "ruby-thirty"))
    assert piece.fit is not None
    assert piece.opening is not None
    centre_x, centre_y, _ = piece.opening.disc
    outline = LineString(piece.opening.outline)
    along = LineString([(centre_x, centre_y - 9999), (centre_x, centre_y + 9999)])
    ends = outline.intersection(along).bounds[1::2]
    tops = [shape.y + shape.height / 2 for shape in piece.fit.numerals]
    feet = [shape.y - shape.height / 2 for shape in piece.fit.numerals]
    least = min(ends[1] - max(tops), min(feet) - ends[0])
    (says,) = (span.name for span in front_spans(piece) if span.name.startswith("window ("))
    assert says == f"window ({format_length(least, 'in')} clear)"
    assert "ring, window and overall width" in {span.name for span in front_spans(piece)}


def test_a_window_off_centre_has_its_clearance_dimensioned_on_both_sides() -> None:
    """A half ring's balloons leave more room on one side, and the row moved by hand hangs low."""
    piece = sample(next(path for path in SAMPLES if path.stem == "alder-half-ring"))
    assert piece.opening is not None
    assert piece.fit is not None
    level = LineString([(-9999, piece.opening.disc[1]), (9999, piece.opening.disc[1])])
    west, _, east, _ = LineString(piece.opening.outline).intersection(level).bounds
    left = min(s.x - s.width / 2 for s in piece.fit.numerals) - west
    right = east - max(s.x + s.width / 2 for s in piece.fit.numerals)
    assert right - left > 150
    names = {span.name for span in front_spans(piece)}
    rooms = f"{format_length(left, 'in')} clear left and {format_length(right, 'in')} right"
    assert f"window ({rooms})" in names
    (said,) = (f.says for f in find_all(piece) if f.name == "numerals fit")
    assert f"{format_length((right - left) / 2, 'in')} left of and " in said


def test_a_draft_offers_nothing_to_sign() -> None:
    words = said(proof(ring(), ILL).sheets[0])
    assert "Draft, not for approval" in words
    assert not [each for each in ("I approve", "Signature", "Approved by") if each in words]


def test_a_final_proof_is_refused_while_a_check_fails() -> None:
    with pytest.raises(NotFinal, match="2 checks fail: numerals fit, fill") as refused:
        proof_document(ring(), ILL, code="1A2B3C4D", final=True)
    assert refused.value.exit_code == 1
    assert proof_document(ring(), WELL, code="1A2B3C4D", final=True).sheets


@pytest.mark.parametrize("name", PIECES)
def test_every_text_reads_on_its_ground(name: str) -> None:
    """WCAG 2 success criterion 1.4.3: at least 4.5 : 1."""
    document = proof(PIECES[name](), ILL, Asked(view=ViewOptions(letters=True)))
    for text in texts(document.sheets[0]):
        assert contrast(text.colour, text.ground) >= 4.5, text.text


def test_all_lettering_is_of_iso_3098_and_at_least_1_8_mm() -> None:
    for piece in (ring(), dozen(), arc()):
        view = ViewOptions(letters=True)
        document = proof(piece, ILL, Asked(views=("front", "side", "plan"), view=view))
        assert any(text.role == "letter" for sheet in document.sheets for text in texts(sheet))
        for sheet in document.sheets:
            assert {text.height for text in texts(sheet)} <= set(HEIGHTS)


def test_the_same_input_gives_the_same_bytes() -> None:
    def written(document: Document) -> list[str]:
        return [svg_text(sheet) for sheet in document.sheets]

    assert written(proof(ring())) == written(proof(replace(ring())))


def test_numerals_are_hatched_only_where_there_are_some() -> None:
    assert len(list(groups(front(ring()).items, "window"))) == 1
    assert list(groups(front(arc()).items, "window")) == []


def test_a_colourway_shows_in_the_key() -> None:
    other = replace(ring().design.colours["A"], name="night tide", srgb="#16314a")
    colours = ring().design.colours | {"A": other}
    words = said(front(ring(), Asked(view=ViewOptions(colours=colours))))
    assert "night tide" in words
    assert "deep teal" not in words
