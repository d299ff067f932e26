"""sRGB, CIELAB, OKLab and contrast against published figures and the laws they must keep."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour import srgb

DATA = Path(__file__).parent.parent / "data"
HEX = st.tuples(*[st.integers(0, 255)] * 3).map(srgb.to_hex)


def rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("# ")
    return list(csv.DictReader(lines[1:]))


VECTORS = rows("colour_vectors.csv")


@pytest.mark.parametrize("row", VECTORS, ids=lambda row: row["hex"])
def test_lab_luminance_and_contrast_of_known_colours(row: dict[str, str]) -> None:
    # Source: tests/data/colour_vectors.csv (an independent MIT colour library; 0.03 in Lab).
    known = [float(row[key]) for key in ("L", "a", "b")]
    assert srgb.lab(row["hex"]) == pytest.approx(known, abs=0.03)
    assert srgb.luminance(row["hex"]) == pytest.approx(float(row["Y"]), abs=5e-6)
    white = srgb.contrast(row["hex"], "#ffffff")
    assert white == pytest.approx(float(row["contrast_white"]), abs=1e-3)


def test_matrix_follows_from_the_primaries() -> None:
    # Source: ITU-R BT.709 / IEC 61966-2-1 chromaticities of the primaries and of the D65 white.
    xy = np.array([[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]])
    columns = np.column_stack([[x / y, 1, (1 - x - y) / y] for x, y in xy])
    white = np.array([0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290])
    derived = columns * np.linalg.solve(columns, white)
    assert np.allclose(np.array(srgb.LINEAR_TO_XYZ), derived, atol=1e-12)


def test_wcag_weights_are_ours_rounded() -> None:
    # Source: WCAG 2.2, definition of relative luminance: 0.2126 R + 0.7152 G + 0.0722 B.
    assert [round(each, 4) for each in srgb.LINEAR_TO_XYZ[1]] == [0.2126, 0.7152, 0.0722]
    # Source: WCAG 2.2 Understanding 1.4.3: #777777 on white is just under 4.5:1, #767676 is over.
    assert srgb.contrast("#777777", "#ffffff") < 4.5 < srgb.contrast("#767676", "#ffffff")


@pytest.mark.parametrize(
    ("xyz", "known"),
    [
        ((0.950, 1.000, 1.089), (1.000, 0.000, 0.000)),
        ((1.0, 0.0, 0.0), (0.450, 1.236, -0.019)),
        ((0.0, 1.0, 0.0), (0.922, -0.671, 0.263)),
        ((0.0, 0.0, 1.0), (0.153, -1.415, -0.449)),
    ],
)
def test_oklab_of_ottossons_four_xyz_pairs(
    xyz: srgb.Triple, known: tuple[float, float, float]
) -> None:
    # Source: B. Ottosson, "A perceptual color space for image processing" (2020), table of test
    # pairs, to three decimals. Our matrices start at sRGB, hence the way through its inverse.
    light = np.linalg.solve(np.array(srgb.LINEAR_TO_XYZ), np.array(xyz))
    found = srgb.oklab_of_linear((float(light[0]), float(light[1]), float(light[2])))
    assert found == pytest.approx(known, abs=1e-3)


def test_oklab_of_a_documented_colour() -> None:
    # Source: documentation of colour-science 0.4.7 (BSD-3-Clause), XYZ_to_Oklab, example.
    light = np.linalg.solve(np.array(srgb.LINEAR_TO_XYZ), [0.20654008, 0.12197225, 0.05136952])
    found = srgb.oklab_of_linear((float(light[0]), float(light[1]), float(light[2])))
    assert found == pytest.approx((0.5163401, 0.154695, 0.0628957), abs=2e-4)


@pytest.mark.parametrize(
    ("colour", "known"),
    [
        ("#ff0000", (0.627955, 0.224863, 0.125846)),
        ("#0000ff", (0.452014, -0.032457, -0.311528)),
        ("#00ff00", (0.86644, -0.233888, 0.179498)),
    ],
)
def test_oklab_of_the_primaries(colour: str, known: tuple[float, float, float]) -> None:
    # Source: the figures public implementations of OKLab are tested with (six decimals).
    assert srgb.oklab(colour) == pytest.approx(known, abs=2e-6)


@given(HEX)
def test_every_colour_survives_both_ways(colour: str) -> None:
    assert srgb.from_linear(srgb.to_linear(colour)) == colour
    assert srgb.from_oklab(srgb.oklab(colour)) == colour
    assert srgb.from_oklch(*srgb.oklch(colour)) == colour
    assert srgb.to_hex(srgb.parse_hex(colour)) == colour


@given(st.integers(0, 255))
def test_greys_have_no_hue(level: int) -> None:
    colour = srgb.to_hex((level, level, level))
    assert srgb.lab(colour)[1:] == pytest.approx((0, 0), abs=1e-9)
    assert srgb.oklab(colour)[1:] == pytest.approx((0, 0), abs=1e-6)
    assert srgb.grey(colour) == colour


@given(HEX, st.floats(-1.5, 1.5))
def test_lighter_is_lighter_and_keeps_its_hue(colour: str, by: float) -> None:
    before, after = srgb.oklch(colour), srgb.oklch(srgb.lighter(colour, by))
    wanted = min(max(before[0] + by, 0.0), 1.0)
    # Half a step of a channel is 0.00015 of light: its cube root is 0.053 at black, 0.005 at 0.1.
    assert after[0] == pytest.approx(wanted, abs=0.012 if wanted > 0.1 else 0.055)
    if after[1] > 0.06 and before[1] > 0.06:
        assert abs((after[2] - before[2] + 180) % 360 - 180) < 3.5


@given(st.floats(0.2, 0.95), st.floats(0.35, 0.5), st.floats(0, 360))
def test_a_colour_no_screen_shows_loses_no_more_chroma_than_it_must(
    lightness: float, chroma: float, hue: float
) -> None:
    # Just inside what can be shown, one channel at least is all but empty or full.
    shown = srgb.to_linear(srgb.from_oklch(lightness, chroma, hue))
    assert min(shown) < 0.004 or max(shown) > 0.99


@given(HEX, HEX)
def test_contrast_does_not_mind_the_order(first: str, second: str) -> None:
    assert srgb.contrast(first, second) == srgb.contrast(second, first)
    assert 1.0 <= srgb.contrast(first, second) <= 21.0 + 1e-9


@given(HEX)
def test_grey_keeps_the_luminance(colour: str) -> None:
    assert srgb.luminance(srgb.grey(colour)) == pytest.approx(srgb.luminance(colour), abs=0.005)


@pytest.mark.parametrize(
    "text",
    ["", "red", "#fff", "#12345", "#1234567", "#12345g", " #123456", "#123456\n", "#１23456"],
)
def test_other_text_is_refused_with_the_right_form(text: str) -> None:
    with pytest.raises(srgb.NotAColour, match="such as #1f6f74"):
        srgb.parse_hex(text)


def test_a_long_text_is_cut_in_the_message() -> None:
    with pytest.raises(srgb.NotAColour) as caught:
        srgb.parse_hex("x" * 10_000)
    assert len(str(caught.value)) < 100
