"""Two revisions of a piece found, told apart, and drawn beside each other."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.design.approvals import Log
    from mockup.design.model import Design
    from mockup.piece.revisions import Standing
    from mockup.render.record import Document


@dataclass(frozen=True)
class State:
    """A revision of a design in words, and what it says as plain data."""

    words: str
    revision: int
    code: str
    content: dict[str, Any]
    design: Design | None = None


@dataclass(frozen=True)
class Compared:
    """An older and a newer state, and what changed from one to the other."""

    title: str
    old: State
    new: State
    said: tuple[str, ...]
    faults: tuple[Fault, ...]


def compared(file: Path, revisions: tuple[int, ...]) -> Compared:
    """The states asked for: the last other one against the file, REV against it, or two REVs.

    Raises ``FaultsFound`` for more than two revisions and for one that the log does not hold, and
    ``NotADesign`` for one of which the log holds no design.
    """
    from mockup.design.reading import read_design
    from mockup.piece.changes import changes
    from mockup.piece.revisions import standing

    if len(revisions) > 2:
        raise FaultsFound([Fault("REV", "more than two revisions", "name one or two of them")])
    now = standing(read_design(file), file)
    old = _logged(now.log, revisions[0]) if revisions else _last_other(now)
    new = _logged(now.log, revisions[1]) if len(revisions) == 2 else _now(now)
    said = tuple(changes(old.content, new.content, now.design.unit))
    return Compared(now.design.title, old, new, said, now.log.faults)


def _now(now: Standing) -> State:
    from mockup.piece.code import content

    revision = now.design.revision
    words = f"the file as it is (revision {revision})"
    return State(words, revision, now.code, content(now.design), now.design)


def _logged(log: Log, revision: int) -> State:
    from mockup.piece.recalled import recalled
    from mockup.piece.revisions import record_words

    record = log.of_revision(revision)
    if record is None:
        raise FaultsFound([Fault("REV", f"the log holds no revision {revision}", _known(log))])
    return State(record_words(record), record.revision, record.code, recalled(record.content))


def _known(log: Log) -> str:
    known = sorted({record.revision for record in log.records})
    if not known:
        return "'mockup proof --final' and 'mockup approve' keep revisions in it"
    return f"it holds {', '.join(map(str, known))}"


def _last_other(now: Standing) -> State:
    """The last revision in the log that is another design; the last of all where none is."""
    records = now.log.records
    other = next((r for r in reversed(records) if r.code != now.code), None)
    record = other or (records[-1] if records else None)
    if record is None:
        raise FaultsFound([Fault("REV", "the log holds no revision yet", _known(now.log))])
    return _logged(now.log, record.revision)


def changes_document(found: Compared, paper: str | None) -> Document:
    """The sheet with both pictures."""
    from mockup.piece.assemble import assemble
    from mockup.render.sheets.differences import DOCUMENT_TYPE, Revision, differences_document
    from mockup.render.sheets.paper import family, paper_named
    from mockup.render.sheets.title_block import TitleBlock

    old, new = _design(found.old), _design(found.new)
    size = paper_named(paper) if paper else family(new.unit)[0]
    title = TitleBlock(new, found.new.code, 1, size.name, document_type=DOCUMENT_TYPE)
    return differences_document(
        Revision(_caption(found.old), assemble(old)),
        Revision(_caption(found.new), assemble(new)),
        found.said or ("Nothing has changed.",),
        size.turned(True),
        title,
    )


def _caption(state: State) -> str:
    return f"{state.words[:1].upper()}{state.words[1:]}"


def _design(state: State) -> Design:
    from dataclasses import replace

    from mockup.piece.recalled import design_from_content

    design = state.design or design_from_content(state.content)
    return replace(design, revision=state.revision)


def plain_data(found: Compared, written: list[str]) -> dict[str, Any]:
    """The comparison as plain data."""
    ends = {
        name: {"revision": state.revision, "code": state.code, "is": state.words}
        for name, state in (("from", found.old), ("to", found.new))
    }
    return {"version": 1, **ends, "changes": list(found.said), "written": written}
