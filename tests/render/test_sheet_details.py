"""What a proof adds round its views: letters that read, how a numeral tucks, a figure for scale."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.srgb import contrast
from mockup.design.reading import read_design
from mockup.packing.frames import Frame
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece
from mockup.render.letters import ink, letter
from mockup.render.record import Point, Text, walk
from mockup.render.sheets.lettering import SMALL_SHEET
from mockup.render.sheets.title_block import TitleBlock, title_block
from mockup.render.text import HEIGHTS
from mockup.render.tube import centre_line, frame_layers
from mockup.render.viewpoint import FRONT, Eye

SAMPLES = Path(__file__).parents[2] / "samples"


def sample(name: str) -> Piece:
    return assemble(read_design(SAMPLES / f"{name}.toml"))


@given(st.integers(0, 0xFFFFFF))
def test_a_letter_reads_on_every_colour(colour: int) -> None:
    """WCAG 2.2, success criterion 1.4.3: at least 4.5 : 1."""
    ground = f"#{colour:06x}"
    assert contrast(ink(ground), ground) >= 4.5


@pytest.mark.parametrize(
    ("radius", "room", "height"),
    [(2.0, 9.0, 1.8), (4.5, 9.0, 2.5), (9.0, 9.0, 3.5), (40.0, 40.0, 3.5), (9.0, 1.7, 2.5)],
)
def test_a_letter_is_as_high_as_iso_3098_and_its_room_allow(
    radius: float, room: float, height: float
) -> None:
    written = [each for each in letter("A", "#777777", (0, 0), room, radius) if type(each) is Text]
    assert [each.height for each in written] == [height]
    assert height in HEIGHTS


def test_a_letter_without_room_is_left_out() -> None:
    assert letter("A", "#777777", (0.0, 0.0), 1.1, 9.0) == ()


@pytest.mark.parametrize("name", ["tarn-ribbon", "linden-heart", "fairground-arch"])
def test_the_tube_follows_its_centre_line_and_looks_it_up_once(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    piece = sample(name)
    frame, eye = piece.frame, Eye(FRONT, 1.0, (0.0, 0.0))
    ends = centre_line(frame, eye).points[::3] * (1, -1)
    assert ends == pytest.approx(
        np.array([frame.at(s) for s in np.linspace(0.0, frame.length, len(ends)).tolist()])
    )
    seen: list[float] = []
    known = type(frame).normal

    def counted(own: Frame, s: float) -> Point:
        seen.append(s)
        return known(own, s)

    monkeypatch.setattr(type(frame), "normal", counted)
    frame_layers(frame, eye)
    assert len(seen) == len(ends)


@pytest.mark.parametrize("width", [190.0, 277.0])
@pytest.mark.parametrize(
    "said", ["Colour proof", "Colour proof, colourway after dark", "Colour proof, 12 ×, in grey"]
)
def test_what_the_document_is_keeps_the_height_of_the_other_fields(width: float, said: str) -> None:
    says = TitleBlock(sample("juniper-two").design, "1A2B3C4D", 10, "A4", document_type=said)
    block = title_block((0.0, 0.0), width, SMALL_SHEET, says, 80.0 / 3)
    fields = [i for i in walk(block.items) if isinstance(i, Text) and i.role == "field"]
    assert said in " ".join(text.text for text in fields)
    assert {"1A2B3C4D", "1", "1 of 1", "1:10", "A4"} <= {text.text for text in fields}
    assert {text.height for text in fields} == {2.5}
