"""What single changes of the code (mutants) once got past the other tests, held from now on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from mockup.design.reading import read_design
from mockup.packing.closing import closing_options
from mockup.packing.clusters import place_word, turn_for
from mockup.packing.nesting import ClusterShape, equal_pitch, next_turn
from mockup.panel.window import NotAnOpening, require_opening
from mockup.piece.assemble import assemble
from mockup.stock.build_plan import turn_words
from mockup.stock.quoting import quote
from mockup.worksheets.opening import read_order
from tests.trust.running import SAMPLES


@pytest.mark.parametrize(("turn", "after"), [(350.0, 35.0), (315.0, 0.0), (359.5, 44.5)])
def test_a_turn_past_the_full_circle_begins_anew(turn: float, after: float) -> None:
    assert next_turn(ClusterShape(4, 100.0, turn)) == pytest.approx(after)


@pytest.mark.parametrize("count", [4, 6])
def test_the_smallest_rings_close_by_their_own_count(count: int) -> None:
    length = count * equal_pitch(4, 100.0, 0.1)
    fewer, closes, more = closing_options(length, 4, 100.0)
    assert [fewer.count, closes.count, more.count] == [count - 2, count, count + 2]
    assert closes.squeeze == pytest.approx(0.1)
    assert closes.diameter == pytest.approx(100.0)


def test_an_opening_may_be_as_small_as_it_likes_but_not_nothing() -> None:
    require_opening(0.5, 0.0, 0.0)
    with pytest.raises(NotAnOpening):
        require_opening(0.0, 8.0, 0.0)


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
def test_a_cluster_of_any_kind_is_told_how_it_sits(count: int) -> None:
    whole = assemble(read_design(SAMPLES / "ruby-thirty.toml")).clusters[0]
    cluster = replace(whole, balloons=tuple(range(count)))
    if count == 1:
        assert turn_words(replace(cluster, turn_deg=405.0)) == place_word(45.0, 1)
        return
    for word in ("valley in", "point in"):
        turn = turn_for(word, count)
        for round_about in (-360.0 / count, 0.0, 720.0):
            assert turn_words(replace(cluster, turn_deg=turn + round_about)) == word
        assert turn_words(replace(cluster, turn_deg=turn + 7.0)).endswith(" round")


def test_a_margin_is_the_gain_as_a_share_of_the_work() -> None:
    order = read_order(SAMPLES / "jobs/alder-weekend.toml", None, "")
    quoted = quote(order, date(2027, 3, 1))
    assert quoted.gain > 0
    assert quoted.margin * quoted.work == pytest.approx(quoted.gain)
