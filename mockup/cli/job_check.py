"""A job file checked and laid out: every piece of it, then the whole in its setting."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.check import Checked, approval_words, check_piece
from mockup.cli.layout import show_marks
from mockup.cli.showing import checks_fail, counted, show_findings, show_json

if TYPE_CHECKING:
    from mockup.design.job import Job
    from mockup.piece.elevation.standing import Elevation
    from mockup.piece.finding import Finding
    from mockup.piece.placed import Piece


def check_job(file: Path, *, as_json: bool) -> int:
    """Check each piece once and the elevation; 1 where a check fails, else 0."""
    from mockup.design.job_reading import read_job
    from mockup.piece.layout import findings_data

    job = read_job(file)
    checked = {one.file: check_piece(one.file) for one in job.pieces}
    elevation, whole = _elevation(job, {path: each.piece for path, each in checked.items()})
    fails = sum(len(each.fails) for each in checked.values())
    fails += sum(finding.verdict == "fails" for finding in whole)
    if as_json:
        pieces = [_data(path, each) for path, each in checked.items()]
        said = findings_data(whole)["findings"] if elevation else None
        show_json({"version": 1, "title": job.title, "pieces": pieces, "elevation": said})
    else:
        _show(job, checked.values(), elevation, whole)
        click.echo(f"{checks_fail(fails)}." if fails else "All checks hold.")
    for each in checked.values():
        for said in approval_words(each.now):
            click.echo(f"{each.piece.design.title}: {said}", err=True)
    return 1 if fails else 0


def _elevation(job: Job, pieces: dict[Path, Piece]) -> tuple[Elevation | None, tuple[Finding, ...]]:
    from mockup.piece.elevation.findings import find_elevation
    from mockup.piece.elevation.standing import elevation_of

    elevation = elevation_of(job, pieces)
    return elevation, find_elevation(elevation) if elevation else ()


def _data(path: Path, checked: Checked) -> dict[str, Any]:
    whose = {"title": checked.piece.design.title, "file": str(path)}
    return whose | {key: each for key, each in checked.data().items() if key != "version"}


def _show(
    job: Job,
    pieces: Iterable[Checked],
    elevation: Elevation | None,
    findings: tuple[Finding, ...],
) -> None:
    for each in pieces:
        each.show()
        click.echo("")
    if elevation is None:
        click.echo(f"{job.title}: no [setting] in the job, so no elevation to check.")
        return
    count = counted(len(elevation.standings), "piece")
    click.echo(f"{job.title}: {count} on one elevation ({elevation.setting.kind})")
    show_findings(findings)


def lay_out_job(file: Path, *, unsettled: bool, as_json: bool) -> None:
    """The marks of each piece, and where each stands in the setting."""
    from mockup.design.job_reading import read_job
    from mockup.piece.assemble import assemble
    from mockup.piece.layout import layout_data

    job = read_job(file)
    pieces = {one.file: assemble(one.design) for one in job.pieces}
    elevation, _ = _elevation(job, pieces)
    if not as_json:
        for piece in pieces.values():
            show_marks(piece)
            click.echo("")
        if elevation:
            _show_places(job, elevation)
        return
    laid = [
        {"file": str(path)} | layout_data(piece, unsettled=unsettled)
        for path, piece in pieces.items()
    ]
    places = [
        {"row": one.row, "number": one.number, "title": one.piece.design.title}
        | dict(zip("xyz", (round(each, 3) + 0.0 for each in one.at), strict=True))
        for one in (elevation.standings if elevation else ())
    ]
    show_json({"version": 1, "unit": "mm", "title": job.title, "pieces": laid, "places": places})


def _show_places(job: Job, elevation: Elevation) -> None:
    from mockup.lengths import format_room

    click.echo(f"{job.title}: middles from the middle of the {elevation.setting.kind}")
    for one in elevation.standings:
        x = one.at[0]
        side = "" if abs(x) < 0.5 else " right" if x > 0 else " left"
        place = f"{format_room(abs(x), elevation.unit)}{side}" if side else "on the centre line"
        click.echo(f"  ({one.row}) {one.piece.design.title:<24} {place}")
