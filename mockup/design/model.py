"""What a piece file may say: frozen data with every length in mm and every angle in degrees.

Angles on the frame run clockwise from 12 o'clock. ``path`` fields hold the key path of a thing in
the file ("section", 0, "clusters", 2), so that a later fault can still point at its line.
"""

from __future__ import annotations

from dataclasses import field
from datetime import date
from typing import Literal

from mockup.lengths import Unit
from mockup.records import dataclass

KeyPath = tuple[str | int, ...]
Kind = Literal["single", "pair", "trio", "quad", "five"]
Finish = Literal["matte", "gloss", "pearl", "mirror", "clear"]
Pattern = Literal["alternate", "any", "rows", "spiral", "bands", "blocks", "diamond", "gradual"]
Hand = Literal["right", "left"]
Side = Literal["", "right", "left"]
Member = Literal["", "stand"]
Balance = Literal["even", "left", "right"]
FrameKind = Literal[
    "ring", "arc", "pole", "arch", "square", "hexagon", "heart", "spiral", "path", "wall"
]
PanelPlace = Literal["in front", "inside"]
WallKind = Literal["single", "quad"]

KIND_COUNTS: dict[str, int] = {"single": 1, "pair": 2, "trio": 3, "quad": 4, "five": 5}
LATER = {"later": True}
"""Marks a field that came later: a design that leaves it as it is says what it always said."""

FINISHES: tuple[str, ...] = ("matte", "gloss", "pearl", "mirror", "clear")


@dataclass(frozen=True)
class Pump:
    """A measured pump: ``strokes`` of it fill a balloon to ``gives`` mm."""

    strokes: float = 4.0
    gives: float = 114.3


@dataclass(frozen=True)
class Limits:
    """The editable figures of the trade that the findings are judged against."""

    squeeze: float = 0.10
    crossing: float = 0.25
    swing_deg: float = 45.0
    daylight: float = 0.08
    bare_frame: float = 0.20
    fill_least: float = 0.50
    fill_most: float = 0.95
    colour_difference: float = 10.0
    doorway: tuple[float, float] = (812.8, 2032.0)
    foil_shrink: float = 0.12


@dataclass(frozen=True)
class FrameSpec:
    """The frame: ``outside`` measure and ``tube`` in mm; an arc runs clockwise between angles.

    Poles, arches and hearts have an overall ``height`` (and ``width``) instead of ``outside``,
    arches straight ``legs``; squares, hexagons and hearts bend their corners to ``corner``; a
    spiral begins ``inner`` across and winds round ``turns`` times. A path is SVG path data,
    ``unit`` mm to one of its units.
    """

    kind: FrameKind = "ring"
    outside: float = 762.0
    tube: float = 12.7
    start_deg: float = 0.0
    end_deg: float = 360.0
    path: KeyPath = ("frame",)
    width: float = field(default=0.0, metadata=LATER)
    height: float = field(default=0.0, metadata=LATER)
    legs: float = field(default=0.0, metadata=LATER)
    corner: float = field(default=0.0, metadata=LATER)
    inner: float = field(default=0.0, metadata=LATER)
    turns: float = field(default=0.0, metadata=LATER)
    line: str = field(default="", metadata=LATER)
    unit: float = field(default=1.0, metadata=LATER)
    must_close: bool = field(default=False, metadata=LATER)


@dataclass(frozen=True)
class StandSpec:
    """A pole on a base plate: ``rise`` from the floor to the frame's lowest point, mm."""

    rise: float = 304.8
    plate: float = 406.4
    plate_thickness: float = 8.0
    path: KeyPath = ("stand",)


@dataclass(frozen=True)
class ColourUse:
    """One letter of the design: a colour's plain name, its sRGB as #rrggbb, and its finish."""

    letter: str
    name: str
    srgb: str
    finish: Finish
    path: KeyPath = ()


@dataclass(frozen=True)
class Colourway:
    """Another mapping of every letter (and of the foil), offered beside the first."""

    name: str
    colours: dict[str, ColourUse]
    foil: ColourUse | None = None
    path: KeyPath = ()


@dataclass(frozen=True)
class ClusterSpec:
    """One cluster: ``count`` balloons of ``nominal`` size filled to ``diameter`` (both mm).

    ``strokes`` is what the file said, or None where it gave a diameter. ``letters`` has one letter
    a balloon, from the first balloon round; with ``by_pattern`` they wait for the section's pattern
    to give them. ``double`` is a second ring of balloons tied at the same knot, in the valleys of
    the first. ``turn_deg`` is None where the cluster simply nestles
    into the one before it.
    """

    kind: Kind
    nominal: float
    diameter: float
    strokes: float | None
    letters: str
    turn_deg: float | None = None
    path: KeyPath = ()
    by_pattern: bool = field(default=False, metadata=LATER)
    double: ClusterSpec | None = field(default=None, metadata=LATER)

    @property
    def count(self) -> int:
        """How many balloons the cluster has."""
        return KIND_COUNTS[self.kind]


@dataclass(frozen=True)
class SectionSpec:
    """One stretch of clusters, centred at ``at_deg`` on the frame.

    Where the file gives a share of the frame's length, or a length from its start (mm), that is
    ``at_share`` or ``at_length``, and ``at_deg`` is only the name of a place. ``order``,
    ``starts``, ``hand`` and ``each`` are the figures of its pattern (``symmetry.patterns``).
    ``only`` names the one side that has clusters beside the middle one; on a pole, right is up.
    ``on`` "stand" ties them round the stand's pole, whose length runs up from its base plate.

    ``right`` lists the clusters outward from the middle on the right as seen from the front (at 3
    and 9 o'clock: clockwise), ``left`` on the other side (the same list unless the file says
    otherwise); ``middle`` is None where the two sides
    meet without a middle cluster. End caps are the last of each side. ``whole`` fills the whole
    ring with ``whole_count`` clusters (None: the number that closes best), repeating
    ``middle`` and ``right`` round.
    """

    name: str
    at_deg: float
    middle: ClusterSpec | None
    right: tuple[ClusterSpec, ...]
    left: tuple[ClusterSpec, ...]
    end_right: ClusterSpec | None = None
    end_left: ClusterSpec | None = None
    whole: bool = False
    whole_count: int | None = None
    pattern: Pattern = "alternate"
    path: KeyPath = ()
    only: Side = field(default="", metadata=LATER)
    order: str = field(default="", metadata=LATER)
    starts: int = field(default=1, metadata=LATER)
    hand: Hand = field(default="right", metadata=LATER)
    each: int = field(default=1, metadata=LATER)
    at_share: float | None = field(default=None, metadata=LATER)
    at_length: float | None = field(default=None, metadata=LATER)
    on: Member = field(default="", metadata=LATER)


@dataclass(frozen=True)
class PlaceSpec:
    """A place on the frame: a clock angle, a share of its length, or mm from its start."""

    deg: float | None = None
    share: float | None = None
    mm: float | None = None


@dataclass(frozen=True)
class PortionSpec:
    """One size of a garland's recipe, and its share of the balloons."""

    nominal: float
    diameter: float
    strokes: float | None
    share: float


@dataclass(frozen=True)
class GarlandSpec:
    """A loose garland from ``begins`` to ``ends``, ``width`` mm over all.

    ``coverage`` is the share of its band that may show no gap; a letter that stands in
    ``letters`` twice is asked for twice as often. ``balance`` names the heavier side, if any.
    """

    name: str
    begins: PlaceSpec
    ends: PlaceSpec
    width: float
    coverage: float
    recipe: tuple[PortionSpec, ...]
    letters: str
    seed: int = 1
    balance: Balance = "even"
    path: KeyPath = ()


@dataclass(frozen=True)
class FarCell:
    """A cell of a picture whose colour is far from its balloon's; row and column from 1."""

    row: int
    column: int
    colour: str
    letter: str
    away: float


@dataclass(frozen=True)
class WallSpec:
    """Balloons of one size over a whole mesh: the letter of every cell, row by row from the top.

    "." is a cell without a balloon. ``shows`` says what the map was made from ("letters MIA"); of
    a word ``word_rows`` is its height; of a picture ``far`` counts the cells further (CIEDE2000)
    than ``difference`` from their balloon's colour, and ``furthest`` is the worst of them.
    """

    kind: WallKind
    nominal: float
    diameter: float
    strokes: float | None
    staggered: bool
    rows: tuple[str, ...]
    shows: str = ""
    word_rows: int = 0
    difference: float = 10.0
    far: int = 0
    furthest: FarCell | None = None
    path: KeyPath = ("wall",)


@dataclass(frozen=True)
class PanelSpec:
    """The numerals in the opening. ``height`` is the flat (named) height, mm.

    ``measured`` is a filled height that was measured (then used as it is); ``widths`` maps a
    character to its measured filled width, mm. ``raised`` moves the row up by hand, mm; None lets
    the fit choose.
    """

    text: str
    height: float | None
    measured: float | None = None
    widths: dict[str, float] = field(default_factory=dict)
    foil: ColourUse = ColourUse("", "brass", "#c08a3e", "mirror")
    place: PanelPlace = "in front"
    gap: float = 12.7
    thickness: float = 8.0
    raised: float | None = None
    path: KeyPath = ("panel",)


@dataclass(frozen=True)
class Air:
    """The air somewhere: ``kelvin``, and ``altitude`` in mm or a measured ``pressure`` in Pa."""

    kelvin: float = 294.26
    altitude: float = 0.0
    pressure: float | None = None


@dataclass(frozen=True)
class Climate:
    """The air in which the balloons are filled, and the air in which the piece stands."""

    filled: Air = field(default_factory=Air)
    stands: Air = field(default_factory=Air)
    path: KeyPath = ("climate",)


@dataclass(frozen=True)
class Design:
    """A whole piece file, read and checked for everything that needs no geometry.

    ``mirror`` names the mirrors asked for ("left/right", "top/bottom"); None asks for those that
    the frame and the sections have room for.
    """

    title: str
    frame: FrameSpec
    sections: tuple[SectionSpec, ...]
    colours: dict[str, ColourUse]
    client: str = ""
    event_date: date | None = None
    venue: str = ""
    unit: Unit = "in"
    note: str = ""
    outdoors: bool = False
    overhead: bool = False
    mirror: tuple[str, ...] | None = None
    revision: int = 1
    stand: StandSpec | None = None
    panel: PanelSpec | None = None
    colourways: tuple[Colourway, ...] = ()
    pump: Pump = field(default_factory=Pump)
    limits: Limits = field(default_factory=Limits)
    climate: Climate | None = None
    garlands: tuple[GarlandSpec, ...] = field(default=(), metadata=LATER)
    topper: ClusterSpec | None = field(default=None, metadata=LATER)
    wall: WallSpec | None = field(default=None, metadata=LATER)
    file_name: str = ""
    lines: dict[KeyPath, int] = field(default_factory=dict, repr=False, compare=False)

    def where(self, path: KeyPath) -> str:
        """``file:line`` of a key path, or of the nearest thing that encloses it."""
        while path and path not in self.lines:
            path = path[:-1]
        return f"{self.file_name}:{self.lines.get(path, 1)}"
