"""Strategies that make whole piece files, valid or nearly so, from the least to the absurd."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from random import Random

from hypothesis import strategies as st

LETTERS = "ABC"
SHADES = (
    '"deep teal"',
    '{ colour = "oat", palette = "harbour", finish = "clear" }',
    '{ name = "our own", srgb = "#b3202c", finish = "mirror" }',
)
NASTY = (
    '""', '"30"', '"0in"', '"-3in"', '"nan in"', '"3,5cm"', '"1e9in"', "nan", "-inf", "1e400", "0",
    "-1", "true", "[]", "{}", "[[]]", '"AB"', '"é☂🎈"', '"\\u0000"', "9" * 400,
    "1979-05-27T07:32:00Z",
    '"""\nlong\n"""', '"100%"', '"1/0"', '"12:60"', '{ a = 1 }', "'<svg onload=x>'",
)  # fmt: skip
KEYS = (
    "title", "outside", "tube", "at", "clusters", "taper", "a_side", "strokes", "fill", "size",
    "kind", "turn", "times", "count", "whole", "middle", "left", "end_cap", "numerals", "height",
    "measured", "raised", "gap", "thickness", "place", "colour", "colours", "unit", "mirror",
    "line", "drawing", "from", "to", "width", "legs", "corner", "inner", "turns", "squeeze",
)  # fmt: skip
FULL = [round(each, 3) for each in (0.25, 0.5, 1, 1.25, 2, 2.5, 3, 3, 3.5, 4, 5, 6, 12, 200)]

words = st.text(
    st.characters(min_codepoint=33, max_codepoint=0x2FF, exclude_categories=["Cc", "Zs"]),
    min_size=1,
    max_size=12,
)


def table(rows: Iterable[str]) -> str:
    return "{ " + ", ".join(row for row in rows if row) + " }"


def maybe(row: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.one_of(st.just(""), row)


def key(name: str, values: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return values.map(lambda value: f"{name} = {value}")


def lengths(least: int, most: int) -> st.SearchStrategy[str]:
    """Inches in eighths or whole millimetres between two bounds in inches."""
    eighths = st.integers(8 * least, 8 * most).map(lambda n: f'"{n / 8:.3f}in"')
    return st.one_of(eighths, st.integers(26 * least, 25 * most).map(lambda mm: f'"{mm}mm"'))


FILLS = {
    '"5in"': ('fill = "4in"', 'fill = "85mm"', "strokes = 3", "strokes = 2.5", "strokes = 4"),
    '"11in"': ('fill = "9 1/2in"', 'fill = "22cm"', "strokes = 40", ""),
    '"2in"': ('fill = "1 1/2in"', 'fill = "30mm"', ""),
    '"36in"': ('fill = "32in"', 'fill = "60cm"'),
}
"""What goes into balloons of a nominal size; one in ten is filled as no balloon should be."""
odd_fills = st.one_of(key("strokes", st.sampled_from(FULL).map(str)), key("fill", lengths(1, 5)))


@st.composite
def fills(draw: st.DrawFn) -> str:
    """A fill with its nominal size, which the piece gives as 5 in unless the cluster does."""
    if draw(st.integers(0, 9)) == 0:
        return draw(odd_fills)
    size = draw(st.sampled_from(['"5in"', '"5in"', '"5in"', *FILLS]))
    fill = draw(st.sampled_from(FILLS[size]))
    return ", ".join(row for row in (fill, f"size = {size}") if row)


kinds = st.sampled_from(["single", "pair", "trio", "quad", "quad", "quad", "five"])
turns = st.sampled_from(['"valley in"', '"point in"', "17.5", "-360"])
clocks = st.sampled_from(['"12"', '"6"', '"3"', '"9"', '"10:30"', '"1:07"'])
places = st.one_of(clocks, st.sampled_from(['"1/2"', '"0%"', '"100%"', '"33.3%"', '"3ft"']))


@st.composite
def clusters(draw: st.DrawFn) -> str:
    return table(
        [
            draw(fills()),
            draw(maybe(key("kind", kinds.map(json.dumps)))),
            draw(maybe(key("turn", turns))),
            draw(maybe(key("times", st.integers(1, 4).map(str)))),
            draw(maybe(key("colours", st.text(LETTERS, min_size=1, max_size=1).map(json.dumps)))),
        ]
    )


runs = st.lists(clusters(), min_size=1, max_size=4).map(lambda each: f"[{', '.join(each)}]")


@st.composite
def sections(draw: st.DrawFn, place: st.SearchStrategy[str]) -> str:
    rows = ["[[section]]", f"at = {draw(place)}"]
    if draw(st.integers(0, 4)) == 0:
        tapers = ['"gentle"', '"strong"', '"even"', '"from 4 1/2in to 3in in 4"']
        rows.append(f"taper = {draw(st.sampled_from(tapers))}")
    else:
        rows.append(f"clusters = {draw(runs)}")
    if draw(st.integers(0, 5)) == 0:
        rows.append("whole = true")
        rows.append(draw(maybe(key("count", st.sampled_from(["4", "12", "24", "30"])))))
    else:
        rows.append(draw(maybe(key("left", runs))))
        rows.append(draw(maybe(key("end_cap", st.sampled_from(["true", "{ strokes = 1 }"])))))
    rows.append(draw(maybe(st.just("middle = false"))))
    rows.append(draw(maybe(st.just('pattern = "any"'))))
    return "\n".join(row for row in rows if row)


@st.composite
def frames(draw: st.DrawFn) -> tuple[str, bool]:
    """A frame, and whether it has a clock face all round."""
    kind = draw(st.sampled_from(["ring"] * 5 + ["arc", "pole", "arch", "square", "hexagon",
                                                "heart", "spiral", "path"]))  # fmt: skip
    rows = [f'kind = "{kind}"', draw(maybe(key("tube", st.sampled_from(['"1/2in"', '"1in"']))))]
    if kind in ("ring", "arc", "square", "hexagon", "spiral"):
        rows.append(f"outside = {draw(lengths(18, 90))}")
    if kind == "arc":
        rows += [f"from = {draw(clocks)}", 'to = "4"']
    if kind in ("pole", "arch", "heart"):
        rows.append(f"height = {draw(lengths(40, 100))}")
    if kind in ("arch", "heart"):
        rows.append(f"width = {draw(lengths(40, 60))}")
    if kind == "path":
        lines = ["M 0 0 L 900 0", "M 0 0 C 0 900 900 900 900 0", "M 0 0 A 400 400 0 1 1 1 1",
                 "M 0 0 L 500 500 L 0 500 L 500 0"]  # fmt: skip
        rows.append(f'line = "{draw(st.sampled_from(lines))}"')
    return table(rows), kind in ("ring", "square", "hexagon", "heart")


@st.composite
def panels(draw: st.DrawFn) -> str:
    text = draw(st.text("0123456789AZ&+-!? .", min_size=1, max_size=4).map(str.strip))
    rows = [
        "[panel]",
        f"numerals = {json.dumps(text or '7')}",
        f"height = {draw(lengths(4, 40))}",
        draw(maybe(key("place", st.sampled_from(['"inside"', '"in front"'])))),
        draw(maybe(key("raised", st.sampled_from(['"3in"', '"-30cm"', '"0in"'])))),
        draw(maybe(key("gap", st.sampled_from(['"0in"', '"2in"'])))),
        draw(maybe(key("thickness", st.sampled_from(['"1mm"', '"10in"'])))),
        draw(maybe(key("widths", st.just('{ 1 = "2in", 0 = "30in" }')))),
        draw(maybe(key("colour", st.sampled_from(['"A"', '"brass"'])))),
    ]
    return "\n".join(row for row in rows if row)


def named(parts: list[str]) -> list[str]:
    """Sections under names of their own instead of those of their places."""
    return [part.replace("]]\n", f']]\nname = "part {n}"\n', 1) for n, part in enumerate(parts)]


LIMITS = ('squeeze = "0%"', 'squeeze = "40%"', 'doorway = ["6in", "6in"]', "swing = 1",
          "colour_difference = 100", 'fill = ["5%", "150%"]', 'crossing = "0%"')  # fmt: skip


@st.composite
def pieces(draw: st.DrawFn) -> str:
    """A whole file that breaks no rule of its single keys; its sections may not go together."""
    frame, round_about = draw(frames())
    spots = clocks if round_about and draw(st.booleans()) else places
    apart = draw(st.lists(spots, min_size=1, max_size=3, unique=True))
    parts = [draw(sections(st.just(spot))) for spot in apart]
    colours = ", ".join(f"{a} = {b}" for a, b in zip(LETTERS, SHADES, strict=True))
    rows = [
        f"title = {json.dumps(draw(words), ensure_ascii=False)}",
        draw(maybe(key("client", words.map(lambda text: json.dumps(text, ensure_ascii=False))))),
        'palette = "harbour"',
        draw(maybe(st.just('unit = "cm"'))),
        draw(maybe(st.sampled_from(["outdoors = true", "overhead = true"]))),
        draw(maybe(key("mirror", st.sampled_from(["true", "false", '["top/bottom"]'])))),
        f"colours = {{ {colours} }}",
        f"frame = {frame}",
        draw(maybe(st.just('stand = { rise = "0in", plate = "1in" }'))),
        draw(maybe(st.sampled_from(LIMITS).map(lambda row: f"limits = {{ {row} }}"))),
        draw(maybe(st.just('climate = { stands = { temperature = "90F" } }'))),
        *(parts if draw(st.integers(0, 4)) == 0 else named(parts)),
        draw(maybe(panels())),
        draw(maybe(st.just(f'[[colourway]]\nname = "B"\ncolours = {{ {colours} }}'))),
    ]
    return "\n".join(row for row in rows if row) + "\n"


def spoilt(text: str, random: Random, keys: Sequence[str] = KEYS) -> str:
    """A piece with a slip or two: a value replaced, a key moved, a line lost, a letter wrong."""
    lines = text.split("\n")
    for _ in range(random.choice([1, 1, 2, 3])):
        at = random.randrange(len(lines))
        slip = random.randrange(7)
        if slip == 0:
            del lines[at]
        elif slip == 1:
            lines.insert(random.randrange(len(lines)), lines[at])
        elif slip == 2 and "=" in lines[at]:
            lines[at] = f"{lines[at].partition('=')[0]}= {random.choice(NASTY)}"
        elif slip == 3:
            lines.insert(at, f"{random.choice(keys)} = {random.choice(NASTY)}")
        elif slip == 4 and lines[at]:
            spot = random.randrange(len(lines[at]))
            sign = random.choice("\"[]{}=,#\\.'x9 é\t")
            lines[at] = lines[at][:spot] + sign + lines[at][spot + random.choice([0, 1]) :]
        elif slip == 5 and "{" in lines[at]:
            added = f"{{ {random.choice(keys)} = {random.choice(NASTY)}, "
            lines[at] = lines[at].replace("{ ", added, 1)
        else:
            lines[at] = lines[at].replace("in", random.choice(["", "cm", "ft", "m"]), 1)
        if not lines:
            lines = [""]
    return "\n".join(lines)
