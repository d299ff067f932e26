"""A job file read with all its pieces; a piece file alone is a job of one piece."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from mockup.design.job import Job, JobPiece
from mockup.design.job_keys import JOB
from mockup.design.job_mark import is_job
from mockup.design.model import Design
from mockup.design.opening import read_text
from mockup.design.reading import read_design
from mockup.design.setting_keys import setting_spec, stands_spec
from mockup.design.studio_book import is_file
from mockup.design.studio_tables import Source, read_toml
from mockup.design.studio_usual import Usual
from mockup.design.tables import Given
from mockup.errors import Fault, FaultsFound, printable


def read_job(path: Path, usual: Usual | None = None) -> Job:
    """The job in a file, or the job of one piece where it is a piece file.

    ``usual`` is what holds where a piece says nothing: by default what the studio book in force
    for its folder says.

    Raises ``FaultsFound`` with every fault of the file and of every piece it names.
    """
    text = read_text(path)
    if not is_job(text):
        return job_of(read_design(path, usual), path)
    return read_toml(text, str(path), JOB, lambda job, source: _job(job, source, path, usual))


def job_of(design: Design, file: Path) -> Job:
    """The job of building one piece once."""
    return Job(
        title=design.title,
        pieces=(JobPiece(design, 1, file),),
        client=design.client,
        event_date=design.event_date,
        venue=design.venue,
        revision=design.revision,
        note=design.note,
        file=file,
    )


def _job(job: Given, source: Source, path: Path, usual: Usual | None) -> Job:
    return Job(
        title=job.get("title", ""),
        pieces=_pieces(job, source, path.parent, usual),
        client=job.get("client", ""),
        event_date=job.get("date", None),
        venue=job.get("venue", ""),
        ready=job.get("ready", None),
        helpers=job.get("helpers", 0),
        distance=job.get("distance", Decimal(0)),
        revision=job.get("revision", 1),
        note=job.get("note", ""),
        file=path,
        setting=setting_spec(job.table("setting"), source.faults),
    )


def _pieces(job: Given, source: Source, folder: Path, usual: Usual | None) -> tuple[JobPiece, ...]:
    """Every piece; those of one file share one design, so that it is laid out once."""
    designs: dict[Path, Design | None] = {}
    pieces: list[JobPiece] = []
    others: list[Fault] = []
    for row in job.tables("piece"):
        file = folder / row.get("file", "")
        if not row.get("file", ""):
            continue
        if file not in designs:
            designs[file] = _design(file, usual, row, source, others)
        design = designs[file]
        stands = stands_spec(row, job.table("setting"), source.faults)
        if design is not None:
            pieces.append(JobPiece(design, row.get("count", 1), file, row.path, stands))
    if others:
        raise FaultsFound(dict.fromkeys([*_own(source), *others]))
    return tuple(pieces)


def _own(source: Source) -> list[Fault]:
    return [fault for _, fault in source.faults.told(source.line, source.file)]


def _design(
    file: Path, usual: Usual | None, row: Given, source: Source, others: list[Fault]
) -> Design | None:
    """The piece's design; its faults are kept, and a file that is not there is told at its row."""
    if not is_file(file):
        shown = printable(str(file), 200)
        source.faults.add(row.at("file"), f"there is no piece file '{shown}'", "mend its name")
        return None
    try:
        if is_job(read_text(file)):
            what = f"'{file}' is a job, and a job holds pieces"
            source.faults.add(row.at("file"), what, "name its pieces instead")
            return None
        return read_design(file, usual)
    except FaultsFound as found:
        others.extend(found.faults)
        return None
