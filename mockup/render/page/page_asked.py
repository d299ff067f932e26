"""How a client's page is wished."""

from __future__ import annotations

from dataclasses import dataclass, field

from mockup.render.sheets.aspects import Aspect
from mockup.render.sheets.measures import Units
from mockup.render.sheets.scale_figure import ScaleFigure
from mockup.render.viewpoint import ViewOptions


@dataclass(frozen=True)
class PageAsked:
    """How a page is wished: the printed ``scale`` (1 : n) and paper (mm as it lies), and the rest
    as for a proof. ``reply_to`` is the address that approvals go to, ``seen`` says how the colours
    show when they do not show as they are ("in grey", "deutan sight").
    """

    scale: int
    paper: tuple[float, float]
    views: tuple[Aspect, ...] = ("front",)
    units: Units = "own"
    studio: str = ""
    reply_to: str = ""
    seen: str = ""
    view: ViewOptions = field(default_factory=ViewOptions)
    figure: ScaleFigure | None = None
