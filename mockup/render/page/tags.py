"""Pieces of HTML, with the words of others made harmless at the door."""

from __future__ import annotations

from html import escape

from mockup.render.text import plain

_VOID = frozenset(("input", "meta", "br"))


def said(text: str) -> str:
    """Words as they may stand in a page: on one line, without control characters, escaped.

    >>> said('</p><script>"Zoe\\u0308" & I')
    '&lt;/p&gt;&lt;script&gt;&quot;Zoë&quot; &amp; I'
    """
    return escape(plain(text))


def tag(name: str, /, *inside: str, **attributes: str | bool) -> str:
    """An element round markup. ``class_`` and ``for_`` lose their mark, ``_`` becomes ``-``.

    >>> tag("p", said("2 < 3"), class_="note"), tag("input", type="radio", checked=True)
    ('<p class="note">2 &lt; 3</p>', '<input type="radio" checked>')
    """
    told = "".join(map(_attribute, attributes.items()))
    return f"<{name}{told}>" if name in _VOID else f"<{name}{told}>{''.join(inside)}</{name}>"


def _attribute(given: tuple[str, str | bool]) -> str:
    name, value = given[0].rstrip("_").replace("_", "-"), given[1]
    if isinstance(value, bool):
        return f" {name}" if value else ""
    return f' {name}="{escape(value)}"'


def section(name: str, heading: str, *inside: str) -> str:
    """A section under its heading, named by it for whoever hears the page."""
    return tag("section", tag("h2", heading, id=name), *inside, aria_labelledby=name)
