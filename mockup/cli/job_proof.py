"""The proofs of a whole job: its elevation, then a page or more for each of its pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.cli.drawing import Proof, keep_sent, laid_out, told, untold_of, write_document
from mockup.cli.proof_wishes import lettering

if TYPE_CHECKING:
    from mockup.design.job import Job
    from mockup.piece.finding import Finding
    from mockup.render.record import Document, Sheet


def draw_job(file: Path, asked: dict[str, Any]) -> dict[str, Any]:
    """Draw the proofs of every piece of the job and write them; returns what was written.

    The first sheet is the elevation, where the job has a setting. A piece that is built several
    times is drawn once and says how many. Raises what a piece's
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
        whole = elevated(job, proofs, final=asked["final"])
        document = joined(job, tuple(proofs.values()), whole)
        written, notes = write_document(document, outs, int(asked["dpi"]))
    sent = [
        note for one, proof in proofs.items() if asked["final"] for note in keep_sent(one, proof)
    ]
    faults = [str(fault) for proof in proofs.values() for fault in proof.now.log.faults]
    own = list(unlike_the_pieces(asked, whole)) if whole else []
    own += [note for proof in proofs.values() for note in untold_of(proof)]
    return _report(job, tuple(proofs.values()), whole, written, [*faults, *own, *notes, *sent])


def _counts(job: Job) -> dict[Path, int]:
    """Each piece file once, in the job's order, with how many of it are built."""
    counts: dict[Path, int] = {}
    for one in job.pieces:
        counts[one.file] = counts.get(one.file, 0) + one.count
    return counts


@dataclass(frozen=True)
class Whole:
    """The elevation of a job as it was drawn."""

    sheet: Sheet
    code: str
    scale: str
    lettered: bool
    findings: tuple[Finding, ...]

    @property
    def failing(self) -> list[str]:
        """The names of its checks that fail."""
        return [finding.name for finding in self.findings if finding.verdict == "fails"]


def elevated(job: Job, proofs: dict[Path, Proof], *, final: bool) -> Whole | None:
    """The job's elevation, where it has a setting; raises ``NotFinal`` where a check of it fails.

    It is drawn as the pieces' proofs are asked for; where it does not fit at their scale, at the
    largest that does.
    """
    from mockup.piece.code import code_of
    from mockup.piece.elevation.findings import find_elevation
    from mockup.piece.elevation.standing import elevation_of
    from mockup.render.sheets.elevation import elevation_sheet
    from mockup.render.sheets.proof import NotFinal

    elevation = elevation_of(job, {file: proof.piece for file, proof in proofs.items()})
    if elevation is None:
        return None
    findings = find_elevation(elevation)
    fails = [finding.name for finding in findings if finding.verdict == "fails"]
    if final and fails:
        raise NotFinal(f"no final proof while the elevation fails: {', '.join(fails)}")
    codes = {row: proofs[one.file].now.code for row, one in enumerate(job.pieces, start=1)}
    stands = tuple((one.count, one.stands) for one in job.pieces)
    code = code_of(job.title, job.setting, stands, tuple(codes.values()))
    asked = next(iter(proofs.values())).asked
    drawn = elevation_sheet(job, elevation, findings, code=code, codes=codes, asked=asked)
    return Whole(drawn.sheet, code, drawn.scale, drawn.lettered, findings)


def unlike_the_pieces(asked: dict[str, Any], whole: Whole) -> Iterator[str]:
    """One sentence for each option that the elevation could not follow."""
    wished = f"1:{(asked['scale'] or whole.scale).removeprefix('1:').strip()}"
    if wished != whole.scale:
        yield f"The elevation is at {whole.scale}: at {wished} it does not fit its paper."
    if any(view.strip().lower() != "front" for view in asked["views"].split(",")):
        yield "The elevation shows the front alone; --views is for the pieces' own sheets."
    if asked["letters"] and not whole.lettered:
        yield f"At {whole.scale} the balloons of the elevation are too small to take letters."
    elif whole.lettered:
        yield "A letter on the elevation is that of its piece's own proof."
    if asked["figure"]:
        yield "The elevation has the figure that its [setting] says; --figure is for the pieces."


def joined(job: Job, proofs: tuple[Proof, ...], whole: Whole | None = None) -> Document:
    """One document of all the proofs; each sheet bears its piece's name and code, and its number
    of all."""
    from mockup.render.sheets.numbering import numbered

    codes = tuple(dict.fromkeys(proof.now.code for proof in proofs))
    first = (replace(whole.sheet, name=f"{job.title}: {whole.sheet.name}"),) if whole else ()
    return replace(
        proofs[0].document,
        sheets=numbered((*first, *(sheet for proof in proofs for sheet in _named(proof)))),
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
    job: Job, proofs: tuple[Proof, ...], whole: Whole | None, written: list[str], notes: list[str]
) -> dict[str, Any]:
    pieces = [{"title": proof.piece.design.title, **told(proof, [], [])} for proof in proofs]
    return {
        "version": 1,
        "title": job.title,
        "sheets": sum(len(proof.document.sheets) for proof in proofs) + (whole is not None),
        "elevation": (
            {"code": whole.code, "scale": whole.scale, "failing": whole.failing} if whole else None
        ),
        "pieces": pieces,
        "written": written,
        "failing": [
            *(f"{job.title}: {name}" for name in (whole.failing if whole else ())),
            *(f"{one['title']}: {name}" for one in pieces for name in one["failing"]),
        ],
        "notes": list(dict.fromkeys(notes)),
    }


def about(report: dict[str, Any]) -> str:
    """What the written file is, in few words: of a job's report or of a piece's."""
    if "pieces" not in report:
        return f"proof {report['code']}, revision {report['revision']}, scale {report['scale']}"
    proofs = (f"{one['title']} {one['code']} at {one['scale']}" for one in report["pieces"])
    whole = report["elevation"]
    first = f"elevation {whole['code']} at {whole['scale']}; " if whole else ""
    return f"{first}proofs: {', '.join(proofs)}"
