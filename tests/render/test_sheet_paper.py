"""Papers and scales against the published standards."""

from __future__ import annotations

import pytest

from mockup.render.sheets.paper import PAPERS, UnknownPaper, family, paper_named
from mockup.render.sheets.scale import SCALES, DoesNotFit, require_preferred


@pytest.mark.parametrize(("name", "size"), [("a4", (210.0, 297.0)), ("a3", (297.0, 420.0))])
def test_the_a_series_is_that_of_iso_216(name: str, size: tuple[float, float]) -> None:
    """ISO 216, table of trimmed sizes."""
    assert (PAPERS[name].width, PAPERS[name].height) == size


@pytest.mark.parametrize(("name", "inches"), [("letter", (8.5, 11)), ("tabloid", (11, 17))])
def test_letter_and_tabloid_are_sizes_a_and_b_of_ansi(
    name: str, inches: tuple[float, float]
) -> None:
    """ANSI/ASME Y14.1: A is 8 1/2 x 11 in, B is 11 x 17 in."""
    paper = PAPERS[name]
    assert (paper.width / 25.4, paper.height / 25.4) == pytest.approx(inches)


def test_turning_twice_is_turning_back() -> None:
    for paper in PAPERS.values():
        assert paper.turned(landscape=True).turned(landscape=False) == paper
        assert paper.turned(landscape=True).landscape


@pytest.mark.parametrize("name", ["a4", "A4", " a4 "])
def test_a_paper_is_found_in_any_case(name: str) -> None:
    assert paper_named(name).name == "A4"


def test_an_unknown_paper_offers_the_nearest() -> None:
    with pytest.raises(UnknownPaper, match="'leter'; did you mean Letter"):
        paper_named("leter")


def test_each_unit_has_its_papers_small_first() -> None:
    assert [paper.name for paper in family("cm")] == ["A4", "A3"]
    assert [paper.name for paper in family("in")] == ["Letter", "Tabloid"]


def test_the_scales_are_the_preferred_reductions_of_iso_5455() -> None:
    """ISO 5455: 1:2, 1:5, 1:10 and their tenfolds, beside full size."""
    assert SCALES == (1, 2, 5, 10, 20, 50, 100)


def test_another_scale_is_refused_with_those_to_choose() -> None:
    with pytest.raises(DoesNotFit, match="1:7 is not a preferred one; write one of 1:1, 1:2"):
        require_preferred(7)
