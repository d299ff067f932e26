"""A job with its studio book: what buying, pricing and building all start from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

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
    """A job, the studio book in force, and the proof code of each piece of the job."""

    job: Job
    studio: Studio
    codes: tuple[str, ...]

    @cached_property
    def code(self) -> str:
        """The proof code of a single piece; for a job eight digits that stand for all of it."""
        if self.job.single is not None:
            return self.codes[0]
        rows = zip(self.job.pieces, self.codes, strict=True)
        said = "\n".join(f"{one.count} {code}" for one, code in rows)
        return hashlib.sha256(said.encode()).hexdigest()[:LENGTH].upper()

    @cached_property
    def designs(self) -> tuple[tuple[Design, int], ...]:
        """Each design with how many of it are built; the same design named twice is one."""
        counts: dict[str, int] = {}
        first: dict[str, Design] = {}
        for one, code in zip(self.job.pieces, self.codes, strict=True):
            first.setdefault(code, one.design)
            counts[code] = counts.get(code, 0) + one.count
        return tuple((first[code], count) for code, count in counts.items())

    @cached_property
    def pieces(self) -> tuple[tuple[Piece, int], ...]:
        """The same, laid out: only what is drawn or placed needs it.

        Designs that differ in nothing but their words are laid out once.
        """
        laid_out: dict[str, Piece] = {}
        pieces: list[tuple[Piece, int]] = []
        for design, count in self.designs:
            key = proof_code(_as_built(design))
            if key not in laid_out:
                laid_out[key] = assemble(design)
            pieces.append((replace(laid_out[key], design=design), count))
        return tuple(pieces)

    @cached_property
    def picking(self) -> Picking:
        """What all the pieces take."""
        return pick(self.designs)

    @property
    def count(self) -> int:
        """How many pieces are built."""
        return sum(one.count for one in self.job.pieces)

    @property
    def changed(self) -> tuple[str, ...]:
        """A sentence for each piece that is not what its last approval approved."""
        return tuple(dict.fromkeys(_changed(self)))


def order(job: Job, studio: Studio) -> Order:
    """The job with the studio book it is bought, priced and built by."""
    codes: dict[int, str] = {}
    for one in job.pieces:
        if id(one.design) not in codes:
            codes[id(one.design)] = proof_code(one.design)
    return Order(job, studio, tuple(codes[id(one.design)] for one in job.pieces))


def _as_built(design: Design) -> Design:
    """The design without what does not change how it is laid out."""
    return replace(
        design, title="", client="", event_date=None, venue="", note="", revision=1, colourways=()
    )


def _changed(order: Order) -> Iterable[str]:
    for one, code in zip(order.job.pieces, order.codes, strict=True):
        record = outdated_approval(read_log(one.file), code)
        if record is not None:
            yield (
                f"CHANGED SINCE APPROVAL: '{one.design.title}' was approved as {record.code} "
                f"(revision {record.revision}) and is now {code}. "
                "Send a new proof before you buy or build."
            )
