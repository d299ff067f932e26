"""A job with its studio book: what buying, pricing and building all start from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from mockup.design.approvals import outdated_approval, read_log
from mockup.design.job import Job
from mockup.design.model import Design
from mockup.design.options import in_colourway
from mockup.design.studio import Studio
from mockup.design.ways import named_way, ways
from mockup.errors import MockupError, printable
from mockup.piece.assemble import assemble
from mockup.piece.code import LENGTH, proof_code
from mockup.piece.placed import Piece
from mockup.spelling import did_you_mean
from mockup.stock.picking import Picking, pick


class UnknownColourway(MockupError):
    """A colourway that no piece of the job offers."""


@dataclass(frozen=True)
class Difference:
    """A piece that is not what its last approval approved: loudly for the studio, and plainly for
    the client."""

    says: str
    tells: str


@dataclass(frozen=True)
class Order:
    """A job, the studio book in force, and the proof code of each piece of the job.

    ``colourway`` is the one that is built, empty for the first colours; pieces that do not offer
    it keep their own.
    """

    job: Job
    studio: Studio
    codes: tuple[str, ...]
    colourway: str = ""

    @cached_property
    def code(self) -> str:
        """The proof code of a single piece; for a job eight digits that stand for all of it."""
        if self.job.single is not None:
            return self.codes[0]
        rows = zip(self.job.pieces, self.codes, strict=True)
        said = "\n".join(f"{one.count} {code}" for one, code in rows)
        return hashlib.sha256(said.encode()).hexdigest()[:LENGTH].upper()

    @cached_property
    def proofs(self) -> tuple[str, ...]:
        """The proof code of each of ``designs`` and ``pieces``."""
        return tuple(dict.fromkeys(self.codes))

    @cached_property
    def revision(self) -> int:
        """A single piece's, counted by its log; that of a job stands in its file."""
        if self.job.single is None:
            return self.job.revision
        return read_log(self.job.pieces[0].file).revision_of(self.codes[0])

    @cached_property
    def designs(self) -> tuple[tuple[Design, int], ...]:
        """Each design with how many of it are built; the same design named twice is one."""
        counts: dict[str, int] = {}
        first: dict[str, Design] = {}
        for one, code in zip(self.job.pieces, self.codes, strict=True):
            first.setdefault(code, coloured(one.design, self.colourway))
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

    @cached_property
    def differences(self) -> tuple[Difference, ...]:
        """Each piece that is not what its last approval approved."""
        return tuple(dict.fromkeys(_differences(self)))

    @property
    def changed(self) -> tuple[str, ...]:
        """The same as loud sentences for the studio."""
        return tuple(each.says for each in self.differences)


def order(job: Job, studio: Studio, colourway: str = "") -> Order:
    """The job with the studio book it is bought, priced and built by.

    Raises ``UnknownColourway`` for one that no piece offers.
    """
    colourway = _chosen(job, colourway)
    codes: dict[int, str] = {}
    for one in job.pieces:
        if id(one.design) not in codes:
            codes[id(one.design)] = proof_code(one.design)
    return Order(job, studio, tuple(codes[id(one.design)] for one in job.pieces), colourway)


def _chosen(job: Job, asked: str) -> str:
    """The colourway asked for as the sheets keep it; the first colours may be asked for by name."""
    kept = {named_way(one.design, asked) for one in job.pieces}
    if kept == {None}:
        offered = dict.fromkeys(
            way.name for one in job.pieces for way in ways(one.design) if way.name
        )
        hint = did_you_mean(asked, offered) if offered else "no piece offers another one"
        raise UnknownColourway(f"--colourway: there is no colourway '{printable(asked)}'; {hint}")
    return "" if kept <= {"", None} else asked


def coloured(design: Design, colourway: str) -> Design:
    """The design in that colourway; itself where it does not offer it."""
    chosen = next((way for way in design.colourways if way.name == colourway), None)
    return in_colourway(design, chosen) if chosen else design


def _as_built(design: Design) -> Design:
    """The design without what does not change how it is laid out."""
    return replace(
        design, title="", client="", event_date=None, venue="", note="", revision=1, colourways=()
    )


def _differences(order: Order) -> Iterable[Difference]:
    for one, code in zip(order.job.pieces, order.codes, strict=True):
        log = read_log(one.file)
        record = outdated_approval(log, code)
        if record is not None:
            yield Difference(
                f"CHANGED SINCE APPROVAL: '{one.design.title}' was approved as {record.code} "
                f"(revision {record.revision}) and is now {code}. "
                "Send a new proof before you buy or build.",
                f"'{one.design.title}' has changed since you approved proof {record.code}: this "
                f"quote is for proof {code}, which needs your approval.",
            )
        elif log.approvals and log.approvals[-1].colourway != _colourway_of(one.design, order):
            approved = log.approvals[-1].colourway
            said = f"colourway '{approved}'" if approved else "its first colours"
            yield Difference(
                f"OTHER COLOURS THAN APPROVED: '{one.design.title}' was approved in {said}. "
                + (f"Add --colourway {approved}." if approved else "Leave out --colourway."),
                f"'{one.design.title}' is quoted in other colours than you approved, {said}.",
            )


def _colourway_of(design: Design, order: Order) -> str:
    """The colourway that a design of the order is built in."""
    return order.colourway if any(w.name == order.colourway for w in design.colourways) else ""
