"""The same balloons in other colours: nothing is placed, settled or fitted anew."""

from __future__ import annotations

from dataclasses import replace

from mockup.design.model import ClusterSpec, ColourUse, Design, SectionSpec
from mockup.piece.placed import Cluster, Piece

_NO_COLOUR = ColourUse("", "", "", "matte")


def repainted(piece: Piece, design: Design) -> Piece | None:
    """``piece`` as ``design`` colours and names it; None where the balloons would lie otherwise."""
    if _bare(piece.design) != _bare(design):
        return None
    sections = {section.name: section for section in design.sections}
    if not _plain(design) or not all(c.section in sections for c in piece.clusters):
        return None
    specs = [_spec_of(sections[cluster.section], cluster) for cluster in piece.clusters]
    clusters = tuple(
        replace(cluster, letters=spec.letters, path=spec.path)
        for cluster, spec in zip(piece.clusters, specs, strict=True)
    )
    letters = [letter for cluster in clusters for letter in cluster.letters]
    balloons = tuple(
        balloon if balloon.letter == letter else replace(balloon, letter=letter)
        for balloon, letter in zip(piece.balloons, letters, strict=True)
    )
    return replace(piece, design=design, clusters=clusters, balloons=balloons)


def _plain(design: Design) -> bool:
    """Whether every cluster wears the letters it is given: no pattern lays colours over them."""
    return all(section.pattern in ("alternate", "any") for section in design.sections)


def _bare(design: Design) -> Design:
    """A design without what only words and colours say."""
    panel = replace(design.panel, foil=_NO_COLOUR, path=()) if design.panel else None
    return replace(
        design,
        title="",
        client="",
        event_date=None,
        venue="",
        note="",
        mirror=None,
        revision=1,
        unit="in",
        outdoors=False,
        overhead=False,
        colours={},
        colourways=(),
        climate=None,
        panel=panel,
        sections=tuple(_bare_section(each) for each in design.sections),
    )


def _bare_section(section: SectionSpec) -> SectionSpec:
    return replace(
        section,
        middle=_bare_cluster(section.middle),
        right=tuple(_without_colours(each) for each in section.right),
        left=tuple(_without_colours(each) for each in section.left),
        end_right=_bare_cluster(section.end_right),
        end_left=_bare_cluster(section.end_left),
        pattern="any",
        path=(),
    )


def _bare_cluster(spec: ClusterSpec | None) -> ClusterSpec | None:
    return _without_colours(spec) if spec else None


def _without_colours(spec: ClusterSpec) -> ClusterSpec:
    return replace(spec, letters="", path=())


def _spec_of(section: SectionSpec, cluster: Cluster) -> ClusterSpec:
    """What the file says of a placed cluster."""
    if section.whole:
        run = [each for each in (section.middle, *section.right) if each]
        return run[cluster.step % len(run)]
    right = cluster.side == "right"
    cap = section.end_right if right else section.end_left
    if cluster.end_cap and cap:
        return cap
    if cluster.side == "middle" and section.middle:
        return section.middle
    return (section.right if right else section.left)[cluster.step - 1]
