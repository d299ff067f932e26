"""The stand, the panel, the pump and the limits of a piece, as its file gives them."""

from __future__ import annotations

from collections.abc import Mapping

from mockup.design.colouring import FOIL_FINISH, Shelf, foil
from mockup.design.faults import FaultList
from mockup.design.model import (
    ColourUse,
    Finish,
    Limits,
    PanelSpec,
    Pump,
    StandSpec,
)
from mockup.design.studio_usual import Usual
from mockup.design.tables import Given

_PUMP, _STAND, _PANEL = (
    Pump(),
    StandSpec(),
    PanelSpec("", None),
)


def stand_spec(table: Given | None) -> StandSpec | None:
    """The stand, where there is one."""
    if table is None:
        return None
    return StandSpec(
        table.get("rise", _STAND.rise),
        table.get("plate", _STAND.plate),
        table.get("plate_thickness", _STAND.plate_thickness),
    )


def pump(written: object, usual: Usual, faults: FaultList) -> Pump:
    """The pump as measured, one of the studio book's by its name, or the usual one."""
    if isinstance(written, Given):
        return Pump(written.get("strokes", _PUMP.strokes), written.get("gives", _PUMP.gives))
    if not isinstance(written, str):
        return usual.pump
    found = usual.named(written)
    if found is None:
        what = f"there is no pump '{written}' in a studio book"
        faults.add(("pump",), what, usual.instead_of(written))
    return found or usual.pump


def limits(table: Given | None, usual: Limits, faults: FaultList) -> Limits:
    """The limits, each the usual one unless the file says otherwise."""
    if table is None:
        return usual
    least, most = _pair(table, "fill", (usual.fill_least, usual.fill_most))
    if least >= most:
        what = "'fill' gives the least first and the most last, and these are not in that order"
        faults.add(table.at("fill"), what, 'write fill = ["50%", "95%"]')
    return Limits(
        squeeze=_own(table, "squeeze", usual.squeeze),
        crossing=_own(table, "crossing", usual.crossing),
        swing_deg=_own(table, "swing", usual.swing_deg),
        daylight=_own(table, "daylight", usual.daylight),
        bare_frame=_own(table, "bare_frame", usual.bare_frame),
        fill_least=least,
        fill_most=most,
        colour_difference=_own(table, "colour_difference", usual.colour_difference),
        doorway=_pair(table, "doorway", usual.doorway),
        foil_shrink=_own(table, "foil_shrink", usual.foil_shrink),
    )


def _own(table: Given, key: str, usual: float) -> float:
    """What the file itself says, before what is usual."""
    return table.get(key, usual) if key in table.written else usual


def _pair(table: Given, key: str, usual: tuple[float, float]) -> tuple[float, float]:
    found: list[float] = table.get(key, []) if key in table.written else []
    return (found[0], found[1]) if len(found) == 2 else usual


def panel_spec(
    table: Given | None, letters: Mapping[str, ColourUse], shelf: Shelf
) -> PanelSpec | None:
    """The numerals, where there are any."""
    if table is None:
        return None
    height: float | None = table.get("height", None)
    measured: float | None = table.get("measured", None)
    _check_heights(table, height, measured, shelf.faults)
    return PanelSpec(
        text=table.get("numerals", ""),
        height=height,
        measured=measured,
        widths=_widths(table),
        foil=_foil(table, letters, shelf),
        place=table.get("place", _PANEL.place),
        gap=table.get("gap", _PANEL.gap),
        thickness=table.get("thickness", _PANEL.thickness),
        raised=table.get("raised", None),
    )


def _check_heights(
    table: Given, height: float | None, measured: float | None, faults: FaultList
) -> None:
    if faults.touches(table.at("height"), table.at("measured")):
        return
    if height is None and measured is None:
        what = "the panel does not say how tall its numerals are"
        faults.add(table.path, what, 'write height = "16in", the flat height they are named by')
    elif height is not None and measured is not None and measured > height:
        what = "the numerals are measured taller than their flat height, and a foil only shrinks"
        faults.add(table.at("measured"), what, "measure the filled height again")


def _widths(table: Given) -> dict[str, float]:
    widths = table.table("widths")
    return {k: v for k, v in widths.values.items() if isinstance(v, float)} if widths else {}


def _foil(table: Given, letters: Mapping[str, ColourUse], shelf: Shelf) -> ColourUse:
    finish: Finish = table.get("finish", FOIL_FINISH)
    written = table.values.get("colour")
    use = foil(written, table.at("colour"), letters, shelf, finish) if written else None
    if use is not None:
        return use
    usual = _PANEL.foil
    return ColourUse("", usual.name, usual.srgb, finish, table.at("colour"))
