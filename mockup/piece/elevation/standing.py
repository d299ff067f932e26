"""Every piece of a job where it stands in the setting.

Millimetres of the setting: x from its middle to the right, y from the floor up, z to the viewer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path

from mockup.design.job import Job, JobPiece
from mockup.design.setting import SettingSpec
from mockup.lengths import Unit
from mockup.piece.extent import floor
from mockup.piece.placed import Extent, Piece
from mockup.records import dataclass


@dataclass(frozen=True)
class Standing:
    """One piece where it stands: the setting's mm are the piece's own plus ``at`` (x, y, z).

    ``row`` numbers the job's rows from 1, ``number`` the pieces of that row.
    """

    piece: Piece
    row: int
    number: int
    at: tuple[float, float, float]
    over: float

    @property
    def box(self) -> Extent:
        """The room it takes, mm of the setting."""
        own, (x, y, z) = self.piece.extent, self.at
        return Extent(
            (own.x[0] + x, own.x[1] + x), (own.y[0] + y, own.y[1] + y), (own.z[0] + z, own.z[1] + z)
        )


@dataclass(frozen=True)
class Elevation:
    """The setting with every piece that stands in it; lengths are shown in ``unit``."""

    setting: SettingSpec
    standings: tuple[Standing, ...]
    unit: Unit

    @cached_property
    def rows(self) -> tuple[tuple[Standing, ...], ...]:
        """The pieces row by row of the job, each from left to right."""
        numbers = dict.fromkeys(one.row for one in self.standings)
        return tuple(tuple(o for o in self.standings if o.row == row) for row in numbers)

    @property
    def pieces_box(self) -> Extent:
        """The room that all the pieces take together."""
        boxes = [one.box for one in self.standings]
        ranges = [[getattr(box, axis) for box in boxes] for axis in ("x", "y", "z")]
        x, y, z = ((min(low for low, _ in own), max(high for _, high in own)) for own in ranges)
        return Extent(x, y, z)


def elevation_of(job: Job, pieces: Mapping[Path, Piece]) -> Elevation | None:
    """Where the job's pieces stand; None without a setting, or where none stands in it."""
    if job.setting is None:
        return None
    standings = tuple(
        standing
        for row, one in enumerate(job.pieces, start=1)
        if one.stands.on != "elsewhere"
        for standing in _row(job.setting, row, one, pieces[one.file])
    )
    return Elevation(job.setting, standings, job.unit) if standings else None


def _row(setting: SettingSpec, row: int, one: JobPiece, piece: Piece) -> Iterator[Standing]:
    stands = one.stands
    apart = stands.apart if stands.apart is not None else setting.width / one.count
    base = setting.top if stands.on == "setting" else 0.0
    low = floor(piece.frame, piece.design.stand) if piece.design.stand else piece.extent.y[0]
    for number in range(one.count):
        x = stands.at + (number - (one.count - 1) / 2) * apart
        at = (x, base + stands.up - low, stands.forward)
        yield Standing(piece, row, number + 1, at, base)
