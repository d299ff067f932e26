"""The swatch sheet shows every colour once, shaded and flat."""

from __future__ import annotations

from mockup.colour.palettes import Colour, Palette
from mockup.colour.srgb import contrast
from mockup.design.palette_files import load_palettes
from mockup.render.record import Rect, walk
from mockup.render.sheets.overlaps import overlaps
from mockup.render.sheets.swatches import swatch_document
from tests.render.sheet_pieces import said, texts

PALETTES = list(load_palettes().values())


def test_every_colour_of_every_palette_is_on_it_once() -> None:
    document = swatch_document(PALETTES)
    words = [t.text for sheet in document.sheets for t in texts(sheet)]
    for palette in PALETTES:
        for colour in palette.colours:
            assert words.count(f"{colour.finish} {colour.srgb}") >= 1
            assert colour.name in " ".join(words)
    flats = [
        item.style.fill
        for sheet in document.sheets
        for item in walk(sheet.items)
        if isinstance(item, Rect) and item.style.fill != "none"
    ]
    assert sorted(map(str, flats)) == sorted(c.srgb for p in PALETTES for c in p.colours)


def test_its_labels_keep_clear_and_read() -> None:
    for sheet in swatch_document(PALETTES, "letter").sheets:
        assert overlaps(sheet) == []
        assert all(contrast(t.colour, t.ground) >= 4.5 for t in texts(sheet))


def test_sheets_are_counted() -> None:
    sheets = swatch_document(PALETTES).sheets
    assert f"Sheet 1 of {len(sheets)}" in said(sheets[0])


def test_twelve_colours_and_long_names_stay_clear() -> None:
    colours = tuple(
        Colour(f"a rather long name for number {n}", f"#{20 * n:02x}4080", "matte")
        for n in range(12)
    )
    palette = Palette("long", "a long line on what these colours suit " * 2, colours)
    (sheet,) = swatch_document([palette]).sheets
    assert overlaps(sheet) == []
