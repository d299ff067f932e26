"""Whole per cents by the largest remainder."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.render.sheets.shares import whole_per_cents

SHARES = st.dictionaries(
    st.sampled_from("ABCDEFGHIJKL"), st.floats(1e-6, 1e6), min_size=1, max_size=12
)


@given(SHARES)
def test_they_sum_to_100_and_each_is_within_one(shares: dict[str, float]) -> None:
    whole = whole_per_cents(shares)
    total = sum(shares.values())
    assert sum(whole.values()) == 100
    for name, share in shares.items():
        assert abs(whole[name] - 100 * share / total) < 1


@given(st.lists(st.floats(0.01, 1.0), min_size=2, max_size=3))
def test_no_other_whole_shares_lie_nearer(parts: list[float]) -> None:
    """Judged by trying every split of 100: the largest remainder misses least in sum."""
    shares = dict(zip("ABC", parts, strict=False))
    total = sum(parts)
    exact = [100 * part / total for part in parts]
    ours = list(whole_per_cents(shares).values())
    near = [range(max(0, int(x) - 1), int(x) + 3) for x in exact]
    best = min(_missed(split, exact) for split in product(*near) if sum(split) == 100)
    assert _missed(ours, exact) == pytest.approx(best)


def _missed(whole: list[int] | tuple[int, ...], exact: list[float]) -> float:
    return sum(abs(a - b) for a, b in zip(whole, exact, strict=True))


@pytest.mark.parametrize("shares", [{}, {"A": 0.0}, {"A": float("nan")}])
def test_nothing_to_share_gives_nothing(shares: dict[str, float]) -> None:
    assert whole_per_cents(shares) == {}
