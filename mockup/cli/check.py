"""``mockup check``: the findings of a piece."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.showing import checks_fail, counted, json_option, show_findings, show_json
from mockup.records import dataclass

if TYPE_CHECKING:
    from mockup.piece.finding import Finding
    from mockup.piece.placed import Piece
    from mockup.piece.revisions import Standing


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@json_option
def command(file: Path, as_json: bool) -> None:
    """Does the piece nestle, mirror and alternate, and do the numerals fit?

    Of a job file, every piece is checked, and whether they keep clear of each other and leave a
    way. Ends with 0 when all holds, 1 when a check fails, 2 when the file has a fault.

    Example: mockup check samples/ruby-thirty.toml
    """
    from mockup.cli.job_files import is_job_file

    if is_job_file(file):
        from mockup.cli.job_check import check_job

        sys.exit(check_job(file, as_json=as_json))
    checked = check_piece(file)
    if as_json:
        show_json(checked.data())
    else:
        checked.show()
        fails = len(checked.fails)
        click.echo(f"{checks_fail(fails)}." if fails else "All checks hold.")
    for said in approval_words(checked.now):
        click.echo(said, err=True)
    sys.exit(1 if checked.fails else 0)


@dataclass(frozen=True)
class Checked:
    """A piece with its findings, and where it stands with its approvals."""

    piece: Piece
    findings: tuple[Finding, ...]
    now: Standing

    @property
    def fails(self) -> tuple[Finding, ...]:
        """The findings that fail."""
        return tuple(finding for finding in self.findings if finding.verdict == "fails")

    def data(self) -> dict[str, Any]:
        """All of it as plain data."""
        from mockup.piece.layout import findings_data

        return findings_data(self.findings) | {"approval": _approval_data(self.now)}

    def show(self) -> None:
        """The piece and its findings in the terminal."""
        count = counted(len(self.piece.balloons), "balloon")
        click.echo(f"{self.piece.design.title}: {count}")
        show_findings(self.findings)


def check_piece(file: Path) -> Checked:
    """A piece file checked; raises ``FaultsFound``."""
    from mockup.design.reading import read_design
    from mockup.piece.assemble import assemble
    from mockup.piece.findings import find_all
    from mockup.piece.revisions import standing

    now = standing(read_design(file), file)
    piece = assemble(now.design)
    return Checked(piece, find_all(piece), now)


def approval_words(now: Standing) -> Iterator[str]:
    """Lines of the log that are damaged, and what has changed since the last approval."""
    from mockup.piece.revisions import record_words

    yield from map(str, now.log.faults)
    if now.outdated:
        yield (
            f"Changed since {record_words(now.outdated)} (proof {now.outdated.code}); "
            f"the file is now proof {now.code}:"
        )
        yield from (f"  {said}" for said in now.changed())


def _approval_data(now: Standing) -> dict[str, Any]:
    """The same as plain data."""
    record = now.approved or now.outdated
    kept = {
        "by": record.by if record else "",
        "on": record.on if record else "",
        "revision": record.revision if record else None,
        "code": record.code if record else "",
    }
    return {
        "code": now.code,
        "revision": now.design.revision,
        "approved": kept if record else None,
        "holds": now.approved is not None,
        "changes": now.changed(),
        "faults": [str(fault) for fault in now.log.faults],
    }
