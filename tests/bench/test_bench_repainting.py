"""Repainting gives the very piece that placing anew would give."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.bench.repainting import repainted
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble

SAMPLES = Path(__file__).parent.parent.parent / "samples"
NAMES = ["ruby-thirty", "garden-arc", "winter-ring", "trade-reference"]


def swapped(text: str) -> str:
    """The letters A and B of every cluster exchanged."""
    return text.replace('"AB"', '"_"').replace('"BA"', '"AB"').replace('"_"', '"BA"')


@pytest.mark.parametrize("name", NAMES)
def test_other_letters_and_words_need_no_placing(name: str) -> None:
    text = (SAMPLES / f"{name}.toml").read_text("utf-8")
    piece = assemble(design_from_text(text, "x.toml"))
    other = design_from_text(swapped(text).replace("title = ", 'note = "n"\ntitle = '), "x.toml")
    quick, slow = repainted(piece, other), assemble(other)
    assert quick is not None
    assert quick.design == other
    assert quick.clusters == slow.clusters
    assert quick.balloons == slow.balloons
    assert quick.clusters != piece.clusters
    assert quick.extent == slow.extent


def test_a_row_parted_in_two_keeps_its_places() -> None:
    text = (SAMPLES / "trade-reference.toml").read_text("utf-8")
    parted = text.replace(
        "{ strokes = 2, times = 2 }]", '{ strokes = 2 }, { strokes = 2, colours = "A" }]', 1
    )
    piece = assemble(design_from_text(text, "x.toml"))
    other = design_from_text(parted, "x.toml")
    quick = repainted(piece, other)
    assert quick is not None
    assert quick.clusters == assemble(other).clusters


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("strokes = 3 }", "strokes = 3.5 }"),
        ("times = 2", "times = 3"),
        ("24in", "25in"),
        ("13in", "12in"),
        ('numerals = "110"', 'numerals = "11"'),
        ("[panel]", "[limits]\nsqueeze = '12%'\n[panel]"),
        ("end_cap = { strokes = 1", "end_cap = { strokes = 1.5"),
    ],
)
def test_another_shape_is_placed_anew(old: str, new: str) -> None:
    text = (SAMPLES / "trade-reference.toml").read_text("utf-8")
    assert old in text
    piece = assemble(design_from_text(text, "x.toml"))
    assert repainted(piece, design_from_text(text.replace(old, new), "x.toml")) is None


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda p: p.stem)
def test_another_note_leaves_every_sample_as_it_is(sample: Path) -> None:
    """Where repainting answers at all, it answers as placing anew would."""
    text = sample.read_text("utf-8")
    piece = assemble(design_from_text(text, "x.toml", sample.parent))
    other = replace(piece.design, note="Another note.")
    quick, slow = repainted(piece, other), assemble(other)
    assert quick is None or (quick.clusters, quick.balloons) == (slow.clusters, slow.balloons)
