"""What the commands promise: JSON shapes, exit codes, and answers in words."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from mockup.cli.main import COMMANDS

Run = Callable[..., Any]
FIT = ["fit", "--ring", "24in", "--crescent", "3, 2, 2, end 1"]


def test_alone_it_shows_the_first_three_steps(run: Run) -> None:
    ran = run()
    assert ran.code == 0
    assert all(f"  {n}. mockup " in ran.out for n in (1, 2, 3))


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_every_help_is_short_and_has_an_example(run: Run, command: str) -> None:
    ran = run(command, "--help")
    assert ran.code == 0
    assert "Example: mockup " in ran.out
    assert len(ran.out.splitlines()) <= 45


def test_the_list_of_commands_has_a_line_for_each(run: Run) -> None:
    ran = run("--help")
    for name, (_, says) in COMMANDS.items():
        assert f"  {name} " in ran.out
        assert says[:20] in ran.out


def test_layout_gives_the_promised_object(run: Run, piece: Path) -> None:
    ran = run("layout", piece, "--json")
    data = json.loads(ran.out)
    assert (data["version"], data["unit"]) == (1, "mm")
    assert {"frame", "clusters", "balloons", "panel"} <= set(data)
    cluster_keys = {"section", "step", "side", "kind", "knot", "turn_deg", "along_mm"}
    balloon_keys = {"id", "section", "step", "side", "place", "x", "y", "z", "diameter", "colour"}
    assert all(cluster_keys <= set(c) for c in data["clusters"])
    assert all(balloon_keys <= set(b) for b in data["balloons"])
    assert {"window", "width", "height", "verdict"} <= set(data["panel"])
    ids = [b["id"] for b in data["balloons"]]
    assert len(set(ids)) == len(ids)


def test_unsettled_gives_the_placed_state(run: Run, piece: Path) -> None:
    settled = json.loads(run("layout", piece, "--json").out)["balloons"]
    placed = json.loads(run("layout", piece, "--json", "--unsettled").out)["balloons"]
    assert [b["id"] for b in placed] == [b["id"] for b in settled]
    assert any(abs(a["y"] - b["y"]) > 1 for a, b in zip(placed, settled, strict=True))


def test_check_gives_the_promised_object(run: Run, piece: Path) -> None:
    ran = run("check", piece, "--json")
    data = json.loads(ran.out)
    assert data["version"] == 1
    keys = {"name", "verdict", "measured", "limit", "unit", "says", "remedy"}
    assert all(set(f) == keys for f in data["findings"])
    assert {f["verdict"] for f in data["findings"]} <= {"holds", "look", "fails"}
    names = {f["name"] for f in data["findings"]}
    assert {"nestle", "swing", "daylight", "bare frame", "mirror left/right"} <= names
    assert {"mirror top/bottom", "alternation", "numerals fit", "fill", "doorway"} <= names
    assert ran.code == 0


def test_check_ends_with_1_when_a_check_fails(run: Run, samples: Path) -> None:
    failing = [p for p in sorted(samples.glob("*.toml")) if run("check", p).code == 1]
    assert len(failing) == 1
    ran = run("check", failing[0])
    assert "2 checks fail." in ran.out
    assert ran.out.count("To mend:") >= 2


def test_the_same_file_gives_the_same_words(run: Run, piece: Path) -> None:
    assert run("check", piece, "--json").out == run("check", piece, "--json").out


@pytest.mark.parametrize(
    ("words", "code", "verdicts"),
    [
        (["--numerals", "100", "--height", "13in"], 0, ("clear", "tucks")),
        (["--numerals", "50", "--height", "16in"], 0, ("clear", "tucks")),
        (["--numerals", "100", "--height", "16in"], 1, ("clashes", "overhangs")),
    ],
)
def test_fit_answers_without_a_file(
    run: Run, words: list[str], code: int, verdicts: tuple[str, ...]
) -> None:
    ran = run(*FIT, *words, "--json")
    data = json.loads(ran.out)
    assert ran.code == code
    assert data["verdict"] in verdicts
    assert {"version", "room", "largest_height"} <= set(data)
    assert run(*FIT, *words).out.startswith("Yes." if code == 0 else "No.")


def test_fit_on_a_file_agrees_with_check(run: Run, piece: Path) -> None:
    fit = json.loads(run("fit", piece, "--json").out)
    panel = json.loads(run("layout", piece, "--json").out)["panel"]
    assert fit["verdict"] == panel["verdict"]
    assert fit["room"] == panel["room"]
    assert fit["largest_height"] == panel["largest_height"]


def test_new_writes_a_piece_that_checks_and_never_overwrites(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("new", "Ruby turns thirty").code == 0
    written = tmp_path / "ruby-turns-thirty.toml"
    assert len(written.read_text(encoding="utf-8").splitlines()) <= 25
    assert run("check", written).code == 0
    before = written.read_bytes()
    again = run("new", "Ruby turns thirty")
    assert again.code == 2
    assert "ruby-turns-thirty.toml" in again.err
    assert written.read_bytes() == before


def test_new_begins_with_one_frame_of_any_kind(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("new", "Welcome to the fair", "--column", "6ft").code == 0
    assert run("check", tmp_path / "welcome-to-the-fair.toml").code == 0
    both = run("new", "Both", "--ring", "30in", "--arch", "9ft")
    assert (both.code, both.out) == (2, "")
    assert both.err.startswith("--arch: a piece has one frame, and --ring and --arch are asked for")
    assert run("new", "A wall", "--wall", "8ft", "--numerals", "30").code == 2
    assert sorted(each.name for each in tmp_path.iterdir()) == ["welcome-to-the-fair.toml"]


def test_a_final_proof_of_a_failing_piece_is_refused(
    run: Run, samples: Path, tmp_path: Path
) -> None:
    failing = next(p for p in sorted(samples.glob("*.toml")) if run("check", p).code == 1)
    out = tmp_path / "out.pdf"
    ran = run("proof", failing, "--final", "-o", out)
    assert ran.code == 1
    assert not out.exists()
    draft = run("proof", failing, "-o", tmp_path / "draft.svg", "--json")
    assert draft.code == 0
    assert len(json.loads(draft.out)["failing"]) == 2
    assert "2 checks fail" in (tmp_path / "draft.svg").read_text(encoding="utf-8")


def test_several_outputs_come_from_one_run(run: Run, piece: Path) -> None:
    outs = [piece.parent / name for name in ("a.pdf", "a.svg", "a.png")]
    ran = run("proof", piece, *(word for out in outs for word in ("-o", out)), "--json")
    report = json.loads(ran.out)
    assert report["written"] == [str(out) for out in outs]
    assert report["scale"].startswith("1:")
    assert len(report["code"]) == 8
    assert all(out.stat().st_size > 1000 for out in outs)


def test_a_proof_is_the_same_bytes_again(run: Run, piece: Path) -> None:
    one, other = piece.parent / "one.pdf", piece.parent / "other.pdf"
    run("proof", piece, "-o", one)
    run("proof", piece, "-o", other)
    assert one.read_bytes() == other.read_bytes()


def test_the_schema_is_json(run: Run) -> None:
    assert "properties" in json.loads(run("schema").out)


def test_palettes_are_shown_and_drawn(run: Run, tmp_path: Path) -> None:
    shown = json.loads(run("palettes", "--json").out)["palettes"]
    assert len(shown) >= 6
    assert all(8 <= len(p["colours"]) <= 12 for p in shown)
    assert run("palettes", "-o", tmp_path / "swatches.svg").code == 0
    assert (tmp_path / "swatches.svg").stat().st_size > 1000
    assert "did you mean 'harbour'" in run("palettes", "harbor").err


def test_approving_keeps_a_line_and_counts_revisions(run: Run, piece: Path) -> None:
    first = json.loads(
        run("approve", piece, "--by", "R. Alder", "--on", "2025-03-01", "--json").out
    )
    assert first["revision"] == 1
    text = piece.read_text(encoding="utf-8").replace("30in", "32in")
    piece.write_text(text, encoding="utf-8")
    second = json.loads(
        run("approve", piece, "--by", "R. Alder", "--on", "2025-03-02", "--json").out
    )
    assert second["revision"] == 2
    assert second["code"] != first["code"]


def test_fit_does_not_overlook_options_beside_a_file(run: Run, samples: Path) -> None:
    ran = run("fit", samples / "ruby-thirty.toml", "--ring", "20in", "--inside")
    assert (ran.code, ran.out) == (2, "")
    assert "'--ring' and '--inside' cannot go with a piece file" in ran.err
