"""What a finished SVG says and measures: its words, and its dimensions from arrow tip to tip."""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from mockup.lengths import parse_length

SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = r"-?\d+(?:\.\d+)?"
HREF = "{http://www.w3.org/1999/xlink}href"
_PLACED = rf"translate\(({_NUMBER}) ({_NUMBER})\) scale\(({_NUMBER})\)"
_SECOND = re.compile(r"(?<=\.\d)-\d+$")
"""What tells an id of a second view on one sheet from that of the first."""
_TIP = re.compile(rf"M({_NUMBER}) ({_NUMBER}) L")


@dataclass(frozen=True)
class Dimension:
    """One dimension: its names, what it prints, which way it runs, how long it is drawn, mm."""

    names: tuple[str, ...]
    figure: str
    across: bool
    drawn: float
    clear: str = ""

    @property
    def mm(self) -> float:
        """What it prints, in mm."""
        return length(self.figure)


def rooms(clear: str) -> list[tuple[str, str]]:
    """Figures and sides of "1 in clear above and 2 in below"; of "1 in clear" without a side."""
    parts = clear.replace(" clear", "").split(" and ")
    found = [re.fullmatch(r"(.+(?:in|cm)) ?(\w*)", part) for part in parts if part]
    assert None not in found, clear
    return [(each[1], each[2]) for each in found if each]


def length(figure: str) -> float:
    """Millimetres of a printed figure, such as "Ø 30 in" or "21 1/8 in (53.7 cm)"."""
    own, _, other = figure.removeprefix("Ø ").partition(" (")
    if other:
        both = parse_length(own), parse_length(other.rstrip(")"))
        assert abs(both[0] - both[1]) <= 25.4 / 16 + 0.5, figure
    return parse_length(own)


def words(svg: str) -> list[str]:
    """Every line of text in drawing order."""
    found = (each.text or "" for each in ET.fromstring(svg).iter(f"{SVG}text"))
    return [text for text in found if text.strip()]


def groups(svg: str, kind: str) -> list[ET.Element]:
    """Every group of a kind, in drawing order."""
    return [g for g in ET.fromstring(svg).iter(f"{SVG}g") if g.get("class") == kind]


def dimensions(svg: str) -> list[Dimension]:
    """Every dimension of a sheet."""
    return [_dimension(group) for group in groups(svg, "dimension")]


def _dimension(group: ET.Element) -> Dimension:
    told = group.findtext(f"{SVG}title") or ""
    clear = re.search(r" \(([^()]* clear[^()]*)\)", told)
    said = told.replace(clear[0], "") if clear else told
    figure = next(m for m in re.finditer(r"(?:Ø )?\d[^A-Z]*$", said))
    tips = [_tip(path.get("d", "")) for path in group.findall(f"{SVG}path")]
    (x0, y0), (x1, y1) = tips
    names = tuple(re.split(", | and ", said[: figure.start()].strip()))
    across = abs(x1 - x0) > abs(y1 - y0)
    return Dimension(
        names, figure[0], across, max(abs(x1 - x0), abs(y1 - y0)), clear[1] if clear else ""
    )


def _tip(data: str) -> tuple[float, float]:
    found = _TIP.match(data)
    assert found, data
    return float(found[1]), float(found[2])


def balls(svg: str) -> dict[str, dict[str, tuple[float, float, float]]]:
    """By picture and balloon, where on the sheet it is drawn as a ball, and its radius, mm."""
    found: dict[str, dict[str, tuple[float, float, float]]] = {}
    for picture in groups(svg, "picture"):
        for group in picture.iter(f"{SVG}g"):
            if group.get("class") == "balloon" and (placed := _ball(group)):
                own = found.setdefault(picture.get("id", ""), {})
                own[_SECOND.sub("", group.get("id", "").removeprefix("balloon-"))] = placed
    return found


def _ball(group: ET.Element) -> tuple[float, float, float] | None:
    for use in group.iter(f"{SVG}use"):
        if use.get(HREF, "").startswith("#ball-"):
            told = re.fullmatch(_PLACED, use.get("transform", ""))
            assert told, use.get("transform")
            return float(told[1]), float(told[2]), float(told[3])
    return None


def reach(group: ET.Element) -> tuple[float, float]:
    """How far the straight lines and rectangles of a group reach across and down, mm."""
    xs: list[float] = []
    ys: list[float] = []
    for line in group.iter(f"{SVG}line"):
        xs += [float(line.get(key, "0")) for key in ("x1", "x2")]
        ys += [float(line.get(key, "0")) for key in ("y1", "y2")]
    for box in group.iter(f"{SVG}rect"):
        x, y, w, h = (float(box.get(key, "0")) for key in ("x", "y", "width", "height"))
        xs += [x, x + w]
        ys += [y, y + h]
    return max(xs) - min(xs), max(ys) - min(ys)
