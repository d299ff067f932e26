"""What changed between two contents of a piece, in the trade's words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mockup.design.days import day_of
from mockup.lengths import Unit, format_length
from mockup.piece.placed import ordinal

Plain = dict[str, Any]
_TOP = {
    "title": "title",
    "client": "client",
    "event_date": "event date",
    "venue": "venue",
    "note": "note",
    "outdoors": "outdoors",
    "overhead": "overhead",
}
_LENGTHS = {
    "frame": (
        ("outside", "ring's outside diameter"),
        ("tube", "tube"),
        ("width", "frame's width"),
        ("height", "frame's height"),
        ("legs", "arch's legs"),
        ("corner", "radius of the frame's corners"),
        ("inner", "spiral's inner measure"),
    ),
    "stand": (("rise", "stand's rise"), ("plate", "base plate")),
    "panel": (
        ("height", "numerals' named height"),
        ("measured", "numerals' measured height"),
        ("gap", "gap between the numerals"),
        ("raised", "numerals' raise"),
    ),
}


def changes(old: Plain, new: Plain, unit: Unit = "in") -> list[str]:
    """Sentences for every difference that shows, in the order a reader meets them on the piece.

    ``old`` and ``new`` are contents of a design (``mockup.piece.code.content``), lengths in mm.

    >>> changes({"title": "Ruby"}, {"title": "Ruby, thirty"})
    ["title: was 'Ruby', is 'Ruby, thirty'"]
    """
    said = [
        *_words(old, new),
        *_measures(old, new, unit),
        *_colours(old.get("colours", {}), new.get("colours", {}), ""),
        *_sections(old, new, unit),
        *_garlands(old, new),
        *_wall(old.get("wall"), new.get("wall"), unit),
        *_numerals(old.get("panel"), new.get("panel")),
        *_colourways(old, new),
    ]
    if not said and old != new:
        said.append("a limit or a measured figure of the studio was changed")
    return said


def _was(name: str, before: object, after: object) -> str:
    return f"{name}: was {_shown(before)}, is {_shown(after)}"


def _shown(value: object) -> str:
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"'{value}'" if isinstance(value, str) else str(value)


def _words(old: Plain, new: Plain) -> Iterator[str]:
    for key, name in _TOP.items():
        if old.get(key) != new.get(key):
            yield _was(name, *(_said(key, each.get(key)) for each in (old, new)))


def _said(key: str, value: object) -> object:
    """A day as people read it, all else as it is."""
    return day_of(value) if key == "event_date" and isinstance(value, str) else value


def _measures(old: Plain, new: Plain, unit: Unit) -> Iterator[str]:
    for table, names in _LENGTHS.items():
        before, after = old.get(table), new.get(table)
        if (before is None) != (after is None):
            name = "numerals" if table == "panel" else table
            yield f"{name}: {'added' if before is None else 'taken out'}"
            continue
        if before is None or after is None:
            continue
        if before.get("kind") != after.get("kind"):
            yield _was(table, before.get("kind"), after.get("kind"))
        for key, name in names:
            if before.get(key) != after.get(key):
                yield f"{name}: was {_length(before.get(key), unit)}, is " + _length(
                    after.get(key), unit
                )


def _length(mm: float | None, unit: Unit) -> str:
    return "not given" if mm is None else format_length(mm, unit)


def _garlands(old: Plain, new: Plain) -> Iterator[str]:
    before, after = ({g["name"]: g for g in each.get("garlands", [])} for each in (old, new))
    for name in dict.fromkeys([*before, *after]):
        if name not in before or name not in after:
            yield f"{name}: {'added' if name not in before else 'taken out'}"
        elif before[name] != after[name]:
            keys = [key for key in after[name] if before[name].get(key) != after[name][key]]
            yield f"{name}: another {' and '.join(keys)}"
    if old.get("topper") != new.get("topper"):
        yield "topper: changed"


def _wall(old: Plain | None, new: Plain | None, unit: Unit) -> Iterator[str]:
    """What is another map, another balloon or another mesh."""
    if old == new:
        return
    if old is None or new is None:
        yield f"wall: {'added' if old is None else 'taken out'}"
        return
    if old["shows"] != new["shows"]:
        yield _was("wall", old["shows"], new["shows"])
    if (old["kind"], old["staggered"]) != (new["kind"], new["staggered"]):
        before, after = (
            f"{each['kind']}s on a {'staggered' if each['staggered'] else 'square'} mesh"
            for each in (old, new)
        )
        yield f"wall: was {before}, is {after}"
    if (old["strokes"], old["diameter"]) != (new["strokes"], new["diameter"]):
        yield f"wall: its balloons were {_fill(old, unit)}, are {_fill(new, unit)}"
    sizes = [(len(each["rows"]), [len(row) for row in each["rows"]]) for each in (old, new)]
    if sizes[0] != sizes[1]:
        before, after = (f"{rows} rows of {lengths[0]}" for rows, lengths in sizes)
        yield f"wall: was {before}, is {after}"
    else:
        every = zip("".join(old["rows"]), "".join(new["rows"]), strict=True)
        other = sum(a != b for a, b in every)
        if other:
            yield f"wall: {other} balloon{'' if other == 1 else 's'} of another colour"


def _colours(old: Plain, new: Plain, where: str) -> Iterator[str]:
    for letter in sorted({*old, *new}):
        before, after = old.get(letter), new.get(letter)
        if before != after:
            yield f"{where}colour {letter}: was {_colour(before)}, is {_colour(after)}"


def _colour(use: Plain | None) -> str:
    if use is None:
        return "not used"
    return f"{use['name']} ({use['finish']}, {use['srgb']})"


def _sections(old: Plain, new: Plain, unit: Unit) -> Iterator[str]:
    before = {s["name"]: s for s in old.get("sections", [])}
    after = {s["name"]: s for s in new.get("sections", [])}
    for name in [*before, *(n for n in after if n not in before)]:
        if name not in after:
            yield f"{name} section: taken out"
        elif name not in before:
            yield f"{name} section: added"
        elif before[name] != after[name]:
            yield from _section(name, before[name], after[name], unit)


def _section(name: str, old: Plain, new: Plain, unit: Unit) -> Iterator[str]:
    where = f"{name} section"
    if old.get("on", "") != new.get("on", ""):
        before, after = (f"the {each.get('on') or 'frame'}" for each in (old, new))
        yield f"{where}: was tied round {before}, is tied round {after}"
    if old["at_deg"] != new["at_deg"]:
        yield f"{where}: its middle was at {_clock(old['at_deg'])}, is at {_clock(new['at_deg'])}"
    if (old["whole"], old["whole_count"]) != (new["whole"], new["whole_count"]):
        yield _was(f"{where}, clusters round the ring", old["whole_count"], new["whole_count"])
    yield from _cluster(f"{where}: middle cluster", old["middle"], new["middle"], unit)
    alike = old["right"] == old["left"] and new["right"] == new["left"]
    for side in ("right",) if alike else ("right", "left"):
        yield from _side(where, "" if alike else f" {side}", old[side], new[side], unit)
    caps_alike = old["end_right"] == old["end_left"] and new["end_right"] == new["end_left"]
    for side in ("right",) if caps_alike else ("right", "left"):
        end = f"{where}: end cap{'' if caps_alike else f' {side}'}"
        yield from _cluster(end, old[f"end_{side}"], new[f"end_{side}"], unit)


def _side(where: str, side: str, old: list[Plain], new: list[Plain], unit: Unit) -> Iterator[str]:
    if len(old) != len(new):
        yield f"{where}: had {len(old)} clusters a side{side}, has {len(new)}"
    for step, (before, after) in enumerate(zip(old, new, strict=False), start=1):
        last = step == len(old) == len(new)
        name = "last" if last else ordinal(step + 1)
        yield from _cluster(f"{where}: {name} cluster{side}", before, after, unit)


def _cluster(name: str, old: Plain | None, new: Plain | None, unit: Unit) -> Iterator[str]:
    if old == new:
        return
    if old is None or new is None:
        yield f"{name} {'added' if old is None else 'taken out'}"
        return
    if old["kind"] != new["kind"]:
        yield f"{name} was a {old['kind']}, is a {new['kind']}"
    if (old["strokes"], old["diameter"]) != (new["strokes"], new["diameter"]):
        yield f"{name} was {_fill(old, unit)}, is {_fill(new, unit)}"
    if old["nominal"] != new["nominal"]:
        sizes = (format_length(each["nominal"], unit) for each in (old, new))
        yield f"{name}: nominal size was {' , is '.join(sizes)}".replace(" ,", ",")
    if old["letters"] != new["letters"]:
        yield f"{name}: colour order was {old['letters']}, is {new['letters']}"
    if old["turn_deg"] != new["turn_deg"]:
        yield f"{name}: turn was {_turn(old)}, is {_turn(new)}"


def _fill(cluster: Plain, unit: Unit) -> str:
    if cluster["strokes"] is not None:
        return f"{cluster['strokes']:g} stroke{'' if cluster['strokes'] == 1 else 's'}"
    return f"filled to {format_length(cluster['diameter'], unit)}"


def _turn(cluster: Plain) -> str:
    return "left to nestle" if cluster["turn_deg"] is None else f"{cluster['turn_deg']:g} degrees"


def _clock(degrees: float) -> str:
    """Degrees clockwise from the top as a clock position.

    >>> _clock(0), _clock(195)
    ("12 o'clock", '6:30')
    """
    minutes = round(degrees % 360 * 2)
    hour, minute = divmod(minutes, 60)
    return f"{hour or 12}:{minute:02}" if minute else f"{hour or 12} o'clock"


def _numerals(old: Plain | None, new: Plain | None) -> Iterator[str]:
    if old is None or new is None:
        return
    if old["text"] != new["text"]:
        yield _was("numerals", old["text"], new["text"])
    if old["foil"] != new["foil"]:
        yield f"foil: was {_colour(old['foil'])}, is {_colour(new['foil'])}"
    if old["place"] != new["place"]:
        yield f"numerals: were {old['place']} the ring, are {new['place']}"
    if old["widths"] != new["widths"]:
        yield "numerals: other widths were measured"


def _colourways(old: Plain, new: Plain) -> Iterator[str]:
    before = {way["name"]: way for way in old.get("colourways", [])}
    after = {way["name"]: way for way in new.get("colourways", [])}
    for name in sorted({*before, *after}):
        if name not in after or name not in before:
            yield f"colourway {name}: {'taken out' if name in before else 'added'}"
        else:
            where = f"colourway {name}, "
            yield from _colours(before[name]["colours"], after[name]["colours"], where)
