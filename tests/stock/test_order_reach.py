"""A large job: counted without laying anything out, and laid out once where pieces are alike."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.design.job import Job, JobPiece
from mockup.design.job_reading import read_job
from mockup.design.model import Design
from mockup.design.studio_reading import read_studio
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.stock.buying import buy_list
from mockup.stock.order import Order, order

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
STUDIO = read_studio(JOBS / "studio.toml")


@pytest.fixture
def laid_out(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The titles of the designs that are laid out while the test runs."""
    calls: list[str] = []

    def counted(design: Design) -> Piece:
        calls.append(design.title)
        return assemble(design)

    monkeypatch.setattr("mockup.stock.order.assemble", counted)
    return calls


def large(count: int) -> Order:
    """A hundred pieces that differ in their titles alone."""
    ring = read_job(JOBS / "alder-table-ring.toml").pieces[0]
    pieces = (
        JobPiece(replace(ring.design, title=f"Table {n}"), count, ring.file) for n in range(100)
    )
    return order(Job("Large", tuple(pieces)), STUDIO)


def test_fifty_thousand_balloons_are_bought_without_laying_one_out(laid_out: list[str]) -> None:
    own = large(16)
    bought = buy_list(own.picking, own.studio)
    assert own.picking.balloons == 100 * 16 * 32
    assert all(line.bought + line.from_shelf >= line.wanted for line in bought.balloons)
    assert laid_out == []


def test_pieces_that_are_alike_are_laid_out_once_and_keep_their_titles(laid_out: list[str]) -> None:
    own = large(1)
    assert [piece.design.title for piece, _ in own.pieces] == [f"Table {n}" for n in range(100)]
    assert laid_out == ["Table 0"]


def test_one_design_named_twice_is_one_row() -> None:
    job = read_job(JOBS / "alder-weekend.toml")
    twice = replace(job, pieces=(*job.pieces, job.pieces[0]))
    assert [count for _, count in order(twice, STUDIO).designs] == [24, 1]
    assert order(twice, STUDIO).count == 25


def test_the_code_of_a_job_changes_with_its_counts_and_that_of_a_piece_is_its_proofs() -> None:
    from mockup.piece.code import proof_code

    job = read_job(JOBS / "alder-weekend.toml")
    more = replace(job, pieces=(replace(job.pieces[0], count=13), *job.pieces[1:]))
    assert order(job, STUDIO).code != order(more, STUDIO).code
    alone = read_job(JOBS / "alder-arch.toml")
    assert order(alone, STUDIO).code == proof_code(alone.pieces[0].design)
