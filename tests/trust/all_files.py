"""Every kind of file that the program reads, each read and then used as its commands use it.

A reader takes a text and a folder to work in, and raises ``Untold`` where a fault stands on no line
that exists, or in words that cannot be printed. Whatever else it raises is a find.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from datetime import date
from functools import cache
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import Any

from mockup.design.approvals import log_path
from mockup.design.job import Job
from mockup.design.job_reading import read_job
from mockup.design.reading import design_from_text, read_design
from mockup.design.studio_reading import studio_from_text
from mockup.design.wishes import wishes_from_text
from mockup.errors import Fault, FaultsFound, MockupError
from mockup.piece.assemble import assemble
from mockup.piece.code import content, proof_code
from mockup.piece.elevation.findings import find_elevation
from mockup.piece.elevation.standing import elevation_of
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.recalled import NotADesign, design_from_content
from mockup.piece.revisions import record_words, standing
from mockup.stock.booking import Booking, put_back, take
from mockup.stock.order import Order, order
from mockup.stock.quoting import quote
from mockup.stock.time_plan import time_plan
from mockup.suggest.contradictions import refuse_contradictions
from mockup.suggest.space import space_of
from mockup.worksheets.expense import price_of
from tests.trust.running import SAMPLES
from tests.trust.whole_files import NASTY, spoilt

FILE = "whole.toml"
DAY = date(2027, 5, 8)
MOST_CELLS, MOST_STANDING = 2500, 60
Reader = Callable[[str, Path], None]


class Untold(Exception):
    """A fault that no person could open and mend."""


def require_told(told: FaultsFound, text: str) -> None:
    """Every fault stands on a line that exists, in words that can be printed.

    A file with control characters in it may be refused as a whole: it is no text.
    """
    if re.search("[\0-\x08\x0e-\x1f]", text):
        return
    lines = len(text.split("\n"))
    for fault in told.faults:
        found = re.fullmatch(rf"(?:.*/)?{re.escape(FILE)}(?::(\d+))?", fault.where)
        words = fault.what and fault.what.isprintable() and fault.instead.isprintable()
        if not (found and words and _on_a_line(fault, found[1], lines)):
            raise Untold(fault)


def _on_a_line(fault: Fault, line: str | None, lines: int) -> bool:
    if line is None:
        return "more faults" in fault.what
    return 1 <= int(line) <= lines


def laid(folder: Path) -> Path:
    """A folder with what the samples name: pieces, a picture and the studio book."""
    (folder / "jobs").mkdir(parents=True, exist_ok=True)
    for name in ("ruby-thirty.toml", "lamplight-column.toml", "lugger.png"):
        shutil.copy(SAMPLES / name, folder)
    for path in (SAMPLES / "jobs").glob("*.toml"):
        shutil.copy(path, folder / "jobs")
    return folder


def written(text: str, folder: Path) -> Path:
    path = folder / "jobs" / FILE
    path.write_text(text, "utf-8", newline="")
    return path


def job(text: str, folder: Path) -> None:
    """A job, and its elevation."""
    try:
        read = read_job(written(text, folder))
    except FaultsFound as told:
        require_told(told, text)
        return
    if read.single is None and sum(one.count for one in read.pieces) <= MOST_STANDING:
        judged(read)


def judged(read: Job) -> None:
    pieces = {one.file: piece_in(one.file.resolve()) for one in read.pieces}
    elevation = elevation_of(read, pieces)
    if elevation:
        require_sentences(find_elevation(elevation))


@cache
def piece_in(file: Path) -> Piece:
    return assemble(read_design(file))


def require_sentences(findings: Iterable[Finding]) -> None:
    for finding in findings:
        if not finding.says.endswith((".", "?", "!")) or "nan" in finding.says:
            raise Untold(finding)


def wall(text: str, folder: Path) -> None:
    """A piece, above all a wall, with words or a picture."""
    try:
        design = design_from_text(text, FILE, folder)
        if design.wall is not None and sum(map(len, design.wall.rows)) <= MOST_CELLS:
            require_sentences(find_all(assemble(design)))
    except FaultsFound as told:
        require_told(told, text)


def wishes(text: str, folder: Path) -> None:
    """A piece with its wishes: the space that they leave open, and whether two contradict."""
    try:
        design, wanted = wishes_from_text(text, FILE, folder)
        refuse_contradictions(design, wanted, space_of(design, wanted), price_of(folder))
    except FaultsFound as told:
        require_told(told, text)


def log(text: str, folder: Path) -> None:
    """A log beside a piece, every line of it sealed as the program seals, whatever it holds."""
    piece = folder / "ruby-thirty.toml"
    path = log_path(piece)
    path.write_bytes(b"\n".join(sealed(line) for line in text.split("\n")))
    now = standing(read_design(piece), piece)
    path.unlink()
    now.changed()
    lines = len(text.split("\n"))
    for fault in now.log.faults:
        found = re.fullmatch(rf"{re.escape(path.name)}:(\d+)", fault.where)
        if not (found and 1 <= int(found[1]) <= lines):
            raise Untold(fault)
    for record in now.log.records:
        if not all(
            word.isprintable() for word in (record_words(record), *now.changed_since(record))
        ):
            raise Untold(record)
        with suppress(NotADesign, FaultsFound):
            design_from_content(record.content)


def sealed(line: str) -> bytes:
    """A line as it would stand in a log: an object gets its seal."""
    try:
        data = json.loads(line)
        data.pop("seal", None)
        body = json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        whole = {"seal": sha256(body.encode("utf-8", "surrogatepass")).hexdigest()[:8], **data}
        return json.dumps(whole, ensure_ascii=False).encode("utf-8", "surrogatepass")
    except (ValueError, AttributeError, RecursionError):
        return line.encode("utf-8", "surrogatepass")


def book(text: str, folder: Path) -> None:
    """A studio book: a job bought, priced, planned and booked by it, and put back."""
    try:
        studio = studio_from_text(text, FILE)
    except FaultsFound as told:
        require_told(told, text)
        return
    own = Order(ordered(folder).job, studio, ordered(folder).codes)
    quoted = quote(own, DAY)
    if not all(line.amount.is_finite() for line in quoted.client.lines):
        raise Untold(quoted.client)
    with suppress(MockupError):
        time_plan(
            own.picking.counts,
            studio.minutes,
            studio.day,
            on=DAY,
            ready=studio.day.ends,
            helpers=0,
            outdoors=False,
        )
    path, booking = written(text, folder), Booking("Invented", "1A2B3C4D", 1)
    with suppress(MockupError):
        take(path, booking, own.picking)
        studio_from_text(path.read_text("utf-8"), FILE)
        put_back(path, booking)
        studio_from_text(path.read_text("utf-8"), FILE)


@cache
def ordered(folder: Path) -> Order:
    from mockup.design.studio_usual import usual_for

    read = read_job(folder / "jobs/alder-weekend.toml", usual_for(folder / "jobs"))
    return order(read, studio_from_text("", FILE))


READERS: Mapping[str, Reader] = {
    "job": job, "wall": wall, "wishes": wishes, "log": log, "book": book,
}  # fmt: skip

KEYS: Mapping[str, tuple[str, ...]] = {
    "job": (
        "title", "ready", "helpers", "distance", "revision", "date", "file", "count", "at", "apart",
        "on", "up", "forward", "kind", "width", "height", "clear", "figure", "exits", "name",
    ),
    "wall": (
        "mesh", "kind", "fill", "letters", "picture", "ground", "colours", "pattern", "rows",
        "width", "height", "font", "size", "tube", "corner", "columns", "turn", "word", "mirror",
    ),
    "wishes": (
        "room", "fills", "a_side", "turns", "caps", "places", "rank", "best", "most_step", "alike",
        "most_balloons", "most_cost", "most_minutes", "stock", "rings", "sections",
    ),
    "log": (
        "kind", "code", "revision", "on", "by", "colourway", "note", "content", "frame", "title",
        "sections", "colours", "panel", "wall", "limits", "clusters", "middle", "right", "left",
    ),
    "book": (
        "name", "currency", "locale", "size", "colour", "finish", "count", "price", "per", "amount",
        "unit", "pack", "on_hand", "share", "least", "markup", "margin", "hourly", "tax", "deposit",
        "valid_days", "fee", "each", "starts", "ends", "strokes", "gives", "squeeze", "numeral",
        "doorway", "inflate", "fresh_indoors",
    ),
}  # fmt: skip

BARE_WALL = (
    'title = "Found"\nsize = "5in"\ncolours = { A = "deep teal", B = "oat" }\n'
    'frame = { kind = "wall", width = "6ft", height = "4ft" }\n'
)


@cache
def seeds(kind: str) -> list[str]:
    """Files that are in order, or nearly."""
    jobs = SAMPLES / "jobs"
    if kind == "job":
        return [
            (jobs / f"{each}.toml").read_text("utf-8")
            for each in ("larkspur-stage", "alder-weekend")
        ]
    if kind == "wall":
        walls = [
            (SAMPLES / f"{each}-wall.toml").read_text("utf-8") for each in ("kestrel", "lugger")
        ]
        more = (
            '[wall]\nletters = "A1"\ncolours = "B"\nground = "A"\nmirror = "across"\n',
            '[wall]\nrows = ["AB", "BA"]\n', '[wall]\npattern = "checks"\ncolours = "AB"\n',
        )  # fmt: skip
        return [*walls, *(BARE_WALL + each for each in more)]
    if kind == "wishes":
        return [path.read_text("utf-8") for path in sorted(SAMPLES.glob("wishes-*.toml"))]
    if kind == "book":
        return [(jobs / "studio.toml").read_text("utf-8")]
    return ["\n".join(json.dumps(each) for each in records())]


def records() -> list[dict[str, object]]:
    design = read_design(SAMPLES / "ruby-thirty.toml")
    wall_design = read_design(SAMPLES / "kestrel-wall.toml")
    base = {"on": "2027-03-01", "by": "R. Alder", "colourway": "", "note": ""}
    return [
        {"kind": kind, "code": proof_code(each), "revision": at, "content": content(each), **base}
        for at, (kind, each) in enumerate(
            (("sent", design), ("approved", wall_design), ("approved", design)), start=1
        )
    ]


def spoilt_log(text: str, random: Random) -> str:
    """A log of which a value or two, however deep, are others."""
    lines = text.split("\n")
    at = random.randrange(len(lines))
    data = json.loads(lines[at])
    for _ in range(random.choice([1, 1, 2])):
        slip(data, random)
    lines[at] = json.dumps(data)
    return "\n".join(lines)


ODD: tuple[object, ...] = (
    None, "", "x", 0, -1, 1e400, float("nan"), 10**30, True, [], {}, [[]], ["x"], {"x": 1}, "\x00",
    "A", "2027-03-01", 3.5, "\ud800", *NASTY[:4],
)  # fmt: skip


def slip(data: Any, random: Random) -> None:
    """A value somewhere inside lost, or another put in its place."""
    key = random.choice(list(data) if isinstance(data, dict) else range(len(data)))
    below = data[key]
    if isinstance(below, dict | list) and below and random.randrange(3):
        slip(below, random)
    elif isinstance(data, dict) and not random.randrange(4):
        del data[key]
    else:
        data[key] = random.choice(ODD)


def spoilt_one(kind: str, random: Random) -> str:
    """A file of a kind with a slip or two."""
    text = random.choice(seeds(kind))
    return spoilt_log(text, random) if kind == "log" else spoilt(text, random, KEYS[kind])
