"""Colours by name, by palette or of one's own; foils; colourways."""

from __future__ import annotations

from pathlib import Path

import pytest

from mockup.design.model import ColourUse, Design
from mockup.design.reading import design_from_text, read_design
from mockup.errors import FaultsFound

SECTION = '[[section]]\nat = "12"\nclusters = [{ strokes = 3 }]\n'


def read(top: str, rest: str = "") -> Design:
    return design_from_text(f'title = "Ruby"\n{top}\n{SECTION}{rest}', "ruby.toml")


def faults(top: str, rest: str = "") -> list[str]:
    with pytest.raises(FaultsFound) as told:
        read(top, rest)
    return [str(fault) for fault in told.value.faults]


def colour(written: str, palette: str = "") -> ColourUse:
    return read(f"{palette}\ncolours = {{ A = {written} }}").colours["A"]


def test_a_name_is_looked_up_in_the_files_palette() -> None:
    use = colour('"deep teal"', 'palette = "harbour"')
    assert (use.letter, use.name, use.finish) == ("A", "deep teal", "gloss")
    assert use.path == ("colours", "A")


def test_a_name_is_looked_up_everywhere_where_no_palette_is_chosen() -> None:
    assert colour('"opera red"').srgb == colour('"opera red"', 'palette = "gala night"').srgb


def test_case_and_hyphens_of_a_name_do_not_matter() -> None:
    assert colour('"Deep-Teal"', 'palette = "Harbour"') == colour('"deep teal"')


def test_a_table_may_change_the_finish_or_the_palette() -> None:
    use = colour('{ colour = "opera red", finish = "clear", palette = "gala night" }',
                 'palette = "harbour"')  # fmt: skip
    assert (use.name, use.finish) == ("opera red", "clear")


def test_a_colour_of_ones_own_needs_no_palette() -> None:
    use = colour('{ name = "our own red", srgb = "#B3202C", finish = "pearl" }')
    assert (use.name, use.srgb, use.finish) == ("our own red", "#b3202c", "pearl")
    assert colour('{ srgb = "#B3202C" }').name == "#b3202c"
    assert colour('{ srgb = "#B3202C" }').finish == "matte"


def test_a_name_that_two_palettes_give_differently_must_say_which(tmp_path: Path) -> None:
    row = '\nsays = "x"\n[[colour]]\nname = "bench red"\nsrgb = "{srgb}"\n'
    for name, srgb in (("one", "#b02030"), ("two", "#c02030")):
        text = f'name = "{name}"{row.format(srgb=srgb)}'
        (tmp_path / f"{name}.palette.toml").write_text(text, "utf-8")
    piece = tmp_path / "ruby.toml"
    piece.write_text(f'title = "R"\ncolours = {{ A = "bench red" }}\n{SECTION}', "utf-8")
    with pytest.raises(FaultsFound) as told:
        read_design(piece)
    assert str(told.value.faults[0]).endswith(
        "ruby.toml:2: 'bench red' is in several palettes (one, two); "
        'write { colour = "bench red", palette = "one" }'
    )


@pytest.mark.parametrize(
    ("written", "palette", "said"),
    [
        (
            '"deep teel"',
            'palette = "harbour"',
            "there is no colour 'deep teel' in the palette 'harbour'; did you mean 'deep teal'?",
        ),
        (
            '"opra red"',
            "",
            "there is no colour 'opra red' in any palette; did you mean 'opera red'?",
        ),
        (
            '"opera red"',
            'palette = "harbour"',
            "there is no colour 'opera red' in the palette 'harbour'; "
            'write { colour = "opera red", palette = "gala night" }',
        ),
        (
            '"#b3202c"',
            "",
            "there is no colour '#b3202c' in any palette; "
            'write { name = "our own colour", srgb = "#b3202c" }',
        ),
        (
            '{ colour = "oat", palette = "harbur" }',
            "",
            "there is no palette 'harbur'; did you mean 'harbour'?",
        ),
    ],
)
def test_an_unknown_colour_offers_the_nearest(written: str, palette: str, said: str) -> None:
    assert faults(f"{palette}\ncolours = {{ A = {written} }}") == [f"ruby.toml:3: {said}"]


def test_an_unknown_palette_of_the_file_is_told_once() -> None:
    assert faults('palette = "harbur"\ncolours = { A = "oat", B = "brass" }') == [
        "ruby.toml:2: there is no palette 'harbur'; did you mean 'harbour'?"
    ]


COLOURS = 'palette = "harbour"\ncolours = { A = "deep teal", B = "oat" }'


def foil(written: str) -> ColourUse:
    panel = read(COLOURS, f'[panel]\nnumerals = "30"\nheight = "16in"\n{written}').panel
    assert panel is not None
    return panel.foil


def test_a_foil_shines_like_a_mirror_unless_told_otherwise() -> None:
    assert (foil("").name, foil("").finish) == ("brass", "mirror")
    assert (foil('colour = "B"').name, foil('colour = "B"').finish) == ("oat", "mirror")
    assert (foil('colour = "rope"').name, foil('colour = "rope"').finish) == ("rope", "mirror")
    assert foil('colour = "B"\nfinish = "matte"').finish == "matte"
    assert foil('colour = { colour = "rope", finish = "pearl" }').finish == "pearl"
    assert foil('colour = { srgb = "#c0c0c0" }').finish == "mirror"
    assert foil('finish = "matte"').finish == "matte"
    assert {foil('colour = "B"').letter, foil("").letter} == {""}


def test_a_foil_of_a_letter_that_is_not_there_is_told() -> None:
    panel = '[panel]\nnumerals = "30"\nheight = "16in"\ncolour = "C"'
    (said,) = faults(COLOURS, panel)
    assert said.startswith("ruby.toml:10: the letter 'C' is not among the colours")


WAY = '[[colourway]]\nname = "dusk"\ncolours = { A = "night tide", B = "rope" }\n'
PANEL = '[panel]\nnumerals = "30"\nheight = "16in"\n'


def test_a_colourway_maps_every_letter() -> None:
    (way,) = read(COLOURS, WAY).colourways
    assert (way.name, way.foil, way.path) == ("dusk", None, ("colourway", 0))
    assert {letter: use.name for letter, use in way.colours.items()} == {
        "A": "night tide",
        "B": "rope",
    }


def test_a_colourways_foil_is_its_own_or_follows_the_letter_of_the_first() -> None:
    followed = read(COLOURS, PANEL + 'colour = "A"\nfinish = "matte"\n' + WAY).colourways[0].foil
    assert followed is not None
    assert (followed.name, followed.finish, followed.letter) == ("night tide", "matte", "")
    same = read(COLOURS, PANEL + 'colour = "brass"\n' + WAY).colourways[0].foil
    assert same is None
    own = read(COLOURS, PANEL + WAY + 'foil = "B"\n').colourways[0].foil
    assert own is not None
    assert (own.name, own.finish) == ("rope", "mirror")


def test_a_letter_missing_from_a_colourway_is_told() -> None:
    way = '[[colourway]]\nname = "dusk"\ncolours = { A = "rope", C = "oat" }\n'
    assert faults(COLOURS, way) == [
        "ruby.toml:9: B has no colour in this colourway; give every letter a colour",
        "ruby.toml:9: the letter 'C' is not among the design's colours; the design has A, B",
    ]
