"""Revisions count themselves: a design's number is that of its record in the log, or the next."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from pathlib import Path

from mockup.design.approvals import Log, Record, outdated_approval, read_log
from mockup.design.days import day_of
from mockup.design.model import Design
from mockup.errors import printable
from mockup.piece.code import content, proof_code
from mockup.records import dataclass


@dataclass(frozen=True)
class Standing:
    """A design with its revision, its code, and the log it was counted by."""

    design: Design
    log: Log

    @cached_property
    def code(self) -> str:
        """The proof code; reckoned only where it is asked for."""
        return proof_code(self.design)

    @property
    def outdated(self) -> Record | None:
        """The last approval, where it approved something else."""
        return outdated_approval(self.log, self.code) if self.log.approvals else None

    @property
    def approved(self) -> Record | None:
        """The last approval, where it approved just this."""
        last = self.log.approvals[-1] if self.log.approvals else None
        return last if last and last.code == self.code else None

    def changed(self) -> list[str]:
        """What has changed since the last approval, in the trade's words; nothing without one."""
        return self.changed_since(self.outdated) if self.outdated else []

    def changed_since(self, record: Record) -> list[str]:
        """What has changed since a record, in the trade's words."""
        from mockup.piece.changes import changes  # most pieces have no approval to differ from
        from mockup.piece.recalled import NotADesign, recalled

        try:
            before = recalled(record.content)
        except NotADesign as unlike:
            return [str(unlike)]
        return changes(before, content(self.design), self.design.unit)


def standing(design: Design, file: Path) -> Standing:
    """Where a design read from ``file`` stands by the log beside it.

    A log that is missing or cannot be read counts from 1; its damaged lines are in ``log.faults``.
    """
    log = read_log(file)
    revision = log.revision_of(proof_code(design)) if log.records else 1
    return Standing(replace(design, revision=revision), log)


def record_words(record: Record) -> str:
    """A record as people speak of it.

    >>> record_words(Record("approved", "1A2B3C4D", 2, "2027-03-01", "R. Alder"))
    'revision 2, approved by R. Alder on 1 Mar 2027'
    """
    done = f"approved by {printable(record.by)}" if record.kind == "approved" else "sent"
    return f"revision {record.revision}, {done} on {printable(day_of(record.on))}"
