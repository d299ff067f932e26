"""The answer of ``mockup suggest`` in the terminal, as lines for the piece file, and as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import click

from mockup.design.clock import clock_words
from mockup.design.clusters import TURN_WORDS, turn_words
from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.design.wishes import Wishes, first_cluster
from mockup.lengths import format_spare
from mockup.suggest.answers import beats, none_words, rings_words
from mockup.suggest.searching import Outcome, Suggested

Larger = list[tuple[float, Outcome]]


def show_answer(design: Design, wishes: Wishes, outcome: Outcome, larger: Larger) -> None:
    """Every design with why it stands where it does; or why there is none."""
    if outcome.stopped:
        click.echo(f"Stopped after {outcome.looked_at:,} of {outcome.total:,}; the best so far:")
    if not outcome.best:
        click.echo("None was found so far." if outcome.stopped else none_words(outcome, design))
        for said in rings_words(larger, design, wishes):
            click.echo(said)
        if larger and larger[-1][1].best:
            _show_one(larger[-1][1], 0, wishes, larger[-1][1].best[0].design)
        return
    for place in range(len(outcome.best)):
        _show_one(outcome, place, wishes, design)
    lacking = wishes.best - len(outcome.best)
    if lacking > 0 and not outcome.stopped:
        click.echo(f"No more than {len(outcome.best)} of {outcome.total:,} designs hold.")
    sample = " (an even sample only: a better one may be left out)" if outcome.thinned else ""
    click.echo(
        f"{outcome.looked_at:,} of {outcome.total:,} designs looked at{sample}; "
        f"{outcome.settled} of them worked out to the last balloon."
    )


def _show_one(outcome: Outcome, place: int, wishes: Wishes, design: Design) -> None:
    own = outcome.best[place]
    click.echo(click.style(f"{place + 1}. {_headline(own)}", bold=True))
    click.echo(f"   {beats(outcome, place, wishes, design.unit)}")
    for line in toml_lines(own.design, wishes):
        click.echo(f"   {line}")
    click.echo()


def _headline(own: Suggested) -> str:
    piece, unit = own.piece, own.design.unit
    parts = [f"{len(piece.balloons)} balloons in {len(piece.clusters)} clusters"]
    if piece.fit is not None:
        parts.append(f"numerals with {format_spare(piece.fit.room, unit)} to spare")
    parts.append(f"{own.expense.minutes:.0f} minutes")
    if own.expense.cost_words:
        parts.append(f"material {own.expense.cost_words}")
    return ", ".join(parts)


def toml_lines(design: Design, wishes: Wishes) -> Iterator[str]:
    """What to write in the piece file for the sections that varied."""
    for section in design.sections:
        if section.name in wishes.sections:
            start = f'{section.name}: at = "{clock_words(section.at_deg)}", {_turn(section)}'
            yield f"{start}clusters = [{', '.join(_run(section))}]{_cap(section)}"


def _turn(section: SectionSpec) -> str:
    """How the first cluster sits, by its word where it has one."""
    spec = first_cluster(section)
    if spec.turn_deg is None:
        return ""
    words = turn_words(spec.turn_deg, spec.kind)
    return f'turn = "{words}", ' if words in TURN_WORDS else f"turn = {spec.turn_deg:g}, "


def _run(section: SectionSpec) -> Iterator[str]:
    for spec in (section.middle, *section.right):
        if spec:
            yield f'{{ {_fill(spec)}, colours = "{spec.letters}" }}'


def _cap(section: SectionSpec) -> str:
    if section.end_right is None:
        return ""
    return f', end_cap = {{ {_fill(section.end_right)}, colours = "{section.end_right.letters}" }}'


def _fill(spec: ClusterSpec) -> str:
    if spec.strokes is not None:
        return f"strokes = {spec.strokes:g}"
    return f'fill = "{spec.diameter:.6g}mm"'


def answer_data(design: Design, wishes: Wishes, outcome: Outcome, larger: Larger) -> dict[str, Any]:
    """Plain data, lengths in mm."""
    return {
        "version": 1,
        "unit": "mm",
        "rank": wishes.rank,
        "total": outcome.total,
        "looked_at": outcome.looked_at,
        "settled": outcome.settled,
        "stopped": outcome.stopped,
        "sample": outcome.thinned,
        "refused": outcome.refused,
        "says": "" if outcome.best or outcome.stopped else none_words(outcome, design),
        "nearest_misses_by": None if outcome.nearest is None else round(outcome.nearest.by, 2),
        "rings": [
            {"outside": round(outside, 3), "works": bool(one.best)} for outside, one in larger
        ],
        "designs": [_design(outcome, n, wishes, design) for n in range(len(outcome.best))],
    }


def _design(outcome: Outcome, place: int, wishes: Wishes, design: Design) -> dict[str, Any]:
    own = outcome.best[place]
    sections = [s for s in own.design.sections if s.name in wishes.sections]
    return {
        "balloons": len(own.piece.balloons),
        "clusters": len(own.piece.clusters),
        "room": None if own.piece.fit is None else round(own.piece.fit.room, 2),
        "minutes": own.expense.minutes,
        "cost": own.expense.cost,
        "says": beats(outcome, place, wishes, design.unit),
        "refused_before": own.refused,
        "sections": [
            {
                "name": section.name,
                "at_deg": section.at_deg,
                "turn_deg": first_cluster(section).turn_deg,
                "a_side": len(section.right),
                "fills": [round(s.diameter, 2) for s in (section.middle, *section.right) if s],
                "strokes": [s.strokes for s in (section.middle, *section.right) if s],
                "end_cap": None
                if section.end_right is None
                else round(section.end_right.diameter, 2),
            }
            for section in sections
        ],
    }
