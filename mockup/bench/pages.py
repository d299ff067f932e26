"""The page and its parts, as they lie in the package: read once, named in a list."""

from __future__ import annotations

from functools import cache
from html import escape
from importlib.resources import files

from starlette.responses import PlainTextResponse, Response

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


@cache
def _page() -> str:
    """The page, which names all its modules: they are fetched at once, not one after another."""
    text = (files("mockup.bench") / "assets" / "bench.html").read_text("utf-8")
    names = sorted(name for name in _parts() if name.endswith(".js"))
    links = "\n".join(f'<link rel="modulepreload" href="/assets/{name}">' for name in names)
    return text.replace("</head>", f"{links}\n</head>", 1)


def page(token: str, run: str) -> Response:
    """The page with this run's token in it."""
    text = _page().replace("{token}", escape(token)).replace("{run}", escape(run))
    return Response(text, media_type="text/html")


def asset(name: str) -> Response:
    """One part of the page; any other name is not found."""
    if name not in _parts():
        return PlainTextResponse("there is no such part", 404)
    kind, text = _parts()[name]
    return Response(text, media_type=kind)
