"""The proofs of a whole job: one document with a page or more for each of its pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.cli.drawing import Proof, keep_sent, laid_out, told, write_document
from mockup.cli.proof_wishes import lettering

if TYPE_CHECKING:
    from mockup.design.job import Job
    from mockup.render.record import Document, Sheet


def is_job_file(file: Path) -> bool:
    """Whether the file lists the pieces of a job."""
    from mockup.design.job_reading import is_job
    from mockup.design.opening import read_text

    return is_job(read_text(file))


def draw_job(file: Path, asked: dict[str, Any]) -> dict[str, Any]:
    """Draw the proofs of every piece of the job and write them; returns what was written.

    A piece that is built several times is drawn once and says how many. Raises what a piece's
    proof raises, then nothing has been written; final proofs are kept in each piece's own log.
    """
    from mockup.design.job_reading import read_job
    from mockup.render.writing import format_of

    outs = asked["outs"] or (file.with_name(f"{file.stem}-proof.pdf"),)
    for out in outs:
        format_of(out)
    job = read_job(file)
    with lettering(asked):
        proofs = {one: laid_out(one, asked, job, count) for one, count in _counts(job).items()}
        written, notes = write_document(joined(job, tuple(proofs.values())), outs, asked["dpi"])
    sent = [
        note for one, proof in proofs.items() if asked["final"] for note in keep_sent(one, proof)
    ]
    faults = [str(fault) for proof in proofs.values() for fault in proof.now.log.faults]
    return _report(job, tuple(proofs.values()), written, [*faults, *notes, *sent])


def _counts(job: Job) -> dict[Path, int]:
    """Each piece file once, in the job's order, with how many of it are built."""
    counts: dict[Path, int] = {}
    for one in job.pieces:
        counts[one.file] = counts.get(one.file, 0) + one.count
    return counts


def joined(job: Job, proofs: tuple[Proof, ...]) -> Document:
    """One document of all the proofs; each sheet bears its piece's name, code and own number."""
    codes = tuple(dict.fromkeys(proof.now.code for proof in proofs))
    return replace(
        proofs[0].document,
        sheets=tuple(sheet for proof in proofs for sheet in _named(proof)),
        title=job.title,
        subject=f"Colour proofs {', '.join(codes)}",
        keywords=("colour proof", *codes),
        extra={},
    )


def _named(proof: Proof) -> Iterator[Sheet]:
    """Its sheets under its title, by which a reader finds the page."""
    title = proof.piece.design.title
    return (replace(sheet, name=f"{title}: {sheet.name}") for sheet in proof.document.sheets)


def _report(
    job: Job, proofs: tuple[Proof, ...], written: list[str], notes: list[str]
) -> dict[str, Any]:
    pieces = [{"title": proof.piece.design.title, **told(proof, [], [])} for proof in proofs]
    return {
        "version": 1,
        "title": job.title,
        "sheets": sum(len(proof.document.sheets) for proof in proofs),
        "pieces": pieces,
        "written": written,
        "failing": [f"{one['title']}: {name}" for one in pieces for name in one["failing"]],
        "notes": list(dict.fromkeys(notes)),
    }


def about(report: dict[str, Any]) -> str:
    """What the written file is, in few words: of a job's report or of a piece's."""
    if "pieces" not in report:
        return f"proof {report['code']}, revision {report['revision']}, scale {report['scale']}"
    proofs = (f"{one['title']} {one['code']} at {one['scale']}" for one in report["pieces"])
    return f"proofs: {', '.join(proofs)}"
