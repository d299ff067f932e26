"""From a piece file to the written proof: one layout, however many outputs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.piece.finding import Finding
    from mockup.piece.placed import Piece
    from mockup.render.record import Document


def draw_proof(file: Path, asked: dict[str, Any]) -> dict[str, Any]:
    """Draw the proof of ``file`` and write it; returns what was written, as plain data.

    Every output name is judged before anything is drawn. Raises ``FaultsFound``, ``NotFinal`` or
    ``CannotWrite``; then nothing that stood at an output's name has been touched.
    """
    from mockup.design.reading import read_design
    from mockup.piece.assemble import assemble
    from mockup.piece.code import proof_code
    from mockup.piece.findings import failing, find_all
    from mockup.render.writing import format_of

    outs = asked["outs"] or (file.with_name(f"{file.stem}-proof.pdf"),)
    for out in outs:
        format_of(out)
    piece = assemble(read_design(file))
    findings = find_all(piece)
    code = proof_code(piece.design)
    document, scale = _document(piece, findings, code, asked)
    written, notes = write_document(document, outs, asked["dpi"])
    return {
        "version": 1,
        "code": code,
        "scale": scale,
        "written": written,
        "failing": [finding.name for finding in failing(findings)],
        "notes": [*dict.fromkeys([*_lacking(document), *notes])],
    }


def _document(
    piece: Piece, findings: tuple[Finding, ...], code: str, asked: dict[str, Any]
) -> tuple[Document, str]:
    from mockup.piece.visible import visible_shares
    from mockup.render.sheets.proof import Asked, proof_document
    from mockup.render.viewpoint import ViewOptions

    wished = Asked(
        paper=asked["paper"],
        landscape=asked["landscape"],
        scale=_scale(asked["scale"]),
        view=ViewOptions(letters=asked["letters"]),
    )
    shares = visible_shares(piece)
    document = proof_document(
        piece, findings, code=code, shares=shares, final=asked["final"], asked=wished
    )
    return document, document.extra.get("scale", "")


def _scale(text: str | None) -> int | None:
    """``1:5`` as 5."""
    if text is None:
        return None
    figure = text.removeprefix("1:").strip()
    if figure.isascii() and figure.isdigit() and int(figure) > 0:
        return int(figure)
    raise FaultsFound([Fault("--scale", f"'{text}' is no scale", "write one such as 1:5")])


def write_document(
    document: Document, outs: Iterable[Path], dpi: int = 150
) -> tuple[list[str], list[str]]:
    """Write a document to each output by its ending: the names written, and notes for the user."""
    from mockup.render.writing import write_whole

    written: list[str] = []
    notes: list[str] = []
    for out in outs:
        for path, data, note in _made(document, out, dpi):
            write_whole(path, data)
            written.append(str(path))
            notes += [note] if note else []
    return written, notes


def _made(document: Document, out: Path, dpi: int) -> Iterator[tuple[Path, bytes, str]]:
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
            yield path, svg_text(sheet, title=document.title).encode("utf-8"), ""
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
        yield f"The lettering lacks {', '.join(lacking)}; a box stands in its place."
