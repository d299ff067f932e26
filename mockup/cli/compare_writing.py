"""The comparison sheet written in every format asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mockup.suggest.comparing import Row, Version

HTML = {".html", ".htm"}


def check_outputs(outs: Iterable[Path]) -> None:
    """Every output's name judged before anything is worked out; raises ``CannotWrite``."""
    from mockup.render.writing import format_of

    for out in outs:
        if out.suffix.lower() not in HTML:
            format_of(out)


def write_comparison(
    title: str, versions: Sequence[Version], rows: Sequence[Row], asked: dict[str, Any]
) -> Iterator[str]:
    """Draw and write the sheets; yields what there is to say of each output."""
    outs: tuple[Path, ...] = asked["outs"]
    if not outs:
        return
    from mockup.cli.drawing import write_document
    from mockup.render.page.compared_page import compared_page
    from mockup.render.sheets.compare import Compared, CompareRow, compare_document
    from mockup.render.writing import write_whole

    says: Sequence[str] = asked.get("says") or [""] * len(versions)
    lines = [
        CompareRow(row.label, row.cells, tuple(row.best_word if b else "" for b in row.best))
        for row in rows
    ]
    compared = [Compared(v.name, v.piece, said) for v, said in zip(versions, says, strict=True)]
    about = asked.get("about", "")
    document = compare_document(title, compared, lines, about=about, paper=asked["paper"])
    for out in outs:
        if out.suffix.lower() in HTML:
            page = compared_page(title, compared, lines, about=about)
            write_whole(out, page.encode("utf-8"))
            yield f"Wrote {out}."
        else:
            written, notes = write_document(document, [out], asked["dpi"])
            yield from (f"Wrote {path}." for path in written)
            yield from notes
