"""The colour proof: a dimensioned, true-scale drawing with everything a client approves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache

from mockup.errors import MockupError
from mockup.lengths import format_length
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.record import Document, Group, Item, Point, Sheet
from mockup.render.sheets.answers import answers, failed
from mockup.render.sheets.areas import PAD, Area
from mockup.render.sheets.aspects import (
    Aspect,
    Laid,
    Layout,
    caption_hand,
    in_a_column,
    in_a_row,
    laid_out,
)
from mockup.render.sheets.cautions import LOOKS_ONLY, cautions_for
from mockup.render.sheets.columns import CLEAR, Words
from mockup.render.sheets.fitting import Fitted, fitted, placed
from mockup.render.sheets.hatching import hatched
from mockup.render.sheets.key import key_rows
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.measures import Units
from mockup.render.sheets.overlaps import PICTURE, require_clear
from mockup.render.sheets.paper import Paper, family, paper_named
from mockup.render.sheets.plans import Plan, further_plan, plans
from mockup.render.sheets.rulers import bar_size, check_rulers, scale_bar
from mockup.render.sheets.scale import DoesNotFit, require_preferred, scale_words
from mockup.render.sheets.title_block import TitleBlock
from mockup.render.side_view import plan_view, side_view
from mockup.render.viewpoint import ViewOptions

_DRAW = {"front": front_view, "side": side_view, "plan": plan_view}


class NotFinal(MockupError):
    """A final proof was asked of a piece whose checks fail."""

    exit_code = 1


@dataclass(frozen=True)
class Asked:
    """How a proof is wished: paper and scale by hand or by fit, what is shown, who draws it.

    ``paper`` is a name of ``PAPERS`` and ``scale`` the n of 1 : n; None leaves either to the fit,
    as it does which way round the sheet lies. ``views`` begin with "front"; those that do not go
    beside it come on a second sheet at the same scale. ``issued`` is printed as it is given.
    ``view`` says how the piece is drawn (letters on the balloons, a colourway, grey ...).
    """

    paper: str | None = None
    landscape: bool | None = None
    scale: int | None = None
    views: tuple[Aspect, ...] = ("front",)
    units: Units = "own"
    studio: str = ""
    issued: date | None = None
    view: ViewOptions = field(default_factory=ViewOptions)


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
        answers=answers(piece, findings),
        cautions=tuple(cautions_for(piece)),
        title=TitleBlock(piece.design, code, 1, "", studio=wish.studio, issued=wish.issued),
        draft=f"Draft: {_counted(fails)}" if fails else "",
    )
    scale, sheets = _sheets(piece, words, wish)
    return Document(
        tuple(require_clear(sheet) for sheet in sheets),
        title=piece.design.title,
        author=wish.studio,
        subject=f"Colour proof {code}, revision {piece.design.revision}",
        keywords=("colour proof", code),
        extra={"scale": scale_words(scale)},
    )


def _counted(fails: Sequence[Finding]) -> str:
    """How many checks fail, and which: "2 checks fail: nestle, fill"."""
    named = ", ".join(dict.fromkeys(finding.name for finding in fails))
    return f"{len(fails)} {'check fails' if len(fails) == 1 else 'checks fail'}: {named}"


def _sheets(piece: Piece, words: Words, wish: Asked) -> tuple[int, tuple[Sheet, ...]]:
    """The scale, and the main sheet with all the views where they fit; else further sheets."""
    front = _fitted(piece, words, wish, wish.views[:1], wish.scale)
    others = wish.views[1:]
    together = _beside(piece, words, wish, front) if others else None
    if together is not None:
        return front.scale, (_main_sheet(piece, words, together, wish, views=wish.views),)
    further = _further(piece, words, front, wish, others) if others else ()
    sheets = 1 + len(further)
    main = _main_sheet(piece, words, front, wish, views=wish.views[:1], sheets=sheets)
    numbered = (
        _further_sheet(piece, words, front, wish, layout, number=n, sheets=sheets)
        for n, layout in enumerate(further, start=2)
    )
    return front.scale, (main, *numbered)


def _beside(piece: Piece, words: Words, wish: Asked, front: Fitted) -> Fitted | None:
    """All the views on the front view's paper at its scale, or None where they do not go on it."""
    paper = front.plan.paper
    same = replace(wish, paper=paper.name, landscape=paper.landscape)
    try:
        return _fitted(piece, words, same, wish.views, front.scale)
    except DoesNotFit:
        return None


def _fitted(
    piece: Piece, words: Words, wish: Asked, views: tuple[Aspect, ...], scale: int | None
) -> Fitted:
    @cache
    def areas(lettering: Lettering, at: int) -> tuple[Area, ...]:
        return laid_out(piece, views, at, wish.units, lettering).areas()

    unit = piece.design.unit
    return fitted(
        tuple(_papers(piece, wish)),
        lambda paper: plans(paper, words),
        lambda plan, at: areas(plan.lettering, at),
        lambda plan, at: bar_size(plan.lettering, at, unit),
        require_preferred(scale) if scale is not None else None,
    )


def _papers(piece: Piece, wish: Asked) -> Iterator[Paper]:
    """The sheets to try: small first, and each first the way round that suits the piece."""
    sizes = (paper_named(wish.paper),) if wish.paper else family(piece.design.unit)
    lying = 1.1 * piece.extent.width >= piece.extent.height
    ways = (lying, not lying) if wish.landscape is None else (wish.landscape,)
    return (paper.turned(way) for paper in sizes for way in ways)


def _main_sheet(
    piece: Piece,
    words: Words,
    best: Fitted,
    wish: Asked,
    *,
    views: tuple[Aspect, ...],
    sheets: int = 1,
) -> Sheet:
    title = replace(words.title, scale=best.scale, paper=best.plan.paper.name, sheets=sheets)
    plan = best.plan.with_words(replace(words, title=title))
    layout = laid_out(piece, views, best.scale, wish.units, plan.lettering)
    return _sheet(piece, replace(best, plan=plan), layout, wish.view, name="Proof")


def _further(
    piece: Piece, words: Words, front: Fitted, wish: Asked, views: tuple[Aspect, ...]
) -> tuple[Layout, ...]:
    """The other views on one sheet where they fit on it, else on one each."""
    lettering = front.plan.lettering
    plan = further_plan(front.plan, words.title, LOOKS_ONLY)
    for arrangement in (in_a_row, in_a_column):
        layout = laid_out(piece, views, front.scale, wish.units, lettering, arrangement=arrangement)
        if _origin(piece, layout, plan):
            return (layout,)
    return tuple(laid_out(piece, (each,), front.scale, wish.units, lettering) for each in views)


def _origin(piece: Piece, layout: Layout, plan: Plan) -> Point | None:
    bar = bar_size(plan.lettering, layout.scale, piece.design.unit)
    return placed(layout.areas(), plan.drawing, bar)


def _further_sheet(
    piece: Piece,
    words: Words,
    front: Fitted,
    wish: Asked,
    layout: Layout,
    *,
    number: int,
    sheets: int,
) -> Sheet:
    paper = front.plan.paper
    title = replace(words.title, scale=front.scale, paper=paper.name, sheet=number, sheets=sheets)
    plan = further_plan(front.plan, title, LOOKS_ONLY)
    origin = _origin(piece, layout, plan)
    if origin is None:
        captions = " and ".join(view.caption.lower() for view in layout.views)
        raise DoesNotFit(
            f"the view {captions} does not fit {paper.words} at {scale_words(front.scale)}; "
            "take a larger paper or a smaller scale"
        )
    best = Fitted(plan, front.scale, origin)
    return _sheet(piece, best, layout, wish.view, name=f"Proof, sheet {number}")


def _sheet(piece: Piece, best: Fitted, layout: Layout, options: ViewOptions, *, name: str) -> Sheet:
    plan, unit = best.plan, piece.design.unit
    tall = bar_size(plan.lettering, best.scale, unit)[1]
    corner = (plan.frame.x + PAD, plan.drawing.bottom - tall + CLEAR / 2)
    items: tuple[Item, ...] = (
        *(item for laid in layout.at(best.origin) for item in _drawn(piece, laid, plan, options)),
        *scale_bar(corner, plan.lettering, best.scale, unit).items,
        *check_rulers(plan.frame, unit),
        *plan.items,
    )
    return Sheet(plan.paper.width, plan.paper.height, items, name=name)


def _drawn(piece: Piece, laid: Laid, plan: Plan, options: ViewOptions) -> tuple[Item, ...]:
    """One view between its extension lines and its dimensions."""
    front = laid.seen.aspect == "front"
    picture = _DRAW[laid.seen.aspect](piece, 1 / laid.scale, laid.origin, options)
    told = _told(piece) if front else f"{piece.design.title} {laid.seen.caption.lower()}"
    caption = (
        (caption_hand(plan.lettering).at(laid.caption, laid.seen.caption),) if laid.caption else ()
    )
    return (
        *(hatched(piece.window, laid.on_sheet.at) if front and piece.fit else ()),
        laid.dimensions.behind,
        Group((picture,), kind=PICTURE, name=laid.seen.caption.lower(), title=told),
        laid.dimensions.over,
        *caption,
    )


def _told(piece: Piece) -> str:
    """The picture in words, for whoever cannot see it."""
    unit, box = piece.design.unit, piece.extent
    return (
        f"Front view of {piece.design.title}: {format_length(box.width, unit)} wide, "
        f"{format_length(box.height, unit)} high, {len(piece.balloons)} balloons"
    )
