"""Shares as whole per cents that add up to 100."""

from __future__ import annotations

from collections.abc import Mapping
from math import floor, isfinite


def whole_per_cents(shares: Mapping[str, float]) -> dict[str, int]:
    """Whole per cents in proportion to ``shares``, summing to 100 by the largest remainder.

    The method is Hamilton's: everyone gets the whole part, and what is left goes one by one to
    the largest remainders (ties to the first named). Nothing to share gives an empty answer.

    >>> whole_per_cents({"A": 1, "B": 1, "C": 1})
    {'A': 34, 'B': 33, 'C': 33}
    """
    total = sum(shares.values())
    if not isfinite(total) or total <= 0:
        return {}
    exact = {name: 100 * share / total for name, share in shares.items()}
    whole = {name: floor(value) for name, value in exact.items()}
    by_remainder = sorted(exact, key=lambda name: whole[name] - exact[name])
    for name in by_remainder[: 100 - sum(whole.values())]:
        whole[name] += 1
    return whole
