"""Do the colours keep the pattern that is meant?"""

from __future__ import annotations

from collections.abc import Iterator

from mockup.design.model import SectionSpec
from mockup.packing.clusters import places
from mockup.piece.finding import Finding
from mockup.piece.patterning import order_of, patterned
from mockup.piece.placed import Cluster, Piece
from mockup.symmetry.patterns import Laid, Order, pattern_letters


def patterns(piece: Piece) -> Iterator[Finding]:
    """Each section that asks for rows, a spiral, bands, blocks, diamonds or a gradual change."""
    for section in patterned(piece.design):
        run = sorted(
            (c for c in piece.clusters if c.section == section.name and not c.after), key=_along
        )
        if not run:
            continue
        broken = list(_broken(piece, section, run)) or list(_unmet(piece, section, run))
        words = _meant(piece, section)
        if not broken:
            says = f"The {section.name} section keeps its pattern: {words}."
            yield Finding("pattern", "holds", 0.0, 0.0, "balloons", says)
            continue
        index, letter = broken[0]
        found = piece.balloons[index].letter
        more = f" ({len(broken) - 1} more)" if len(broken) > 1 else ""
        yield Finding(
            "pattern",
            "fails",
            float(len(broken)),
            0.0,
            "balloons",
            f"The {piece.balloon_words(index)} is {found}, where the pattern ({words}) "
            f"wants {letter}{more}.",
            f'make it {letter}, or write pattern = "any"',
            tuple(each for each, _ in broken),
        )


def _along(cluster: Cluster) -> float:
    return cluster.along


def _meant(piece: Piece, section: SectionSpec) -> str:
    order = order_of(piece.design, section)
    colours = ", ".join(order.letters)
    if section.pattern == "spiral":
        return f"a {order.hand}-hand spiral of {colours}"
    if section.pattern in ("bands", "blocks"):
        return f"{section.pattern} of {order.each} in {colours}"
    said = {"gradual": "a gradual change through", "diamond": "diamonds of"}
    return f"{said.get(section.pattern, 'straight rows of')} {colours}"


def _laid(run: list[Cluster]) -> list[Laid]:
    return [Laid(c.step, tuple(places(len(c.balloons), c.turn_deg))) for c in run]


def _broken(piece: Piece, section: SectionSpec, run: list[Cluster]) -> Iterator[tuple[int, str]]:
    """Each balloon that is not as the pattern wants it, in the rotation that wants least."""
    order = order_of(piece.design, section)
    tries = [
        pattern_letters(
            section.pattern, _laid(run), Order(turned, order.starts, order.hand, order.each)
        )
        for turned in _rotations(order.letters, section.pattern)
    ]
    yield from min((list(_differing(run, each)) for each in tries), key=len)


def _rotations(letters: str, pattern: str) -> list[str]:
    """The order begun at each of its colours, where it makes no difference which comes first."""
    if pattern in ("gradual", "diamond"):
        return [letters]
    return [letters[k:] + letters[:k] for k in range(len(letters))]


def _differing(run: list[Cluster], wanted: list[str]) -> Iterator[tuple[int, str]]:
    for cluster, letters in zip(run, wanted, strict=True):
        for index, own, other in zip(cluster.balloons, cluster.letters, letters, strict=True):
            if own != other:
                yield index, other


def _unmet(piece: Piece, section: SectionSpec, run: list[Cluster]) -> Iterator[tuple[int, str]]:
    """Where a spiral that goes all the way round does not meet itself."""
    closed = piece.frame.closed and not section.on
    if not (section.whole and closed and section.pattern == "spiral"):
        return
    order = order_of(piece.design, section)
    last, first = run[-1], run[0]
    way = 1.0 if order.hand == "right" else -1.0
    onward = _laid([last, first])
    half = 180.0 / len(first.balloons)
    before = dict(zip((round(p) % 360 for p in onward[0].phis_deg), last.letters, strict=True))
    for index, phi, letter in zip(first.balloons, onward[1].phis_deg, first.letters, strict=True):
        meets = before.get(round(phi - way * half) % 360)
        if meets is not None and meets != letter:
            yield index, meets
