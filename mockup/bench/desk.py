"""The piece on the bench: its text with every step of this visit, what is on disk, what it makes.

The text is the truth. It is written to the file only by ``save``, and never over something that
another program has put there unseen; work not yet saved lies in a draft beside the file, so that a
stopped bench loses nothing.
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock
from typing import TYPE_CHECKING, Literal

from mockup.bench.edits import Change, edited
from mockup.bench.repainting import repainted
from mockup.design.opening import read_text
from mockup.design.reading import design_from_text
from mockup.errors import CannotWrite, Fault, FaultsFound, MockupError
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.writing import write_whole

if TYPE_CHECKING:
    from mockup.bench.seeking import Seeking

OnDisk = Literal["same", "changed", "gone", "new"]


class OutOfStep(MockupError):
    """A change to a text that another tab has changed meanwhile."""


class ChangedOnDisk(MockupError):
    """The file holds something else than what was read or saved last."""


@dataclass
class Kept:
    """A text with the piece it makes; ``faults`` where it makes none."""

    text: str
    faults: tuple[Fault, ...] = ()
    piece: Piece | None = None


@dataclass
class Steps:
    """The texts before and after the one on the bench; ``hold`` names a drag that is one step."""

    past: list[str] = field(default_factory=list)
    ahead: list[str] = field(default_factory=list)
    hold: str = ""


class Desk:
    """One piece file being worked on. Every method may be called from any thread."""

    def __init__(self, file: Path | None, folder: Path) -> None:
        self.lock = RLock()
        self.file, self.folder = file, folder
        self.version = 0
        self.steps = Steps()
        self.ending = "\n"
        self.on_disk = b""
        self.saved = ""
        self.now = Kept("")
        self.good: Kept | None = None
        self.drafted = ""
        self.made: dict[str, Path] = {}
        self.seeking: Seeking | None = None
        if file is not None and file.exists():
            self._take(read_text(file))

    @property
    def started(self) -> bool:
        """Whether there is a piece on the bench, or still the start page."""
        return bool(self.now.text)

    @property
    def is_saved(self) -> bool:
        """Whether the file holds the text."""
        return self.now.text == self.saved

    def _take(self, text: str) -> None:
        """What the file holds becomes the text."""
        self.on_disk = self._bytes()
        self.ending = "\r\n" if "\r\n" in text else "\n"
        self.saved = text.replace("\r\n", "\n")
        self._set(self.saved)

    def _bytes(self) -> bytes:
        return self.file.read_bytes() if self.file and self.file.is_file() else b""

    def _set(self, text: str) -> None:
        self.now = self._read(text)
        self.version += 1
        if self.now.piece is not None:
            self.good = self.now

    def _read(self, text: str) -> Kept:
        name = self.file.name if self.file else "piece.toml"
        try:
            design = design_from_text(text, name, self.folder)
            good = self.good.piece if self.good else None
            same = repainted(good, design) if good else None
            return Kept(text, (), same or assemble(design))
        except FaultsFound as found:
            return Kept(text, found.faults)
        except MockupError as trouble:
            return Kept(text, (Fault(f"{name}:1", str(trouble)),))

    def write(self, base: int, text: str, hold: str = "") -> None:
        """Another text in place of version ``base``; raises ``OutOfStep``."""
        with self.lock:
            if base != self.version:
                raise OutOfStep("the piece was changed in another tab; look at it, then try again")
            if text == self.now.text:
                return
            if not hold or hold != self.steps.hold:
                self.steps.past.append(self.now.text)
            self.steps.hold = hold
            self.steps.ahead.clear()
            self._set(text)

    def change(self, base: int, changes: list[Change], hold: str = "") -> None:
        """Changes of the form, carried out in the text; raises ``NotCarriedOut``."""
        with self.lock:
            self.write(base, edited(self.now.text, changes), hold)

    def undo(self) -> None:
        """One step back, while there is one."""
        self._step(self.steps.past, self.steps.ahead)

    def redo(self) -> None:
        """One step forward again."""
        self._step(self.steps.ahead, self.steps.past)

    def _step(self, source: list[str], other: list[str]) -> None:
        with self.lock:
            if source:
                other.append(self.now.text)
                self.steps.hold = ""
                self._set(source.pop())

    def start(self, name: str, text: str) -> None:
        """A first text, to be saved under the file given or ``name`` in the folder."""
        with self.lock:
            if self.file is None:
                self.file = _free(self.folder / name)
            self.steps.past.append(self.now.text) if self.started else None
            self._set(text.replace("\r\n", "\n"))

    def disk(self) -> OnDisk:
        """What another program has done to the file since it was read or saved."""
        with self.lock:
            if self.file is None or not (self.on_disk or self.file.exists()):
                return "new"
            if not self.file.exists():
                return "gone"
            return "same" if self._bytes() == self.on_disk else "changed"

    def seen(self) -> str:
        """A mark of what is on disk now, with which ``save`` is told that it was seen."""
        return hashlib.sha256(self._bytes()).hexdigest()

    def save(self, over: str = "") -> None:
        """Write the text to its file; over a file changed meanwhile only where ``over`` marks it.

        Raises ``ChangedOnDisk`` or ``CannotWrite``.
        """
        with self.lock:
            if self.file is None:
                raise CannotWrite("there is no piece to save yet")
            with _turn(self.file):
                if self.disk() == "changed" and over != self.seen():
                    raise ChangedOnDisk(f"{self.file.name} was changed by another program")
                data = self.now.text.replace("\n", self.ending).encode("utf-8")
                write_whole(self.file, data)
            self.on_disk, self.saved = data, self.now.text
            self.keep_draft()

    def reload(self) -> None:
        """Take what is on disk; the text that was here is one step back."""
        with self.lock:
            if self.file is None or not self.file.exists():
                raise CannotWrite("there is no file to take up")
            self.steps.past.append(self.now.text)
            self.steps.hold = ""
            self._take(read_text(self.file))

    @property
    def draft(self) -> Path | None:
        """Where work that is not saved lies."""
        return self.file.with_name(f".{self.file.name}.draft") if self.file else None

    def draft_text(self) -> str:
        """The work that an earlier run left unsaved, or nothing."""
        if self.draft is None or not self.draft.is_file():
            return ""
        try:
            text = read_text(self.draft).replace("\r\n", "\n")
        except FaultsFound:
            return ""
        return "" if text in (self.saved, self.now.text) else text

    def keep_draft(self) -> None:
        """Put work that is not saved beside the file, or take the draft away once it is."""
        with self.lock:
            if self.draft is None:
                return
            if self.is_saved:
                if self.drafted:
                    self.draft.unlink(missing_ok=True)
                self.drafted = ""
            elif self.drafted != self.now.text:
                write_whole(self.draft, self.now.text.encode("utf-8"))
                self.drafted = self.now.text


@contextmanager
def _turn(file: Path) -> Iterator[None]:
    """While it is this process's turn to save ``file``; raises ``CannotWrite`` after ten seconds.

    The lock lies with the system's passing files, so that nothing is left beside the piece.
    """
    from filelock import FileLock, Timeout

    whose = f"{Path('~').expanduser()}:{file.resolve()}"
    name = f"mockup-{hashlib.sha256(whose.encode('utf-8', 'surrogatepass')).hexdigest()[:16]}.lock"
    try:
        with FileLock(Path(tempfile.gettempdir()) / name, timeout=10.0):
            yield
    except Timeout as trouble:
        raise CannotWrite(f"{file.name}: another program is saving it; try again") from trouble


def _free(path: Path) -> Path:
    """``path``, or one like it that nothing has yet."""
    tried, count = path, 1
    while tried.exists():
        count += 1
        tried = path.with_name(f"{path.stem}-{count}{path.suffix}")
    return tried
