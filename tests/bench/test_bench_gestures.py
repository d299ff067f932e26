"""What a hand does on the drawing, as changes of the text."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from mockup.bench.edits import NotCarriedOut, edited
from mockup.bench.gestures import fewest, painted, raised, resized
from mockup.design.reading import design_from_text
from mockup.piece.assemble import assemble
from mockup.piece.placed import Piece

HEAD = 'title = "x"\npalette = "harbour"\nframe = { outside = "40in" }\n'
COLOURS = 'colours = { A = "oat", B = "brass" }\n'
SAMPLES = sorted((Path(__file__).parent.parent.parent / "samples").glob("*.toml"))


def text_of(section: str) -> str:
    return f'{HEAD}{COLOURS}[[section]]\nat = "12"\n{section}\n'


def piece_of(text: str) -> Piece:
    return assemble(design_from_text(text, "x.toml"))


def letters(piece: Piece) -> list[str]:
    return [each.letters for each in piece.clusters]


def paint(text: str, index: int, letter: str, place: int | None = None) -> str:
    return edited(text, painted(piece_of(text), tomllib.loads(text), index, letter, place))


RUNS = [
    "clusters = [{ strokes = 3 }, { strokes = 2, times = 3 }]\nend_cap = true",
    "middle = false\nclusters = [{ strokes = 2, times = 2 }, { strokes = 1.5 }]",
    'taper = "gentle"\na_side = 3\nstrokes = 3\nend_cap = { strokes = 1 }',
    'taper = "from 4 1/2in to 3in in 4"',
    "clusters = [{ strokes = 3 }]\nleft = [{ strokes = 2, times = 2 }]\nend_cap = true",
]


@pytest.mark.parametrize("section", RUNS)
@pytest.mark.parametrize("place", [None, 0])
def test_a_cluster_painted_is_the_only_one_but_for_its_twin(
    section: str, place: int | None
) -> None:
    """The law of painting: the cluster touched shows the letter, its twin with it, no other."""
    text = text_of(section)
    before = piece_of(text)
    for index, cluster in enumerate(before.clusters):
        letter = "B" if cluster.letters[0] == "A" else "A"
        after = piece_of(paint(text, index, letter, place))
        wished = letter * len(cluster.letters)
        if place is not None:
            wished = letter + cluster.letters[1:]
        assert after.clusters[index].letters == wished
        changed = {k for k, one in enumerate(letters(after)) if one != letters(before)[k]}
        twins = {
            k
            for k, other in enumerate(before.clusters)
            if (other.path, other.step) == (cluster.path, cluster.step)
        }
        caps = cluster.end_cap or any(before.clusters[k].end_cap for k in changed)
        assert changed <= twins or caps, (section, index)
        assert [c.diameter for c in after.clusters] == pytest.approx(
            [c.diameter for c in before.clusters], abs=0.2
        )


@pytest.mark.parametrize("section", RUNS[:3])
@pytest.mark.parametrize("count", [0, 1, 2, 3, 5, 8])
def test_a_section_gets_the_clusters_a_side_it_is_dragged_to(section: str, count: int) -> None:
    text = text_of(section)
    piece = piece_of(text)
    made = edited(text, resized(piece, tomllib.loads(text), 0, "right", count))
    spec = piece_of(made).design.sections[0]
    least = 0 if spec.middle is not None else 1
    assert len(spec.right) == max(count, least)
    assert spec.end_right == piece.design.sections[0].end_right or count == 0 or "taper" in section


def test_the_sides_are_dragged_apart_where_the_file_lists_both() -> None:
    text = text_of(RUNS[4])
    made = edited(text, resized(piece_of(text), tomllib.loads(text), 0, "left", 4))
    spec = piece_of(made).design.sections[0]
    assert (len(spec.left), len(spec.right)) == (4, 0)


def test_a_whole_ring_has_no_end() -> None:
    text = text_of("whole = true\nclusters = [{ strokes = 3 }]")
    with pytest.raises(NotCarriedOut):
        resized(piece_of(text), tomllib.loads(text), 0, "right", 3)


def test_what_stands_beside_the_sections_is_changed_in_the_text() -> None:
    text = next(one for one in SAMPLES if one.stem == "lamplight-column").read_text("utf-8")
    piece = piece_of(text)
    (topper,) = [each.index for each in piece.clusters if each.path[0] != "section"]
    with pytest.raises(NotCarriedOut, match="topper"):
        painted(piece, tomllib.loads(text), topper, "A", None)


def test_an_unknown_letter_is_refused() -> None:
    with pytest.raises(NotCarriedOut):
        paint(text_of(RUNS[0]), 0, "Z")


@pytest.mark.parametrize(
    ("mm", "unit", "written"),
    [(25.4, "in", "1in"), (-44.45, "in", "-1 3/4in"), (44.0, "cm", "4.4cm"), (0.2, "in", "0in")],
)
def test_numerals_are_raised_in_the_units_of_the_piece(mm: float, unit: Any, written: str) -> None:
    assert raised(mm, unit)[0]["value"] == written


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_every_cluster_of_every_sample_can_be_painted(sample: Path) -> None:
    text = sample.read_text("utf-8")
    piece = assemble(design_from_text(text, "x.toml", sample.parent))
    for index in range(0, len(piece.clusters), 3):
        if piece.clusters[index].path[0] != "section":
            continue
        letter = list(piece.design.colours)[-1]
        file = tomllib.loads(text)
        anew = edited(text, painted(piece, file, index, letter, None))
        made = design_from_text(anew, "x.toml", sample.parent)
        assert len(made.sections) == len(piece.design.sections)


def test_letters_without_repeats() -> None:
    assert [fewest(each) for each in ("AAAA", "ABAB", "ABBA", "AAB", "A")] == [
        "A", "AB", "ABBA", "AAB", "A",
    ]  # fmt: skip
