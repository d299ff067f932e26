"""How a balloon grows or shrinks between two airs: the ideal gas law and the standard atmosphere.

The air in a balloon keeps its amount and takes the temperature and (but for the skin's tension,
under 0.5 % in diameter) the pressure round it, so its volume goes with T / p.
"""

from __future__ import annotations

from math import cbrt, exp, isfinite, log

from mockup.packing.inflation import NotASize, above_zero

SEA_LEVEL_PA = 101_325.0
SEA_LEVEL_K = 288.15
LAPSE = 0.0065
"""Kelvin a metre up to 11 km."""
GRAVITY, GAS = 9.80665, 287.05287
LOWEST_M, HIGHEST_M = -5_000.0, 11_000.0


def standard_temperature(altitude_m: float) -> float:
    """Kelvin of the standard atmosphere at a geopotential altitude in metres, up to 11 km.

    ISO 2533:1975 and the U.S. Standard Atmosphere 1976 agree here. Raises ``NotASize`` outside
    -5 to 11 km.

    >>> standard_temperature(1000.0)
    281.65
    """
    if not (isfinite(altitude_m) and LOWEST_M <= altitude_m <= HIGHEST_M):
        raise NotASize(f"an altitude must be from -5,000 to 11,000 m, not {altitude_m:g}")
    return SEA_LEVEL_K - LAPSE * altitude_m


def standard_pressure(altitude_m: float) -> float:
    """Pascals of the standard atmosphere at a geopotential altitude in metres, up to 11 km.

    ``p0 (T / T0)^(g / (R L))``. Raises ``NotASize``.

    >>> round(standard_pressure(0.0)), round(standard_pressure(1000.0))
    (101325, 89875)
    """
    share = standard_temperature(altitude_m) / SEA_LEVEL_K
    return SEA_LEVEL_PA * exp(GRAVITY / (GAS * LAPSE) * log(share))


def growth(filled_k: float, filled_pa: float, stands_k: float, stands_pa: float) -> float:
    """The diameter where it stands over the diameter where it was filled.

    ``((T2/T1) (p1/p2))^(1/3)``, temperatures in kelvin and pressures in one unit. Raises
    ``NotASize`` unless all are finite and above zero.

    >>> round(growth(293.15, 101325.0, 313.15, 101325.0), 4)
    1.0222
    """
    warmer = above_zero(stands_k, "temperature") / above_zero(filled_k, "temperature")
    thinner = above_zero(filled_pa, "pressure") / above_zero(stands_pa, "pressure")
    return cbrt(warmer * thinner)
