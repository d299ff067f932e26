"""Calibration: published check values, an independent least squares, and nonsense refused."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st

from mockup.cli.main import mockup
from mockup.design.studio_reading import read_studio
from mockup.errors import MockupError
from mockup.packing.nesting import equal_pitch
from mockup.stock.calibrating import Nonsense, pump_factor, shrink_of, squeeze_of

BOOK = """\
# mine
[calibrated]  # from last spring
squeeze = "12%"

[[pump]]
name = "Hand pump"   # the red one
strokes = 4
gives = "4 1/2in"
"""


def test_a_pump_known_in_the_trade_fits_the_cube_root_law() -> None:
    """Common practice, no source: 4 strokes give 4 1/2 in, 3 give 4.1, 2 give 3.6, 1 gives 2.8."""
    inches = {4.0: 4.5, 3.0: 4.1, 2.0: 3.6, 1.0: 2.8}
    fit = pump_factor([(f"{s:g}", s, d * 25.4) for s, d in inches.items()])
    assert fit.factor * 4 ** (1 / 3) == pytest.approx(4.5 * 25.4, rel=0.005)
    assert fit.worst < 0.02


@given(st.lists(st.tuples(st.floats(1, 12), st.floats(-0.03, 0.03)), min_size=1, max_size=8))
def test_the_fit_is_numpys_least_squares(rows: list[tuple[float, float]]) -> None:
    """numpy.linalg.lstsq as an independent judge."""
    readings = [(str(n), s, 72 * s ** (1 / 3) * (1 + e)) for n, (s, e) in enumerate(rows)]
    x = np.array([[s ** (1 / 3)] for _, s, _ in readings])
    y = np.array([mm for _, _, mm in readings])
    assert pump_factor(readings).factor == pytest.approx(np.linalg.lstsq(x, y, rcond=None)[0][0])


@pytest.mark.parametrize(
    ("count", "height"), [(2, 0.707107), (3, 0.816497), (4, 0.840896), (5, 0.850651)]
)
def test_clusters_at_the_uniform_antiprism_have_no_squeeze(count: int, height: float) -> None:
    """Heights of the uniform n-antiprisms of edge 1 (Klitzing, Polytopes)."""
    fit = squeeze_of([("run", count, 100.0, 100.0 * height)])
    assert 1 - fit.factor == pytest.approx(0.0, abs=2e-6)


def test_a_packed_quad_run_has_the_usual_squeeze() -> None:
    """Worked here: a quad pressed by 10 % sits at 0.719 of its diameter."""
    assert 1 - squeeze_of([("run", 4, 114.3, 0.719 * 114.3)]).factor == pytest.approx(0.1, abs=5e-4)


@given(st.integers(2, 5), st.floats(60, 300), st.floats(0.0, 0.25))
def test_squeeze_and_pitch_are_each_others_inverse(n: int, d: float, squeeze: float) -> None:
    fit = squeeze_of([("run", n, d, equal_pitch(n, d, squeeze))])
    assert 1 - fit.factor == pytest.approx(squeeze, abs=1e-9)


def test_each_reading_tells_how_far_it_lies_off() -> None:
    fit = shrink_of([("a", 400.0, 350.0), ("b", 400.0, 358.0)])
    assert 1 - fit.factor == pytest.approx(0.115)
    assert [round(off.share, 4) for off in fit.offs] == [-0.0113, 0.0113]


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([("4=4.5in", 4.0, 114.3), ("3=41in", 3.0, 1041.4)], "moves that much"),
        ([("4=4.5in", 4.0, 114.3), ("1=4in", 1.0, 101.6)], "measure it again"),
        ([("4=45in", 4.0, 1143.0)], "moves that much"),
        ([("0=4in", 0.0, 100.0)], "nothing"),
        ([], "one at least"),
    ],
)
def test_a_pump_that_cannot_be_is_refused(
    readings: list[tuple[str, float, float]], words: str
) -> None:
    with pytest.raises(Nonsense, match=words):
        pump_factor(readings)


@pytest.mark.parametrize(("pitch", "words"), [(1.2, "would not touch"), (0.2, "burst before")])
def test_a_build_that_cannot_be_is_refused(pitch: float, words: str) -> None:
    with pytest.raises(Nonsense, match=words):
        squeeze_of([("run", 4, 100.0, 100 * pitch)])


@pytest.mark.parametrize(("filled", "words"), [(420.0, "does not grow"), (150.0, "more than half")])
def test_a_foil_that_cannot_be_is_refused(filled: float, words: str) -> None:
    with pytest.raises(Nonsense, match=words):
        shrink_of([("foil", 400.0, filled)])


def run(*words: str) -> Result:
    return CliRunner().invoke(mockup, ["calibrate", *words])


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "studio.toml"
    path.write_text(BOOK, encoding="utf-8")
    return path


def test_a_pump_is_written_over_the_one_of_its_name(book: Path) -> None:
    done = run("pump", "hand pump", "4=4.4in", "2=3.5in", "--write", "--book", str(book))
    assert "Written into" in done.output, done.output
    (pump,) = read_studio(book).pumps
    assert pump.gives == pytest.approx(4.4 * 25.4, rel=0.01)
    text = book.read_text(encoding="utf-8")
    assert "# the red one" in text
    assert run("pump", "floor pump", "1=3in", "--write", "--book", str(book)).exit_code == 0
    assert [one.name for one in read_studio(book).pumps] == ["Hand pump", "floor pump"]


def test_squeeze_and_shrink_are_written_and_comments_stay(book: Path) -> None:
    run("squeeze", "12 quads of 4 1/2in took 38.83in", "--write", "--book", str(book))
    run("foil", "16in=14in", "--write", "--book", str(book))
    studio = read_studio(book)
    assert (studio.squeeze, studio.foil_shrink) == pytest.approx((0.10, 0.125), abs=1e-3)
    assert "# from last spring" in book.read_text(encoding="utf-8")


def test_knot_to_knot_is_one_step_less() -> None:
    whole = run("squeeze", "12 quads of 4 1/2in took 36in").output
    between = run("squeeze", "--knot-to-knot", "13 quads of 4 1/2in took 36in").output
    assert whole.splitlines()[-1] == between.splitlines()[-1]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("pump", "p", "4:4.5in"), "write it as 4=4.5in"),
        (("pump", "p", "four=4.5in"), "no number of strokes"),
        (("pump", "p", "4=4.5"), "has no unit"),
        (("squeeze", "12 quads 4in 38in"), "12 quads of 4 1/2in took 38in"),
        (("squeeze", "12 dozens of 4in took 38in"), "cannot be read"),
        (("squeeze", "2 quads of 4in took 6in", "--knot-to-knot"), "three clusters at least"),
        (("foil", "16in"), "has no ="),
    ],
)
def test_what_cannot_be_read_shows_the_right_form(words: tuple[str, ...], told: str) -> None:
    trouble = run(*words).exception
    assert isinstance(trouble, MockupError)
    assert told in str(trouble)


def test_a_book_with_faults_is_left_as_it_is(book: Path) -> None:
    book.write_text("currency = 7\n", encoding="utf-8")
    assert run("foil", "16in=14in", "--write", "--book", str(book)).exit_code != 0
    assert book.read_text(encoding="utf-8") == "currency = 7\n"


def test_the_answer_comes_in_the_unit_of_the_question() -> None:
    inches = run("pump", "p", "4=4.5in", "1=2.8in").output
    assert "4 strokes give 4.48 in." in inches
    assert "mm" not in inches
    assert "11.43 cm" in run("pump", "p", "4=11.43cm").output
    assert "1 stroke gives 2.80 in" in run("pump", "p", "1=2.8in").output
    assert "14.00 in" in run("foil", "16in=14in").output


def test_a_pump_is_written_in_the_unit_it_was_measured_in(book: Path) -> None:
    run("pump", "tall pump", "2=9.1cm", "--write", "--book", str(book))
    assert 'gives = "9.100cm"' in book.read_text(encoding="utf-8")
