"""The elevation: all the pieces of a job in their setting, to one scale on one sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from mockup.design.job import Job
from mockup.lengths import format_room
from mockup.piece.elevation.standing import Elevation
from mockup.piece.elevation.ways import Way, ways
from mockup.piece.finding import Finding
from mockup.render.dimensions import Dimensioned, dimensioned
from mockup.render.elevation_view import drawn_box, elevation_view
from mockup.render.record import Group, Item, Line, Point, Sheet, Style, Text, walk
from mockup.render.sheets.answers import failed
from mockup.render.sheets.areas import PAD, Area
from mockup.render.sheets.aspects import dimension_heights
from mockup.render.sheets.blocks import Words
from mockup.render.sheets.columns import CLEAR
from mockup.render.sheets.elevation_blocks import (
    BESIDE,
    UNDER,
    ElevationBlocks,
    elevation_answers,
    elevation_cautions,
    mark_items,
    mark_radius,
    rows_of,
)
from mockup.render.sheets.elevation_spans import elevation_spans
from mockup.render.sheets.fitting import Fitted, fitted
from mockup.render.sheets.lettering import Lettering
from mockup.render.sheets.measures import Printed, measured
from mockup.render.sheets.overlaps import PICTURE, require_clear
from mockup.render.sheets.paper import Paper, family, paper_named
from mockup.render.sheets.plans import Plan, plans
from mockup.render.sheets.proof_sheets import Asked
from mockup.render.sheets.rulers import bar_size, check_rulers, scale_bar
from mockup.render.sheets.scale import DoesNotFit, Scaled, scale_words
from mockup.render.sheets.title_block import TitleBlock

DOCUMENT_TYPE = "Elevation"
_CENTRE = Style(stroke="#5b5e64", stroke_width=0.18, dash=(6.0, 1.2, 1.2, 1.2))


@dataclass(frozen=True)
class Drawn:
    """The sheet of an elevation, the scale it is at, as "1:50", and whether it bears letters."""

    sheet: Sheet
    scale: str
    lettered: bool = False


def elevation_sheet(
    job: Job,
    elevation: Elevation,
    findings: Sequence[Finding],
    *,
    code: str,
    codes: Mapping[int, str],
    asked: Asked,
) -> Drawn:
    """The sheet; ``code`` stands for the whole, ``codes`` for each row's piece by its number.

    It is at the scale asked for where that fits, else at the largest preferred one that does.
    Letters are written on balloons that are large enough for them. Raises ``DoesNotFit`` and
    ``LabelsCollide``.
    """
    fails = failed(findings)
    named = ", ".join(dict.fromkeys(finding.name for finding in fails))
    design = replace(
        job.pieces[0].design,
        title=job.title,
        client=job.client,
        event_date=job.event_date,
        venue=job.venue,
        revision=job.revision,
    )
    kind = ", ".join(each for each in (DOCUMENT_TYPE, asked.seen) if each)
    words = Words(
        key=(),
        answers=elevation_answers(findings),
        cautions=elevation_cautions([row[0].piece for row in elevation.rows]),
        title=TitleBlock(
            design, code, 1, "", studio=asked.studio, issued=asked.issued, document_type=kind
        ),
        draft=f"Draft: {len(fails)} {'checks' if len(fails) > 1 else 'check'} of the elevation "
        f"{'fail' if len(fails) > 1 else 'fails'}: {named}"
        if fails
        else "",
        seen=asked.seen,
    )
    made = _Made(elevation, words, asked, dict(codes), ways(elevation))
    best = made.fitted()
    sheet = require_clear(made.sheet(best))
    lettered = any(isinstance(item, Text) and item.role == "letter" for item in walk(sheet.items))
    return Drawn(sheet, scale_words(best.scale), lettered)


class _Made:
    """One elevation being set on a sheet."""

    def __init__(
        self,
        elevation: Elevation,
        words: Words,
        asked: Asked,
        codes: dict[int, str],
        clear: tuple[Way, ...],
    ) -> None:
        self.elevation, self.words, self.asked, self.ways = elevation, words, asked, clear
        self.rows = rows_of(elevation, codes)
        self.printed = Printed(elevation.unit, asked.units, large=True)
        self.box = drawn_box(elevation)
        self.spans = elevation_spans(elevation, clear)

    def blocks(self, lettering: Lettering, words: Words | None = None) -> ElevationBlocks:
        """The words in one lettering."""
        return ElevationBlocks(lettering, words or self.words, self.rows)

    def fitted(self) -> Fitted:
        """Paper, plan and scale: the one asked for, where it fits."""
        try:
            return self._fitted(self.asked.scale)
        except DoesNotFit:
            if self.asked.scale is None:
                raise
            return self._fitted(None)

    def _fitted(self, scale: int | None) -> Fitted:
        blocks = cache(self.blocks)

        @cache
        def areas(lettering: Lettering, at: int) -> tuple[Area, ...]:
            return self.areas(lettering, at)

        return fitted(
            tuple(self._papers()),
            lambda paper: plans(paper, blocks, (BESIDE, UNDER)),
            lambda plan, at: areas(plan.lettering, at),
            self.bar,
            scale,
        )

    def bar(self, plan: Plan, scale: int) -> Point:
        """Width and height of the scale bar, mm."""
        return bar_size(plan.lettering, scale, self.elevation.unit)

    def _papers(self) -> Iterator[Paper]:
        left, low, right, high = self.box
        lying = 1.1 * (right - left) >= high - low
        sizes = (
            (paper_named(self.asked.paper),) if self.asked.paper else family(self.elevation.unit)
        )
        given = self.asked.landscape
        turns = (lying, not lying) if given is None else (given,)
        return (paper.turned(way) for paper in sizes for way in turns)

    def dimensions(self, lettering: Lettering, sheet: Scaled) -> Dimensioned:
        """The dimensions round the whole."""
        outline = (*sheet.at(self.box[0], self.box[3]), *sheet.at(self.box[2], self.box[1]))
        measures = measured(self.spans, sheet.at, self.printed)
        return dimensioned(measures, outline, dimension_heights(lettering))

    def areas(self, lettering: Lettering, scale: int) -> tuple[Area, ...]:
        """Everything that is inked about the origin at 1 : ``scale``."""
        sheet = Scaled(scale)
        boxes = self.dimensions(lettering, sheet).boxes
        unit = lettering.body
        r = mark_radius(unit)
        marks = (Area(x - r, y - r, 2 * r, 2 * r) for x, y, _ in self.marks(unit, sheet))
        return (*(Area(a, b, c - a, d - b) for a, b, c, d in boxes), *marks)

    def marks(self, unit: float, sheet: Scaled) -> list[tuple[float, float, int]]:
        """A mark over the first piece of each row, and over others where there is room."""
        r, placed = mark_radius(unit), list[tuple[float, float, int]]()
        firsts = [row[0] for row in self.elevation.rows]
        others = [one for row in self.elevation.rows for one in row[1:]]
        for one in (*firsts, *others):
            x, y = sheet.at((one.box.x[0] + one.box.x[1]) / 2, one.box.y[1])
            y -= 1.5 * r
            while any(abs(x - a) < 2.3 * r and abs(y - b) < 2.3 * r for a, b, _ in placed):
                if one not in firsts:
                    break
                y -= 2.4 * r
            else:
                placed.append((x, y, one.row))
        return placed

    def sheet(self, best: Fitted) -> Sheet:
        """Everything where it stands."""
        plan, unit = best.plan, self.elevation.unit
        title = replace(self.words.title, scale=best.scale, paper=plan.paper.name)
        words = plan.set(self.blocks(plan.lettering, replace(self.words, title=title)))
        wide, tall = self.bar(plan, best.scale)
        left = best.spot.bar_at == "left"
        corner = (
            plan.frame.x + PAD if left else plan.drawing.right - wide + PAD - CLEAR,
            plan.drawing.bottom - tall + CLEAR / 2,
        )
        items: tuple[Item, ...] = (
            *self.drawing(plan.lettering, Scaled(best.scale, best.spot.origin)),
            *scale_bar(corner, plan.lettering, best.scale, unit).items,
            *check_rulers(plan.frame, unit),
            *words,
        )
        return Sheet(plan.paper.width, plan.paper.height, items, name=DOCUMENT_TYPE)

    def drawing(self, lettering: Lettering, sheet: Scaled) -> tuple[Item, ...]:
        """The picture between its extension lines and its dimensions, marked."""
        laid = self.dimensions(lettering, sheet)
        scale, view = 1 / sheet.scale, self.asked.view
        picture = elevation_view(self.elevation, self.ways, scale, sheet.origin, view)
        low, high = sheet.at(0.0, self.box[1]), sheet.at(0.0, self.box[3])
        centre = Group((Line(low, high, _CENTRE),), PICTURE, "centre line")
        marks = tuple(
            item
            for x, y, row in self.marks(lettering.body, sheet)
            for item in mark_items((x, y), lettering.body, row)
        )
        whole = Group((picture,), PICTURE, "elevation", self.told())
        return (laid.behind, centre, whole, laid.over, Group(marks, "marks", "marks"))

    def told(self) -> str:
        """The picture in words, for whoever cannot see it."""
        unit, box = self.elevation.unit, self.elevation.pieces_box
        pieces = "; ".join(row.says for row in self.rows)
        return (
            f"Elevation of {self.words.title.design.title}: {pieces}; "
            f"{format_room(box.width, unit)} wide, {format_room(box.y[1], unit)} high in all"
        )
