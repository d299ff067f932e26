"""From an option to the design it stands for, in the colours that the file began with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mockup.design.clusters import repeated
from mockup.design.model import ClusterSpec, Design, SectionSpec
from mockup.design.wishes import Cap, Wishes, first_cluster
from mockup.design.wishes_fills import Fill
from mockup.suggest.space import Options, Shape, Space

_HALF_STROKES, _HALF_SIZE = 0.5, 0.5 ** (1 / 3)


def design_of(
    design: Design, wishes: Wishes, space: Space, options: Options, number: int
) -> Design:
    """The whole design of one option: the sections that vary rebuilt, everything else kept."""
    shape = space.shapes[options.shape]
    fills = [wishes.fills[int(place)] for place in options.fills[number]]
    crescents = zip(shape.sides, shape.places, strict=True)
    own = dict(zip(wishes.sections, crescents, strict=True))
    sections = tuple(
        _rebuilt(section, shape, fills, own[section.name]) if section.name in own else section
        for section in design.sections
    )
    return replace(design, sections=sections)


def _rebuilt(
    section: SectionSpec, shape: Shape, fills: list[Fill], own: tuple[int, float]
) -> SectionSpec:
    """A section with ``own`` clusters a side and the angle at which it sits."""
    a_side, at_deg = own
    fills = fills[: a_side + int(shape.middle)]
    run = list(_run(section, shape, fills))
    side = tuple(run[1:]) if shape.middle else tuple(run)
    cap = _cap(section, shape.cap, run[-1], fills[-1]) if shape.has_cap else None
    return replace(
        section,
        at_deg=at_deg,
        at_share=None,
        at_length=None,
        middle=run[0] if shape.middle else None,
        right=side,
        left=side,
        end_right=cap,
        end_left=cap,
    )


def _run(section: SectionSpec, shape: Shape, fills: list[Fill]) -> Iterator[ClusterSpec]:
    """The clusters outward: letters as the file has them, its last two repeating beyond."""
    listed = [spec for spec in (section.middle, *section.right) if spec]
    first = first_cluster(section)
    for step, fill in enumerate(fills):
        yield replace(
            first,
            diameter=fill.diameter,
            strokes=fill.strokes,
            letters=_letters(listed, step, first.count),
            turn_deg=shape.turn_deg if step == 0 else None,
        )


def _letters(listed: list[ClusterSpec], step: int, count: int) -> str:
    last = len(listed) - 1
    if step > last:
        step = last - (step - last) % min(2, len(listed))
    return repeated(listed[step].letters, count)


def _cap(section: SectionSpec, cap: Cap, last: ClusterSpec, fill: Fill) -> ClusterSpec:
    size = halved(fill) if cap == "half" or cap is None else cap
    if section.end_right is not None:
        return replace(section.end_right, diameter=size.diameter, strokes=size.strokes)
    letters = repeated(last.letters[0], 2)
    return ClusterSpec("pair", last.nominal, size.diameter, size.strokes, letters, path=last.path)


def halved(fill: Fill) -> Fill:
    """Half the volume of a fill, told as it was told.

    >>> halved(Fill(100.0, 4.0)).strokes, round(halved(Fill(100.0)).diameter, 2)
    (2.0, 79.37)
    """
    strokes = None if fill.strokes is None else fill.strokes * _HALF_STROKES
    return Fill(fill.diameter * _HALF_SIZE, strokes)
