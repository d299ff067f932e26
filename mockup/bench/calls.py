"""What the page may ask: each call is JSON in, JSON out, and names no path."""

from __future__ import annotations

import json
from asyncio import to_thread
from collections.abc import Callable
from time import thread_time
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from mockup.bench import answers, beginnings, gestures
from mockup.bench.canvas import as_json
from mockup.bench.desk import ChangedOnDisk, Desk, Kept, OutOfStep
from mockup.bench.edits import Change, NotCarriedOut
from mockup.bench.handouts import HANDOUTS, made_paper
from mockup.bench.looks import Look, look_from, picture
from mockup.design.reading import design_from_text
from mockup.errors import FaultsFound, MockupError
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece

Asked = dict[str, Any]
Call = Callable[["Bench", Asked], dict[str, Any]]
_MOST_MM = 10_000.0
_MOST_A_SIDE = 500


class NotUnderstood(MockupError):
    """A call whose words are not those of the page."""


class Bench:
    """One run: the desk, and the token that the page carries."""

    def __init__(self, desk: Desk, token: str, run: str) -> None:
        self.desk, self.token, self.run = desk, token, run
        self._first: tuple[Kept, dict[str, Any]] | None = None

    def look_ahead(self) -> None:
        """Draw the piece before the page asks for it: the first drawing takes longest."""
        self._first = self.desk.now, answers.full(self.desk, Look(), frozenset())

    @property
    def piece(self) -> Piece:
        """The piece that is drawn; raises ``NotCarriedOut`` where none is."""
        good = self.desk.good
        if good is None or good.piece is None:
            raise NotCarriedOut("there is no piece drawn yet")
        return good.piece

    def full(self, asked: Asked) -> dict[str, Any]:
        """The whole answer for the tab that asks."""
        have, look = asked.get("have", []), look_from(asked.get("look"))
        names = frozenset(n for n in have if isinstance(n, str)) if isinstance(have, list) else ()
        first, self._first = self._first, None
        if first and first[0] is self.desk.now and look == Look() and not names:
            return first[1]
        return answers.full(self.desk, look, frozenset(names))


def _whole(asked: Asked, key: str) -> int:
    value = asked.get(key)
    if not isinstance(value, int) or isinstance(value, bool):
        raise NotUnderstood(f"'{key}' must be a whole number")
    return value


def _words(asked: Asked, key: str) -> str:
    value = asked.get(key, "")
    if not isinstance(value, str):
        raise NotUnderstood(f"'{key}' must be text")
    return value


def _show(bench: Bench, asked: Asked) -> dict[str, Any]:
    return bench.full(asked)


def _look(bench: Bench, asked: Asked) -> dict[str, Any]:
    """The poll: has another tab or another program changed something."""
    del asked
    desk = bench.desk
    desk.keep_draft()
    disk = desk.disk()
    seen = desk.seen() if disk == "changed" else ""
    return {**answers.standing(desk), "run": bench.run, "disk": disk, "over": seen}


def _write(bench: Bench, asked: Asked) -> dict[str, Any]:
    text = _words(asked, "text").replace("\r\n", "\n")
    bench.desk.write(_whole(asked, "base"), text, _words(asked, "hold"))
    return bench.full(asked)


def _change(bench: Bench, asked: Asked) -> dict[str, Any]:
    changes = asked.get("changes")
    if not isinstance(changes, list) or not all(isinstance(one, dict) for one in changes):
        raise NotUnderstood("'changes' must be a list of changes")
    bench.desk.change(_whole(asked, "base"), changes, _words(asked, "hold"))
    return bench.full(asked)


def _gesture(bench: Bench, asked: Asked) -> dict[str, Any]:
    """Paint a balloon, drag a section's end, or drag the numerals."""
    desk = bench.desk
    with desk.lock:
        if desk.now.faults:
            raise NotCarriedOut("mend the text first: the drawing is the last good one")
        made = _made(bench.piece, answers.given(desk.now), asked)
        desk.change(_whole(asked, "base"), made, _words(asked, "hold"))
    return bench.full(asked)


def _made(piece: Piece, file: dict[str, Any], asked: Asked) -> list[Change]:
    kind = asked.get("kind")
    if kind == "paint":
        index, place = _whole(asked, "cluster"), asked.get("place")
        _within(index, len(piece.clusters))
        if place is not None:
            _within(_whole(asked, "place"), len(piece.clusters[index].balloons))
        return gestures.painted(piece, file, index, _words(asked, "letter"), place)
    if kind == "end":
        section = _whole(asked, "section")
        _within(section, len(piece.design.sections))
        return gestures.resized(piece, file, section, *_reach(piece, section, asked))
    if kind == "raise":
        return gestures.raised(_mm(asked), piece.design.unit)
    raise NotUnderstood("no such gesture is known here")


def _reach(piece: Piece, section: int, asked: Asked) -> tuple[str, int]:
    """The side and its wished count: told as it is, or by how many more than now (``by``)."""
    side, spec = _words(asked, "side"), piece.design.sections[section]
    if "by" in asked:
        now = len(spec.left if side == "left" else spec.right)
        return side, min(now + _whole(asked, "by"), _MOST_A_SIDE)
    return side, min(_whole(asked, "count"), _MOST_A_SIDE)


def _within(index: int, count: int) -> None:
    if not 0 <= index < count:
        raise NotCarriedOut("the piece has no such place any more; look at it again")


def _mm(asked: Asked) -> float:
    value = asked.get("raised")
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > _MOST_MM:
        raise NotUnderstood("'raised' must be a number of mm")
    return float(value)


def _undo(bench: Bench, asked: Asked) -> dict[str, Any]:
    bench.desk.undo()
    return bench.full(asked)


def _redo(bench: Bench, asked: Asked) -> dict[str, Any]:
    bench.desk.redo()
    return bench.full(asked)


def _findings(bench: Bench, asked: Asked) -> dict[str, Any]:
    del asked
    return answers.findings(bench.desk)


def _feel(bench: Bench, asked: Asked) -> dict[str, Any]:
    return answers.felt(bench.piece, _mm(asked))


def _save(bench: Bench, asked: Asked) -> dict[str, Any]:
    bench.desk.save(_words(asked, "over"))
    return answers.standing(bench.desk)


def _reload(bench: Bench, asked: Asked) -> dict[str, Any]:
    bench.desk.reload()
    return bench.full(asked)


def _start(bench: Bench, asked: Asked) -> dict[str, Any]:
    if bench.desk.started and bench.desk.file is not None and not bench.desk.is_saved:
        raise NotCarriedOut("there is a piece on the bench already")
    if asked.get("sample"):
        name = _words(asked, "sample")
        bench.desk.start(f"{name}.toml", beginnings.sample_text(name))
    else:
        bench.desk.start(*beginnings.answered(asked, bench.desk.folder))
    return bench.full(asked)


def _samples(bench: Bench, asked: Asked) -> dict[str, Any]:
    del bench, asked
    return {"samples": beginnings.sample_list(), "frames": beginnings.frame_list()}


def _sample(bench: Bench, asked: Asked) -> dict[str, Any]:
    """A sample's picture."""
    del bench
    name = _words(asked, "name")
    piece = assemble(design_from_text(beginnings.sample_text(name), f"{name}.toml"))
    return {"drawing": picture(piece, Look()), "count": len(piece.balloons)}


def _palettes(bench: Bench, asked: Asked) -> dict[str, Any]:
    del asked
    return {"palettes": beginnings.palette_list(bench.desk.folder)}


CALLS: dict[str, Call] = {
    "show": _show,
    "look": _look,
    "write": _write,
    "change": _change,
    "gesture": _gesture,
    "undo": _undo,
    "redo": _redo,
    "findings": _findings,
    "feel": _feel,
    "save": _save,
    "reload": _reload,
    "start": _start,
    "samples": _samples,
    "sample": _sample,
    "palettes": _palettes,
}
"""Every call by its name."""


def _known(name: str) -> Call | None:
    handout = HANDOUTS.get(name)
    return (lambda bench, asked: handout(bench.desk, asked)) if handout else CALLS.get(name)


def app_of(bench: Bench) -> Starlette:
    """The ASGI app of one run's calls and papers, to be set behind the door."""

    async def call(request: Request) -> Response:
        known = _known(request.path_params["name"])
        if known is None:
            return _json({"said": "there is no such call"}, 404)
        try:
            asked = json.loads(await request.body())
        except (ValueError, RecursionError):
            return _json({"said": "that is not JSON"}, 400)
        if not isinstance(asked, dict):
            return _json({"said": "a call is one JSON object"}, 400)
        return await to_thread(_answered, bench, known, asked)

    async def paper(request: Request) -> Response:
        return await to_thread(_paper, bench, request.path_params["name"])

    return Starlette(
        routes=[
            Route("/made/{name}", paper),
            Route("/api/{name}", call, methods=["POST"]),
        ]
    )


def _answered(bench: Bench, call: Call, asked: Asked) -> Response:
    """The answer, with what it took of the processor (W3C Server Timing)."""
    began = thread_time()
    answer = _said(bench, call, asked)
    answer.headers["server-timing"] = f"work;dur={1000 * (thread_time() - began):.1f}"
    return answer


def _said(bench: Bench, call: Call, asked: Asked) -> Response:
    try:
        return _json(call(bench, asked))
    except ChangedOnDisk as trouble:
        return _json({"said": str(trouble), "why": "disk", "over": bench.desk.seen()}, 409)
    except OutOfStep as trouble:
        return _json({"said": str(trouble), "why": "step"}, 409)
    except FaultsFound as found:
        said = " ".join(
            f"{f.what}; {f.instead}." if f.instead else f"{f.what}." for f in found.faults
        )
        return _json({"said": said}, 422)
    except MockupError as trouble:
        return _json({"said": str(trouble)}, 422)


def _paper(bench: Bench, name: str) -> Response:
    made = made_paper(bench.desk, name)
    if made is None:
        return _json({"said": "there is no such paper"}, 404)
    return Response(made[0], headers=made[1])


def _json(data: dict[str, Any], status: int = 200) -> Response:
    return Response(as_json(data), status, media_type="application/json")
