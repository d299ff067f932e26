"""Two benches in two processes save one piece at once: one of them is told, and nothing is lost."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.trust.running import SAMPLES

BENCH = r"""
import sys, time
from pathlib import Path
from mockup.bench import desk

whole = desk.write_whole
def slowly(path, data):
    time.sleep(0.3)  # as on a slow disk: the other one looks at the file meanwhile
    whole(path, data)
desk.write_whole = slowly

piece, title = Path(sys.argv[1]), sys.argv[2]
mine = desk.Desk(piece, piece.parent)
mine.write(mine.version, mine.now.text.replace("Juniper", title))
print("ready", flush=True)
sys.stdin.readline()
try:
    mine.save()
    print("saved", flush=True)
except desk.ChangedOnDisk:
    mine.keep_draft()
    print("told", flush=True)
"""


def bench(piece: Path, title: str) -> subprocess.Popen[str]:
    words = [sys.executable, "-c", BENCH, str(piece), title]
    pipes = subprocess.PIPE
    started = subprocess.Popen(words, stdin=pipes, stdout=pipes, text=True)
    assert started.stdout is not None
    assert started.stdout.readline() == "ready\n"
    return started


def test_of_two_benches_that_save_at_once_one_is_told(tmp_path: Path) -> None:
    piece = tmp_path / "juniper-two.toml"
    piece.write_text((SAMPLES / piece.name).read_text("utf-8"), "utf-8")
    both = {title: bench(piece, title) for title in ("Hazel", "Rowan")}
    for each in both.values():
        assert each.stdin is not None
        each.stdin.write("now\n")
        each.stdin.flush()
    ends = {title: each.communicate(timeout=60)[0].strip() for title, each in both.items()}
    assert sorted(ends.values()) == ["saved", "told"]
    (saved,) = (title for title, end in ends.items() if end == "saved")
    (told,) = set(both) - {saved}
    assert f"{saved} is two" in piece.read_text("utf-8")
    draft = tmp_path / f".{piece.name}.draft"
    assert f"{told} is two" in draft.read_text("utf-8")
    assert {each.name for each in tmp_path.iterdir()} == {piece.name, draft.name}
