"""From what a hand does on the drawing to changes of the text.

Clusters that a file writes as one row repeated (``times``) are parted where only one is meant, and
a taper is written out cluster by cluster where one of its clusters is to differ.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from mockup.bench.edits import Change, NotCarriedOut
from mockup.design.model import ClusterSpec, SectionSpec
from mockup.lengths import Unit, written_length
from mockup.piece.placed import Cluster, Piece

Row = dict[str, Any]
File = Mapping[str, Any]


def painted(piece: Piece, file: File, index: int, letter: str, place: int | None) -> list[Change]:
    """One balloon of a cluster (its ``place`` from 0), or all of them, in a letter's colour."""
    cluster = piece.clusters[index]
    if letter not in piece.design.colours:
        raise NotCarriedOut(f"the piece has no colour '{letter}'")
    letters = list(cluster.letters)
    for at in range(len(letters)) if place is None else (place,):
        letters[at] = letter
    return with_colours(piece, file, cluster, fewest("".join(letters)))


def fewest(letters: str) -> str:
    """Letters without their repeats.

    >>> fewest("ABAB"), fewest("AAAA"), fewest("ABBA")
    ('AB', 'A', 'ABBA')
    """
    count = len(letters)
    shares = (n for n in range(1, count + 1) if count % n == 0)
    return next(letters[:n] for n in shares if letters[:n] * (count // n) == letters)


def with_colours(piece: Piece, file: File, cluster: Cluster, letters: str) -> list[Change]:
    """The changes that give one cluster, and so its twin, these letters."""
    path = list(cluster.path)
    if path[:1] != ["section"]:
        name = path[0] if path else "piece"
        raise NotCarriedOut(f"the colours of a {name} are changed in the text")
    if path[-1] == "end_cap":
        return [_set([*path, "colours"], letters)]
    section = path[1]
    before: list[Change] = []
    if path[-1] == "taper":
        before, rows = _written_out(piece, int(section))
        path = ["section", section, "clusters", _run_place(piece, cluster)]
    else:
        rows = [dict(row) for row in _rows(file, path[:-1])]
    row = rows[int(path[-1])]
    if row.get("times", 1) == 1:
        return [*before, _set([*path, "colours"], letters)]
    parted = _parted(row, _repeat_of(piece, cluster, rows, int(path[-1])), letters)
    first, *others = parted
    at = int(path[-1])
    more = [_insert(path[:-1], at + k, one) for k, one in enumerate(others, start=1)]
    return [*before, _set(path, first), *more]


def _parted(row: Row, repeat: int, letters: str) -> list[Row]:
    """A repeated row as up to three: those before, the one that differs, and those after."""
    counts = (repeat, 1, row["times"] - repeat - 1)
    parted: list[Row] = []
    for place, count in enumerate(counts):
        if not count:
            continue
        one = {key: value for key, value in row.items() if key != "times"}
        if parted:
            one.pop("turn", None)
        if place == 1:
            one["colours"] = letters
        if count > 1:
            one["times"] = count
        parted.append(one)
    return parted


def _run_place(piece: Piece, cluster: Cluster) -> int:
    """Where a cluster stands in the list of its side, each repeat counted."""
    spec = piece.design.sections[int(cluster.path[1])]
    if spec.whole:
        return cluster.step % (len(spec.right) + int(spec.middle is not None))
    leads = spec.middle is not None and cluster.path[2] != "left"
    return cluster.step if leads else cluster.step - 1


def _repeat_of(piece: Piece, cluster: Cluster, rows: Sequence[Row], at: int) -> int:
    before = sum(int(row.get("times", 1)) for row in rows[:at])
    return _run_place(piece, cluster) - before


def _rows(file: File, path: Sequence[str | int]) -> list[Row]:
    found: Any = file
    for step in path:
        found = found[step]
    return [dict(row) for row in found]


def _written_out(piece: Piece, section: int) -> tuple[list[Change], list[Row]]:
    """A taper as the clusters it stands for."""
    spec = piece.design.sections[section]
    run = [each for each in (spec.middle, *spec.right) if each]
    rows = [_row_of(each, piece.design.unit) for each in run]
    path: list[str | int] = ["section", section]
    gone = [{"do": "unset", "path": [*path, key]} for key in ("taper", "a_side")]
    return [*gone, _set([*path, "clusters"], rows)], rows


def _row_of(spec: ClusterSpec, unit: Unit) -> Row:
    if spec.strokes is not None:
        return {"strokes": spec.strokes}
    return {"fill": written_length(spec.diameter, unit)}


def resized(piece: Piece, file: File, section: int, side: str, count: int) -> list[Change]:
    """A section with ``count`` clusters a side beside its middle one: its last ones come or go."""
    spec = piece.design.sections[section]
    if spec.whole:
        raise NotCarriedOut("a whole ring has no end; change its count in the form")
    path: list[str | int] = ["section", section]
    table = file["section"][section]
    key = "left" if side == "left" and "left" in table else "clusters"
    count = max(count, 0 if spec.middle is not None and key == "clusters" else 1)
    if "taper" in table and not str(table["taper"]).startswith("from"):
        return [_set([*path, "a_side"], count)]
    before: list[Change] = []
    if "taper" in table:
        before, rows = _written_out(piece, section)
    else:
        rows = _rows(file, [*path, key])
    total = count + int(_leads(spec, key))
    return [*before, *_to_length([*path, key], rows, total)]


def _leads(spec: SectionSpec, key: str) -> bool:
    return spec.middle is not None and key == "clusters"


def _to_length(path: list[str | int], rows: list[Row], total: int) -> list[Change]:
    """The last row repeated more often or less, and rows taken away from the end."""
    lengths = [int(row.get("times", 1)) for row in rows]
    last = len(rows) - 1
    changes: list[Change] = []
    while last > 0 and sum(lengths[:last]) >= total:
        changes.append({"do": "remove", "path": [*path, last]})
        last -= 1
    times = max(1, total - sum(lengths[:last]))
    if last == 0 and len(rows) == 1 and total > 1 and lengths[0] == 1:
        # The only row is the middle cluster: those beside it get a row of their own.
        row = {key: value for key, value in rows[0].items() if key not in ("times", "turn")}
        return [_insert(path, 1, row if total == 2 else {**row, "times": total - 1})]
    if times == lengths[last]:
        return changes
    if times == 1:
        return [*changes, {"do": "unset", "path": [*path, last, "times"]}]
    return [*changes, _set([*path, last, "times"], times)]


def raised(mm: float, unit: Unit) -> list[Change]:
    """The numerals moved by hand, to an eighth of an inch or a millimetre."""
    return [_set(["panel", "raised"], written_length(mm, unit))]


def _set(path: Sequence[str | int], value: object) -> Change:
    return {"do": "set", "path": list(path), "value": value}


def _insert(path: Sequence[str | int], at: int, value: object) -> Change:
    return {"do": "insert", "path": list(path), "at": at, "value": value}
