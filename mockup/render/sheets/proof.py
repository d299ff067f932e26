"""The colour proof: a dimensioned, true-scale drawing with everything a client approves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from mockup.errors import MockupError
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.record import Document
from mockup.render.sheets.answers import answers, failed
from mockup.render.sheets.aspects import (
    all_seen,
)
from mockup.render.sheets.blocks import Words
from mockup.render.sheets.cautions import cautions_for
from mockup.render.sheets.key import key_rows
from mockup.render.sheets.overlaps import require_clear
from mockup.render.sheets.proof_sheets import Asked, Job, sheets_of
from mockup.render.sheets.scale import scale_words
from mockup.render.sheets.title_block import TitleBlock

__all__ = ["Asked", "NotFinal", "proof_document"]


class NotFinal(MockupError):
    """A final proof was asked of a piece whose checks fail."""

    exit_code = 1


def proof_document(
    piece: Piece,
    findings: Sequence[Finding],
    *,
    code: str,
    shares: Mapping[str, float] | None = None,
    final: bool = False,
    asked: Asked | None = None,
) -> Document:
    """The proof of a piece: the same input gives the same document; nothing here reads a clock.

    ``shares`` are the colours' shares of the visible front by letter (the foil's as ``FOIL``), in
    any unit. The scale that was chosen is in the document's ``extra``, as "1:10".

    Raises ``NotFinal`` for a final proof of a piece that fails a check, ``DoesNotFit`` when the
    paper and scale asked for do not hold it, and ``LabelsCollide`` rather than a muddled sheet.
    """
    fails = failed(findings)
    if final and fails:
        raise NotFinal(f"no final proof while {_counted(fails)}")
    wish = asked or Asked()
    words = Words(
        key=key_rows(piece, shares, wish.view),
        answers=answers(piece, findings, wish.view.recolour),
        cautions=tuple(cautions_for(piece)),
        title=_title(piece, code, wish),
        draft=f"Draft: {_counted(fails)}" if fails else "",
        seen=wish.seen,
        recolour=wish.view.recolour,
    )
    views = all_seen(piece, wish.views, wish.figure)
    scale, sheets = sheets_of(Job(piece, words, wish, views))
    return Document(
        tuple(require_clear(sheet) for sheet in sheets),
        title=piece.design.title,
        author=wish.studio,
        subject=f"Colour proof {code}, revision {piece.design.revision}",
        keywords=("colour proof", code),
        extra={"scale": scale_words(scale)},
    )


def _title(piece: Piece, code: str, wish: Asked) -> TitleBlock:
    return TitleBlock(
        piece.design,
        code,
        1,
        "",
        studio=wish.studio,
        issued=wish.issued,
        document_type=wish.document_type,
        colourway=wish.colourway,
    )


def _counted(fails: Sequence[Finding]) -> str:
    """How many checks fail, and which: "2 checks fail: nestle, fill"."""
    named = ", ".join(dict.fromkeys(finding.name for finding in fails))
    return f"{len(fails)} {'check fails' if len(fails) == 1 else 'checks fail'}: {named}"
