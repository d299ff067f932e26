"""The samples: invented, said to be, read without a fault, and they show what they promise."""

from __future__ import annotations

import pytest

from mockup.design.model import Design
from mockup.design.palette_files import shipped_folder
from mockup.design.reading import read_design

SAMPLES = {path.stem: path for path in sorted(shipped_folder("samples").glob("*.toml"))}


def sample(name: str) -> Design:
    return read_design(SAMPLES[name])


def balloons(design: Design) -> int:
    every = [
        spec
        for section in design.sections
        for spec in (section.middle, *section.right, *section.left,
                     section.end_right, section.end_left)
        if spec
    ]  # fmt: skip
    return sum(spec.count for spec in every)


def test_there_are_at_least_six() -> None:
    assert len(SAMPLES) >= 6


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_says_that_it_is_invented_and_reads_without_a_fault(name: str) -> None:
    assert "# Invented for practice" in SAMPLES[name].read_text("utf-8").splitlines()[0]
    design = sample(name)
    assert design.title
    assert design.client


def test_the_main_sample_is_a_thirty_inch_ring_with_two_digits_on_a_stand() -> None:
    design = sample("ruby-thirty")
    assert design.panel is not None
    assert (design.frame.kind, design.frame.outside, design.panel.text) == ("ring", 762.0, "30")
    assert design.stand is not None
    assert balloons(design) == 64
    assert [section.name for section in design.sections] == ["top", "bottom"]


def test_one_is_a_26_inch_ring_with_three_digits() -> None:
    design = sample("club-hundred")
    assert design.panel is not None
    assert design.frame.outside == pytest.approx(660.4)
    assert len(design.panel.text) == 3


def test_one_is_a_whole_ring_and_one_an_arc() -> None:
    assert sample("winter-ring").sections[0].whole
    assert sample("winter-ring").unit == "cm"
    assert sample("garden-arc").frame.kind == "arc"


def test_one_stands_outdoors_and_offers_another_colourway() -> None:
    design = sample("market-lanterns")
    assert design.outdoors
    assert [way.name for way in design.colourways] == ["after dark"]


def test_the_trades_reference_is_built_as_the_trade_tells_it() -> None:
    """Common practice, no source: a 3-stroke quad, two 2-stroke quads a side, 1-stroke pairs."""
    design = sample("trade-reference")
    assert design.frame.outside == pytest.approx(609.6)
    assert design.panel is not None
    assert design.panel.height == pytest.approx(330.2)
    assert len(design.panel.text) == 3
    assert "1" in design.panel.text
    for section in design.sections:
        assert section.middle is not None
        assert section.end_right is not None
        assert (section.middle.strokes, section.middle.kind) == (3, "quad")
        assert [(s.strokes, s.kind) for s in section.right] == [(2, "quad"), (2, "quad")]
        assert (section.end_right.strokes, section.end_right.kind) == (1, "pair")
        assert section.left == section.right
