"""A job: several pieces, each so many times, for one client and one day."""

from __future__ import annotations

from dataclasses import field, replace
from datetime import date, time
from decimal import Decimal
from pathlib import Path

from mockup.design.model import Design, KeyPath
from mockup.design.setting import SettingSpec, StandsSpec
from mockup.lengths import Unit
from mockup.records import dataclass


@dataclass(frozen=True)
class JobPiece:
    """One piece of a job, ``count`` times; ``file`` is where it was read.

    ``stands`` is where it stands in the job's setting.
    """

    design: Design
    count: int
    file: Path
    path: KeyPath = ()
    stands: StandsSpec = StandsSpec()


@dataclass(frozen=True)
class Job:
    """What is built for one client on one day.

    ``ready`` is the hour at which everything stands, ``helpers`` the pairs of hands beside the
    decorator's own, ``distance`` the way there in the studio's miles or kilometres.
    """

    title: str
    pieces: tuple[JobPiece, ...]
    client: str = ""
    event_date: date | None = None
    venue: str = ""
    ready: time | None = None
    helpers: int = 0
    distance: Decimal = Decimal(0)
    revision: int = 1
    note: str = ""
    file: Path = field(default_factory=Path)
    setting: SettingSpec | None = None

    @property
    def unit(self) -> Unit:
        """The unit in which lengths are shown: that of the first piece."""
        return self.pieces[0].design.unit if self.pieces else "in"

    @property
    def outdoors(self) -> bool:
        """Whether any piece stands outdoors."""
        return any(piece.design.outdoors for piece in self.pieces)

    @property
    def stem(self) -> str:
        """What its outputs are named after."""
        return self.file.name.removesuffix(".toml")

    @property
    def single(self) -> Design | None:
        """The design where the job is one piece, once."""
        only = self.pieces[0] if len(self.pieces) == 1 else None
        return only.design if only and only.count == 1 else None

    def worded(self, design: Design) -> Design:
        """A piece with the job's client, day and place, where it names none of its own."""
        return replace(
            design,
            client=design.client or self.client,
            event_date=design.event_date or self.event_date,
            venue=design.venue or self.venue,
        )
