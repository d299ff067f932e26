"""A proof with its colourways: a page of each, and one page with all of them side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from mockup.design.ways import Way, ways
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.record import Document, Sheet
from mockup.render.sheets.areas import Builder
from mockup.render.sheets.key import key_block, key_rows
from mockup.render.sheets.numbering import numbered
from mockup.render.sheets.paper import PAPERS, Paper
from mockup.render.sheets.proof import Asked, proof_document
from mockup.render.sheets.scale import DoesNotFit
from mockup.render.sheets.side_by_side import Shown, lettering_of, side_by_side
from mockup.render.sheets.title_block import TitleBlock
from mockup.render.viewpoint import ViewOptions

MOST_TOGETHER = 6
"""So many colourways go on one page side by side; more take further pages."""

Shares = Mapping[str, float]
_Proof = Callable[[Asked], Document]


def colourways_document(
    piece: Piece,
    findings: Sequence[Finding],
    *,
    code: str,
    shares: Shares | None = None,
    final: bool = False,
    asked: Asked | None = None,
) -> Document:
    """The proof as ``proof_document`` makes it, and where there are colourways a page of each.

    The further views are drawn in the first colourway alone. The other colourways' pages are of
    its paper and, where their words leave the room, at its scale; the pages side by side bear a
    scale of their own. Raises what ``proof_document`` raises.
    """
    wish, offered = asked or Asked(), ways(piece.design)
    proof = partial(proof_document, piece, findings, code=code, shares=shares, final=final)

    def draw(one: Asked) -> Document:
        return proof(asked=one)

    if len(offered) == 1:
        return draw(wish)
    first, others = _coloured(wish, offered[0]), offered[1:]
    document = draw(first)
    paper, scale = paper_of(document), int(document.extra["scale"].removeprefix("1:"))
    same = replace(wish, paper=paper.name, landscape=paper.landscape, views=wish.views[:1])
    further = [_like_the_first(draw, _coloured(same, way), scale) for way in others]
    together = [
        _together(piece, code, shares, wish, paper=paper, offered=offered[at : at + MOST_TOGETHER])
        for at in range(0, len(offered), MOST_TOGETHER)
    ]
    sheets = (*_named(document, offered[0]), *_all_named(further, others), *together)
    return replace(document, sheets=numbered(sheets))


def paper_of(document: Document) -> Paper:
    """The paper of a document's first sheet, as it lies."""
    width, height = document.sheets[0].width, document.sheets[0].height
    turned = (paper.turned(width > height) for paper in PAPERS.values())
    return next(paper for paper in turned if (paper.width, paper.height) == (width, height))


def _coloured(asked: Asked, way: Way) -> Asked:
    view = replace(asked.view, colours=way.colours, foil=way.foil)
    return replace(asked, view=view, colourway=way.name)


def _like_the_first(draw: _Proof, asked: Asked, scale: int) -> Document:
    """At the first one's scale; longer words may leave less room, then at a smaller one."""
    try:
        return draw(replace(asked, scale=scale))
    except DoesNotFit:
        return draw(asked)


def _named(document: Document, way: Way) -> Iterator[Sheet]:
    """The sheets under their colourway's name, by which a reader finds the page."""
    for sheet in document.sheets:
        yield replace(sheet, name=sheet.name.replace("Proof", f"Proof, {way.words}"))


def _all_named(documents: Sequence[Document], offered: Sequence[Way]) -> Iterator[Sheet]:
    for document, way in zip(documents, offered, strict=True):
        yield from _named(document, way)


def _together(
    piece: Piece,
    code: str,
    shares: Shares | None,
    asked: Asked,
    *,
    paper: Paper,
    offered: Sequence[Way],
) -> Sheet:
    kind = ", ".join(each for each in ("Colourways", asked.seen) if each)
    title = TitleBlock(
        piece.design, code, 1, "", studio=asked.studio, issued=asked.issued, document_type=kind
    )
    shown = [_shown(piece, shares, asked.view, paper, way) for way in offered]
    return side_by_side(paper, shown, title)


def _shown(piece: Piece, shares: Shares | None, view: ViewOptions, paper: Paper, way: Way) -> Shown:
    options = replace(view, colours=way.colours, foil=way.foil)
    rows = key_rows(piece, shares, options)
    key: Builder = partial(key_block, lettering=lettering_of(paper), rows=rows, tight=True)
    return Shown(f"Colourway {way.name}", piece, options, words=key)
