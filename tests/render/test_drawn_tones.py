"""The lightness reckoned for a drawn ball, against the pixels of a painter that is not ours.

resvg paints the ball as SVG; CIELAB's lightness of every pixel within it (CIE 15) is averaged.
"""

from __future__ import annotations

import io
import re
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from mockup.colour.drawn import drawn
from mockup.colour.srgb import contrast, parse_hex
from mockup.colour.views import shown_as
from mockup.design.model import FINISHES
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble
from mockup.piece.finding import Finding
from mockup.piece.findings import find_all
from mockup.render.fallback import resvg_png_bytes
from mockup.render.finishes import body, skin
from mockup.render.front_view import front_view
from mockup.render.record import Place, Sheet, Text, walk
from mockup.render.sheets.answers import answers
from mockup.render.sheets.proof import Asked, proof_document
from mockup.render.svg import svg_text
from mockup.render.tones import as_it_is
from mockup.render.viewpoint import ViewOptions
from tests.render.sheet_pieces import ILL, WELL, ring

COLOURS = ["#ffffff", "#f4c9c6", "#d2232a", "#1f6f74", "#1a1a1c", "#b8893c"]
_PIXELS = 480


def lightness(colour: str, finish: str) -> NDArray[np.float64]:
    """CIELAB L of every pixel of a ball's face."""
    parts = tuple(Place(part(colour, finish, as_it_is), (6.0, 6.0), 6.0) for part in (body, skin))
    data = resvg_png_bytes(Sheet(12.0, 12.0, parts), 25.4 * _PIXELS / 12)
    seen = np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(float) / 255
    linear = np.where(seen <= 0.04045, seen / 12.92, ((seen + 0.055) / 1.055) ** 2.4)
    y = linear @ [0.2126390, 0.7151687, 0.0721923]
    marks = np.arange(len(seen)) + 0.5 - len(seen) / 2
    face = np.hypot(marks[:, None], marks) < len(seen) / 2 - 0.5
    light: NDArray[np.float64] = np.where(y > 216 / 24389, 116 * np.cbrt(y) - 16, y * 24389 / 27)
    return np.asarray(light[face])


@pytest.mark.parametrize("finish", FINISHES)
@pytest.mark.parametrize("colour", COLOURS)
def test_mean_and_spread_are_those_of_the_painted_pixels(colour: str, finish: str) -> None:
    seen, reckoned = lightness(colour, finish), drawn(colour, finish)
    assert reckoned.light == pytest.approx(seen.mean(), abs=0.6)
    assert reckoned.spread == pytest.approx(seen.std(), abs=0.6)


def test_letters_answer_what_a_grey_print_hides() -> None:
    """The remedy of that finding, at the scale of the wall's own sheet: each balloon bears its own.

    Its ink stands out from the patch it lies on by 4.5 at least (WCAG 2.2, 1.4.3).
    """
    piece = assemble(read_design(Path("samples/kestrel-wall.toml")))
    wish = ViewOptions(letters=True, recolour=shown_as("grey"))
    view = front_view(piece, 1 / 20, (200.0, 150.0), wish)
    letters = [
        each for each in walk(view.items) if isinstance(each, Text) and each.role == "letter"
    ]
    assert Counter(each.text for each in letters) == {"A": 490, "B": 57, "C": 43}
    assert all(contrast(each.colour, each.ground) >= 4.5 for each in letters)


def test_the_sheet_says_in_what_light_colours_are_alike() -> None:
    piece = assemble(read_design(Path("samples/kestrel-wall.toml")))
    said = {each.says: each.verdict for each in answers(piece, find_all(piece))}
    assert said["Some colours alike in grey"] == "look"


@pytest.mark.parametrize("findings", [WELL, ILL], ids=["all holds", "a draft"])
def test_a_proof_in_grey_has_no_ink_of_colour(findings: tuple[Finding, ...]) -> None:
    """Its ticks, its marks and the strip of a draft too; the inks of lines are nearly neutral."""
    wish = Asked(view=ViewOptions(letters=True, recolour=shown_as("grey")), seen="in grey")
    made = proof_document(ring(), findings, code="1A2B3C4D", asked=wish)
    svg = svg_text(made.sheets[0], title="grey")
    inks = {parse_hex(ink) for ink in re.findall(r"#[0-9a-f]{6}\b", svg)}
    assert [ink for ink in inks if max(ink) - min(ink) > 12] == []
