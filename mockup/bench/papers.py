"""The papers the page makes, written beside the piece file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mockup.errors import CannotWrite
from mockup.piece.code import proof_code
from mockup.piece.findings import failing, find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.routes import make_pdf
from mockup.render.sheets.proof import Asked, proof_document
from mockup.render.viewpoint import ViewOptions
from mockup.render.writing import write_whole


def write_proof(piece: Piece, file: Path, *, letters: bool = False) -> dict[str, Any]:
    """The colour proof as ``<FILE>-proof.pdf``; returns its name, code and the checks that fail."""
    findings = find_all(piece)
    document = proof_document(
        piece,
        findings,
        code=proof_code(piece.design),
        shares=visible_shares(piece),
        final=False,
        asked=Asked(view=ViewOptions(letters=letters)),
    )
    made = make_pdf(document)
    target = file.with_name(f"{file.stem}-proof.pdf")
    if target == file:
        raise CannotWrite("the piece file itself would be written over; give it another name")
    write_whole(target, made.data)
    return {
        "name": target.name,
        "scale": document.extra.get("scale", ""),
        "failing": [finding.name for finding in failing(findings)],
        "note": made.note,
    }
