"""A logged content becomes the design it came from."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.design.model import Design
from mockup.design.reading import read_design
from mockup.piece.code import content, proof_code
from mockup.piece.recalled import NotADesign, design_from_content

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.toml"))


def stored(design: Design) -> dict[str, Any]:
    """A design's content after its way through the log's text."""
    kept: dict[str, Any] = json.loads(json.dumps(content(design)))
    return kept


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_every_sample_comes_back_with_its_code(file: Path) -> None:
    design = read_design(file)
    back = design_from_content(stored(design))
    assert proof_code(back) == proof_code(design)
    assert content(back) == content(design)


def test_what_a_later_version_added_takes_its_default_and_what_it_dropped_is_passed_over() -> None:
    kept = stored(read_design(SAMPLES[0]))
    kept["forgotten"] = {"once": 1}
    del kept["limits"], kept["frame"]["tube"]
    back = design_from_content(kept)
    assert (back.limits.squeeze, back.frame.tube) == (0.10, 12.7)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("title", 7),
        ("frame", "ring"),
        ("frame", {"kind": "loop"}),
        ("frame", {"outside": "wide"}),
        ("frame", {"outside": True}),
        ("sections", {}),
        ("sections", [{"name": "top"}]),
        ("colours", []),
        ("event_date", "the 14th"),
        ("limits", {"doorway": [1.0]}),
    ],
)
def test_content_that_is_no_design_is_refused_by_its_key(key: str, value: object) -> None:
    with pytest.raises(NotADesign, match="cannot be read"):
        design_from_content(stored(read_design(SAMPLES[0])) | {key: value})


@given(st.recursive(st.none() | st.integers() | st.text(), lambda each: st.lists(each, max_size=3)))
def test_nothing_else_than_a_table_is_a_design(data: Any) -> None:
    with pytest.raises(NotADesign):
        design_from_content(data)
