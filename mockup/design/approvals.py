"""The approval log beside a piece: one record a line, only ever added to.

Each line is a JSON object sealed with a short hash of itself, so that a line damaged by a crash or
by hand is noticed, told with its number, and left where it is. Two writers take turns by a lock
file; a line that a crash cut short is closed before the next one is written, so nothing is lost.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, field, fields, replace
from pathlib import Path
from typing import Any, Literal

from mockup.errors import CannotWrite, Fault
from mockup.records import dataclass

ENDING = ".approvals.jsonl"
_WAIT_SECONDS = 10
_SEAL_LENGTH = 8


@dataclass(frozen=True)
class Record:
    """One line: a proof that went out as final (``sent``) or that the client approved.

    ``content`` is what the design said, as plain data, so that later changes can be told.
    """

    kind: Literal["sent", "approved"]
    code: str
    revision: int
    on: str
    by: str = ""
    colourway: str = ""
    note: str = ""
    content: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Log:
    """The readable records in order, and a fault for every line that is not one."""

    records: tuple[Record, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def approvals(self) -> tuple[Record, ...]:
        """The records of approvals only."""
        return tuple(record for record in self.records if record.kind == "approved")

    def revision_of(self, code: str) -> int:
        """The revision a design of this code has: that of its record, or the next one.

        >>> Log().revision_of("1A2B3C4D")
        1
        """
        known = {record.code: record.revision for record in self.records}
        return known.get(code, max(known.values(), default=0) + 1)

    def of_revision(self, revision: int) -> Record | None:
        """The last record of a revision, if there is one."""
        return next((r for r in reversed(self.records) if r.revision == revision), None)


def log_path(piece: Path) -> Path:
    """Where the log of a piece file lies.

    >>> log_path(Path("ruby.toml")).name
    'ruby.approvals.jsonl'
    """
    return piece.with_name(piece.stem + ENDING)


def read_log(piece: Path) -> Log:
    """The log of a piece; no log is an empty one, a damaged line becomes a fault."""
    path = log_path(piece)
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return Log()
    except OSError as trouble:
        why = trouble.strerror or "the system refused"
        return Log(faults=(Fault(path.name, f"cannot be read ({why})", "check its permissions"),))
    records: list[Record] = []
    faults: list[Fault] = []
    for number, line in enumerate(data.split(b"\n"), start=1):
        if not line.strip():
            continue
        record = _unsealed(line)
        if record:
            records.append(record)
        else:
            faults.append(
                Fault(
                    f"{path.name}:{number}",
                    "this line is damaged and was left out",
                    "the other lines hold; restore it from a copy if you have one",
                )
            )
    return Log(tuple(records), tuple(faults))


def add_record(piece: Path, record: Record) -> Path:
    """Add one record to the log of a piece and return the log's path.

    Raises ``CannotWrite`` when the folder takes no file; what stood in the log stays as it was.
    """
    path = log_path(piece)
    with _locked(path):
        _append(path, _sealed(record))
    return path


def add_counted(piece: Path, record: Record, *, once: bool = False) -> Record:
    """Add a record whose revision is counted while the log is held, and return it as it stands.

    Two programs that count at once so never give one number to two designs. With ``once`` nothing
    is added where the log already holds the design; that record is returned. Raises like
    ``add_record``.
    """
    path = log_path(piece)
    with _locked(path):
        log = read_log(piece)
        known = next((each for each in log.records if each.code == record.code), None)
        if once and known:
            return known
        counted = replace(record, revision=log.revision_of(record.code))
        _append(path, _sealed(counted))
    return counted


@contextmanager
def _locked(path: Path) -> Iterator[None]:
    """Hold the log; its lock file stays beside it, for taking it away would break the turns."""
    from filelock import FileLock, Timeout

    try:
        with FileLock(f"{path}.lock", timeout=_WAIT_SECONDS):
            yield
    except Timeout as trouble:
        raise CannotWrite(f"{path.name}: another program is writing it; try again") from trouble
    except OSError as trouble:
        why = trouble.strerror or "the system refused"
        raise CannotWrite(f"{path.name}: cannot be written ({why}); nothing was added") from trouble


def _append(path: Path, line: bytes) -> None:
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o644)
    try:
        end = os.lseek(handle, 0, os.SEEK_END)
        if end and not _ends_in_newline(handle, end):
            line = b"\n" + line
        _write_all(handle, line, end)
        os.fsync(handle)
    finally:
        os.close(handle)


def _ends_in_newline(handle: int, end: int) -> bool:
    os.lseek(handle, end - 1, os.SEEK_SET)
    return os.read(handle, 1) == b"\n"


def _write_all(handle: int, line: bytes, end: int) -> None:
    """Write the whole line, or take back what a full disk let through of it."""
    written = 0
    try:
        while written < len(line):
            written += os.write(handle, line[written:])
    except OSError:
        os.ftruncate(handle, end)
        raise


def _sealed(record: Record) -> bytes:
    import json  # as below: no check needs it before there is a log

    body = _canonical(asdict(record))
    return _canonical({"seal": _seal(body), **json.loads(body)}).encode() + b"\n"


def _canonical(data: dict[str, Any]) -> str:
    import json

    return json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _seal(body: str) -> str:
    import hashlib  # loads slowly, and most pieces have no log yet

    return hashlib.sha256(body.encode("utf-8", "surrogatepass")).hexdigest()[:_SEAL_LENGTH]


def _unsealed(line: bytes) -> Record | None:
    import json

    try:
        data = json.loads(line)
        seal = data.pop("seal")
        if seal != _seal(_canonical(data)) or set(data) != _keys():
            return None
        record = Record(**data)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    return record if _holds(record) else None


def _holds(record: Record) -> bool:
    """Whether every value is of its sort: a seal fits whatever a line holds."""
    words = (record.code, record.on, record.by, record.colourway, record.note)
    return (
        record.kind in ("sent", "approved")
        and all(isinstance(each, str) for each in words)
        and type(record.revision) is int
        and record.revision >= 1
        and isinstance(record.content, dict)
    )


def _keys() -> set[str]:
    return {each.name for each in fields(Record)}


def outdated_approval(log: Log, code: str) -> Record | None:
    """The last approval, when it approved another design than the one of this code."""
    last = log.approvals[-1] if log.approvals else None
    return last if last and last.code != code else None
