"""The studio book: what it says, what it refuses, which one is in force."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

import pytest

from mockup.design import studio_book
from mockup.design.studio import Studio
from mockup.design.studio_book import book_for, studio_for
from mockup.design.studio_reading import read_studio, studio_from_text
from mockup.design.studio_showing import shown_book
from mockup.design.studio_starter import starter_book
from mockup.errors import FaultsFound

SAMPLE = Path(__file__).parents[2] / "samples" / "jobs" / "studio.toml"


def faults(text: str) -> list[str]:
    with pytest.raises(FaultsFound) as found:
        studio_from_text(text, "studio.toml")
    return [str(fault) for fault in found.value.faults]


def test_an_empty_book_holds_the_usual_figures() -> None:
    assert studio_from_text("# nothing yet\n", "studio.toml") == Studio(file="studio.toml")


def test_the_sample_book_reads() -> None:
    studio = read_studio(SAMPLE)
    assert studio.pumps[0].gives == pytest.approx(114.3)
    assert studio.pricing.tax == Decimal("0.0825")
    assert {bag.count for bag in studio.bags} == {12, 25, 50, 100}


def test_money_and_shares_are_exact() -> None:
    studio = studio_from_text(
        '[price]\nhourly = 32.10\ntax = "8.1%"\n[[hire]]\nname = "ring"\nfee = 0.1', "a.toml"
    )
    assert (studio.pricing.hourly, studio.pricing.tax) == (Decimal("32.1"), Decimal("0.081"))
    assert studio.hires[0].fee * 3 == Decimal("0.3")


def test_each_value_knows_its_line_or_that_it_is_usual() -> None:
    studio = studio_from_text('name = "L"\n\n[spares]\nleast = 2\n', "studio.toml")
    assert studio.origin("spares", "least") == "studio.toml:4"
    assert studio.origin("spares", "share") == "usual"


BAG = '[[bag]]\nsize = "5in"\ncolour = "oat"\ncount = {count}\nprice = {price}\n'


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (BAG.format(count=50, price="1e9"), 5, "write at most 1,000,000"),
        (BAG.format(count=50, price="-1"), 5, "below zero"),
        (BAG.format(count=50, price="nan"), 5, "not a number"),
        (BAG.format(count=50, price="6.80001"), 5, "4 decimal places"),
        (BAG.format(count=50, price='"6.80"'), 5, "without quotes"),
        (BAG.format(count=0, price="6.80"), 4, "write a number from 1"),
        ('[[bag]]\nsize = "5in"\ncolour = "oat"\ncount = 5', 1, "has no 'price'"),
        ('[[on_hand]]\nsize = "5in"\ncolour = "oat"\ncount = -3', 4, "'count' is -3"),
        ('currency = "XQZ"', 1, "no such currency"),
        ('currency = "DEM"', 1, "no such currency"),  # ISO 4217 withdrew it in 2002
        ('locale = "zz_ZZ"', 1, "no such language"),
        ('[[pump]]\nname = "P"\n[[pump]]\nname = "p "', 3, "twice"),
        ('[price]\nmarkup = "10%"\nmargin = "10%"', 3, "both 'markup' and 'margin'"),
        ('[price]\ntax = "8"', 2, "share in per cent"),
        ('[price]\nmargin = "100%"', 2, "write at most 95%"),
        ('[day]\nstarts = "18:00"\nends = "08:00"', 3, "ends before it starts"),
        ('[[material]]\nname = "dots"\nprice = 1\npack = 0', 4, "is nothing"),
        ('[[material]]\nname = "dots"\nprice = 1\nper = "ballon"', 4, "did you mean 'balloon'"),
        ("[minutes]\ninflat = 2", 2, "did you mean 'inflate'"),
        ('doorway = ["32in"]', 1, "needs 2"),
    ],
)
def test_a_fault_is_told_at_its_line_with_what_to_write(text: str, line: int, words: str) -> None:
    told = faults(text)
    assert len(told) == 1
    assert told[0].startswith(f"studio.toml:{line}: ")
    assert words in told[0]


def test_all_faults_are_told_at_once() -> None:
    assert len(faults('currency = "??"\n' + BAG.format(count=0, price="-1"))) == 3


def test_the_nearest_book_above_the_piece_is_in_force(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(studio_book, "settings_book", lambda: tmp_path / "settings" / "studio.toml")
    deep = tmp_path / "work" / "may"
    deep.mkdir(parents=True)
    assert book_for(deep) is None
    assert studio_for(deep) == Studio()
    for folder in (tmp_path / "settings", tmp_path, tmp_path / "work"):
        folder.mkdir(exist_ok=True)
        (folder / "studio.toml").write_text(f'name = "{folder.name}"', encoding="utf-8")
        assert studio_for(deep).name == folder.name


def test_the_settings_folder_is_the_platforms_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG Base Directory Specification: $XDG_CONFIG_HOME holds a user's settings."""
    import sys

    if sys.platform != "linux":
        pytest.skip("the XDG folders are Linux's")
    monkeypatch.setenv("XDG_CONFIG_HOME", "/somewhere/settings")
    assert studio_book.settings_book() == Path("/somewhere/settings/balloon-mockup/studio.toml")


def test_the_starter_book_holds_the_usual_figures_and_is_right_when_uncommented() -> None:
    text = starter_book()
    assert studio_from_text(text, "studio.toml") == Studio(file="studio.toml")
    all_written = re.sub(r"(?m)^# (\[\[\w+\]\]|(?!margin)\w+ = .*)$", r"\1", text)
    studio = studio_from_text(all_written, "studio.toml")
    assert len(studio.bags) == len(studio.pumps) == len(studio.hires) == 1
    assert studio.pricing.markup == Decimal("0.35")


def test_every_figure_is_shown_with_its_origin(tmp_path: Path) -> None:
    book = tmp_path / "studio.toml"
    book.write_text('[spares]\nleast = 2\n[[hire]]\nname = "ring"\nfee = 3\n', encoding="utf-8")
    rows = {row.name: row for row in shown_book(book)}
    assert rows["spares.least"].origin == f"{book}:2"
    assert (rows["spares.share"].value, rows["spares.share"].origin) == ('"8%"', "usual")
    assert rows["hire 1"].value == 'name "ring", fee 3'
    assert {row.origin for row in shown_book(None)} == {"usual"}


def test_an_empty_book_says_how_to_come_by_one(tmp_path: Path) -> None:
    (tmp_path / "studio.toml").write_text("\n", encoding="utf-8")
    with pytest.raises(FaultsFound) as found:
        read_studio(tmp_path / "studio.toml")
    assert str(found.value).endswith("is empty; 'mockup studio new' writes one to start from")
