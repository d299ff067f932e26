"""The proof code stands for what a design says, and for nothing else."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from mockup.design.model import (
    ClusterSpec,
    ColourUse,
    Design,
    FrameSpec,
    Limits,
    PanelSpec,
    SectionSpec,
    StandSpec,
)
from mockup.piece.code import proof_code

QUAD = ClusterSpec("quad", 127.0, 114.3, 4.0, "ABAB", 45.0, ("section", 0, "clusters", 0))
DESIGN = Design(
    title="Ruby",
    frame=FrameSpec(),
    sections=(SectionSpec("top", 0.0, QUAD, (QUAD,), (QUAD,)),),
    colours={
        "A": ColourUse("A", "oat", "#efe3c8", "matte"),
        "B": ColourUse("B", "brass", "#b07a35", "mirror"),
    },
    client="The Alders",
    event_date=date(2027, 3, 14),
    stand=StandSpec(),
    panel=PanelSpec("30", 406.4),
    file_name="ruby.toml",
)  # fmt: skip


def test_it_is_eight_upper_case_hex_digits() -> None:
    code = proof_code(DESIGN)
    assert len(code) == 8
    assert code == code.upper()
    assert int(code, 16) >= 0


def test_the_same_design_has_the_same_code() -> None:
    assert proof_code(DESIGN) == proof_code(replace(DESIGN))


def test_where_it_is_written_does_not_count() -> None:
    elsewhere = replace(DESIGN, file_name="other.toml", lines={("title",): 7})
    moved = replace(elsewhere, frame=replace(DESIGN.frame, path=("frame", 3)))
    assert proof_code(moved) == proof_code(DESIGN)


def test_the_order_of_the_colours_in_the_file_does_not_count() -> None:
    turned = replace(DESIGN, colours=dict(reversed(DESIGN.colours.items())))
    assert proof_code(turned) == proof_code(DESIGN)


def test_the_count_of_revisions_does_not_count() -> None:
    """A revision is counted because the code has changed, not the other way round."""
    assert proof_code(replace(DESIGN, revision=2)) == proof_code(DESIGN)


def test_an_inch_and_its_millimetres_are_one() -> None:
    almost = replace(DESIGN, frame=replace(DESIGN.frame, outside=762.0000001))
    assert proof_code(almost) == proof_code(DESIGN)


@pytest.mark.parametrize(
    "other",
    [
        replace(DESIGN, title="Ruby!"),
        replace(DESIGN, client="The Elders"),
        replace(DESIGN, event_date=date(2027, 3, 15)),
        replace(DESIGN, unit="cm"),
        replace(DESIGN, outdoors=True),
        replace(DESIGN, stand=None),
        replace(DESIGN, panel=PanelSpec("31", 406.4)),
        replace(DESIGN, panel=replace(DESIGN.panel or PanelSpec("", None), widths={"3": 200.0})),
        replace(DESIGN, frame=FrameSpec(tube=12.8)),
        replace(DESIGN, limits=Limits(squeeze=0.11)),
        replace(DESIGN, colours=DESIGN.colours | {"A": ColourUse("A", "oat", "#efe3c9", "matte")}),
        replace(DESIGN, colours=DESIGN.colours | {"A": ColourUse("A", "oat", "#efe3c8", "gloss")}),
        replace(DESIGN, sections=(SectionSpec("top", 0.0, QUAD, (QUAD,), ()),)),
        replace(DESIGN, sections=DESIGN.sections * 2),
    ],
    ids=range(14),
)  # fmt: skip
def test_anything_else_that_changes_changes_it(other: Design) -> None:
    assert proof_code(other) != proof_code(DESIGN)


def test_the_count_of_revisions_is_no_content() -> None:
    """Revisions count the codes, so they cannot be part of one."""
    assert proof_code(replace(DESIGN, revision=2)) == proof_code(DESIGN)


def test_every_letter_of_a_cluster_counts() -> None:
    for letters in ("BABA", "AABB", "ABAA"):
        section = replace(DESIGN.sections[0], middle=replace(QUAD, letters=letters))
        assert proof_code(replace(DESIGN, sections=(section,))) != proof_code(DESIGN)


def test_a_kind_of_value_that_cannot_be_told_is_refused() -> None:
    """A field of a new kind must not pass unseen."""
    with pytest.raises(TypeError, match="holds no set"):
        proof_code(replace(DESIGN, note={"a", "set"}))  # type: ignore[arg-type] # on purpose
