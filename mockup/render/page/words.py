"""What the client approves, in sentences, and the reply that says so."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote

from mockup.design.model import Design, SectionSpec
from mockup.design.ways import Way
from mockup.lengths import format_length
from mockup.piece.placed import Piece

_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def approved(piece: Piece) -> tuple[str, ...]:
    """Sentences on what is approved: size, frame, balloons, numerals."""
    return tuple(_approved(piece))


def _approved(piece: Piece) -> Iterator[str]:
    design, box = piece.design, piece.extent

    def long(mm: float) -> str:
        return format_length(mm, design.unit)

    yield (
        f"A piece {long(box.width)} wide, {long(box.height)} high and {long(box.depth)} deep "
        f"over all."
    )
    on = (
        f" on a stand that lifts it {long(design.stand.rise)} off the floor" if design.stand else ""
    )
    yield f"{_frame_words(design)}{on}."
    if piece.balloons:
        yield f"{len(piece.balloons):,} latex balloons {_laid_out(piece)}."
    if design.panel and piece.fit:
        what = "Foil numerals" if len(piece.fit.numerals) > 1 else "A foil numeral"
        yield (
            f"{what} “{design.panel.text}”, {long(piece.fit.height)} high when filled, "
            f"{'in front of' if design.panel.place == 'in front' else 'inside'} the frame."
        )


_SHAPES = {
    "ring": "A ring",
    "arc": "An arc of a ring",
    "square": "A square frame",
    "hexagon": "A hexagon frame",
    "spiral": "A spiral frame",
}
"""The frames that are told by their outside measure."""


def _frame_words(design: Design) -> str:
    """The frame and its own measure."""
    spec, unit = design.frame, design.unit
    if spec.kind in _SHAPES:
        across = " diameter" if spec.kind in ("ring", "arc") else ""
        return f"{_SHAPES[spec.kind]} of {format_length(spec.outside, unit)} outside{across}"
    sizes = " x ".join(format_length(mm, unit) for mm in (spec.width, spec.height) if mm)
    article = "An" if spec.kind[0] in "aeiou" else "A"
    name = "frame along a path" if spec.kind == "path" else spec.kind
    return f"{article} {name}" + (f" of {sizes}" if sizes else "")


def _laid_out(piece: Piece) -> str:
    """How the balloons are laid out: over a mesh, or in clusters along the frame."""
    wall = piece.design.wall
    if wall is not None:
        return f"over its mesh, in {len(wall.rows)} rows of {len(wall.rows[0])}"
    ties = sum(not cluster.loose for cluster in piece.clusters)
    sections = piece.design.sections
    garlands = [garland.name for garland in piece.design.garlands]
    parts = (
        f"in {_counted(ties, 'cluster')}" if ties else "",
        _sections(sections) if sections else "",
        f"along the frame ({', '.join(garlands)})" if garlands else "",
    )
    return ", ".join(filter(None, parts))


def _sections(sections: tuple[SectionSpec, ...]) -> str:
    names = [section.name for section in sections]
    if len(names) == 1:
        return f"in one section ({names[0]})"
    several = _COUNTS[len(names)] if len(names) < len(_COUNTS) else str(len(names))
    return f"in {several} sections ({', '.join(names[:-1])} and {names[-1]})"


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}{'' if number == 1 else 's'}"


def approval_words(way: Way, code: str, revision: int) -> str:
    """The sentence that approves.

    >>> approval_words(Way("B", {}, None), "1A2B3C4D", 2)
    'I approve colourway B of proof 1A2B3C4D, revision 2.'
    """
    what = f"{way.words} of " if way.words else ""
    return f"I approve {what}proof {code}, revision {revision}."


def draft_words(way: Way, code: str, revision: int) -> str:
    """How a reply about a draft begins."""
    what = f", {way.words}" if way.words else ""
    return f"About the draft {code}, revision {revision}{what}:"


def reply_link(address: str, subject: str, body: str) -> str:
    """A link that opens a letter (RFC 6068): the address may be empty.

    >>> reply_link("a@b.example", "Proof 1", "Yes, & thanks")
    'mailto:a@b.example?subject=Proof%201&body=Yes%2C%20%26%20thanks'
    """
    return f"mailto:{quote(address, safe='@+.-_')}?subject={quote(subject)}&body={quote(body)}"
