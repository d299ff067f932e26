"""Growth by warmth and altitude against the published standard atmosphere."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from mockup.packing.climate import growth, standard_pressure, standard_temperature
from mockup.packing.inflation import NotASize

TABLE = Path(__file__).parents[1] / "data" / "standard_atmosphere.csv"


def rows() -> list[dict[str, str]]:
    """U.S. Standard Atmosphere 1976 = ISO 2533:1975 below 32 km, as its first line says."""
    with TABLE.open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["alt_m"])
def test_the_standard_atmosphere(row: dict[str, str]) -> None:
    altitude = float(row["alt_m"])
    assert standard_temperature(altitude) == pytest.approx(float(row["T_geopot_K"]), abs=0.001)
    assert standard_pressure(altitude) == pytest.approx(float(row["p_geopot_Pa"]), abs=0.1)


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["alt_m"])
def test_growth_of_the_same_air_carried_up(row: dict[str, str]) -> None:
    grown = growth(288.15, standard_pressure(0.0), 288.15, standard_pressure(float(row["alt_m"])))
    assert grown == pytest.approx(float(row["dia_ratio_isothermal"]), abs=1e-5)
    assert grown**3 == pytest.approx(float(row["vol_ratio_isothermal"]), abs=2e-5)


KELVIN, PASCAL = st.floats(230, 330), st.floats(6e4, 1.1e5)


@given(KELVIN, PASCAL, KELVIN, PASCAL)
def test_there_and_back_is_the_same_size(t1: float, p1: float, t2: float, p2: float) -> None:
    assert growth(t1, p1, t2, p2) * growth(t2, p2, t1, p1) == pytest.approx(1.0)


@given(KELVIN, KELVIN, PASCAL)
def test_warmth_makes_larger(cold: float, warm: float, pressure: float) -> None:
    assume(abs(warm - cold) > 1e-9)
    assert (growth(cold, pressure, warm, pressure) > 1) == (warm > cold)


@pytest.mark.parametrize("altitude", [-6000.0, 12_000.0, float("nan")])
def test_altitudes_out_of_reach_are_refused(altitude: float) -> None:
    with pytest.raises(NotASize, match="altitude"):
        standard_pressure(altitude)
