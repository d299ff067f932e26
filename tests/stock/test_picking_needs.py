"""What a piece takes, against an independent recount of the layout that the contract promises."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mockup.design.job_reading import read_job
from mockup.design.model import Design
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.layout import layout_data
from mockup.piece.placed import Piece
from mockup.stock.picking import Kind, pick

JOBS = Path(__file__).parents[2] / "samples" / "jobs"


def design(colours: str = "ABAB", extra: str = "", teal: str = "deep teal") -> Design:
    return design_from_text(
        f"""
title = "Invented"
colours = {{ A = {{ name = "{teal}", srgb = "#0f4c5c" }}, B = "oat" }}
{extra}
[[section]]
at = "12"
clusters = [{{ strokes = 3, colours = "{colours}" }}, {{ strokes = 2, colours = "{colours}" }}]
end_cap = {{ strokes = 1 }}
[panel]
numerals = "30"
height = "9in"
""",
        "invented.toml",
    )


@pytest.fixture(scope="module")
def ring() -> Piece:
    return assemble(design())


def recount(piece: Piece) -> Counter[tuple[str, float]]:
    """By the letters and diameters of ``layout --json``, without the picking room."""
    data = layout_data(piece)
    return Counter((b["colour"], round(b["diameter"], 1)) for b in data["balloons"])


def test_every_balloon_of_the_layout_is_picked(ring: Piece) -> None:
    picking = pick([(ring.design, 1)])
    letters = {"deep teal": "A", "oat": "B"}
    picked = Counter(
        {(letters[n.name], f.diameter): f.count for n in picking.needs for f in n.fills}
    )
    assert picked == recount(ring)
    assert picking.balloons == len(ring.balloons) == 16


def test_the_sample_job_picks_what_its_layouts_hold_to_the_last_balloon() -> None:
    job = read_job(JOBS / "alder-weekend.toml")
    pieces = [(assemble(one.design), one.count) for one in job.pieces]
    layouts = sum(count * len(layout_data(piece)["balloons"]) for piece, count in pieces)
    picking = pick((one.design, one.count) for one in job.pieces)
    assert picking.balloons == layouts
    assert picking.counts.pieces == 13
    attach = sum(count * len(piece.fit.attach) for piece, count in pieces if piece.fit)
    assert picking.counts.attach_points == attach


@settings(max_examples=20, deadline=None)
@given(st.permutations([("ABAB", 1), ("AABB", 2), ("BBBB", 3)]))
def test_the_order_of_pieces_does_not_matter(rows: list[tuple[str, int]]) -> None:
    pieces = [(design(colours), times) for colours, times in rows]
    assert pick(pieces) == pick(reversed(pieces))


def test_twice_the_pieces_take_twice_as_much(ring: Piece) -> None:
    once, twice = pick([(ring.design, 1)]), pick([(ring.design, 2)])
    assert [2 * need.count for need in once.needs] == [need.count for need in twice.needs]
    assert pick([(ring.design, 1)] * 2) == twice


def test_one_colour_written_two_ways_is_one_need(ring: Piece) -> None:
    other = design(teal="Deep-Teal")
    assert (
        len(pick([(ring.design, 1), (other, 1)]).needs) == len(pick([(ring.design, 1)]).needs) == 2
    )


def test_foils_are_counted_by_numeral_and_flat_height(ring: Piece) -> None:
    foils = pick([(ring.design, 3)]).foils
    assert [(f.kind.character, f.count, f.kind.height) for f in foils] == [
        ("0", 3, 228.6),
        ("3", 3, 228.6),
    ]


def test_outdoor_balloons_are_counted_apart(ring: Piece) -> None:
    outside = design(extra="outdoors = true")
    needs = pick([(ring.design, 2), (outside, 1)]).needs
    assert [(need.count, need.outdoors) for need in needs] == [
        (need.count, need.count // 3) for need in needs
    ]


def test_counts_name_what_other_materials_go_by(ring: Piece) -> None:
    counts = pick([(ring.design, 2)]).counts
    assert (counts.of("piece"), counts.of("cluster"), counts.of("numeral")) == (2, 10, 4)
    assert counts.of("attach point") == 2 * len(ring.fit.attach if ring.fit else ())


def test_kinds_are_told_apart_by_size_colour_and_finish() -> None:
    kinds = {
        Kind.of(127.0, "oat", "matte"),
        Kind.of(127.04, "Oat ", "matte"),
        Kind.of(127.0, "oat", "pearl"),
        Kind.of(128.0, "oat", "matte"),
    }
    assert len(kinds) == 3
