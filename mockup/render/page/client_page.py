"""The client's page: one HTML file with the drawing, its colourways, and a reply that approves."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from itertools import chain

from mockup.design.days import day
from mockup.design.model import Design
from mockup.design.ways import Way, ways
from mockup.lengths import format_length
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.page.column import Shown, words_column
from mockup.render.page.drawing import PageDrawing, page_drawing, way_options
from mockup.render.page.page_asked import PageAsked
from mockup.render.page.style import page_style
from mockup.render.page.tags import said, tag
from mockup.render.page.typeface import typeface_css
from mockup.render.page.words import approved
from mockup.render.sheets.answers import failed
from mockup.render.sheets.key import KeyRow, key_rows
from mockup.render.sheets.scale import scale_words

_POLICY = (
    "default-src 'none'; style-src 'sha256-{}'; font-src data:; base-uri 'none'; form-action 'none'"
)


def client_page(
    piece: Piece,
    findings: Sequence[Finding],
    *,
    code: str,
    asked: PageAsked,
    shares: Mapping[str, float] | None = None,
) -> str:
    """The page as text: the same input gives the same page, and it asks for nothing from outside.

    ``shares`` are the letters' shares of the visible front, as for the proof.
    """
    return _Page(piece, findings, code, asked, shares).text()


class _Page:
    """One page on its way."""

    def __init__(
        self,
        piece: Piece,
        findings: Sequence[Finding],
        code: str,
        asked: PageAsked,
        shares: Mapping[str, float] | None,
    ) -> None:
        self.piece, self.findings, self.code, self.asked = piece, findings, code, asked
        self.design: Design = piece.design
        self.ways: tuple[Way, ...] = ways(self.design)
        self.keys = [key_rows(piece, shares, way_options(asked.view, way)) for way in self.ways]
        self.drawing: PageDrawing = page_drawing(
            piece,
            self.keys,
            scale=asked.scale,
            views=asked.views,
            units=asked.units,
            options=asked.view,
            figure=asked.figure,
        )
        self.shown = Shown(
            piece, tuple(findings), code, asked.reply_to, tuple(self.keys), self.drawing
        )

    def text(self) -> str:
        """The whole file."""
        body = "\n".join(("".join(self._header()), self._main(), self._footer()))
        drawing = self.drawing
        size = (drawing.width, drawing.height)
        style = typeface_css(body) + page_style(self.asked.paper, size, drawing.bar, len(self.ways))
        return (
            f'<!DOCTYPE html>\n<html lang="en">\n<head>\n{self._head(style)}\n</head>\n'
            f"<body>\n{body}\n</body>\n</html>\n"
        )

    def _head(self, style: str) -> str:
        seal = b64encode(sha256(style.encode()).digest()).decode()
        title = f"{self._kind()} {self.code}: {self.design.title}"
        return "\n".join(
            (
                tag("meta", charset="utf-8"),
                f'<meta http-equiv="Content-Security-Policy" content="{_POLICY.format(seal)}">',
                tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
                tag("meta", name="referrer", content="no-referrer"),
                tag("title", said(title)),
                f"<style>{style}</style>",
            )
        )

    def _kind(self) -> str:
        return "Draft of a colour proof" if self.shown.draft else "Colour proof"

    def _header(self) -> Iterator[str]:
        design = self.design
        yield '<a class="skip" href="#approval">Skip to the approval</a>\n<header>\n'
        yield tag("p", self._kind(), class_="kind")
        yield tag("h1", said(design.title), dir="auto")
        if design.client:
            yield tag("p", "for ", tag("bdi", said(design.client)), class_="for")
        yield tag("dl", *chain.from_iterable(map(_fact, self._facts())), class_="facts")
        if self.shown.draft:
            fails = " and ".join(finding.name for finding in failed(self.findings))
            yield tag("p", f"This is a draft: {said(fails)} is yet to be mended.", class_="banner")
        if self.asked.seen:
            yield tag("p", said(_seen_words(self.asked.seen)), class_="seen")
        yield "\n</header>"

    def _facts(self) -> list[tuple[str, str, str]]:
        design = self.design
        facts = [
            ("Studio", self.asked.studio, ""),
            ("Event date", day(design.event_date), ""),
            ("Venue", design.venue, ""),
            ("Proof", self.code, "code"),
            ("Revision", str(design.revision), "code"),
        ]
        return [fact for fact in facts if fact[1]]

    def _main(self) -> str:
        words = words_column(self.shown)
        return tag("main", self._figure(), tag("div", *words, class_="words card"))

    def _figure(self) -> str:
        drawing, unit = self.drawing, self.design.unit
        told = f"The drawing: {'; '.join(approved(self.piece))}"
        svg = tag(
            "svg",
            f"<defs>{drawing.parts.definitions}</defs>",
            drawing.parts.groups["drawing"],
            viewBox=drawing.view_box,
            fill="none",
            role="img",
            aria_label=told,
        )
        bar = tag(
            "svg",
            drawing.parts.groups["bar"],
            viewBox=f"0 0 {drawing.bar[0]:g} {drawing.bar[1]:g}",
            fill="none",
            class_="bar",
            aria_hidden="true",
        )
        pane = tag("div", svg, class_="pane", tabindex="0", role="region", aria_label="Drawing")
        about = (
            f"Dimensions in {'inches' if unit == 'in' else 'centimetres'}. "
            f"It prints at {scale_words(self.asked.scale)} when printed at 100 %."
        )
        figure = tag("figure", pane, bar, tag("figcaption", about))
        return tag(
            "section",
            tag("h2", "The drawing", id="drawing"),
            self._switches(),
            figure,
            class_="drawing card",
            aria_labelledby="drawing",
        )

    def _switches(self) -> str:
        zooms = (("1", "Fit"), ("2", "2 ×"), ("4", "4 ×"))
        zoom = (_choice("zoom", f"zoom-{by}", said(name), by == "1") for by, name in zooms)
        box = tag("input", type="checkbox", id="dimensions", checked=True, autocomplete="off")
        show = tag("label", box, "Dimensions", for_="dimensions")
        return tag(
            "div",
            self._colourways(),
            tag("fieldset", tag("legend", "Size"), *zoom),
            tag("fieldset", tag("legend", "Show"), show),
            class_="switches",
        )

    def _colourways(self) -> str:
        if len(self.ways) == 1:
            return ""
        choices = (
            _choice(
                "way",
                f"way-{n}",
                tag("span", *map(_dot, self.keys[n - 1]), class_="dots", aria_hidden="true")
                + tag("bdi", said(way.name)),
                n == 1,
            )
            for n, way in enumerate(self.ways, start=1)
        )
        return tag("fieldset", tag("legend", "Colourway"), *choices)

    def _footer(self) -> str:
        box = self.piece.extent
        unit = self.design.unit
        sizes = " × ".join(format_length(each, unit) for each in (box.width, box.height, box.depth))
        sender = f"{said(self.asked.studio)} · " if self.asked.studio else ""
        about = f"Proof {self.code}, revision {self.design.revision} · {sizes}"
        return tag("footer", tag("p", sender, said(about)))


def _seen_words(seen: str) -> str:
    """How the colours are shown, as a sentence.

    >>> _seen_words("in grey"), _seen_words("deutan sight")
    ('The colours are shown in grey.', 'The colours are shown as they look to deutan sight.')
    """
    if seen.startswith("in "):
        return f"The colours are shown {seen}."
    return f"The colours are shown as they look to {seen}."


def _fact(fact: tuple[str, str, str]) -> tuple[str, ...]:
    name, value, kind = fact
    known = {"class_": kind} if kind else {}
    return (tag("div", tag("dt", name), tag("dd", tag("bdi", said(value)), **known)),)


def _choice(group: str, name: str, label: str, chosen: bool) -> str:
    radio = tag("input", type="radio", name=group, id=name, checked=chosen, autocomplete="off")
    return tag("label", radio, label, for_=name)


def _dot(row: KeyRow) -> str:
    circle = tag("circle", cx="8", cy="8", r="7.2", fill=row.colour.srgb, stroke="#8b8d92")
    return tag("svg", circle, viewBox="0 0 16 16")
