"""Every sample's proof is kept as a golden drawing, and is the same drawing again."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.code import proof_code
from mockup.piece.findings import find_all
from mockup.piece.visible import visible_shares
from mockup.render.sheets.proof import proof_document
from mockup.render.svg import svg_text
from tests.render import golden

ROOT = Path(__file__).parent.parent.parent
GOLDENS = Path(__file__).parent / "goldens" / "samples"
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))


def drawn(sample: Path) -> str:
    piece = assemble(read_design(sample))
    document = proof_document(
        piece, find_all(piece), code=proof_code(piece.design), shares=visible_shares(piece)
    )
    return svg_text(document.sheets[0], title=document.title)


def test_there_are_samples_of_every_kind() -> None:
    assert len(SAMPLES) >= 5


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_a_sample_is_drawn_as_it_was(sample: Path) -> None:
    golden.check(GOLDENS / f"{sample.stem}.txt", drawn(sample))


def test_a_changed_sample_is_noticed(tmp_path: Path) -> None:
    text = (ROOT / "samples/ruby-thirty.toml").read_text(encoding="utf-8")
    changed = tmp_path / "ruby-thirty.toml"
    changed.write_text(text.replace('"30in"', '"31in"', 1), encoding="utf-8")
    stored = (GOLDENS / "ruby-thirty.txt").read_text(encoding="utf-8")
    assert golden.differences(stored, golden.canonical(drawn(changed)))
