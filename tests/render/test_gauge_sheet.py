"""The sizing gauge, measured back from the PDF: circles, rulers, joins and girths."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from math import hypot, pi

import numpy as np
import pytest
from numpy.typing import NDArray
from pypdf import PdfReader
from pypdf.generic import ContentStream

from mockup.render.pdf import pdf_bytes
from mockup.render.record import Circle, Document, Group, Text, walk
from mockup.render.sheets.gauge import GaugeWords, gauge_document
from mockup.render.sheets.gauge_holes import WEB, Hole
from mockup.render.sheets.gauge_tiles import LAP
from mockup.render.sheets.paper import PAPERS
from mockup.render.text import bounds

Track = NDArray[np.float64]
HOLES = (
    Hole(71.99, "2 7/8 in, 1 stroke", ("96 × 5 in ivory husk, matte",)),
    Hole(90.72, "3 5/8 in, 2 strokes", ("48 × 5 in moss, matte", "48 × 5 in ivory husk, matte")),
    Hole(114.3, "4 1/2 in, 4 strokes"),
    Hole(228.6, "9 in, 32 strokes", ("38 × 11 in moss, matte",)),
    Hole(406.4, "16 in"),
)
WORDS = GaugeWords("Invented", "1A2B3C4D, revision 1", "cm")
MM = 25.4 / 72


def gauge(paper: str = "a4", holes: tuple[Hole, ...] = HOLES) -> Document:
    return gauge_document(holes, PAPERS[paper], WORDS)


@pytest.fixture(scope="module")
def printed() -> PdfReader:
    """The gauge on A4 as PDF."""
    return PdfReader(BytesIO(pdf_bytes(gauge())))


@pytest.fixture(scope="module")
def pages(printed: PdfReader) -> list[list[Track]]:
    return [list(tracks(page, printed)) for page in printed.pages]


def tracks(page: object, reader: PdfReader) -> Iterator[Track]:
    """Every stroked path of a page as points in mm: curves sampled, matrices applied."""
    stack: list[Track] = []
    matrix: Track = np.eye(3)
    path: list[list[list[float]]] = []
    content = ContentStream(page.get_contents(), reader)  # type: ignore[attr-defined]  # a PageObject
    for operands, operator in content.operations:
        name = operator.decode()
        numbers = [float(o) for o in operands] if name in ("cm", "m", "l", "c", "re") else []
        if name == "q":
            stack.append(matrix)
        elif name == "Q":
            matrix = stack.pop()
        elif name == "cm":
            a, b, c, d, e, f = numbers
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif name == "m":
            path.append([numbers])
        elif name in ("l", "c"):
            path[-1].append(numbers)
        elif name in ("S", "s", "B", "b"):
            for each in path:
                track = sampled(each)
                yield (np.column_stack([track, np.ones(len(track))]) @ matrix)[:, :2] * MM
            path = []
        elif name in ("n", "f", "f*"):
            path = []


def sampled(steps: list[list[float]]) -> Track:
    """The points of one path: two numbers to a straight step, six to a Bezier curve."""
    points = [np.array(steps[:1])]
    t = np.linspace(0, 1, 64)[1:, None]
    u = 1 - t
    for step in steps[1:]:
        pen, *ends = points[-1][-1], *np.array(step).reshape(-1, 2)
        if len(ends) == 1:
            points.append(ends[0][None, :])
        else:
            p, q, end = ends
            points.append(u**3 * pen + 3 * u**2 * t * p + 3 * u * t**2 * q + t**3 * end)
    return np.vstack(points)


def circles(found: list[Track]) -> list[float]:
    """Diameters of the tracks that are circles within 0.05 mm."""
    diameters = []
    for track in found:
        centre = (track.max(axis=0) + track.min(axis=0)) / 2
        radii = np.hypot(*(track - centre).T)
        if len(track) > 100 and np.ptp(radii) < 0.05 and radii.mean() > 10:
            diameters.append(2 * float(radii.mean()))
    return diameters


def test_every_hole_measures_true_on_paper(pages: list[list[Track]]) -> None:
    """To 0.05 mm, large ones on every tile that shows part of them."""
    found = [diameter for page in pages for diameter in circles(page)]
    nearest = [min(HOLES, key=lambda hole, d=d: abs(hole.diameter - d)) for d in found]  # type: ignore[misc]  # a bound default
    assert set(nearest) == set(HOLES)
    assert found == pytest.approx([hole.diameter for hole in nearest], abs=0.05)


def test_both_rulers_of_every_page_measure_true(pages: list[list[Track]]) -> None:
    for page in pages:
        ticks = [t for t in page if len(t) == 2 and hypot(*(t[1] - t[0])) < 2.5]
        upright = sorted(t[0][0] for t in ticks if abs(t[0][0] - t[1][0]) < 1e-6 and t[0][1] < 10.1)
        level = sorted(t[0][1] for t in ticks if abs(t[0][1] - t[1][1]) < 1e-6 and t[0][0] < 10.1)
        for ruler in (upright, level):
            assert len(ruler) == 11
            assert ruler[-1] - ruler[0] == pytest.approx(100.0, abs=0.05)
            assert np.ptp(np.diff(ruler)) < 0.01


def test_the_viewer_is_asked_not_to_scale(printed: PdfReader) -> None:
    """ISO 32000-1, table 150: /PrintScaling /None in the viewer preferences."""
    catalogue = printed.trailer["/Root"]
    assert catalogue["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]  # a dictionary


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_pages_have_the_papers_size(paper: str, printed: PdfReader) -> None:
    """ISO 216 A4 210 x 297 mm, ANSI/ASME Y14.1 A 8 1/2 x 11 in."""
    made = printed if paper == "a4" else PdfReader(BytesIO(pdf_bytes(gauge(paper))))
    for page in made.pages:
        box = page.mediabox
        size = (float(box.width) * MM, float(box.height) * MM)
        assert size == pytest.approx((PAPERS[paper].width, PAPERS[paper].height), abs=0.05)


def groups(document: Document, kind: str) -> list[tuple[int, Group]]:
    return [
        (number, item)
        for number, sheet in enumerate(document.sheets)
        for item in walk(sheet.items)
        if isinstance(item, Group) and item.kind == kind
    ]


def hole_of(group: Group) -> Circle:
    return next(item for item in walk(group.items) if isinstance(item, Circle))


def test_holes_on_one_page_leave_card_between_them() -> None:
    tiled = {number for number, _ in groups(gauge(), "tile")}
    placed = [(n, hole_of(group)) for n, group in groups(gauge(), "hole") if n not in tiled]
    for index, (page, one) in enumerate(placed):
        for other_page, other in placed[index + 1 :]:
            if page == other_page:
                apart = hypot(one.centre[0] - other.centre[0], one.centre[1] - other.centre[1])
                assert apart - one.r - other.r >= WEB - 1e-6


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("diameter", [205.0, 228.6, 406.4, 864.0])
def test_tiles_join_to_one_whole_circle(paper: str, diameter: float) -> None:
    """Every point of the cut line is printed, and neighbours print their join marks alike."""
    document = gauge(paper, (Hole(diameter, "large"),))
    shown: list[tuple[float, float]] = []
    marks: dict[tuple[float, float], int] = {}
    sheet = PAPERS[paper]
    left, top = 10.0, 20.0
    for _, tile in groups(document, "tile"):
        circle = hole_of(tile)
        for degree in range(720):
            angle = degree * pi / 360
            dx, dy = circle.r * np.cos(angle), circle.r * np.sin(angle)
            x, y = circle.centre[0] + dx, circle.centre[1] + dy
            inside = left <= x <= sheet.width - 10 and top <= y <= sheet.height - 10
            if inside:
                shown.append((round(dx, 6), round(dy, 6)))
        for mark in (i for i in walk(tile.items) if isinstance(i, Group) and i.kind == "join mark"):
            path = mark.items[0]
            x, y = (float(part) for part in path.d[1:].split("L")[0].split())  # type: ignore[union-attr]  # a Path
            at = (round(x - circle.centre[0], 2), round(y - circle.centre[1], 2))
            marks[at] = marks.get(at, 0) + 1
    assert len(set(shown)) == 720
    assert marks
    assert max(marks.values()) >= 2
    assert LAP > 0


def test_the_strips_marks_stand_at_pi_times_the_diameter() -> None:
    """C = pi d, along the strips in order: each begins where the one before ends."""
    document = gauge()
    lengths: dict[str, float] = {}
    start = 0.0
    for _, strip in groups(document, "strip"):
        rect = strip.items[0]
        own = [g for g in walk(strip.items) if isinstance(g, Group) and g.kind == "girth"]
        for girth in own:
            line = girth.items[0]
            lengths[girth.name] = start + line.start[0] - rect.x  # type: ignore[union-attr]  # Line, Rect
        start += rect.width - 10.0  # type: ignore[union-attr]  # a Rect; 10 mm are the tab
    assert lengths == pytest.approx({hole.name: pi * hole.diameter for hole in HOLES}, abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_lettering_leaves_the_page(paper: str) -> None:
    document = gauge(paper)
    for sheet in document.sheets:
        for text in (item for item in walk(sheet.items) if isinstance(item, Text)):
            left, top, right, bottom = bounds(text)
            assert left >= 5, text
            assert right <= sheet.width - 5, text
            assert top >= 5, text
            assert bottom <= sheet.height - 5, text


def test_a_job_of_no_balloons_has_no_pages_to_cut() -> None:
    assert groups(gauge(holes=()), "hole") == []
