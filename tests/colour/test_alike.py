"""What is hard to tell apart: by other eyes as the latex is, in a grey print as it is drawn."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mockup.colour.alike import Latex, apart, hard_to_tell, shades
from mockup.colour.difference import difference
from mockup.colour.palettes import FINISHES
from mockup.colour.sight import SIGHTS, seen_as
from mockup.colour.srgb import grey, to_hex

HEX = st.tuples(*[st.integers(0, 255)] * 3).map(to_hex)
LATEX = st.builds(Latex, HEX, st.sampled_from(FINISHES))
TEAL, BRASS = Latex("#1f6f74", "gloss"), Latex("#b8893c", "mirror")


def test_red_and_olive_are_hard_for_deutans_only_where_they_are() -> None:
    colours = {"A": Latex("#c2473a", "gloss"), "B": Latex("#7d6b2d", "matte")}
    sights = {each.sight for each in hard_to_tell(colours, 10)}
    assert "normal" not in sights
    assert sights, "a red and an olive of like luminance meet in some sight"


@given(st.dictionaries(st.sampled_from("ABCDE"), LATEX, max_size=4), st.floats(1, 30))
def test_every_pair_named_is_close_and_every_close_pair_named(
    colours: dict[str, Latex], limit: float
) -> None:
    named = {(each.first, each.second, each.sight) for each in hard_to_tell(colours, limit)}
    for sight, (a, b) in product(SIGHTS, combinations(sorted(colours), 2)):
        needed = max(limit, shades(colours[a], colours[b])) if sight == "grey" else limit
        assert ((a, b, sight) in named) == (apart(colours[a], colours[b], sight) < needed)


@given(LATEX, LATEX, st.sampled_from(SIGHTS[:-1]))
def test_eyes_compare_the_latex_whatever_its_finish(a: Latex, b: Latex, sight: str) -> None:
    flat = difference(seen_as(a.srgb, sight), seen_as(b.srgb, sight))  # type: ignore[arg-type] # one of SIGHTS
    assert apart(a, b, sight) == flat  # type: ignore[arg-type] # one of SIGHTS


@given(LATEX, LATEX)
def test_what_is_true_of_two_is_true_the_other_way_round(a: Latex, b: Latex) -> None:
    assert apart(a, b, "grey") == pytest.approx(apart(b, a, "grey"))
    assert shades(a, b) == pytest.approx(shades(b, a))


def test_mirror_letters_on_a_gloss_ground_are_lost_though_their_swatches_are_not() -> None:
    """Seen on the grey print of a wall in these two: the mirror's dark band meets the ground."""
    assert difference(grey(TEAL.srgb), grey(BRASS.srgb)) > 15
    assert apart(TEAL, BRASS, "grey") < shades(TEAL, BRASS)
    assert [each.sight for each in hard_to_tell({"A": TEAL, "C": BRASS}, 10)] == ["grey"]


def test_the_same_two_colours_in_matte_stand_out() -> None:
    matte = {"A": TEAL._replace(finish="matte"), "C": BRASS._replace(finish="matte")}
    assert hard_to_tell(matte, 10) == []


def test_a_limit_of_nothing_finds_nothing_alike() -> None:
    assert hard_to_tell({"A": TEAL, "B": TEAL}, 0) == []


def test_the_closest_comes_first_whatever_the_order_given() -> None:
    colours = {
        k: Latex(c, "matte") for k, c in zip("ABC", ("#808080", "#828282", "#8a8a8a"), strict=True)
    }
    turned = dict(reversed(colours.items()))
    found = hard_to_tell(colours, 10)
    assert found == hard_to_tell(turned, 10)
    assert [each.difference for each in found] == sorted(each.difference for each in found)
