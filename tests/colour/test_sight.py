"""Colour-vision deficiencies against the published matrices."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.sight import DEFICIENCIES, SIGHTS, Sight, seen_as
from mockup.colour.srgb import parse_hex, to_hex

DATA = Path(__file__).parent.parent / "data"
PUBLISHED = {"protan": "Protanomaly", "deutan": "Deuteranomaly", "tritan": "Tritanomaly"}


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines()[1:]))


@pytest.mark.parametrize("sight", sorted(PUBLISHED))
def test_matrix_is_the_published_one(sight: str) -> None:
    # Source: Machado, Oliveira, Fernandes, IEEE TVCG 15(6), 2009, matrices at severity 1.0.
    known = {row["deficiency"]: row for row in rows("cvd_machado_severity1.csv")}[PUBLISHED[sight]]
    flat = [each for line in DEFICIENCIES[sight] for each in line]
    assert flat == [float(known[f"m{row}{column}"]) for row in range(3) for column in range(3)]


@pytest.mark.parametrize("row", rows("colour_vectors.csv"), ids=lambda row: row["hex"])
@pytest.mark.parametrize("sight", ["deutan", "protan"])
def test_colours_as_others_see_them(row: dict[str, str], sight: Sight) -> None:
    # Source: tests/data/colour_vectors.csv (an independent MIT colour library; 1/255 a channel).
    seen, known = parse_hex(seen_as(row["hex"], sight)), parse_hex(row[f"{sight}_machado"])
    assert max(abs(a - b) for a, b in zip(seen, known, strict=True)) <= 1


@given(st.integers(0, 255), st.sampled_from(SIGHTS))
def test_greys_look_grey_to_everyone(level: int, sight: Sight) -> None:
    seen = parse_hex(seen_as(to_hex((level, level, level)), sight))
    assert max(abs(each - level) for each in seen) <= 1
