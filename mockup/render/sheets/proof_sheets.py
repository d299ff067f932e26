"""The sheets of a proof: drawn views between their dimensions, set among the words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache

from mockup.lengths import format_length
from mockup.piece.placed import Piece
from mockup.render.front_view import front_view
from mockup.render.record import Group, Item, Point, Sheet
from mockup.render.sheets.areas import PAD, Area
from mockup.render.sheets.aspects import (
    Arrangement,
    Aspect,
    Laid,
    Layout,
    Seen,
    caption_hand,
    in_a_column,
    in_a_row,
    laid_out,
)
from mockup.render.sheets.blocks import Blocks, Words
from mockup.render.sheets.cautions import LOOKS_ONLY
from mockup.render.sheets.columns import CLEAR
from mockup.render.sheets.fitting import Fitted, fitted, placed
from mockup.render.sheets.free_spots import Room
from mockup.render.sheets.hatching import hatched
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.measures import Printed, Units
from mockup.render.sheets.overlaps import PICTURE
from mockup.render.sheets.paper import Paper, family, paper_named
from mockup.render.sheets.plans import Plan, plans
from mockup.render.sheets.rulers import bar_size, check_rulers, scale_bar
from mockup.render.sheets.scale import DoesNotFit, require_preferred, scale_words
from mockup.render.sheets.scale_figure import ScaleFigure
from mockup.render.sheets.title_block import DOCUMENT_TYPE
from mockup.render.side_view import plan_view, side_view
from mockup.render.viewpoint import ViewOptions

_DRAW = {"front": front_view, "side": side_view, "plan": plan_view}


@dataclass(frozen=True)
class Asked:
    """How a proof is wished: paper and scale by hand or by fit, what is shown, who draws it.

    ``paper`` is a name of ``PAPERS`` and ``scale`` the n of 1 : n; None leaves either to the fit,
    as it does which way round the sheet lies. ``views`` begin with "front"; those that do not go
    beside it come on a second sheet at the same scale. ``issued`` is printed as it is given.
    ``figure`` stands beside the front view for scale.
    ``view`` says how the piece is drawn (letters on the balloons, a colourway, grey ...);
    ``colourway`` is that colourway's name and ``seen`` how the colours show where they do not show
    as they are ("in grey"): both are printed, and so is ``count`` where a job builds several.
    """

    paper: str | None = None
    landscape: bool | None = None
    scale: int | None = None
    views: tuple[Aspect, ...] = ("front",)
    units: Units = "own"
    studio: str = ""
    issued: date | None = None
    view: ViewOptions = field(default_factory=ViewOptions)
    colourway: str = ""
    seen: str = ""
    count: int = 1
    figure: ScaleFigure | None = None

    @property
    def document_type(self) -> str:
        """What the title block calls the sheet.

        >>> Asked(colourway="B", seen="in grey").document_type
        'Colour proof, colourway B, in grey'
        >>> Asked(count=12).document_type
        'Colour proof, 12 ×'
        """
        many = f"{self.count:,} ×" if self.count > 1 else ""
        way = f"colourway {self.colourway}" if self.colourway else ""
        return ", ".join(each for each in (DOCUMENT_TYPE, many, way, self.seen) if each)


@dataclass(frozen=True)
class Job:
    """One proof being made: the piece, its words, what was asked, and the piece as it is seen."""

    piece: Piece
    words: Words
    asked: Asked
    views: tuple[Seen, ...]

    def fitted(self, views: Sequence[Seen], scale: int | None) -> Fitted:
        """Paper, plan and scale for these views."""
        blocks = cache(lambda lettering: Blocks(lettering, self.words))
        printed = self.printed

        @cache
        def areas(lettering: Lettering, at: int) -> tuple[Area, ...]:
            return laid_out(views, at, lettering, printed).areas()

        return fitted(
            tuple(self._papers()),
            lambda paper: plans(paper, blocks),
            lambda plan, at: areas(plan.lettering, at),
            self.bar,
            require_preferred(scale) if scale is not None else None,
        )

    @property
    def printed(self) -> Printed:
        """How its lengths are printed."""
        return Printed(self.piece.design.unit, self.asked.units)

    def bar(self, plan: Plan, scale: int) -> Point:
        """Width and height of the scale bar, mm."""
        return bar_size(plan.lettering, scale, self.piece.design.unit)

    def laid_out(
        self, views: Sequence[Seen], best: Fitted, arrangement: Arrangement | None = None
    ) -> Layout:
        """Views at the scale that was found."""
        lettering = best.plan.lettering
        return laid_out(views, best.scale, lettering, self.printed, arrangement=arrangement)

    def blocks(self, lettering: Lettering, best: Fitted, sheet: int = 1, sheets: int = 1) -> Blocks:
        """The words of one sheet, once its scale and paper are known."""
        paper = best.plan.paper.name
        title = replace(self.words.title, scale=best.scale, paper=paper, sheet=sheet, sheets=sheets)
        return Blocks(lettering, replace(self.words, title=title))

    def _papers(self) -> Iterator[Paper]:
        """The sheets to try: small first, and each first the way round that suits the piece."""
        asked, extent = self.asked, self.piece.extent
        sizes = (paper_named(asked.paper),) if asked.paper else family(self.piece.design.unit)
        lying = 1.1 * extent.width >= extent.height
        ways = (lying, not lying) if asked.landscape is None else (asked.landscape,)
        return (paper.turned(way) for paper in sizes for way in ways)


@dataclass(frozen=True)
class _Made:
    """A sheet with the room that is left on it, and its first view."""

    room: Room
    first: Laid
    lettering: Lettering


def sheets_of(job: Job) -> tuple[int, tuple[Sheet, ...]]:
    """The scale, and the main sheet with all the views where they fit; else further sheets."""
    front = job.fitted(job.views[:1], job.asked.scale)
    others = job.views[1:]
    together = _beside(job, front) if others else None
    if together is not None:
        return front.scale, _detailed(job, [_main_sheet(job, together, job.views)])
    further = _further(job, front, others) if others else ()
    sheets = 1 + len(further)
    main = _main_sheet(job, front, job.views[:1], sheets)
    numbered = (
        _further_sheet(job, front, layout, number, sheets)
        for number, layout in enumerate(further, start=2)
    )
    return front.scale, _detailed(job, [main, *numbered])


def _detailed(job: Job, made: Sequence[_Made]) -> tuple[Sheet, ...]:
    """The sheets with the detail of a numeral that tucks; most pieces have none."""
    fit, first = job.piece.fit, made[0]
    if fit is None or fit.verdict != "tucks":
        return tuple(each.room.sheet for each in made)
    from mockup.render.sheets.tuck_detail import with_tuck_detail

    return with_tuck_detail(
        [each.room for each in made],
        job.piece,
        first.first,
        printed=job.printed,
        lettering=first.lettering,
        options=job.asked.view,
    )


def _beside(job: Job, front: Fitted) -> Fitted | None:
    """All the views on the front view's paper at its scale, or None where they do not go on it."""
    paper = front.plan.paper
    asked = replace(job.asked, paper=paper.name, landscape=paper.landscape)
    try:
        return replace(job, asked=asked).fitted(job.views, front.scale)
    except DoesNotFit:
        return None


def _main_sheet(job: Job, best: Fitted, views: Sequence[Seen], sheets: int = 1) -> _Made:
    blocks = job.blocks(best.plan.lettering, best, sheets=sheets)
    layout = job.laid_out(views, best)
    return _sheet(job, best, layout, best.plan.set(blocks), "Proof")


def _further(job: Job, front: Fitted, views: Sequence[Seen]) -> tuple[Layout, ...]:
    """The other views on one sheet where they fit on it, else on one each."""
    plan = front.plan.bare(job.blocks(front.plan.lettering, front))
    for arrangement in (in_a_row, in_a_column):
        layout = job.laid_out(views, front, arrangement)
        if placed(layout.areas(), plan.drawing, job.bar(plan, front.scale)):
            return (layout,)
    return tuple(job.laid_out((view,), front) for view in views)


def _further_sheet(job: Job, front: Fitted, layout: Layout, number: int, sheets: int) -> _Made:
    blocks = job.blocks(front.plan.lettering, front, sheet=number, sheets=sheets)
    plan = front.plan.bare(blocks)
    spot = placed(layout.areas(), plan.drawing, job.bar(plan, front.scale))
    if spot is None:
        captions = " and ".join(view.caption.lower() for view in layout.views)
        raise DoesNotFit(
            f"the view {captions} does not fit {plan.paper.words} at "
            f"{scale_words(front.scale)}; take a larger paper or a smaller scale"
        )
    words = plan.set_bare(blocks, LOOKS_ONLY)
    best = Fitted(plan, front.scale, spot)
    return _sheet(job, best, layout, words, f"Proof, sheet {number}")


def _sheet(job: Job, best: Fitted, layout: Layout, words: tuple[Item, ...], name: str) -> _Made:
    plan, unit = best.plan, job.piece.design.unit
    wide, tall = job.bar(plan, best.scale)
    left = best.spot.bar_at == "left"
    corner = (
        plan.frame.x + PAD if left else plan.drawing.right - wide + PAD - CLEAR,
        plan.drawing.bottom - tall + CLEAR / 2,
    )
    laid = layout.at(best.spot.origin)
    items: tuple[Item, ...] = (
        *(item for each in laid for item in _drawn(job, each, plan.lettering)),
        *scale_bar(corner, plan.lettering, best.scale, unit).items,
        *check_rulers(plan.frame, unit),
        *words,
    )
    sheet = Sheet(plan.paper.width, plan.paper.height, items, name=name)
    taken = (*(area.moved(*best.spot.origin) for area in layout.areas()), Area(*corner, wide, tall))
    return _Made(Room(sheet, plan.frame.inset(PAD), taken, words), laid[0], plan.lettering)


def _drawn(job: Job, laid: Laid, lettering: Lettering) -> tuple[Item, ...]:
    """One view between its extension lines and its dimensions."""
    piece = job.piece
    front = laid.seen.aspect == "front"
    picture = _DRAW[laid.seen.aspect](piece, 1 / laid.scale, laid.origin, job.asked.view)
    told = _told(piece) if front else f"{piece.design.title} {laid.seen.caption.lower()}"
    caption = (caption_hand(lettering).at(laid.caption, laid.seen.caption),) if laid.caption else ()
    return (
        *(laid.figure.items(job.asked.view.recolour) if laid.figure else ()),
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
