"""The comparison as one HTML file: the sheets as drawings, the figures as a table."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from mockup.render.record import Document
from mockup.render.sheets.compare import CompareRow
from mockup.render.svg import svg_text

_STYLE = """
body { font: 16px/1.4 system-ui, sans-serif; color: #1c1c1e; margin: 2em auto; max-width: 1200px; }
svg { width: 100%; height: auto; border: 1px solid #c6c9ce; margin: 1em 0; }
table { border-collapse: collapse; } caption { text-align: left; font-weight: bold; }
th, td { text-align: left; vertical-align: top; padding: .3em .8em; border-bottom: 1px solid #ddd;
  white-space: pre-line; }
td.best { font-weight: bold; color: #1d6b43; }
"""


def compare_page(document: Document, names: Sequence[str], rows: Sequence[CompareRow]) -> str:
    """The page's HTML: nothing in it is fetched and nothing runs."""
    drawings = "\n".join(
        _inline(svg_text(sheet, title=f"{document.title}, {sheet.name}"))
        for sheet in document.sheets
    )
    heads = "".join(f'<th scope="col">{escape(name)}</th>' for name in names)
    lines = "\n".join(_line(row) for row in rows)
    title = escape(document.title)
    return (
        f'<!doctype html>\n<html lang="{escape(document.language)}">\n<head><meta charset="utf-8">'
        f"<title>{title}</title><style>{_STYLE}</style></head>\n<body><h1>{title}</h1>\n"
        f"{drawings}\n<table><caption>Figures</caption><thead><tr><td></td>{heads}</tr></thead>\n"
        f"<tbody>{lines}</tbody></table></body></html>\n"
    )


def _inline(svg: str) -> str:
    """The drawing without the XML line that a page has no use for."""
    return svg[svg.index("<svg") :]


def _line(row: CompareRow) -> str:
    cells = "".join(
        f'<td class="best">{escape(text)} ({escape(mark)})</td>'
        if mark
        else f"<td>{escape(text)}</td>"
        for text, mark in zip(row.cells, row.marks, strict=True)
    )
    return f'<tr><th scope="row">{escape(row.label)}</th>{cells}</tr>'
