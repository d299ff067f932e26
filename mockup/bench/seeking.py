"""The suggestions, sought while the page stays free: how far the search is, and its answer.

A search runs in a thread of its own over the text as it stood when it began; it is stopped between
two of its steps and then answers with the best so far.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING, Any

from mockup.bench.edits import Change
from mockup.bench.gestures import fewest
from mockup.bench.looks import Look, picture
from mockup.design.clock import clock_words
from mockup.design.wishes import first_cluster, wishes_from_text
from mockup.errors import FaultsFound, MockupError

if TYPE_CHECKING:
    from mockup.design.model import ClusterSpec, Design, SectionSpec
    from mockup.design.wishes import Wishes
    from mockup.piece.placed import Piece
    from mockup.suggest.comparing import Expense, Price
    from mockup.suggest.searching import Outcome, Suggested

_MOST_LOOKED_AT = 100_000
"""More combinations than this are sampled evenly, so that a search on the page ends."""
_OTHERWISE = ("taper", "a_side", "left")
"""Other ways to say which clusters a section has."""


class _Stopped(KeyboardInterrupt):
    """What ends a search as Ctrl-C does: with the best so far."""


class Seeking:
    """One search. ``told`` may be called from any thread."""

    def __init__(self, text: str, file: Path) -> None:
        self.text, self.file = text, file
        self.design, self.wishes = wishes_from_text(text, file.name, file.parent)
        self.looked_at, self.total, self.found = 0, 0, 0
        self.stopping = False
        self.answer: dict[str, Any] | None = None
        self.thread = Thread(target=self._run, daemon=True, name="seeking")
        self.thread.start()

    def stop(self) -> None:
        """Ask the search to end; it answers with the best so far."""
        self.stopping = True

    def told(self) -> dict[str, Any]:
        """How far it is; once it has ended, with its answer."""
        so_far = {"looked": self.looked_at, "total": self.total, "found": self.found}
        if self.answer is not None:
            return {**so_far, "running": False, **self.answer}
        if self.thread.is_alive():
            return {**so_far, "running": True}
        return {**so_far, "running": False, **_nothing("The search broke off; start it again.")}

    def _run(self) -> None:
        try:
            self.answer = self._sought()
        except FaultsFound as found:
            self.answer = _nothing(*(_sentence(f.what, f.instead) for f in found.faults))
        except MockupError as trouble:
            self.answer = _nothing(str(trouble))
        except _Stopped:
            self.answer = _nothing("Stopped before anything was found.")

    def _sought(self) -> dict[str, Any]:
        from mockup.suggest.contradictions import refuse_contradictions
        from mockup.suggest.searching import suggested
        from mockup.suggest.space import space_of
        from mockup.worksheets.expense import price_of

        price = self._heeding(price_of(self.file.parent))
        space = space_of(self.design, self.wishes)
        self.total = space.total
        refuse_contradictions(self.design, self.wishes, space, price)
        outcome = suggested(
            self.design, self.wishes, price, at_most=_MOST_LOOKED_AT, progress=self._note
        )
        self.looked_at, self.found = outcome.looked_at, len(outcome.best)
        return self._answer(outcome, self._larger(outcome, price))

    def _answer(self, outcome: Outcome, larger: list[tuple[float, Outcome]]) -> dict[str, Any]:
        says = list(_says(self.wishes, outcome))
        if not outcome.best:
            says = _none(self.design, self.wishes, outcome, larger)
            outcome = larger[-1][1] if larger else outcome
        return {"says": says, "designs": _designs(self.design, self.wishes, outcome, self.text)}

    def _note(self, looked_at: int, total: int, found: int) -> None:
        self.looked_at, self.total, self.found = looked_at, total, found
        if self.stopping:
            raise _Stopped

    def _heeding(self, price: Price) -> Price:
        """Pricing, which happens for each design that holds, sees the wish to stop as well."""

        def priced(piece: Piece) -> Expense:
            if self.stopping:
                raise _Stopped
            return price(piece)

        return priced

    def _larger(self, outcome: Outcome, price: Price) -> list[tuple[float, Outcome]]:
        """Larger rings in turn until one works, where none fits the piece's own."""
        from mockup.suggest.answers import ring_sizes
        from mockup.suggest.searching import in_rings

        if outcome.best or outcome.stopped or self.design.frame.kind != "ring":
            return []
        tried: list[tuple[float, Outcome]] = []
        sizes = ring_sizes(self.design, self.wishes)
        for each in in_rings(self.design, self.wishes, price, sizes, at_most=_MOST_LOOKED_AT):
            tried.append(each)
            if each[1].best or each[1].stopped or self.stopping:
                break
        return tried


def _sentence(what: str, instead: str) -> str:
    return f"{what}; {instead}." if instead else f"{what}."


def _nothing(*says: str) -> dict[str, Any]:
    return {"says": list(says), "designs": []}


def _none(
    design: Design, wishes: Wishes, outcome: Outcome, larger: list[tuple[float, Outcome]]
) -> list[str]:
    from mockup.suggest.answers import none_words, rings_words

    if outcome.stopped:
        return ["Stopped; none was found so far."]
    return [none_words(outcome, design), *rings_words(larger, design, wishes)]


def _says(wishes: Wishes, outcome: Outcome) -> Iterator[str]:
    if outcome.stopped:
        yield f"Stopped after {outcome.looked_at:,} of {outcome.total:,}; the best so far:"
        return
    if len(outcome.best) < wishes.best:
        yield f"No more than {len(outcome.best)} of {outcome.total:,} designs hold."
    sample = ", an even sample only: a better one may be left out" if outcome.thinned else ""
    yield f"{outcome.looked_at:,} of {outcome.total:,} looked at{sample}."


def _designs(design: Design, wishes: Wishes, outcome: Outcome, text: str) -> list[dict[str, Any]]:
    from mockup.suggest.answers import beats

    return [
        {
            "name": _headline(own),
            "says": beats(outcome, place, wishes, design.unit),
            "changes": list(changes_to(own.design, design, wishes, text)),
            "drawing": picture(own.piece, Look()),
        }
        for place, own in enumerate(outcome.best)
    ]


def _headline(own: Suggested) -> str:
    cost = f", material {own.expense.cost_words}" if own.expense.cost_words else ""
    count = f"{len(own.piece.balloons)} balloons in {len(own.piece.clusters)} clusters"
    return f"{count}, {own.expense.minutes:.0f} minutes{cost}"


def changes_to(found: Design, design: Design, wishes: Wishes, text: str) -> Iterator[Change]:
    """The changes of ``text`` that make ``design``, which it says, into the ``found`` one."""
    if found.frame.outside != design.frame.outside:
        yield _set(["frame", "outside"], f"{found.frame.outside:.6g}mm")
    tables = tomllib.loads(text)["section"]
    for number, (section, old) in enumerate(zip(found.sections, design.sections, strict=True)):
        if section.name in wishes.sections:
            yield from _section(["section", number], tables[number], section, old)


def _section(
    path: list[str | int], table: dict[str, Any], new: SectionSpec, old: SectionSpec
) -> Iterator[Change]:
    if new.at_deg != old.at_deg:
        yield _set([*path, "at"], clock_words(new.at_deg))
    yield from ({"do": "unset", "path": [*path, key]} for key in _OTHERWISE if key in table)
    if (new.middle is None) != (old.middle is None):
        yield _set([*path, "middle"], new.middle is not None)
    run = [spec for spec in (new.middle, *new.right) if spec]
    first = table["clusters"][0] if "clusters" in table else {}
    kept = {key: first[key] for key in ("kind", "size", "double") if key in first}
    rows = [{**kept, **_filled(spec)} for spec in run]
    if run[0].turn_deg is not None and run[0].turn_deg != first_cluster(old).turn_deg:
        rows[0]["turn"] = round(run[0].turn_deg, 6)
    yield _set([*path, "clusters"], rows)
    yield from _capped(path, table.get("end_cap"), new.end_right)


def _capped(path: list[str | int], cap: object, new: ClusterSpec | None) -> Iterator[Change]:
    if new is not None:
        own = cap if isinstance(cap, dict) else {}
        kept = {key: own[key] for key in ("kind", "size", "turn") if key in own}
        yield _set([*path, "end_cap"], {**kept, **_filled(new)})
    elif cap is not None:
        yield {"do": "unset", "path": [*path, "end_cap"]}


def _filled(spec: ClusterSpec) -> dict[str, Any]:
    fill = {"fill": f"{spec.diameter:.6g}mm"} if spec.strokes is None else {"strokes": spec.strokes}
    return {**fill, "colours": fewest(spec.letters)}


def _set(path: list[str | int], value: object) -> Change:
    return {"do": "set", "path": path, "value": value}
