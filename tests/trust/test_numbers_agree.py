"""Every number printed on a proof is read back from the SVG and is the layout's own.

The lengths are reckoned anew from the list of balloons that ``mockup layout --json`` gives, the
shares of the front from points thrown on it, and the window from where level and upright lines
through its centre meet a ball. A number that none of these explains fails the test.
"""

from __future__ import annotations

import re
from functools import cache
from math import inf

import numpy as np
import pytest
import shapely

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.code import proof_code
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.layout import layout_data
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.record import Document
from mockup.render.sheets.colourways import colourways_document
from mockup.render.sheets.proof import Asked
from mockup.render.svg import svg_text
from tests.trust.printed import Dimension, balls, dimensions, groups, length, reach, rooms, words
from tests.trust.reckoned import deepest_overlap, first_hit, line_box, overall, slab
from tests.trust.running import SAMPLES

NAMES = sorted(path.stem for path in SAMPLES.glob("*.toml"))
FROM_THE_SIDE = {"ruby-thirty", "garden-arc"}
"""Drawn from the front and the right; all others from the front and above."""
SEEN = {"picture-from-the-right": "zy", "picture-from-above": "xz"}
"""Which of x, y, z runs across the sheet, and which down or up; in all other pictures "xy"."""
HALF_STEP = {"in": 25.4 / 16, "cm": 0.5}
"""Half of the last digit printed: eighths of an inch, tenths of a centimetre."""
PLACE = 25.4 / 16
"""Ends nearer than this share one dimension, so that its other names may be off by two of them."""
COUNTED = r"\w+ latex, ([\d,]+) balloons?"


@cache
def piece_of(name: str) -> Piece:
    return assemble(read_design(SAMPLES / f"{name}.toml"))


@cache
def findings_of(name: str) -> tuple[Finding, ...]:
    return tuple(find_all(piece_of(name)))


@cache
def document_of(name: str, units: str = "own") -> Document:
    piece = piece_of(name)
    return colourways_document(
        piece,
        findings_of(name),
        code=proof_code(piece.design),
        shares=visible_shares(piece),
        asked=Asked(
            units="both" if units == "both" else "own",
            views=("front", "side") if name in FROM_THE_SIDE else ("front", "plan"),
        ),
    )


@cache
def sheets_of(name: str, units: str = "own") -> tuple[str, ...]:
    document = document_of(name, units)
    return tuple(svg_text(sheet, title=sheet.name) for sheet in document.sheets)


def expected(piece: Piece, name: str, *, across: bool) -> float:
    """What a dimension of that name must measure, mm."""
    frame, fit, tube = piece.design.frame, piece.fit, piece.design.frame.tube
    width, height, depth = overall(piece)
    x0, y0, x1, y1 = line_box(piece)
    if name in ("ring", "arc"):
        return frame.outside
    if name == "window":
        ways = ((1, 0), (-1, 0)) if across else ((0, 1), (0, -1))
        return sum(first_hit(piece, way) for way in ways)
    if name in ("numerals", "numeral", "row of numerals"):
        assert fit is not None
        sides = [(s.x - s.width / 2, s.x + s.width / 2) for s in fit.numerals]
        return max(b for _, b in sides) - min(a for a, _ in sides) if across else fit.height
    known = {
        "overall width": width,
        "overall height": height,
        "overall depth": depth,
        frame.kind: x1 - x0 + tube,
        f"{frame.kind} height": y1 - y0 + tube,
    }
    return known[name]


def clearances(piece: Piece) -> dict[str, float]:
    """What is clear on each side of the numerals, mm; under "" the least of above and below."""
    assert piece.design.panel is not None
    assert piece.fit is not None
    disc = piece.frame.opening(piece.design.panel.place)
    assert disc is not None
    shapes = piece.fit.numerals
    clear = {
        "above": disc[1] + first_hit(piece, (0, 1)) - max(s.y + s.height / 2 for s in shapes),
        "below": min(s.y - s.height / 2 for s in shapes) - disc[1] + first_hit(piece, (0, -1)),
        "right": disc[0] + first_hit(piece, (1, 0)) - max(s.x + s.width / 2 for s in shapes),
        "left": min(s.x - s.width / 2 for s in shapes) - disc[0] + first_hit(piece, (-1, 0)),
    }
    return clear | {"": min(clear["above"], clear["below"])}


def true(name: str, one: Dimension, scale: int) -> list[str]:
    """What is wrong with a dimension; nothing when it prints and measures what it should."""
    piece = piece_of(name)
    step = HALF_STEP[piece.design.unit] + 0.02
    wrong = []
    for nth, each in enumerate(one.names):
        must = expected(piece, each, across=one.across)
        if abs(one.mm - must) > step + (2 * PLACE if nth else 0.0):
            wrong.append(f"{each} prints {one.figure}, the layout has {must:.2f} mm")
    for figure, side in rooms(one.clear):
        if abs(length(figure) - clearances(piece)[side]) > step:
            wrong.append(f"{figure} clear {side} is printed, not {clearances(piece)[side]:.2f} mm")
    if abs(one.drawn * scale - one.mm) > step + 0.002 * scale:
        wrong.append(f"{one.names} prints {one.figure}, drawn {one.drawn * scale:.2f} mm")
    return wrong


def require_true_dimensions(name: str) -> None:
    """Every dimension is the layout's own, and drawn to scale."""
    scale = int(document_of(name).extra["scale"].removeprefix("1:"))
    found = [one for svg in sheets_of(name) for one in dimensions(svg)]
    named = {each for one in found for each in one.names}
    assert {"overall width", "overall height", "overall depth"} <= named
    said = layout_data(piece_of(name))["overall"]
    assert tuple(said.values()) == pytest.approx(overall(piece_of(name)), abs=PLACE)
    assert [fault for one in found for fault in true(name, one, scale)] == []


def require_true_places(name: str) -> None:
    """In every view each balloon that is drawn as a ball lies where the layout has it, to scale.

    One that others hide is not drawn, and one of a wall is a cell of its grid as seen from the
    front. Third-angle views (ISO 5456-2): from the right z runs to the left, from above down.
    """
    scale = int(document_of(name).extra["scale"].removeprefix("1:"))
    balloons = layout_data(piece_of(name))["balloons"]
    laid = {re.sub(r"[^\w.]+", "-", ball["id"]): ball for ball in balloons}
    seen = set()
    for svg in sheets_of(name):
        for kind, drawn in balls(svg).items():
            seen.add(kind)
            ways = {"x": 1, "y": -1, "z": 1 if kind == "picture-from-above" else -1}
            axes = SEEN.get(kind, "xy")
            must = {each: [laid[each][a] * ways[a] / scale for a in axes] for each in drawn}
            assert len(drawn) >= len(laid) / 5 or piece_of(name).design.wall
            off = np.array([drawn[each][:2] for each in drawn]) - np.array(list(must.values()))
            assert np.ptp(off, axis=0) == pytest.approx((0.0, 0.0), abs=0.005)
            for each, (_, _, radius) in drawn.items():
                assert radius * scale == pytest.approx(laid[each]["diameter"] / 2, abs=0.01)
    assert len(seen & set(SEEN)) == 1


def test_both_units_say_the_same_length() -> None:
    scale = int(document_of("ruby-thirty", "both").extra["scale"].removeprefix("1:"))
    found = [one for svg in sheets_of("ruby-thirty", "both") for one in dimensions(svg)]
    assert all(" cm)" in one.figure for one in found)
    assert [fault for one in found for fault in true("ruby-thirty", one, scale)] == []


def require_true_rulers(name: str) -> None:
    """The scale bar and the rulers measure what they say."""
    for svg in sheets_of(name):
        (bar,) = groups(svg, "scale-bar")
        said = next(text for text in words(svg) if " at 1:" in text)
        parts = re.fullmatch(r"(.+) at 1:(\d+) must measure (.+)", said)
        assert parts
        assert reach(bar)[0] == pytest.approx(length(parts[3]), abs=0.01)
        assert length(parts[1]) == pytest.approx(int(parts[2]) * length(parts[3]))
        assert f"SCALE 1:{parts[2]}" in words(svg)
        for ruler in groups(svg, "check-ruler"):
            (must,) = {t for t in words(svg) if t.startswith("must measure ")}
            long = length(must.removeprefix("must measure "))
            assert max(reach(ruler)) == pytest.approx(long, abs=0.01)


def shares_by_points(piece: Piece) -> dict[str, float]:
    """Each letter's share of the front, and the numerals', in per cent, from a jittered grid."""
    (x0, x1), (y0, y1) = piece.extent.x, piece.extent.y
    step = max(x1 - x0, y1 - y0) / 260
    xs, ys = np.meshgrid(np.arange(x0, x1, step), np.arange(y0, y1, step))
    jitter = np.random.default_rng(30).uniform(0, step, (2, xs.size))
    points = np.column_stack([xs.ravel(), ys.ravel()]) + jitter.T
    plane = slab(piece) if piece.fit else inf
    seen = np.full(len(points), "", dtype=object)
    skin = np.full(len(points), -inf)
    on_foil = np.zeros(len(points), dtype=bool)
    for shape in piece.fit.numerals if piece.fit else ():
        outline = shapely.buffer(shapely.MultiLineString(list(shape.strokes)), shape.half_width)
        on_foil |= shapely.contains_xy(outline, points)
    for ball in piece.balloons:
        x, y, z = ball.centre
        rise = ball.radius**2 - (points[:, 0] - x) ** 2 - (points[:, 1] - y) ** 2
        top = z + np.sqrt(np.maximum(rise, 0.0)) + (1e6 if z > plane else 0.0)
        nearer = (rise > 0) & (top > skin) & ((z > plane) | ~on_foil)
        seen[nearer], skin[nearer] = ball.letter, top[nearer]
    seen[on_foil & (skin < 1e5)] = "foil"
    letters = [each for each in seen if each]
    return {each: 100 * letters.count(each) / len(letters) for each in sorted(set(letters))}


def require_true_shares(name: str) -> None:
    """The shares in the key are what shows."""
    must = shares_by_points(piece_of(name))
    rows = [must[letter] for letter in sorted(must, key=lambda each: (each == "foil", each))]
    for svg in sheets_of(name):
        said = [int(text.removesuffix(" %")) for text in words(svg) if text.endswith(" %")]
        for at in range(0, len(said), len(rows)):
            block = said[at : at + len(rows)]
            assert sum(block) == 100
            assert block == pytest.approx(rows, abs=1.5)


def require_true_counts(name: str) -> None:
    """The key of a wall counts each colour's balloons, letter by letter; other keys count none."""
    letters = [ball["colour"] for ball in layout_data(piece_of(name))["balloons"]]
    must = [letters.count(each) for each in sorted(set(letters))]
    for at, svg in enumerate(sheets_of(name)):
        found = [re.fullmatch(COUNTED, text) for text in words(svg)]
        said = [int(each[1].replace(",", "")) for each in found if each]
        keyed = piece_of(name).design.wall and (at == 0 or said)  # a further view has no key
        assert said == (must if keyed else [])


def known_words(name: str) -> list[str]:
    """Words of the file's own in which a digit may stand."""
    design = piece_of(name).design
    uses = [*design.colours.values(), *(c for w in design.colourways for c in w.colours.values())]
    own = [design.title, design.client, design.venue, design.note, *(use.name for use in uses)]
    return [*own, *(way.name for way in design.colourways)]


def explained(name: str, text: str, sheet: int) -> bool:
    """Whether every digit in a line of text is one that the piece, file or sheet accounts for."""
    piece, document = piece_of(name), document_of(name)
    code, fails = proof_code(piece.design), [f for f in findings_of(name) if f.verdict == "fails"]
    day, panel, fit = piece.design.event_date, piece.design.panel, piece.fit
    room = re.search(r"(?:fit|tuck), ([\d /.]+ (?:in|cm))(?: to)?(?: spare)?$", text)
    if room and fit:
        near = abs(length(room[1]) - abs(fit.room)) <= HALF_STEP[piece.design.unit]
        return near and fit.verdict in ("clear", "tucks")
    tucked = re.fullmatch(r"tucks ([\d /.]+ (?:in|cm))", text)
    if tucked:
        return abs(length(tucked[1]) - deepest_overlap(piece)) <= HALF_STEP[piece.design.unit]
    enlarged = re.fullmatch(r"[A-Z], (\d+:\d+)", text)
    if enlarged:
        return factor(enlarged[1]) > factor(document.extra["scale"])
    exactly = {
        code,
        str(piece.design.revision),
        f"{sheet} of {len(document.sheets)}",
        document.extra["scale"],
        f"SCALE {document.extra['scale']}",
        f"{day.day} {day:%b} {day.year}" if day else "",
        panel.text if panel else "",
        "Children under 8 can choke on uninflated or broken balloons.",
    }
    if text in exactly or "Children under 8" in text:
        return True
    if re.search(rf"\b{code}\b|revision {piece.design.revision}\b", text):
        return not re.search(r"\d", re.sub(rf"{code}|revision {piece.design.revision}", "", text))
    counted = re.match(r"Draft: (\d+) checks? fails?:", text)
    return bool(counted and int(counted[1]) == len(fails)) or any(
        text in own for own in known_words(name)
    )


def factor(scale: str) -> float:
    ours, theirs = scale.split(":")
    return float(ours) / float(theirs)


def checked_elsewhere(text: str, figures: set[str]) -> bool:
    """Dimensions, shares, counts, bar, rulers and papers, which the tests above measure."""
    papers = ("A4", "A3", "Letter", "Tabloid")
    return (
        text in figures
        or text in papers
        or "must measure" in text
        or text.endswith(" %")
        or bool(re.fullmatch(COUNTED, text))
        or bool(re.fullmatch(r"(SCALE )?1:\d+", text))
    )


def require_every_number_explained(name: str) -> None:
    """No number is left that nothing explains."""
    for number, svg in enumerate(sheets_of(name), start=1):
        found = dimensions(svg)
        figures = {one.figure for one in found}
        figures |= {f"{one.names[-1]} ({one.clear})" for one in found if one.clear}
        numbers = [text for text in words(svg) if re.search(r"\d", text)]
        assert len(numbers) > 5
        rest = [text for text in numbers if not checked_elsewhere(text, figures)]
        assert [text for text in rest if not explained(name, text, number)] == []


@pytest.mark.parametrize("name", NAMES)
def test_every_number_of_a_proof_is_true(name: str) -> None:
    """One test a sample, so that its proof is drawn once, however many workers test."""
    require_true_dimensions(name)
    require_true_places(name)
    require_true_rulers(name)
    require_true_shares(name)
    require_true_counts(name)
    require_every_number_explained(name)


def test_a_wrong_number_would_be_noticed() -> None:
    scale = int(document_of("ruby-thirty").extra["scale"].removeprefix("1:"))
    svg = sheets_of("ruby-thirty")[0]
    assert "Ø 30 in" in svg
    wrong = dimensions(svg.replace("Ø 30 in", "Ø 30 1/2 in"))
    assert [fault for one in wrong for fault in true("ruby-thirty", one, scale)]
    assert not explained("ruby-thirty", "Numerals fit, 7/8 in to spare", 1)
    assert not explained("ruby-thirty", "12 balloons", 1)
