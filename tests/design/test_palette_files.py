"""Palettes that come with the program and those beside a piece."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design import palette_files
from mockup.design.palette_files import gather_palettes, load_palettes, shipped_folder
from mockup.design.reading import read_design
from mockup.errors import FaultsFound

OWN = """\
# of our own
name = "{name}"
says = "For the test bench."

[[colour]]
name = "bench red"
srgb = "#B02030"
finish = "gloss"
"""
PIECE = """\
title = "Ruby"
palette = "bench"
colours = { A = "bench red" }
[[section]]
at = "12"
clusters = [{ strokes = 3 }]
"""


def test_at_least_six_palettes_come_with_the_program() -> None:
    palettes = load_palettes()
    assert len(palettes) >= 6
    assert all(8 <= len(palette.colours) <= 12 for palette in palettes.values())
    assert all(name == palette.name for name, palette in palettes.items())


def test_the_folders_are_found_while_the_project_is_worked_on() -> None:
    assert (shipped_folder("palettes") / "harbour.toml").is_file()
    assert (shipped_folder("samples") / "ruby-thirty.toml").is_file()


def test_an_installed_package_looks_inside_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "mockup" / "palettes").mkdir(parents=True)
    (tmp_path / "mockup" / "palettes" / "bench.toml").write_text(OWN.format(name="bench"), "utf-8")
    monkeypatch.setattr(palette_files, "_PACKAGE", tmp_path / "mockup")
    assert list(load_palettes()) == ["bench"]


def test_a_palette_beside_the_piece_is_found(tmp_path: Path) -> None:
    (tmp_path / "ruby.toml").write_text(PIECE, "utf-8")
    (tmp_path / "bench.palette.toml").write_text(OWN.format(name="bench"), "utf-8")
    design = read_design(tmp_path / "ruby.toml")
    assert design.colours["A"].srgb == "#b02030"
    assert "harbour" in load_palettes(tmp_path)


def test_ones_own_palette_comes_before_a_shipped_one_of_its_name(tmp_path: Path) -> None:
    (tmp_path / "h.palette.toml").write_text(OWN.format(name="harbour"), "utf-8")
    assert load_palettes(tmp_path)["harbour"].names == ("bench red",)


def test_other_files_beside_the_piece_are_no_palettes(tmp_path: Path) -> None:
    (tmp_path / "bench.toml").write_text(OWN.format(name="bench"), "utf-8")
    assert "bench" not in load_palettes(tmp_path)


def test_faults_of_palettes_are_told_with_their_files_and_lines(tmp_path: Path) -> None:
    (tmp_path / "a.palette.toml").write_text(
        OWN.format(name="bench").replace('finish = "gloss"', 'finish = "glos"\nwidth = 3'), "utf-8"
    )
    (tmp_path / "b.palette.toml").write_text("name = Bench\n[[colour]\n", "utf-8")
    (tmp_path / "c.palette.toml").write_bytes(b"\xff\xfea\0")
    palettes, faults = gather_palettes(tmp_path)
    assert [str(fault).replace(f"{tmp_path}/", "") for fault in faults] == [
        "a.palette.toml:8: the finish of colour 1, 'glos', is not known; did you mean 'gloss'?",
        "a.palette.toml:9: 'width' is not a key of a palette; known here: finish, name, srgb",
        "b.palette.toml:1: 'name' has a value without quotes; write name = \"Bench\"",
        "b.palette.toml:2: a [[table]] line does not end with ]]",
        "c.palette.toml: is written in UTF-16; save it as plain text in UTF-8",
    ]
    assert "harbour" in palettes


def test_two_palettes_of_one_name_are_told(tmp_path: Path) -> None:
    for name in ("a", "b"):
        (tmp_path / f"{name}.palette.toml").write_text(OWN.format(name="bench"), "utf-8")
    with pytest.raises(FaultsFound, match=r"b\.palette\.toml:1: 'bench' is the name of a\.palette"):
        load_palettes(tmp_path)


def test_a_broken_palette_is_told_together_with_the_faults_of_the_piece(tmp_path: Path) -> None:
    (tmp_path / "ruby.toml").write_text(PIECE + "count = 7\n", "utf-8")
    (tmp_path / "bench.palette.toml").write_text("name = 5", "utf-8")
    with pytest.raises(FaultsFound) as told:
        read_design(tmp_path / "ruby.toml")
    said = str(told.value)
    assert "ruby.toml:2: there is no palette 'bench'" in said
    assert "ruby.toml:7: 'count' is 7, and must be even" in said
    assert "bench.palette.toml:1: the name of the palette is not text" in said


def test_a_shipped_file_is_named_after_its_palette() -> None:
    """They are found by their file's name and read only when asked for."""
    palettes = load_palettes()
    assert len(palettes) >= 6
    assert all(palettes[name].name == name for name in palettes)
