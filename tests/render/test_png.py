"""The PNG writer and the ways without cairo; resvg and CairoSVG judge the pictures."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from pypdf import PdfReader

from mockup.render.fallback import PDF_DPI, picture_pdf_bytes, resvg_png_bytes
from mockup.render.painting import NoCairo, cairo
from mockup.render.pdf import POINTS_PER_MM
from mockup.render.png import TooManyPixels, pixels, png_bytes, with_resolution
from mockup.render.record import (
    Circle,
    Document,
    Ellipse,
    Item,
    Line,
    Place,
    Rect,
    Sheet,
    Style,
    Symbol,
    Text,
)
from mockup.render.record import Path as Outline
from mockup.render.routes import PDF_NOTE, PICTURE_NOTE, make_pdf, make_png
from mockup.render.svg import svg_text
from tests.render.everything import BALLOON, BODY, document, everything

DPI = 127.0
"""Five pixels to the mm, so that every mm begins on a pixel."""

ROOT = Path(__file__).parent.parent.parent


def image(png: bytes) -> Image.Image:
    return Image.open(BytesIO(png))


def levels(png: bytes) -> NDArray[np.int16]:
    return np.asarray(image(png).convert("RGB"), dtype=np.int16)


def apart(first: bytes, second: bytes, by: int = 24) -> float:
    """The share of pixels in which two pictures differ by more than ``by`` levels of 255."""
    worst = np.abs(levels(first) - levels(second)).max(axis=2)
    return float((worst > by).mean())


@pytest.fixture(scope="module")
def by_cairo() -> bytes:
    return png_bytes(everything(), DPI)


@pytest.fixture(scope="module")
def by_resvg() -> bytes:
    return resvg_png_bytes(everything(), DPI)


def test_resvg_draws_the_same_picture(by_cairo: bytes, by_resvg: bytes) -> None:
    """resvg is an independent reader of SVG; the picture by cairo never was SVG."""
    assert apart(by_cairo, by_resvg) < 0.005


def test_cairosvg_draws_the_same_picture(by_cairo: bytes) -> None:
    """CairoSVG is another one, written in Python."""
    import cairosvg

    judged = cairosvg.svg2png(svg_text(everything()).encode(), dpi=DPI)
    assert apart(by_cairo, judged) < 0.005


def test_the_judge_sees_a_small_change(by_cairo: bytes) -> None:
    sheet = everything()
    moved = replace(sheet, items=(*sheet.items[1:], Rect(60.0, 60.0, 13.0, 13.0, Style("#000000"))))
    assert apart(by_cairo, resvg_png_bytes(moved, DPI)) > 0.005


def test_size_and_resolution_are_stated(by_cairo: bytes, by_resvg: bytes) -> None:
    """PNG 11.3.5.3: pHYs counts whole pixels to the metre, so 127 dpi is 5000 of them."""
    for png in (by_cairo, by_resvg):
        assert image(png).size == (1000, 750)
        assert image(png).info["dpi"] == pytest.approx((DPI, DPI), abs=0.02)


def test_a_100_mm_line_is_500_pixels_at_127_dpi() -> None:
    line = Line((20.0, 30.1), (120.0, 30.1), Style(stroke="#000000", stroke_width=0.2))
    dark = levels(png_bytes(Sheet(150.0, 50.0, (line,)), DPI))[:, :, 0] < 128
    assert (int(dark.any(axis=0).sum()), int(dark.any(axis=1).sum())) == (500, 1)


def test_a_stated_resolution_replaces_another() -> None:
    png = with_resolution(with_resolution(png_bytes(Sheet(9.0, 9.0, ())), 300.0), 72.0)
    assert png.count(b"pHYs") == 1
    assert image(png).info["dpi"] == pytest.approx((72.0, 72.0), abs=0.02)
    with pytest.raises(ValueError, match="not a PNG"):
        with_resolution(b"GIF89a", 72.0)


def test_a_sheet_without_ground_is_clear() -> None:
    sheet = Sheet(10.0, 10.0, (Rect(0.0, 0.0, 5.0, 10.0, Style("#ff0000")),), background="none")
    for png in (png_bytes(sheet, DPI), resvg_png_bytes(sheet, DPI)):
        shown = image(png).convert("RGBA")
        assert (shown.getpixel((40, 25)), shown.getpixel((10, 25))) == (
            (0, 0, 0, 0),
            (255, 0, 0, 255),
        )


def test_the_ground_reaches_over_the_last_pixels() -> None:
    """At 150 dpi 150 mm end in the middle of a pixel, which must not turn grey."""
    sheet = Sheet(200.0, 150.0, (), background="#fff4e0")
    for png in (png_bytes(sheet, 150.0), resvg_png_bytes(sheet, 150.0)):
        assert (levels(png) == (255, 244, 224)).all()


def test_the_same_input_is_the_same_bytes(by_cairo: bytes, by_resvg: bytes) -> None:
    assert png_bytes(everything(), DPI) == by_cairo
    assert resvg_png_bytes(everything(), DPI) == by_resvg


def test_a_picture_too_large_is_refused_before_it_is_drawn() -> None:
    with pytest.raises(TooManyPixels, match="fewer than 2400 dpi"):
        pixels(Sheet(841.0, 1189.0, ()), 2400.0)


def test_other_colours_are_refused_here_too() -> None:
    with pytest.raises(ValueError, match="colour"):
        png_bytes(Sheet(9.0, 9.0, (Rect(0.0, 0.0, 1.0, 1.0, Style("red")),)))


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_numbers_that_are_not_finite_are_refused_here_too(bad: float) -> None:
    items: list[Item] = [
        Circle((bad, 1.0), 2.0, Style("#000000")),
        Line((0.0, 0.0), (1.0, bad), Style(stroke="#000000")),
        Line((0.0, 0.0), (1.0, 1.0), Style(stroke="#000000", stroke_width=bad)),
        Ellipse((1.0, 1.0), 1.0, 1.0, Style("#000000"), turn=bad),
        Text((bad, 1.0), "A", 3.5),
        Text((1.0, 1.0), "A", bad),
        Place(Symbol("s", ()), (1.0, 1.0), bad),
        Outline(f"M 0 0 L {bad} 1", Style("#000000")),
    ]
    for item in items:
        with pytest.raises(ValueError, match="finite"):
            png_bytes(Sheet(9.0, 9.0, (item,)))


def test_shapes_without_size_are_not_drawn() -> None:
    """SVG 1.1, 9.3 and 9.4: a radius of zero disables the rendering of the shape."""
    nothing: tuple[Item, ...] = (
        Circle((1.0, 1.0), 0.0, Style("#000000")),
        Ellipse((1.0, 1.0), 0.0, 5.0, Style("#000000")),
        Rect(1.0, 1.0, 0.0, 5.0, Style(BODY)),
        Place(BALLOON, (1.0, 1.0), 0.0),
        Text((1.0, 1.0), "A", 0.0),
        Text((1.0, 1.0), "", 3.5),
        Outline("", Style("#000000")),
    )
    assert levels(png_bytes(Sheet(9.0, 9.0, nothing))).min() == 255
    assert levels(resvg_png_bytes(Sheet(9.0, 9.0, nothing))).min() == 255


@pytest.fixture
def without_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing() -> None:
        raise NoCairo("the cairo library is not installed on this machine")

    for module in ("pdf", "png", "painting"):
        monkeypatch.setattr(f"mockup.render.{module}.cairo", missing)


def test_with_cairo_nothing_is_said() -> None:
    assert make_png(everything(), 25.4).note == make_pdf(document()).note == ""


@pytest.mark.usefixtures("without_cairo")
def test_without_cairo_a_png_still_comes_out_and_says_how(by_cairo: bytes) -> None:
    made = make_png(everything(), DPI)
    assert made.note == PICTURE_NOTE
    assert apart(made.data, by_cairo) < 0.005


@pytest.mark.usefixtures("without_cairo")
def test_without_cairo_a_pdf_still_comes_out_and_says_how() -> None:
    small = Document((Sheet(60.0, 40.0, everything().items, name="One"),), "A title “ü”")
    made = make_pdf(small)
    assert made.note == PDF_NOTE
    assert made.data == make_pdf(small).data
    found = PdfReader(BytesIO(made.data), strict=True)
    assert found.metadata is not None
    assert found.metadata.title == "A title “ü”"


def test_pages_of_pictures_are_true_to_size() -> None:
    """ISO 216 sizes in mm; the picture covers the page, so it is at 1:1 as well."""
    sizes = [(210.0, 297.0), (105.0, 148.0)]
    pages = tuple(Sheet(*size, everything().items) for size in sizes)
    found = PdfReader(BytesIO(picture_pdf_bytes(Document(pages, "t"), dpi=50.0)), strict=True)
    for page, size in zip(found.pages, sizes, strict=True):
        box = page.mediabox
        measured = float(box.width) / POINTS_PER_MM, float(box.height) / POINTS_PER_MM
        assert measured == pytest.approx(size, abs=0.01)
        (shown,) = page.images
        assert shown.image is not None
        assert shown.image.size == pixels(Sheet(*size, ()), 50.0)
        drawn = png_picture(resvg_png_bytes(Sheet(*size, everything().items), 50.0))
        assert np.array_equal(np.asarray(shown.image.convert("RGB")), drawn)
    assert PDF_DPI == 300.0


def png_picture(png: bytes) -> NDArray[np.uint8]:
    return np.asarray(image(png).convert("RGB"))


def test_a_library_that_cannot_be_loaded_counts_as_missing(tmp_path: Path) -> None:
    """cairocffi raises OSError, not ImportError, where it finds no cairo library."""
    fake = tmp_path / "cairocffi"
    fake.mkdir()
    (fake / "__init__.py").write_text("raise OSError('no library called \"cairo-2\" was found')")
    code = (
        "from tests.render.everything import everything;"
        "from mockup.render.routes import make_png;"
        "made = make_png(everything(), 25.4); print(made.note); print(made.data[:4])"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(tmp_path), str(ROOT)])},
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
    )
    assert ran.stdout.splitlines() == [PICTURE_NOTE, r"b'\x89PNG'"]


def test_cairo_is_at_hand_here() -> None:
    """Else the tests above would have judged the fallback against itself."""
    assert cairo().cairo_version() >= 11600
