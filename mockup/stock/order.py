"""A job with its pieces laid out: what buying, pricing and building all start from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace

from mockup.design.approvals import outdated_approval, read_log
from mockup.design.job import Job
from mockup.design.model import Design
from mockup.design.studio import Studio
from mockup.piece.assemble import assemble
from mockup.piece.code import LENGTH, proof_code
from mockup.piece.placed import Piece
from mockup.stock.picking import Picking, pick


@dataclass(frozen=True)
class Order:
    """A job, the studio book in force, and each piece with how many of it are built."""

    job: Job
    studio: Studio
    pieces: tuple[tuple[Piece, int], ...]
    code: str

    @property
    def picking(self) -> Picking:
        """What all the pieces take."""
        return pick(self.pieces)

    @property
    def count(self) -> int:
        """How many pieces are built."""
        return sum(count for _, count in self.pieces)

    @property
    def changed(self) -> tuple[str, ...]:
        """A sentence for each piece that is not what its last approval approved."""
        return tuple(dict.fromkeys(_changed(self.job)))


def order(job: Job, studio: Studio) -> Order:
    """The job with its pieces assembled; pieces that are alike are laid out once."""
    laid_out: dict[str, Piece] = {}
    pieces: list[tuple[Piece, int]] = []
    for one in job.pieces:
        key = proof_code(_as_built(one.design))
        if key not in laid_out:
            laid_out[key] = assemble(one.design)
        pieces.append((replace(laid_out[key], design=one.design), one.count))
    return Order(job, studio, tuple(pieces), job_code(job))


def job_code(job: Job) -> str:
    """The proof code of a single piece; for a job eight digits that stand for all its pieces."""
    if job.single is not None:
        return proof_code(job.single)
    said = "\n".join(f"{one.count} {proof_code(one.design)}" for one in job.pieces)
    return hashlib.sha256(said.encode()).hexdigest()[:LENGTH].upper()


def _as_built(design: Design) -> Design:
    """The design without what does not change how it is laid out."""
    return replace(
        design, title="", client="", event_date=None, venue="", note="", revision=1, colourways=()
    )


def _changed(job: Job) -> Iterable[str]:
    for one in job.pieces:
        record = outdated_approval(read_log(one.file), proof_code(one.design))
        if record is not None:
            yield (
                f"CHANGED SINCE APPROVAL: '{one.design.title}' was approved as {record.code} "
                f"(revision {record.revision}) and is now {proof_code(one.design)}. "
                "Send a new proof before you buy or build."
            )
