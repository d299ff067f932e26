"""The comparison as one HTML file: the versions at one scale, their figures, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mockup.render.front_view import front_view
from mockup.render.page.inline import inline
from mockup.render.page.tags import said, section, tag
from mockup.render.page.typeface import FAMILY, typeface_css
from mockup.render.record import Group, Sheet
from mockup.render.sheets.cautions import cautions_for
from mockup.render.sheets.compare import Compared, CompareRow, NothingToCompare

_SCALE = 1 / 10
_ROOM = 2.0
"""Sheet mm round each picture, for the shade that a balloon throws."""

_STYLE = """\
:root{color-scheme:light;--ink:#1c1c1e;--soft:#55585e;--hair:#dcdad4;--ground:#f6f4ef;
--good:#1d6b43;--best:#e8f3ec;--ring:#1a4fa3}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--ground);color:var(--ink);overflow-wrap:anywhere;
font:1.0625rem/1.5 FAMILY,system-ui,sans-serif}
h1,h2,p,ul,figure{margin:0;padding:0}
:focus-visible{outline:3px solid var(--ring);outline-offset:2px}
header,main{max-width:90rem;margin:0 auto;padding:0 clamp(1rem,3.5vw,2.5rem)}
header{padding-top:clamp(1.25rem,4vw,3rem);padding-bottom:1.25rem}
main{display:grid;gap:2rem;padding-bottom:3rem;grid-template-columns:minmax(0,1fr)}
h1{font-size:clamp(1.75rem,1.2rem + 2.6vw,3rem);line-height:1.1;text-wrap:balance}
h2{font-size:1.1875rem;line-height:1.25;margin-bottom:.6rem}
.about,.says,figcaption p{color:var(--soft)}
.versions{display:grid;gap:1rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,15rem),1fr))}
figure{display:flex;flex-direction:column;justify-content:flex-end;background:#fff;
border:1px solid var(--hair);border-radius:.6rem;padding:1rem}
figure svg{display:block;height:auto;margin:auto auto 0}
figcaption{border-top:1px solid var(--hair);margin-top:1rem;padding-top:.7rem;min-height:6.5rem}
figcaption strong{font-size:1.25rem;line-height:1.2}
.figures{overflow-x:auto;background:#fff;border:1px solid var(--hair);border-radius:.6rem}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:.45rem .9rem;white-space:pre-line;min-width:8rem;
overflow-wrap:normal;border-top:1px solid var(--hair);font-variant-numeric:tabular-nums}
thead th{border:0}tbody th{font-weight:400;color:var(--soft);position:sticky;left:0;
background:#fff;min-width:7rem}
.best{font-weight:700;color:var(--good);background:var(--best)}
ul{list-style:none;columns:20rem;gap:2rem}li{break-inside:avoid;padding:.15rem 0 .15rem 1.15rem;
text-indent:-1.15rem}li::before{content:"\\2013";display:inline-block;width:1.15rem;text-indent:0;
color:var(--soft)}
.shared{position:absolute;width:0;height:0}
@media print{body{background:#fff;font-size:9.5pt}header,main{max-width:none;padding:0}
.versions{grid-template-columns:repeat(COUNT,minmax(0,1fr))}
figure,.figures{border:0;padding:0;overflow:visible;break-inside:avoid}figcaption{min-height:0}
th,td{padding:.8mm 2mm;min-width:0}}
"""


def compared_page(
    title: str, versions: Sequence[Compared], rows: Sequence[CompareRow], *, about: str = ""
) -> str:
    """The page's HTML: nothing in it is fetched and nothing runs.

    Raises ``NothingToCompare`` where there is no version.
    """
    if not versions:
        raise NothingToCompare("there is no version to compare")
    body = "".join(
        (
            tag("header", tag("h1", said(title)), *_about(about)),
            tag(
                "main",
                section("versions", "Side by side, at one scale", _pictures(versions)),
                section("figures", "In figures", _figures(versions, rows)),
                section("note", "Please note", _cautions(versions)),
            ),
        )
    )
    return f"{_head(title, body, len(versions))}<body>{body}</body></html>\n"


def _head(title: str, body: str, count: int) -> str:
    policy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"
    style = _STYLE.replace("FAMILY", FAMILY).replace("COUNT", str(count))
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{said(title)}: versions compared</title>"
        f"<style>{typeface_css(body)}{style}</style></head>"
    )


def _about(words: str) -> Iterator[str]:
    if words:
        yield tag("p", said(words), class_="about")


def _pictures(versions: Sequence[Compared]) -> str:
    """Every version by itself, all of them sharing one set of definitions and one scale."""
    views = tuple(
        Group((front_view(one.piece, _SCALE, (0.0, 0.0)),), kind=f"version-{number}")
        for number, one in enumerate(versions)
    )
    drawn = inline(Sheet(1.0, 1.0, views, background="none"))
    widest = max(one.piece.extent.width for one in versions) * _SCALE + 2 * _ROOM
    shared = tag("svg", tag("defs", drawn.definitions), class_="shared", aria_hidden="true")
    cards = [
        _card(one, drawn.groups[f"version-{number}"], widest) for number, one in enumerate(versions)
    ]
    return shared + tag("div", *cards, class_="versions")


def _card(one: Compared, drawing: str, widest: float) -> str:
    box = one.piece.extent
    left, top = box.x[0] * _SCALE - _ROOM, -box.y[1] * _SCALE - _ROOM
    width, height = (side * _SCALE + 2 * _ROOM for side in (box.width, box.height))
    picture = tag(
        "svg",
        drawing,
        viewBox=f"{left:.2f} {top:.2f} {width:.2f} {height:.2f}",
        style=f"width:{100 * width / widest:.2f}%",
        fill="none",
        role="img",
        aria_label=f"{one.name}: {len(one.piece.balloons)} balloons",
    )
    says = tag("p", said(one.says)) if one.says else ""
    return tag("figure", picture, tag("figcaption", tag("strong", said(one.name)), says))


def _figures(versions: Sequence[Compared], rows: Sequence[CompareRow]) -> str:
    heads = [tag("th", said(one.name), scope="col") for one in versions]
    lines = [_line(row) for row in rows]
    table = tag(
        "table",
        tag("thead", tag("tr", tag("td"), *heads)),
        tag("tbody", *lines),
    )
    return tag(
        "div", table, class_="figures", role="group", aria_label="Table of figures", tabindex="0"
    )


def _line(row: CompareRow) -> str:
    cells = [
        tag("td", _lines(f"{text} ({mark})"), class_="best") if mark else tag("td", _lines(text))
        for text, mark in zip(row.cells, row.marks, strict=True)
    ]
    return tag("tr", tag("th", said(row.label), scope="row"), *cells)


def _lines(text: str) -> str:
    return "\n".join(said(line) for line in text.split("\n"))


def _cautions(versions: Sequence[Compared]) -> str:
    says = cautions_for(*(one.piece for one in versions))
    return tag("ul", *(tag("li", said(each)) for each in says))
