"""Where the pieces of a job stand: a stage, a doorway, a table or a bare floor.

All lengths in mm: ``x`` from the setting's middle to the right, heights from the floor up.
"""

from __future__ import annotations

from typing import Literal

from mockup.design.model import KeyPath
from mockup.records import dataclass

SettingKind = Literal["stage", "doorway", "table", "floor"]
StandsOn = Literal["setting", "floor", "elsewhere"]

DOOR_CLEAR = 812.8
"""Clear width of a doorway, mm: 32 in, ADA Standards 404.2.3 as the Corada guide quotes it."""
ROUTE_CLEAR = 914.4
"""Clear width of a way to walk, mm: 36 in, ADA Standards 403.5.1 (from memory)."""
HEAD_ROOM = 2032.0
"""What hangs higher than this over a way, mm, is no obstacle: 80 in, ADA Standards 404.2.3."""


@dataclass(frozen=True)
class ExitSpec:
    """A way that must stay clear: ``width`` mm of the floor round ``at``."""

    name: str
    at: float
    width: float
    path: KeyPath = ()


@dataclass(frozen=True)
class SettingSpec:
    """A stage or table of ``width`` whose top is ``height`` high, or a doorway's clear opening.

    A bare floor has no height. ``clear`` is the least clear width of a way, None for the
    published one; ``figure`` the height of a person drawn beside it, None for none.
    """

    kind: SettingKind
    width: float
    height: float = 0.0
    clear: float | None = None
    figure: float | None = None
    exits: tuple[ExitSpec, ...] = ()
    path: KeyPath = ("setting",)

    @property
    def top(self) -> float:
        """How high that lies on which its pieces stand, mm."""
        return self.height if self.kind in ("stage", "table") else 0.0


@dataclass(frozen=True)
class StandsSpec:
    """Where a piece stands: its middle at ``at`` (that of its row where there are several).

    ``apart`` is from one to the next, middle to middle, None for evenly along the setting;
    ``up`` how high it hangs above what it stands ``on``; ``forward`` how far it stands before
    the others.
    """

    at: float = 0.0
    apart: float | None = None
    on: StandsOn = "setting"
    up: float = 0.0
    forward: float = 0.0
