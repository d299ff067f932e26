"""The climate finding: it holds, it fails, and what it says to do mends it."""

from __future__ import annotations

import re

import pytest

from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound
from mockup.packing.inflation import diameter_for_strokes
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.piece.findings.climate import climate, fit_there, growth_of
from mockup.piece.placed import Piece

PIECE = """title = "Law"
palette = "harbour"
colours = { A = "deep teal", B = "oat" }
[[section]]
at = "12"
colours = "AB"
clusters = [{ strokes = STROKES }, { strokes = 3 }]
[[section]]
at = "6"
colours = "AB"
clusters = [{ strokes = STROKES }, { strokes = 3 }]
[panel]
numerals = "30"
height = "HEIGHT"
"""


def piece(climate: str = "", *, strokes: float = 4, height: str = "16in") -> Piece:
    text = PIECE.replace("STROKES", f"{strokes:g}").replace("HEIGHT", height)
    return assemble(design_from_text(text + climate, "law.toml"))


def findings(given: Piece) -> dict[str, Finding]:
    return {finding.name: finding for finding in climate(given)}


def test_without_a_climate_there_is_nothing_to_say() -> None:
    assert findings(piece()) == {}


def test_the_same_air_keeps_the_size() -> None:
    given = piece('[climate]\nstands = { temperature = "70F" }\n')
    assert growth_of(given.design) == pytest.approx(1.0, abs=1e-4)
    assert list(findings(given)) == ["climate"]
    assert "keep their size" in findings(given)["climate"].says
    assert "air, as framed work is filled; helium swells alike" in findings(given)["climate"].says


def test_a_hot_day_asks_for_a_look_and_less_fill_mends_it() -> None:
    hot = '[climate]\nfilled = { temperature = "60F" }\nstands = { temperature = "115F" }\n'
    found = findings(piece(hot, strokes=4.5))["climate"]
    assert found.verdict == "look"
    strokes = re.search(r"\((\d+\.\d) strokes\)", found.remedy)
    assert strokes is not None
    mended = findings(piece(hot, strokes=float(strokes[1]) - 0.05))["climate"]
    assert mended.verdict == "holds"


def test_a_mountain_bursts_what_is_filled_full() -> None:
    high = '[climate]\nstands = { temperature = "70F", altitude = "8000ft" }\n'
    found = findings(piece(high, strokes=4.5))["climate"]
    assert found.verdict == "fails"
    assert "bursts" in found.says


def test_grown_balloons_leave_the_numerals_less_room() -> None:
    high = '[climate]\nstands = { temperature = "95F", altitude = "7000ft" }\n'
    given = piece(high, height="17in")
    assert given.fit is not None
    found = findings(given)["numerals in that climate"]
    assert found.measured is not None
    assert found.measured < given.fit.room
    largest = given.fit.largest_height / (1 - given.design.limits.foil_shrink)
    tight = piece(high, height=f"{0.998 * largest:.2f}mm")
    assert tight.fit is not None
    assert tight.fit.room > 0
    told = findings(tight)["numerals in that climate"]
    assert told.verdict == "fails"
    assert "of the size drawn" in told.remedy


def test_a_cold_place_shrinks_them() -> None:
    cold = '[climate]\nstands = { temperature = "-5C" }\n'
    found = findings(piece(cold))
    assert "shrink by" in found["climate"].says
    assert found["numerals in that climate"].verdict == "holds"


def test_a_measured_pressure_stands_for_the_altitude() -> None:
    low = piece("[climate]\nstands = { pressure = 900 }\n")
    assert growth_of(low.design) == pytest.approx((1013.25 / 900) ** (1 / 3), rel=1e-4)


def test_the_fit_there_at_the_same_size_is_the_fit() -> None:
    given = piece()
    assert given.fit is not None
    assert fit_there(given, 1.0).room == pytest.approx(given.fit.room, abs=0.2)
    assert diameter_for_strokes(4, ref_strokes=4, ref_diameter=114.3) == 114.3


@pytest.mark.parametrize(
    ("climate", "says"),
    [
        ('stands = { temperature = "70" }', "must be a temperature with C or F"),
        ('stands = { temperature = "200C" }', "write one from -40C to 60C"),
        ('stands = { altitude = "5280" }', "has no unit"),
        ('stands = { altitude = "50000ft" }', "altitude"),
        ('stands = { altitude = "1m", pressure = 900 }', "both 'altitude' and 'pressure'"),
        ('stand = { temperature = "70F" }', "did you mean 'stands'"),
    ],
)
def test_a_wrong_climate_is_told(climate: str, says: str) -> None:
    with pytest.raises(FaultsFound) as found:
        piece(f"[climate]\n{climate}\n")
    assert says in str(found.value)
