"""The words of the page beside the drawing: what is approved, its colours, and the reply."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mockup.design.ways import Way, ways
from mockup.piece.finding import Finding
from mockup.piece.placed import Piece
from mockup.render.page.drawing import BALL, PageDrawing
from mockup.render.page.tags import said, section, tag
from mockup.render.page.words import approval_words, approved, draft_words, reply_link
from mockup.render.sheets.answers import answers, failed
from mockup.render.sheets.cautions import cautions_for
from mockup.render.sheets.key import KeyRow

_MARKS = {
    "holds": ("Holds", '<path d="M2 8.4 6.2 12.6 14 3.6"/>'),
    "look": ("Worth a look", '<circle cx="8" cy="8" r="6.6"/><path d="M8 4.2v4.6M8 11.4v.6"/>'),
    "fails": ("Fails", '<path d="M3 3 13 13M13 3 3 13"/>'),
}


@dataclass(frozen=True)
class Shown:
    """What the words speak of; ``keys`` are the rows of each colourway's key."""

    piece: Piece
    findings: tuple[Finding, ...]
    code: str
    reply_to: str
    keys: tuple[tuple[KeyRow, ...], ...]
    drawing: PageDrawing

    @property
    def ways(self) -> tuple[Way, ...]:
        """The colourways offered."""
        return ways(self.piece.design)

    @property
    def draft(self) -> bool:
        """Whether a check fails, so that nothing is approved yet."""
        return bool(failed(self.findings))


def words_column(shown: Shown) -> tuple[str, ...]:
    """The sections in the order in which they are to be read: the reply comes last."""
    return (
        _approves(shown),
        _key(shown),
        _checked(shown),
        _cautions(shown),
        _approval(shown),
    )


def _told(shown: Shown, number: int, *inside: str) -> str:
    """Words that belong to one colourway alone."""
    if len(shown.ways) == 1:
        return "".join(inside)
    return tag("div", *inside, class_=f"told told-{number}")


def _approval(shown: Shown) -> str:
    replies = (
        _told(shown, number, *_reply(shown, way)) for number, way in enumerate(shown.ways, start=1)
    )
    heading = "About this draft" if shown.draft else "Your approval"
    return section("approval", heading, *replies)


def _reply(shown: Shown, way: Way) -> Iterator[str]:
    code, revision = shown.code, shown.piece.design.revision
    words = draft_words if shown.draft else approval_words
    sentence = words(way, code, revision)
    subject = f"Proof {code}, revision {revision}: {shown.piece.design.title}"
    link = reply_link(shown.reply_to, subject, f"{sentence}\n\n")
    chosen = f" {said(way.words)}" if way.words else ""
    yield tag("p", said(sentence), class_="sentence")
    yield tag(
        "a",
        f"{'Reply about' if shown.draft else 'Approve'}{chosen or ' this proof'}",
        class_="reply",
        href=link,
    )
    if shown.draft:
        yield tag("p", "A draft is not for approval yet. Your thoughts are welcome.", class_="note")
        return
    yield tag(
        "p",
        "It opens a letter to send, with the sentence above in it. You may also "
        "copy the sentence into a message of your own.",
        class_="note",
    )
    yield tag("p", "Name, date and signature", class_="sign")


def _key(shown: Shown) -> str:
    tables = (
        _told(shown, number, _table(shown, number, way))
        for number, way in enumerate(shown.ways, start=1)
    )
    return section("colours", "Colours", *tables)


def _table(shown: Shown, number: int, way: Way) -> str:
    head = ("Letter", "As it looks", "Colour", "Share of the front")
    columns = "".join(tag("th", name, scope="col") for name in head)
    rows = (_row(shown, number, n, row) for n, row in enumerate(shown.keys[number - 1], start=1))
    caption = tag("caption", said(way.words[:1].upper() + way.words[1:])) if way.words else ""
    return tag("table", caption, tag("thead", tag("tr", columns)), tag("tbody", *rows))


def _row(shown: Shown, way: int, number: int, row: KeyRow) -> str:
    size = f"{-1.15 * BALL:g} {-1.15 * BALL:g} {2.3 * BALL:g} {2.3 * BALL:g}"
    ball = tag("svg", shown.drawing.ball(way, number), viewBox=size, aria_hidden="true")
    look = f"{ball}{_flat(row)}"
    share = f"{row.share} %" if row.share is not None else ""
    name = tag("bdi", said(row.colour.name)) + tag("small", said(row.says))
    return tag(
        "tr",
        tag("th", said(row.mark), scope="row"),
        tag("td", look, class_="sample"),
        tag("td", name, class_="name"),
        tag("td", share),
    )


def _approves(shown: Shown) -> str:
    items = [tag("li", said(sentence)) for sentence in approved(shown.piece)]
    items.append(tag("li", "The colours listed below, each where the drawing shows it."))
    note = shown.piece.design.note
    more = (tag("p", said(line), dir="auto") for line in note.splitlines() if line.strip())
    heading = "What it shows" if shown.draft else "What you approve"
    return section("approves", heading, tag("ul", *items, class_="plain"), *more)


def _checked(shown: Shown) -> str:
    rows = (_answer(each.verdict, each.says) for each in answers(shown.piece, shown.findings))
    return section("checked", "Checked", tag("ul", *rows, class_="checked"))


def _cautions(shown: Shown) -> str:
    rows = (tag("li", said(each)) for each in cautions_for(shown.piece))
    return section("cautions", "Please note", tag("ul", *rows, class_="plain cautions"))


def _flat(row: KeyRow) -> str:
    shape = tag(
        "rect",
        x=".5",
        y=".5",
        width="41",
        height="29",
        rx="3",
        fill=row.colour.srgb,
        stroke="#c6c9ce",
    )
    return tag("svg", shape, viewBox="0 0 42 30", aria_hidden="true")


def _answer(verdict: str, says: str) -> str:
    name, mark = _MARKS[verdict]
    svg = tag(
        "svg",
        mark,
        viewBox="0 0 16 16",
        fill="none",
        stroke="currentColor",
        stroke_width="2",
        stroke_linecap="round",
        role="img",
        aria_label=name,
    )
    return tag("li", svg, tag("span", said(says)), class_=verdict)
