"""Whole piece files, valid and nearly valid: told in words or drawn, and never anything else.

The default run takes the same few examples each time. A longer hunt, with new ones each time:
``TRUST_EXAMPLES=2000 uv run pytest tests/trust/test_whole_files.py``.
"""

from __future__ import annotations

import os
import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from math import isfinite
from random import Random

import pytest
from hypothesis import HealthCheck, given, note, settings
from hypothesis import strategies as st

from mockup.design.model import Design
from mockup.design.reading import design_from_text
from mockup.errors import Fault, FaultsFound
from mockup.piece.assemble import assemble
from mockup.piece.code import proof_code
from mockup.piece.findings import find_all
from mockup.piece.placed import Piece
from mockup.piece.visible import visible_shares
from mockup.render.sheets.colourways import colourways_document
from mockup.render.svg import svg_text
from tests.trust.whole_files import pieces, spoilt

HUNT = int(os.environ.get("TRUST_EXAMPLES", "0"))
FILE = "whole.toml"
MOST_BALLOONS = 400


def hunt(few: int, share: float = 1.0) -> settings:
    """So many examples in the default run, the same ones each time; many new ones in a hunt."""
    return settings(
        max_examples=int(share * HUNT) or few,
        derandomize=not HUNT,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )


@contextmanager
def no_warning() -> Iterator[None]:
    """A warning of the arithmetic is a fault that was not told."""
    with warnings.catch_warnings():
        warnings.simplefilter("error", RuntimeWarning)
        yield


def read(text: str) -> Design | None:
    """The design; None after faults, each of which must stand on a line that exists."""
    try:
        return design_from_text(text, FILE)
    except FaultsFound as told:
        for fault in told.faults:
            require_told(fault, text)
        return None


def require_told(fault: Fault, text: str) -> None:
    """A place that a person can open, and words that can be printed."""
    found = re.fullmatch(rf"{FILE}(?::(\d+))?", fault.where)
    assert found, fault
    assert fault.what
    assert fault.what.isprintable()
    assert fault.instead.isprintable()
    if found[1] is None:
        assert "more faults" in fault.what
    else:
        assert 1 <= int(found[1]) <= len(text.split("\n")), fault


def stood(design: Design, text: str) -> Piece | None:
    """The piece; None where it cannot be built, which must be told with lines too."""
    try:
        return assemble(design)
    except FaultsFound as told:
        for fault in told.faults:
            require_told(fault, text)
        return None


def require_sound(piece: Piece) -> None:
    """Finite figures, sentences, and a remedy wherever a check fails."""
    assert all(isfinite(c) for b in piece.balloons for c in (*b.centre, b.diameter))
    assert all(isfinite(side) for side in (*piece.extent.x, *piece.extent.y, *piece.extent.z))
    for finding in find_all(piece):
        assert finding.verdict in ("holds", "look", "fails")
        assert finding.says.endswith((".", "?", "!"))
        assert finding.measured is None or isfinite(finding.measured)
        assert finding.limit is None or isfinite(finding.limit)
        assert set(finding.balloons) <= set(range(len(piece.balloons)))


@hunt(20)
@given(pieces())
def test_a_whole_file_is_built_and_judged_or_told(text: str) -> None:
    note(text)
    with no_warning():
        design = read(text)
        piece = stood(design, text) if design else None
        if piece and len(piece.balloons) <= MOST_BALLOONS:
            require_sound(piece)


@hunt(40, 3.0)
@given(pieces(), st.randoms(use_true_random=False))
def test_a_spoilt_file_is_told_line_by_line(text: str, random: Random) -> None:
    broken = spoilt(text, random)
    note(broken)
    with no_warning():
        read(broken)


def drawn(piece: Piece) -> list[str]:
    """Every sheet of its proof."""
    document = colourways_document(
        piece, find_all(piece), code=proof_code(piece.design), shares=visible_shares(piece)
    )
    return [svg_text(sheet, title=sheet.name) for sheet in document.sheets]


@hunt(6, 0.1)
@given(pieces())
def test_what_is_valid_is_drawn(text: str) -> None:
    note(text)
    design = read(text)
    piece = stood(design, text) if design else None
    if piece is None or len(piece.balloons) > 120:
        return
    with no_warning():
        assert all("</svg>" in svg and "nan" not in svg for svg in drawn(piece))


def test_valid_files_are_common_enough_to_be_worth_drawing() -> None:
    """Of the files made above more than a third can be built, so that the laws see pieces."""
    built: list[bool] = []

    @settings(max_examples=25, derandomize=True, deadline=None, database=None)
    @given(pieces())
    def count(text: str) -> None:
        design = read(text)
        built.append(design is not None and stood(design, text) is not None)

    count()
    assert sum(built) > len(built) / 3


@pytest.mark.parametrize("wrong", ["whole.toml:0", "whole.toml:9", "other.toml:1", ""])
def test_a_fault_without_a_line_would_be_noticed(wrong: str) -> None:
    with pytest.raises(AssertionError):
        require_told(Fault(wrong, "is wrong", "write it right"), "title = 1\n")
