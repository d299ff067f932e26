"""The one place where a design meets the geometry: it yields one list of placed balloons."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from mockup.design.model import Design, PanelSpec
from mockup.errors import Fault, FaultsFound
from mockup.packing.clusters import knot_radius, offsets, place_word, places, upright_word
from mockup.packing.frames import Frame, NotAFrame, frame_from
from mockup.packing.neighbours import touching_pairs
from mockup.packing.nesting import crossing
from mockup.packing.settling import Settled, settle
from mockup.panel.fit import Fit, fit_numerals
from mockup.piece.extent import extent
from mockup.piece.opening import Opening, seen_opening
from mockup.piece.placed import Balloon, Cluster, Nestling, Piece, Point3
from mockup.piece.placing import Tied, tie_all

Floats = NDArray[np.float64]
# A default panel plane is still needed when there is no panel, for the window's figures.
_NO_PANEL = PanelSpec(text="", height=None)


def frame_of(design: Design) -> Frame:
    """The frame the design asks for; raises ``FaultsFound`` for one that cannot be built."""
    figures = {f.name: getattr(design.frame, f.name) for f in fields(design.frame)}
    try:
        return frame_from(**{key: each for key, each in figures.items() if key != "path"})
    except NotAFrame as wrong:
        where, what = design.where(design.frame.path), wrong.in_unit(design.unit)
        fault = Fault(where, what, "change its measures")
        raise FaultsFound([fault]) from wrong


def assemble(design: Design) -> Piece:
    """Place every cluster, settle the balloons, fit the numerals and measure the whole.

    Raises ``FaultsFound`` for sections that do not go on the frame.
    """
    frame = frame_of(design)
    tied, wholes = tie_all(design, frame)
    clusters = _clusters(frame, tied)
    placed = _placed(frame, tied)
    owner = np.array([c.index for c in clusters for _ in c.balloons], dtype=np.intp)
    diameters = np.array([c.diameter for c in clusters for _ in c.balloons], dtype=np.float64)
    knots = _knots(clusters, tied, placed)
    # On a mesh every balloon is pressed alike from all sides: it lies as it is tied.
    settled = settle(placed, diameters, knots, **({"max_steps": 0} if design.wall else {}))
    balloons = tuple(_balloons(clusters, placed, knots, settled.centres))
    panel = design.panel or _NO_PANEL
    fit = _fit(design, panel, frame, settled.centres, diameters) if design.panel else None
    plane = panel_plane(panel, frame)
    slab = (plane - panel.thickness / 2, plane + panel.thickness / 2)
    opening = _opening(panel, frame, settled.centres, diameters)
    return Piece(
        design=design,
        frame=frame,
        clusters=clusters,
        balloons=balloons,
        nestling=_nestling(placed, diameters, owner, settled),
        fit=fit,
        extent=extent(frame, design.stand, balloons, fit, slab),
        wholes=wholes,
        opening=opening,
    )


def panel_plane(panel: PanelSpec, frame: Frame) -> float:
    """The z of the numerals' middle plane, mm: just in front of the tube, or in its plane."""
    return (frame.tube + panel.thickness) / 2 if panel.place == "in front" else 0.0


def filled_height(panel: PanelSpec, shrink: float) -> float:
    """The height the numerals stand when filled, mm: measured, or the named height shrunk.

    A foil numeral is named by its flat height and fills to about 0.88 of it (common practice,
    no source; ``limits.foil_shrink``).
    """
    if panel.measured is not None:
        return panel.measured
    return (panel.height or 0.0) * (1 - shrink)


def _knot(frame: Frame, s: float) -> Point3:
    x, y = frame.at(s)
    return float(x), float(y), 0.0


def _knots(clusters: Iterable[Cluster], tied: Iterable[Tied], placed: Floats) -> Floats:
    """Where each balloon's neck is held, (k, 3): at its cluster's knot, where it is not in a second
    ring, which is held where its balloons lie in the valleys of the first."""
    held = np.array([c.knot for c in clusters for _ in c.balloons]).reshape(-1, 3)
    second = np.array([one.out or 0.0 for one in tied for _ in range(one.spec.count)])
    radii = np.array([one.spec.diameter / 2 for one in tied for _ in range(one.spec.count)])
    share = np.divide(second - radii, second, out=np.zeros_like(second), where=second > 0)
    held = held + share[:, None] * (placed - held)
    first = 0
    for one in tied:
        if one.ties:
            held[first : first + one.spec.count] = one.ties
        first += one.spec.count
    return np.asarray(held)


def _clusters(frame: Frame, tied: Iterable[Tied]) -> tuple[Cluster, ...]:
    clusters: list[Cluster] = []
    first = 0
    for index, one in enumerate(tied):
        line = one.member or frame
        nx, ny = one.toward or line.normal(one.s)
        spec = one.spec
        clusters.append(
            Cluster(
                index=index,
                section=one.section.name,
                step=one.step,
                side=one.side,
                kind=spec.kind,
                end_cap=one.end_cap,
                knot=one.knot or _knot(line, one.s),
                normal=(float(nx), float(ny), 0.0),
                turn_deg=one.shape.turn_deg,
                along=one.along,
                frame_deg=line.deg_at(one.s),
                nominal=spec.nominal,
                diameter=spec.diameter,
                strokes=spec.strokes,
                letters=spec.letters,
                balloons=tuple(range(first, first + spec.count)),
                path=spec.path,
                after=one.after,
                loose=bool(one.spots) and one.knot is None,
                flat=one.knot is not None,
                on=one.section.on,
            )
        )
        first += spec.count
    return tuple(clusters)


def _placed(frame: Frame, tied: Iterable[Tied]) -> Floats:
    """Centres before settling, (k, 3): knot + rho (cos phi N + sin phi B)."""
    groups = [_cluster_centres(frame, one) for one in tied]
    return np.concatenate(groups) if groups else np.zeros((0, 3))


def _cluster_centres(frame: Frame, one: Tied) -> Floats:
    if one.spots:
        return np.array(one.spots)
    line = one.member or frame
    nx, ny = one.toward or line.normal(one.s)
    spread = offsets(one.spec.count, one.spec.diameter, one.shape.turn_deg)
    if one.out is not None:
        spread *= one.out / knot_radius(one.spec.count, one.spec.diameter)
    axes = np.array([[nx, ny, 0.0], [0.0, 0.0, 1.0]])
    centres: Floats = np.asarray(_knot(line, one.s)) + spread @ axes
    return centres


def _phis(cluster: Cluster, placed: Floats) -> list[float]:
    """The angles round the knot: even ones, or those at which loose balloons lie."""
    if not cluster.loose:
        return places(len(cluster.balloons), cluster.turn_deg)
    off = placed[list(cluster.balloons)] - np.array(cluster.knot)
    angles = np.degrees(np.arctan2(off[:, 2], off @ np.array(cluster.normal))) % 360.0
    return [float(each) for each in angles]


def _id_of(cluster: Cluster) -> str:
    return f"{cluster.section}.{cluster.side[0].upper()}{cluster.step}"


def _balloons(
    clusters: Iterable[Cluster], placed: Floats, knots: Floats, settled: Floats
) -> Iterable[Balloon]:
    for cluster in clusters:
        phis = _phis(cluster, placed)
        for number, (index, phi) in enumerate(zip(cluster.balloons, phis, strict=True), start=1):
            yield Balloon(
                index=index,
                id=f"{_id_of(cluster)}.{cluster.after + number}",
                cluster=cluster.index,
                section=cluster.section,
                step=cluster.step,
                side=cluster.side,
                place=_place(cluster, number, phi),
                letter=cluster.letters[number - 1],
                nominal=cluster.nominal,
                diameter=cluster.diameter,
                centre=_point(settled[index]),
                placed=_point(placed[index]),
                knot=_point(knots[index]),
                phi_deg=phi,
            )


def _place(cluster: Cluster, number: int, phi: float) -> str:
    """Where a balloon sits round its knot; on a mesh a quad lies flat, two by two."""
    if cluster.flat and len(cluster.balloons) > 1:
        from mockup.piece.wall import QUAD_PLACES  # only a wall has it

        return QUAD_PLACES[number - 1]
    word = place_word(phi, len(cluster.balloons))
    if cluster.on:
        return upright_word(word)
    return "front" if cluster.flat else word


def _point(row: Floats) -> Point3:
    return float(row[0]), float(row[1]), float(row[2])


def _nestling(placed: Floats, diameters: Floats, owner: NDArray[np.intp], s: Settled) -> Nestling:
    worst, pair = crossing(placed, diameters, owner)
    contacts = touching_pairs(s.centres, diameters / 2, 0.0)
    return Nestling(
        crossing=worst,
        crossing_pair=pair,
        swings_deg=tuple(s.swing_deg.tolist()),
        pressed=float(s.pressed),
        contacts=tuple((a, b) for a, b in contacts.tolist()),
    )


def _fit(
    design: Design, panel: PanelSpec, frame: Frame, centres: Floats, diameters: Floats
) -> Fit | None:
    opening = frame.opening(panel.place)
    if opening is None:
        return None
    cx, cy, radius = opening
    return fit_numerals(
        panel.text,
        filled_height(panel, design.limits.foil_shrink),
        widths=panel.widths,
        gap=panel.gap,
        thickness=panel.thickness,
        z0=panel_plane(panel, frame),
        opening_radius=radius,
        opening_centre=(cx, cy),
        centres=centres,
        diameters=diameters,
        raised=panel.raised,
    )


def _opening(panel: PanelSpec, frame: Frame, centres: Floats, diameters: Floats) -> Opening | None:
    disc = frame.opening(panel.place)
    if disc is None:
        return None
    return seen_opening(disc, centres, diameters, panel.thickness, panel_plane(panel, frame))
