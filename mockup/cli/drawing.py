"""From a piece file to the written proof: one layout, however many outputs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.cli.proof_wishes import lettering, wished
from mockup.errors import CannotWrite

if TYPE_CHECKING:
    from mockup.design.job import Job
    from mockup.piece.finding import Finding
    from mockup.piece.placed import Piece
    from mockup.piece.revisions import Standing
    from mockup.render.record import Document
    from mockup.render.sheets.proof import Asked


@dataclass(frozen=True)
class Proof:
    """Everything a proof is written from: it is laid out once."""

    piece: Piece
    findings: tuple[Finding, ...]
    now: Standing
    shares: dict[str, float]
    asked: Asked
    document: Document
    reply_to: str = ""

    @property
    def scale(self) -> str:
        """The scale that was chosen, as "1:10"."""
        return self.document.extra["scale"]


def draw_proof(file: Path, asked: dict[str, Any]) -> dict[str, Any]:
    """Draw the proof of ``file`` and write it; returns what was written, as plain data.

    Every output name is judged before anything is drawn. Raises ``FaultsFound``, ``NotFinal``,
    ``CannotUseFont`` or ``CannotWrite``; then nothing that stood at an output's name has been
    touched. A final proof is kept in the log once all is written.
    """
    from mockup.render.writing import PROOF_FORMATS, format_of

    outs = asked["outs"] or (file.with_name(f"{file.stem}-proof.pdf"),)
    for out in outs:
        format_of(out, PROOF_FORMATS)
    with lettering(asked):
        proof = laid_out(file, asked)
        made = _outputs(proof, outs, int(asked["dpi"]))
        lacking = list(_lacking(proof.document))
    written, notes = _write(made)
    sent = keep_sent(file, proof) if asked["final"] else []
    faults = map(str, proof.now.log.faults)
    return told(proof, written, [*faults, *lacking, *untold_of(proof), *notes, *sent])


def untold_of(proof: Proof) -> list[str]:
    """What the sheets have no room to say."""
    fit = proof.piece.fit
    if fit is None or fit.verdict != "tucks":
        return []
    from mockup.render.sheets.tuck_detail import untold

    said = untold(proof.document.sheets, proof.piece, proof.piece.design.unit)
    return [said] if said else []


def laid_out(file: Path, asked: dict[str, Any], job: Job | None = None, count: int = 1) -> Proof:
    """The proof of one piece; as one of a job, which is built ``count`` times, with its words.

    The studio's name is that of the studio book in force where none is asked for.
    """
    from mockup.design.reading import read_design
    from mockup.design.studio_usual import usual_for
    from mockup.piece.assemble import assemble
    from mockup.piece.findings import find_all
    from mockup.piece.revisions import standing
    from mockup.piece.visible import visible_shares
    from mockup.render.sheets.colourways import colourways_document

    wish = wished(asked)
    now = standing(read_design(file), file)
    wish = replace(wish, studio=wish.studio or usual_for(file.parent).studio, count=count)
    piece = assemble(job.worded(now.design) if job else now.design)
    findings = find_all(piece)
    shares = visible_shares(piece)
    document = colourways_document(
        piece, findings, code=now.code, shares=shares, final=asked["final"], asked=wish
    )
    return Proof(piece, findings, now, shares, wish, document, asked["reply_to"].strip())


def told(proof: Proof, written: list[str], notes: list[str]) -> dict[str, Any]:
    """What was drawn and written, as plain data."""
    from mockup.design.ways import ways
    from mockup.piece.findings import failing

    return {
        "version": 1,
        "code": proof.now.code,
        "revision": proof.now.design.revision,
        "scale": proof.scale,
        "sheets": len(proof.document.sheets),
        "colourways": [way.name for way in ways(proof.now.design) if way.name],
        "shown": proof.asked.seen,
        "written": written,
        "failing": [finding.name for finding in failing(proof.findings)],
        "changed_since_approval": proof.now.changed(),
        "notes": list(dict.fromkeys(notes)),
    }


def keep_sent(file: Path, proof: Proof) -> list[str]:
    """Keep in the log that this went out as final, once; a note where the log takes nothing."""
    from datetime import datetime

    from mockup.design.approvals import Record, add_counted
    from mockup.piece.code import content

    now = proof.now
    if any(record.code == now.code for record in now.log.records):
        return []
    day = (proof.asked.issued or datetime.now().date()).isoformat()
    drawn, kept = now.design.revision, content(now.design)
    record = Record("sent", now.code, drawn, day, proof.asked.studio, content=kept)
    try:
        stands = add_counted(file, record, once=True)
    except CannotWrite as trouble:
        return [f"{trouble}. The proof is written, but revision {drawn} is not kept."]
    if stands.revision == drawn:
        return []
    return [
        f"The proof says revision {drawn}, but another program kept that number meanwhile: this "
        f"design is revision {stands.revision}. Draw it again before it goes out."
    ]


Output = tuple[Path, bytes, str]
"""Where to write, what, and a note for the user."""


def _outputs(proof: Proof, outs: Iterable[Path], dpi: int) -> list[Output]:
    from mockup.render.writing import PROOF_FORMATS, format_of

    made: list[Output] = []
    for out in outs:
        if format_of(out, PROOF_FORMATS) == "html":
            made.append((out, _page(proof).encode("utf-8"), ""))
        else:
            made += _made(proof.document, out, dpi)
    return made


def _page(proof: Proof) -> str:
    """The client's page, at the scale and on the paper of the sheets."""
    from mockup.render.page.client_page import client_page
    from mockup.render.page.page_asked import PageAsked
    from mockup.render.sheets.colourways import paper_of

    paper = paper_of(proof.document)
    asked = proof.asked
    page = PageAsked(
        scale=int(proof.scale.removeprefix("1:")),
        paper=(paper.width, paper.height),
        views=asked.views,
        units=asked.units,
        studio=asked.studio,
        reply_to=proof.reply_to,
        seen=asked.seen,
        view=asked.view,
        figure=asked.figure,
    )
    return client_page(
        proof.piece, proof.findings, code=proof.now.code, asked=page, shares=proof.shares
    )


def write_document(
    document: Document, outs: Iterable[Path], dpi: int = 150
) -> tuple[list[str], list[str]]:
    """Write a document to each output by its ending: the names written, and notes for the user."""
    made = [each for out in outs for each in _made(document, out, dpi)]
    written, notes = _write(made)
    return written, [*_lacking(document), *notes]


def _write(made: Iterable[Output]) -> tuple[list[str], list[str]]:
    from mockup.render.writing import write_whole

    written: list[str] = []
    notes: list[str] = []
    for path, data, note in made:
        write_whole(path, data)
        written.append(str(path))
        notes += [note] if note else []
    return written, notes


def _made(document: Document, out: Path, dpi: int) -> Iterator[Output]:
    """The files of one output: a PDF holds all sheets, a picture file one each."""
    from mockup.render.routes import make_pdf, make_png
    from mockup.render.svg import svg_text
    from mockup.render.writing import format_of

    kind = format_of(out)
    if kind == "pdf":
        made = make_pdf(document)
        yield out, made.data, made.note
        return
    for number, sheet in enumerate(document.sheets, start=1):
        path = out if number == 1 else out.with_name(f"{out.stem}-{number}{out.suffix}")
        if kind == "svg":
            title = f"{document.title}, {sheet.name}"
            yield path, svg_text(sheet, title=title).encode("utf-8"), ""
        else:
            made = make_png(sheet, dpi)
            yield path, made.data, made.note


def _lacking(document: Document) -> Iterator[str]:
    """One sentence naming the characters that the lettering cannot draw."""
    from mockup.render.record import Text, walk
    from mockup.render.text import missing

    words = {i.text for s in document.sheets for i in walk(s.items) if isinstance(i, Text)}
    lacking = sorted({each for text in sorted(words) for each in missing(text)})
    if lacking:
        yield (
            f"The lettering lacks {', '.join(lacking)}; a box stands in its place. "
            "Give a font that has it with --font."
        )
