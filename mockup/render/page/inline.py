"""A sheet's SVG taken apart, to stand inside a page: its definitions, and its groups by name."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from xml.etree.ElementTree import Element, fromstring

from mockup.render.page.curves import share_curves, shortened
from mockup.render.page.own_frames import own_frames
from mockup.render.record import Sheet
from mockup.render.svg import svg_text

_SVG = "{http://www.w3.org/2000/svg}"
_INHERITED = ("stroke-linecap", "stroke-linejoin")
_LINK = "{http://www.w3.org/1999/xlink}href"


@dataclass(frozen=True)
class Inline:
    """Markup of the definitions, and of each top group of a sheet by its kind."""

    definitions: str
    groups: dict[str, str]


def inline(sheet: Sheet) -> Inline:
    """The sheet's top groups as markup for a page; they share one set of definitions."""
    root = fromstring(svg_text(sheet, search_text=False).partition("?>")[2])
    definitions = root.find(f"{_SVG}defs")
    if definitions is None:
        raise ValueError("a sheet's drawing has no definitions")
    share_curves(root, _SVG, definitions)
    own_frames(root, _SVG, definitions)
    for path in definitions.findall(f"{_SVG}path"):
        path.attrib["d"] = shortened(path.attrib["d"])
    _tidy(root, definitions)
    for group in root.iter(f"{_SVG}g"):
        _say_once(group)
    groups = {g.attrib["class"]: markup(g) for g in root.findall(f"{_SVG}g") if "class" in g.attrib}
    return Inline("".join(markup(each) for each in definitions), groups)


def _tidy(root: Element, definitions: Element) -> None:
    """Short references, and no ids but those of definitions, so that none clashes in the page."""
    kept = {each for each in definitions.iter() if "id" in each.attrib}
    for each in root.iter():
        if _LINK in each.attrib:
            each.attrib = {"href": each.attrib.pop(_LINK), **each.attrib}
        if "id" in each.attrib and each not in kept:
            del each.attrib["id"]


def _say_once(group: Element) -> None:
    """What all of a group's members say alike of their strokes, said by the group for them."""
    for key in _INHERITED:
        values = {each.attrib.get(key) for each in group}
        if len(group) > 1 and len(values) == 1 and None not in values and key not in group.attrib:
            group.attrib[key] = group[0].attrib[key]
            for each in group:
                del each.attrib[key]


def markup(element: Element) -> str:
    """An element of a drawing as HTML takes it, without name spaces."""
    name = element.tag.removeprefix(_SVG)
    attributes = "".join(f' {key}="{escape(value)}"' for key, value in element.attrib.items())
    inside = escape(element.text or "", quote=False) + "".join(map(markup, element))
    return f"<{name}{attributes}>{inside}</{name}>" if inside else f"<{name}{attributes}/>"
