"""The page and its parts, as they lie in the package: read once, named in a list."""

from __future__ import annotations

from functools import cache
from html import escape
from importlib.resources import files

from starlette.responses import PlainTextResponse, Response

from mockup.bench.joining import joined

_KINDS = {".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}


@cache
def _parts() -> dict[str, tuple[str, str]]:
    """Every part by name: its kind and its text."""
    folder = files("mockup.bench") / "assets"
    found = ((one.name, one.name[one.name.rfind(".") :], one) for one in folder.iterdir())
    return {
        name: (_KINDS[ending], one.read_text("utf-8"))
        for name, ending, one in found
        if ending in _KINDS
    }


_ALL = "all.js"


@cache
def _script() -> str:
    """The page's modules as one."""
    named = {name.removesuffix(".js"): text for name, (_, text) in _parts().items()}
    return joined(named, "bench")


@cache
def _page() -> str:
    """The page, which asks for its modules as one."""
    text = (files("mockup.bench") / "assets" / "bench.html").read_text("utf-8")
    return text.replace("/assets/bench.js", f"/assets/{_ALL}", 1)


def page(token: str, run: str) -> Response:
    """The page with this run's token in it."""
    text = _page().replace("{token}", escape(token)).replace("{run}", escape(run))
    return Response(text, media_type="text/html")


def asset(name: str) -> Response:
    """One part of the page; any other name is not found."""
    if name == _ALL:
        return Response(_script(), media_type=_KINDS[".js"])
    if name not in _parts():
        return PlainTextResponse("there is no such part", 404)
    kind, text = _parts()[name]
    return Response(text, media_type=kind)
