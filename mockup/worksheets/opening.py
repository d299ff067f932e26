"""What every sheet of a job starts from: the order that a file asks for, and the paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mockup.render.sheets.paper import Paper
    from mockup.stock.order import Order


def read_order(file: Path, book: Path | None = None, colourway: str = "") -> Order:
    """The piece or job in ``file``, read and priced by the studio book in force, or by ``book``.

    Raises ``FaultsFound`` with every fault of the files, ``UnknownColourway`` for one that no
    piece offers.
    """
    from mockup.design.job_reading import read_job
    from mockup.design.studio_book import studio_for
    from mockup.design.studio_reading import read_studio
    from mockup.design.studio_usual import usual_of
    from mockup.stock.order import order

    if book is None:
        return order(read_job(file), studio_for(file.parent), colourway)
    studio = read_studio(book)
    return order(read_job(file, usual_of(studio)), studio, colourway)


def paper_for(order: Order, asked: str | None = None) -> Paper:
    """The paper asked for, or the small one where people measure in the job's unit."""
    from mockup.render.sheets.paper import family, paper_named

    return paper_named(asked) if asked else family(order.job.unit)[0]
