"""The stand's pole as a member: what goes round it, from its base plate up to the frame."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from math import floor as floor_of

from mockup.design.model import Design, SectionSpec
from mockup.errors import Fault, FaultsFound
from mockup.lengths import Unit, format_length, written_length
from mockup.packing.frames import Frame
from mockup.packing.poles import Post
from mockup.piece.extent import feet, floor, foot
from mockup.piece.tying import Tied, mark_of
from mockup.records import dataclass

# A place may miss by this much, mm: less than half of what lengths are written to.
_SLACK = 0.8
_EIGHTH, _MILLIMETRE = 25.4 / 8, 1.0


def post_of(design: Design, frame: Frame, section: SectionSpec) -> Post:
    """The stand's pole from the top of its plate to the frame; raises ``FaultsFound`` without one.

    ``section`` is whose fault it is where there is no such pole, or more than one.
    """
    stand, across = design.stand, feet(frame)
    where = design.where((*section.path, "on"))
    if stand is None or len(across) > 1:
        what = (
            f"this frame stands on {len(across)} poles, and a section goes round one"
            if stand
            else "the piece has no stand"
        )
        raise FaultsFound([Fault(where, what, "tie it to the frame: take out 'on'")])
    low, high = floor(frame, stand) + stand.plate_thickness, foot(frame)
    if high - low <= frame.tube:
        rise = format_length(stand.rise, design.unit)
        what = f"a stand that rises {rise} leaves no pole between its plate and the frame"
        more = written_length(_up(stand.plate_thickness + 2 * frame.tube, design.unit), design.unit)
        raise FaultsFound([Fault(where, what, f'write rise = "{more}" or more')])
    return Post(across[0], low, high, frame.tube)


@dataclass(frozen=True)
class _Reach:
    """How far a section's clusters go down from its mark (balloons too) and up (knots), mm."""

    down: float
    up: float

    @property
    def whole(self) -> float:
        return self.down + self.up


def post_faults(design: Design, post: Frame, tied: Sequence[Tied]) -> Iterator[Fault]:
    """A section that does not go on the stand's pole: where it would, or the largest that does.

    Its balloons stay above the plate and its knots on the pole. Reaches grow with the balloons,
    so that the largest that works follows from their ratio.
    """
    section, mark = tied[0].section, mark_of(tied[0].section, post)
    reach = _Reach(
        max(one.spec.diameter / 2 - one.along for one in tied),
        max(one.along for one in tied),
    )
    if section.whole:  # it fills the pole from its mark to both ends, wherever on it that is
        reach = _Reach(0.0, 0.0)
    if reach.down <= mark + _SLACK and mark + reach.up <= post.length + _SLACK:
        return
    least, most = _up(reach.down, design.unit), _down(post.length - reach.up, design.unit)
    yield (_too_short if least > most else _misplaced)(design, post, tied, reach)


def _too_short(design: Design, post: Frame, tied: Sequence[Tied], reach: _Reach) -> Fault:
    unit, section = design.unit, tied[0].section
    needs, has = (format_length(mm, unit) for mm in (reach.whole, post.length))
    # A step of room is left, so that a place that can be written lies between the ends.
    room = max(post.length - _step(unit), _step(unit))
    fill = max(one.spec.diameter for one in tied) * room / reach.whole
    thick = design.stand.plate_thickness if design.stand else 0.0
    largest = written_length(_down(fill, unit), unit)
    rise = written_length(_up(reach.whole + thick + _step(unit), unit), unit)
    return Fault(
        design.where(section.path),
        f"section '{section.name}' needs {needs} of the stand's pole, which has {has}",
        f'fill its largest balloons to {largest} at most, or write [stand] rise = "{rise}" or more',
    )


def _misplaced(design: Design, post: Frame, tied: Sequence[Tied], reach: _Reach) -> Fault:
    unit, section = design.unit, tied[0].section
    mark = mark_of(section, post)
    into, over = reach.down - mark, mark + reach.up - post.length
    what = (
        f"reaches {format_length(into, unit)} into the stand's base plate"
        if into > _SLACK
        else f"runs {format_length(over, unit)} past the top of the stand's pole"
    )
    least = written_length(_up(reach.down, unit), unit)
    most = written_length(_down(post.length - reach.up, unit), unit)
    between = f'from "{least}" to "{most}"' if least != most else f'"{least}"'
    where = design.where((*section.path, "at"))
    return Fault(where, f"section '{section.name}' {what}", f"write an 'at' {between}")


def _step(unit: Unit) -> float:
    """The step in which lengths are written, mm."""
    return _EIGHTH if unit == "in" else _MILLIMETRE


def _up(mm: float, unit: Unit) -> float:
    """A length that is no less, mm, as it can be written."""
    return ceil((mm - _SLACK / 2) / _step(unit)) * _step(unit)


def _down(mm: float, unit: Unit) -> float:
    """A length that is no more, mm, as it can be written."""
    return floor_of((mm + _SLACK / 2) / _step(unit)) * _step(unit)
