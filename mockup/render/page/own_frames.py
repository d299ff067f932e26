"""Balloons of a drawing, each in a frame of its own: its centre is the origin, its radius is 1.

A balloon's parts all stand at its centre and have its size, so that they need to say so only once;
and balloons that are cut alike by those round them, as on a wall, are kept once and placed.
"""

from __future__ import annotations

import re
from collections import defaultdict
from itertools import takewhile
from xml.etree.ElementTree import Element, SubElement

import numpy as np
from numpy.typing import NDArray

_PLACED = re.compile(r"translate\((\S+) (\S+)\)(?: scale\((\S+)\))?")
_DRAWN = re.compile(r"[MLAZ\d.,eE+\- ]*")
_STEP = re.compile(r"([MLAZ])([^MLAZ]*)")
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?")
_CLIP = re.compile(r"url\(#(.+)\)")
_TAKES = {"M": 2, "L": 2, "A": 7, "Z": 0}
SLACK = 0.0015
"""Balloons whose every figure is nearer than this, in radii, are drawn alike."""

Frame = tuple[float, float, float]
"""Centre and radius of a balloon on the sheet, mm."""
Figures = NDArray[np.float64]
_MEASURES = ("transform", "d", "stroke-width")


def own_frames(root: Element, tag: str, definitions: Element) -> None:
    """Put each balloon of ``root`` into its own frame; what repeats goes to ``definitions``.

    ``tag`` is the name space of the drawing's elements, in braces. Letters stay as they are.
    """
    clips = _Clips(tag, definitions)
    balloons = [g for g in root.iter(f"{tag}g") if g.attrib.get("class") == "balloon"]
    framed = [own for each in balloons if (own := _framed(each, tag, clips)) is not None]
    kept: dict[str, list[tuple[Figures, Element]]] = defaultdict(list)
    for own in framed:
        _keep_once(own, clips, kept)
    clips.forget_unused(root)


class _Clips:
    """The clips of a drawing: those on the sheet, and those of balloons in their own frames."""

    def __init__(self, tag: str, definitions: Element) -> None:
        self.tag, self.definitions = tag, definitions
        every = definitions.findall(f"{tag}clipPath")
        self.data = {each.attrib["id"]: each[0].attrib["d"] for each in every}
        self.own: dict[str, str] = {}

    def of(self, element: Element) -> str:
        """The path data that an element is clipped to; empty for none."""
        found = _CLIP.fullmatch(element.attrib.get("clip-path", ""))
        return self.data[found[1]] if found else ""

    def move(self, element: Element, frame: Frame) -> None:
        """Clip an element, that is in a balloon's frame now, to what clipped it on the sheet."""
        data = moved(self.of(element), frame)
        if data not in self.own:
            self.own[data] = name = f"c{len(self.own) + 1}"
            self.data[name] = data
            made = SubElement(self.definitions, f"{self.tag}clipPath", {"id": name})
            SubElement(made, f"{self.tag}path", {"d": data})
        element.attrib["clip-path"] = f"url(#{self.own[data]})"

    def forget_unused(self, root: Element) -> None:
        """Take out the clips that nothing is clipped to any more."""
        used = {_CLIP.sub(r"\1", each.attrib.get("clip-path", "")) for each in root.iter()}
        for each in self.definitions.findall(f"{self.tag}clipPath"):
            if each.attrib["id"] not in used:
                self.definitions.remove(each)


def _framed(group: Element, tag: str, clips: _Clips) -> Element | None:
    """The part of a balloon's group that is now in its frame; none where it is drawn otherwise."""
    parts = [each for each in group if each.tag != f"{tag}title"]
    frame = next((_place(use) for part in parts for use in part.iter(f"{tag}use")), None)
    plain = list(takewhile(lambda part: _can_move(part, tag, clips), parts))
    if frame is None or not plain:
        return None
    own = Element(f"{tag}g", {"transform": _row("translate", frame[:2]) + _row("scale", frame[2:])})
    for part in plain:
        for each in part.iter():
            _move(each, frame, clips)
        group.remove(part)
        own.append(part)
    group.insert(len(group) - len(parts) + len(plain), own)
    return own


def _place(use: Element) -> Frame | None:
    found = _PLACED.fullmatch(use.attrib.get("transform", ""))
    return (float(found[1]), float(found[2]), float(found[3] or 1.0)) if found else None


def _can_move(part: Element, tag: str, clips: _Clips) -> bool:
    """Whether it is made of nothing but placed symbols, arcs and lines, and clips of these."""
    return all(_is_plain(each, tag, clips) for each in part.iter())


def _is_plain(each: Element, tag: str, clips: _Clips) -> bool:
    if each.tag == f"{tag}use":
        return _place(each) is not None
    drawn = each.attrib.get("d", "") if each.tag == f"{tag}path" else clips.of(each)
    known = each.tag == f"{tag}path" or (each.tag == f"{tag}g" and "transform" not in each.attrib)
    return known and _DRAWN.fullmatch(drawn) is not None


def _move(each: Element, frame: Frame, clips: _Clips) -> None:
    """One element of a balloon from the sheet into the balloon's frame."""
    (x, y, r), place, given = frame, _place(each), each.attrib
    if place == frame:
        del given["transform"]
    elif place is not None:
        at = ((place[0] - x) / r, (place[1] - y) / r)
        given["transform"] = _row("translate", at) + _row("scale", (place[2] / r,))
    if "d" in given:
        given["d"] = moved(given["d"], frame)
    if "stroke-width" in given:
        given["stroke-width"] = _shown(float(given["stroke-width"]) / r)
    if "clip-path" in given:
        clips.move(each, frame)


def moved(data: str, frame: Frame) -> str:
    """Path data of M, L, A and Z in a balloon's frame, in steps from point to point.

    Each step is reckoned from where the rounded steps have come to, so that rounding does not add
    up.

    >>> moved("M10 10L20 10A5 5 0 0 1 10 20Z", (10.0, 10.0, 5.0))
    'M0 0l2 0a1 1 0 0 1-2 2Z'
    """
    x, y, r = frame
    at = (0.0, 0.0)
    steps: list[str] = []
    for letter, figures in _STEP.findall(data):
        numbers, takes = [float(n) for n in _NUMBER.findall(figures)], _TAKES[letter]
        for first in range(0, len(numbers), takes or 1):
            own = numbers[first : first + takes]
            end = ((own[-2] - x) / r, (own[-1] - y) / r)
            come = (0.0, 0.0) if letter == "M" else at
            step = [round(end[k] - come[k], 4) for k in (0, 1)]
            before = [own[0] / r, own[1] / r, *own[2:5]] if letter == "A" else []
            steps.append((letter if letter == "M" else letter.lower()) + _numbers([*before, *step]))
            at = (come[0] + step[0], come[1] + step[1])
        if not takes:
            steps.append(letter)
    return "".join(steps)


def _row(name: str, values: tuple[float, ...]) -> str:
    return f"{name}({_numbers(list(values))})"


def _numbers(values: list[float]) -> str:
    return " ".join(map(_shown, values)).replace(" -", "-")


def _shown(value: float) -> str:
    """A figure to four places, as short as it can be."""
    short = f"{value:.4f}".rstrip("0").rstrip(".")
    return re.sub(r"^(-?)0(?=\.)", r"\1", "0" if short == "-0" else short)


def _keep_once(own: Element, clips: _Clips, kept: dict[str, list[tuple[Figures, Element]]]) -> None:
    """Place what is drawn like an earlier balloon; that one becomes a definition."""
    words, said = zip(*(_said(each, clips) for part in own for each in part.iter()), strict=True)
    figures, same = np.concatenate(said), kept["".join(words)]
    like = next((first for told, first in same if np.abs(told - figures).max() <= SLACK), None)
    if like is None:
        same.append((figures, own))
        return
    if "href" not in like.attrib:
        whole = SubElement(clips.definitions, f"{clips.tag}g", {"id": f"b{len(clips.definitions)}"})
        whole.extend(list(like))
        _become_use(like, whole.attrib["id"], clips.tag)
    _become_use(own, like.attrib["href"][1:], clips.tag)


def _said(each: Element, clips: _Clips) -> tuple[str, Figures]:
    """An element in words that must be the same in another like it, and figures that may differ a
    hair."""
    words, figures = [each.tag], [0.0]
    for key, value in {**each.attrib, "clip-path": clips.of(each)}.items():
        if key in (*_MEASURES, "clip-path"):
            figures += [float(n) for n in _NUMBER.findall(value)]
            words += [key, _NUMBER.sub("#", value)]
        else:
            words += [key, value]
    return "|".join(words), np.array(figures)


def _become_use(own: Element, name: str, tag: str) -> None:
    """A balloon's frame with nothing in it but the placing of what is kept under ``name``."""
    own.tag = f"{tag}use"
    own.attrib = {"href": f"#{name}", **own.attrib}
    for part in list(own):
        own.remove(part)
