"""Options: the file with some of its keys in other words."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.model import Design
from mockup.design.options import AS_IT_IS, read_options
from mockup.errors import FaultsFound

PIECE = """title = "Law"
palette = "harbour"
colours = { A = "deep teal", B = "oat", C = "brass" }
[frame]
outside = "30in"
[[section]]
at = "12"
clusters = [{ strokes = 4, colours = "AC" }, { strokes = 3, colours = "BA", times = 2 }]
[[section]]
at = "6"
clusters = [{ strokes = 4, colours = "AC" }, { strokes = 3, colours = "BA", times = 2 }]
[panel]
numerals = "30"
height = "17in"
[[colourway]]
name = "dusk"
colours = { A = "oat", B = "brass", C = "deep teal" }
"""
FIRST_LINE = PIECE.count("\n") + 1


def options(folder: Path, text: str) -> dict[str, Design]:
    file = folder / "law.toml"
    file.write_text(PIECE + text, "utf-8")
    return {option.name: option.design for option in read_options(file)}


def refused(folder: Path, text: str) -> str:
    with pytest.raises(FaultsFound) as found:
        options(folder, text)
    return str(found.value)


def strokes(design: Design, section: int = 0) -> list[float | None]:
    own = design.sections[section]
    return [spec.strokes for spec in (own.middle, *own.right) if spec]


def test_a_file_without_options_is_one_version(tmp_path: Path) -> None:
    assert list(options(tmp_path, "")) == [AS_IT_IS]


def test_a_patch_changes_its_keys_and_no_other(tmp_path: Path) -> None:
    text = '[[option]]\nname = "small"\nframe.outside = "26in"\npanel.height = "14in"\n'
    found = options(tmp_path, text)
    small, base = found["small"], found[AS_IT_IS]
    assert small.panel is not None
    assert (small.frame.outside, small.panel.height) == pytest.approx((660.4, 355.6))
    assert small.panel.text == "30"
    assert (small.sections, small.colours) == (base.sections, base.colours)


def test_a_taper_keeps_the_colours_and_the_count(tmp_path: Path) -> None:
    text = '[[option]]\nname = "strong"\nsection.top.taper = "strong"\n'
    found = options(tmp_path, text)
    assert strokes(found["strong"]) == [4.0, 2.0, 1.0]
    assert strokes(found["strong"], 1) == [4.0, 3.0, 3.0]
    own = found["strong"].sections[0]
    assert [spec.letters for spec in own.right] == ["BABA", "BABA"]


def test_all_patches_every_section(tmp_path: Path) -> None:
    text = '[[option]]\nname = "even"\nsection.all.taper = "even"\nsection.all.a_side = 1\n'
    found = options(tmp_path, text)
    assert [strokes(found["even"], n) for n in (0, 1)] == [[4.0, 4.0]] * 2


def test_a_colourway_is_worn(tmp_path: Path) -> None:
    found = options(tmp_path, '[[option]]\nname = "dusk"\ncolourway = "dusk"\n')
    assert found["dusk"].colours["A"].name == "oat"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('frame.outsid = "26in"', "the frame has no key 'outsid'; did you mean 'outside'?"),
        ('frames.outside = "26in"', "the file has no key 'frames'"),
        ('section.tip.taper = "even"', "there is no section 'tip'"),
        ('section.top.tapir = "even"', "a section has no key 'tapir'; did you mean 'taper'?"),
        ('section.top = "even"', "sections go by name"),
        ('colourway = "dawn"', "there is no colourway 'dawn'"),
        ('panel.height = "17"', "'17' has no unit"),
        ('colours.A = "oat"', "an option has no 'colours'"),
    ],
)
def test_a_patch_that_cannot_be_is_told_at_its_line(tmp_path: Path, text: str, says: str) -> None:
    said = refused(tmp_path, f'[[option]]\nname = "odd"\n{text}\n')
    assert says in said
    assert f"law.toml:{FIRST_LINE + 2}: " in said


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('[[option]]\nframe.outside = "26in"\n', "an option has no name"),
        ('[[option]]\nname = "idle"\n', "option 'idle' changes nothing"),
        ('[[option]]\nname = "as it is"\nsize = "11in"\n', "two options are called 'as it is'"),
    ],
)
def test_an_option_has_a_name_of_its_own_and_a_change(tmp_path: Path, text: str, says: str) -> None:
    assert says in refused(tmp_path, text)
