"""What there is to say of a flat wall: its grid, its face, its picture or word, its mirrors."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from mockup.design.model import WallSpec
from mockup.design.wall_maps import counts, mirrored
from mockup.lengths import format_length
from mockup.packing.meshes import covered_share
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.piece.wall import mesh_of

# A share of a picture's balloons that are off in colour and yet leave it what it is: edges blend.
_FEW = 0.10
# A tenth of a balloon is less than a hand sees of a wall's edge (common practice, no source).
_HIDDEN = 0.1
MIRRORS = ("left/right", "top/bottom")


def wall_findings(piece: Piece, wall: WallSpec) -> Iterator[Finding]:
    """Every finding of the wall."""
    yield _grid(piece, wall)
    yield _edges(piece, wall)
    yield _face(piece, wall)
    if wall.word_rows:
        yield _word(wall)
    if wall.shows.startswith("picture"):
        yield _picture(piece, wall)
    yield from _mirrors(piece, wall)


def _grid(piece: Piece, wall: WallSpec) -> Finding:
    """How many balloons, how far apart, and how many of each colour."""
    mesh, design = mesh_of(piece.design, wall), piece.design
    colours = ", ".join(
        f"{count:,} {design.colours[letter].name} ({letter})"
        for letter, count in counts(wall.rows).items()
    )
    kind = "quads, two by two," if wall.kind == "quad" else "singles"
    return Finding(
        "wall",
        "holds",
        float(len(piece.balloons)),
        None,
        "balloons",
        f"{mesh.columns} columns and {mesh.rows} rows of {kind} on a "
        f"{'staggered' if wall.staggered else 'square'} mesh, "
        f"{format_length(mesh.pitch, design.unit)} apart: {len(piece.balloons):,} balloons, "
        f"{colours}. On a mesh they lie as they are tied: nothing swings.",
    )


def _edges(piece: Piece, wall: WallSpec) -> Finding:
    """How far the balloons reach beyond the frame, or leave it bare, at the worse of both ways."""
    mesh, spec = mesh_of(piece.design, wall), piece.design.frame
    over = {
        "left and right": (mesh.width - spec.width) / 2,
        "top and bottom": (mesh.height - spec.height) / 2,
    }
    where = min(over, key=lambda each: over[each])
    bare = -over[where]
    unit = piece.design.unit
    shows = bare > max(spec.tube, _HIDDEN * wall.diameter)
    beyond = " and ".join(
        f"{format_length(abs(mm), unit)} {'beyond it' if mm >= 0 else 'inside it'} {side}"
        for side, mm in over.items()
    )
    wide, high = (format_length(mm, unit) for mm in (mesh.width, mesh.height))
    return Finding(
        "wall edges",
        "look" if shows else "holds",
        round(bare, 1),
        round(max(spec.tube, _HIDDEN * wall.diameter), 1),
        "mm",
        f"The balloons measure {wide} x {high} and the frame {format_length(spec.width, unit)} x "
        f"{format_length(spec.height, unit)}: they end {beyond}.",
        f"make the frame {wide} x {high}, or fill the balloons to suit it" if shows else "",
    )


def _face(piece: Piece, wall: WallSpec) -> Finding:
    """The share of the face through which the mesh shows, far from the edges."""
    squeeze, limit = piece.design.limits.squeeze, piece.design.limits.daylight
    open_share = 1.0 - covered_share(squeeze, staggered=wall.staggered)
    over = open_share > limit
    instead = "press them closer (a larger squeeze in [limits]), or hang cloth behind the mesh"
    if not wall.staggered and wall.kind == "single":
        instead = f'write mesh = "staggered", {instead}'
    return Finding(
        "daylight",
        "look" if over else "holds",
        round(100 * open_share, 1),
        round(100 * limit, 1),
        "%",
        f"The mesh shows through {open_share:.1%} of the wall's face; {limit:.0%} is the usual "
        "limit.",
        instead if over else "",
    )


def _word(wall: WallSpec) -> Finding:
    from mockup.panel.mosaic import READS_WELL

    small = wall.word_rows < READS_WELL
    return Finding(
        "letters",
        "look" if small else "holds",
        float(wall.word_rows),
        float(READS_WELL),
        "rows",
        f"The {wall.shows} stand {wall.word_rows} balloons high"
        + (", too few to be read with ease." if small else "."),
        "take smaller balloons, a larger wall or fewer letters" if small else "",
    )


def _picture(piece: Piece, wall: WallSpec) -> Finding:
    """The share of the balloons whose colour is far from the picture's."""
    share = wall.far / len(piece.balloons) if piece.balloons else 0.0
    over = share > _FEW
    worst = ""
    if wall.furthest is not None:
        cell = wall.furthest
        name = piece.design.colours[cell.letter].name
        worst = (
            f"; furthest is row {cell.row}, column {cell.column}: {cell.colour} in the picture, "
            f"{name} ({cell.letter}) on the wall, {cell.away:.0f} apart"
        )
    return Finding(
        "picture",
        "look" if over else "holds",
        round(100 * share, 1),
        100 * _FEW,
        "%",
        f"{wall.far:,} of {len(piece.balloons):,} balloons differ from the {wall.shows} by more "
        f"than {wall.difference:g} (CIEDE2000){worst}.",
        "add colours nearer to those of the picture" if over else "",
    )


def _mirrors(piece: Piece, wall: WallSpec) -> Iterator[Finding]:
    """Mirrors are judged where the file asks for them: a word or a picture has none."""
    for which in MIRRORS:
        if which not in (piece.design.mirror or ()):
            continue
        breaks = mirrored(wall.rows, which)
        says = f"Every balloon has the colour of its mirror ({which})."
        if breaks:
            row, column = breaks[0]
            more = f" ({len(breaks) - 1:,} more)" if len(breaks) > 1 else ""
            says = f"Row {row + 1}, column {column + 1} differs from its mirror ({which}){more}."
        yield Finding(
            f"mirror {which}",
            "fails" if breaks else "holds",
            float(len(breaks)),
            0.0,
            "balloons",
            says,
            "change one of the two, or take the mirror out" if breaks else "",
        )


def panels_words(piece: Piece) -> str:
    """How many upright panels pass the doorway one by one, edge on, and how large they are.

    Carried edge on, a panel passes where its narrower measure is no more than the door's height.
    """
    _, high = piece.design.limits.doorway
    spec, unit = piece.design.frame, piece.design.unit
    across = ceil(spec.width / high)
    size = f"{format_length(spec.width / across, unit)} x {format_length(spec.height, unit)}"
    panels = f"{across} panels of {size}"
    return f"build it of {panels}, carry each edge on and join them on the spot, or build it there"
