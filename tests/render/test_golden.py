"""The comparison of golden drawings itself: it must hold, and must be able to fail."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mockup.render.record import Circle, Item, Sheet, Style, Text
from mockup.render.svg import svg_text
from tests.render.everything import everything
from tests.render.golden import STORE, canonical, check, differences

GOLDENS = Path(__file__).parent / "goldens"
DOT = Circle((25.0, 25.0), 15.0, Style(fill="#aa0011"))


def drawn(*items: Item) -> str:
    return canonical(svg_text(Sheet(100.0, 100.0, items)))


def test_everything_is_drawn_as_stored() -> None:
    check(GOLDENS / "everything.txt", svg_text(everything()))


@pytest.mark.parametrize(
    "other",
    [
        replace(DOT, centre=(25.1, 25.0)),
        replace(DOT, r=14.95),
        replace(DOT, style=Style(fill="#aa0012")),
        replace(DOT, style=Style(fill="#aa0011", opacity=0.9)),
        Text((25.0, 25.0), "O", 5.0),
    ],
)
def test_the_comparison_can_fail(other: Item) -> None:
    assert differences(drawn(DOT), drawn(other))


def test_the_comparison_sees_letters_order_and_number_of_items() -> None:
    text = Text((10.0, 10.0), "Ring", 5.0)
    assert differences(drawn(text), drawn(replace(text, text="Rong")))
    assert differences(drawn(text), drawn(replace(text, weight="bold")))
    assert differences(drawn(replace(text, text="1.50")), drawn(replace(text, text="1.51")))
    assert differences(drawn(replace(text, height=2.5)), drawn(replace(text, height=2.4)))
    assert differences(drawn(text, DOT), drawn(DOT, text))
    assert differences(drawn(DOT), drawn(DOT, DOT))


def test_a_hair_of_difference_is_let_pass() -> None:
    assert not differences(drawn(DOT), drawn(replace(DOT, centre=(25.01, 25.0))))


def test_a_missing_or_changed_golden_fails_and_can_be_stored(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(STORE, raising=False)
    golden = tmp_path / "new" / "dot.txt"
    dot, dots = (svg_text(Sheet(100.0, 100.0, (DOT,) * k)) for k in (1, 2))
    with pytest.raises(AssertionError, match=STORE):
        check(golden, dot)
    monkeypatch.setenv(STORE, "1")
    check(golden, dot)
    monkeypatch.delenv(STORE)
    check(golden, dot)
    with pytest.raises(AssertionError, match="drawn otherwise"):
        check(golden, dots)
