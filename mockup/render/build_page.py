"""A listing as one HTML file for a phone: boxes to tick that survive a reload, and no network.

The ticks are kept by the browser itself (Web Storage), under the listing's own name; nothing is
sent anywhere, which the page's content security policy also forbids.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from hashlib import sha256
from html import escape

from mockup.render.listing import Heading, Listing, Notes, Part, Picture, Row, Table, Words
from mockup.render.record import Sheet
from mockup.render.svg import svg_text
from mockup.render.text import plain

_STYLE = """\
:root{color-scheme:light;--ink:#1c1c1e;--soft:#5b5e64;--hair:#d9dbde;--good:#1d6b43}
*{box-sizing:border-box}
body{margin:0 auto;max-width:44rem;padding:0 1rem 4rem;font:1rem/1.4 system-ui,sans-serif;
color:var(--ink);background:#fff;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.15;margin:1rem 0 .2rem}
h2{font-size:1.1rem;margin:2rem 0 .3rem;padding-top:.6rem;border-top:1px solid var(--hair)}
h2 small,.soft,dt,b small{color:var(--soft);font-weight:400}
.note{margin:.4rem 0;padding-left:.7rem;border-left:3px solid var(--hair)}
.care{color:#7a5200}.alarm{color:#8f1d21;font-weight:700}
.banner{background:#8f1d21;color:#fff;font-weight:700;padding:.7rem .9rem;border-radius:.4rem}
dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(8rem,1fr));
gap:.4rem 1rem;margin:1rem 0}
dt{font-size:.8rem}dd{margin:0}
ul{list-style:none;margin:0;padding:0}
li{border-bottom:1px solid var(--hair)}
li.lead{padding:.8rem 0 .3rem;font-weight:700;border:0}
li>label,li>div{display:flex;gap:.7rem;align-items:center;padding:.55rem 0;min-height:2.75rem}
input{flex:none;width:1.5rem;height:1.5rem;accent-color:var(--good);margin:0}
i{flex:none;width:1.5rem;height:1.5rem;border-radius:50%;border:1px solid #0003}
li img{flex:none;width:4.2rem;height:auto}
.cells{flex:1;display:flex;flex-wrap:wrap;gap:.1rem .8rem;min-width:0}
.cells b{font-weight:600}.cells .main{flex-basis:100%}
:checked~*{opacity:.45}
figure{margin:.5rem 0}figure img{display:block;max-width:100%;height:auto;margin:auto}
.bar{position:sticky;top:0;background:#fffffff2;border-bottom:1px solid var(--hair);
display:flex;justify-content:space-between;align-items:center;padding:.5rem 0;z-index:1}
button{font:inherit;padding:.4rem .8rem;border:1px solid var(--hair);
border-radius:.4rem;background:#fff}
@media print{.bar{display:none}}
"""

_SCRIPT = """\
(function(){
var key='mockup '+document.body.dataset.name,boxes=document.querySelectorAll('input');
var count=document.getElementById('count'),kept=true,done={};
try{done=JSON.parse(localStorage.getItem(key))||{}}catch(e){kept=false}
function show(){var n=0;boxes.forEach(function(b){n+=b.checked});
count.textContent=n+' of '+boxes.length+' done'+(kept?'':' (this browser keeps no ticks)')}
function keep(){done={};boxes.forEach(function(b){if(b.checked)done[b.id]=1});
try{localStorage.setItem(key,JSON.stringify(done))}catch(e){kept=false}show()}
boxes.forEach(function(b){b.checked=!!done[b.id];b.addEventListener('change',keep)});
document.getElementById('clear').addEventListener('click',function(){
if(confirm('Clear every tick?')){boxes.forEach(function(b){b.checked=false});keep()}});
show()})();
"""


def page_bytes(listing: Listing) -> bytes:
    """The page, in UTF-8."""
    return "".join(_page(listing)).encode()


def _page(listing: Listing) -> Iterator[str]:
    seal = b64encode(sha256(_SCRIPT.encode()).digest()).decode()
    policy = (
        f"default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-{seal}'"
    )
    title = f"{listing.kind}: {listing.title}"
    yield '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">\n'
    yield f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    yield f"<title>{_text(title)}</title>\n<style>{_STYLE}</style></head>\n"
    yield f'<body data-name="{_text(listing.about or listing.title)}">\n'
    yield from _head(listing)
    for number, part in enumerate(listing.parts):
        yield from _part(part, number)
    foot = " · ".join(one for one in (listing.sender, listing.about) if one)
    yield f'<p class="soft">{_text(foot)}</p>\n'
    yield f"<script>{_SCRIPT}</script></body></html>\n"


def _text(text: str) -> str:
    return escape(plain(text))


def _lines(text: str) -> str:
    return "<br>".join(_text(line) for line in text.split("\n"))


def _head(listing: Listing) -> Iterator[str]:
    if listing.banner:
        yield f'<p class="banner" role="alert">{_text(listing.banner)}</p>\n'
    yield f'<p class="soft">{_text(listing.kind)}</p><h1>{_text(listing.title)}</h1>\n'
    if listing.client:
        yield f"<p>for {_text(listing.client)}</p>\n"
    facts = "".join(
        f"<div><dt>{_text(name)}</dt><dd>{_text(value)}</dd></div>" for name, value in listing.facts
    )
    yield f"<dl>{facts}</dl>\n"
    yield '<div class="bar"><span id="count"></span>'
    yield '<button id="clear" type="button">Clear ticks</button></div>\n'


def _part(part: Part, number: int) -> Iterator[str]:
    if isinstance(part, Heading):
        aside = f" <small>{_text(part.aside)}</small>" if part.aside else ""
        yield f"<h2>{_text(part.text)}{aside}</h2>\n"
    elif isinstance(part, Words):
        strong = "<strong>{}</strong>" if part.strong else "{}"
        yield f'<p class="{part.tone}">{strong.format(_lines(part.text))}</p>\n'
    elif isinstance(part, Picture):
        yield f"<figure>{_image(part, 4.0)}</figure>\n"
    elif isinstance(part, Notes):
        yield f"<h2>{_text(part.title)}</h2>\n"
        yield from (f'<p class="note">{_text(says)}</p>\n' for says in part.says)
    else:
        rows = "".join(_row(part, row, f"t{number}-{n}") for n, row in enumerate(part.rows))
        yield f"<ul>{rows}</ul>\n"


def _row(table: Table, row: Row, name: str) -> str:
    if row.lead:
        return f'<li class="lead">{_text(" ".join(one for one in row.cells if one))}</li>\n'
    marks = ""
    if row.swatch:
        marks += f'<i style="background:{_text(row.swatch.srgb)}"></i>'
    if row.picture:
        marks += _image(row.picture, 4.0)
    body = f'{marks}<span class="cells">{_cells(table, row)}</span>'
    if not table.ticks:
        return f'<li class="{row.tone}"><div>{body}</div></li>\n'
    box = f'<input type="checkbox" id="{name}">'
    return f'<li class="{row.tone}"><label>{box}{body}</label></li>\n'


def _cells(table: Table, row: Row) -> str:
    """The cell of the widest column large, after a number or a name before it; others follow."""
    columns = list(zip(table.columns, row.cells, strict=True))
    main = max(range(len(columns)), key=lambda place: columns[place][0].share)
    first, said = columns[0]
    number = said if main and first.anchor == "end" else ""
    name = said if main and not first.title and first.anchor == "start" else ""
    words = " ".join(one for one in (number, f"{name}:" if name else "", columns[main][1]) if one)
    others = [
        (column.title, text)
        for place, (column, text) in enumerate(columns)
        if text and place != main and not (place == 0 and (number or name))
    ]
    more = "".join(f"<span>{_titled(title)}{_lines(text)}</span>" for title, text in others)
    return f'<b class="main">{_lines(words)}</b>{more}'


def _titled(title: str) -> str:
    return f'<small class="soft">{_text(title)}</small> ' if title else ""


def _image(picture: Picture, pixels: float) -> str:
    """The drawing as an image of its own, so that nothing in it can run or clash."""
    sheet = Sheet(picture.width, picture.height, picture.draw((0.0, 0.0)), name=picture.says)
    data = b64encode(svg_text(sheet).encode()).decode()
    width, height = round(picture.width * pixels), round(picture.height * pixels)
    return (
        f'<img alt="{_text(picture.says)}" width="{width}" height="{height}" '
        f'src="data:image/svg+xml;base64,{data}">'
    )
