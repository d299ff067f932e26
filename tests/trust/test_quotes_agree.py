"""The numbers of quotes, costs, time plans and ``mockup fit``, read back and reckoned anew.

Amounts and minutes from the plain text of the studio book and the balloons of ``mockup layout``;
what fits from the numerals' outlines and the balloons, by shapely's own distances.
"""

from __future__ import annotations

import re
import tomllib
from datetime import date, datetime, timedelta
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
from functools import cache
from math import dist, sqrt
from typing import Any

import pytest
import shapely
from click.testing import CliRunner

from mockup.cli.fit import command as fit_command
from mockup.design.reading import read_design
from mockup.piece.assemble import assemble, panel_plane
from mockup.piece.layout import fit_data, layout_data
from mockup.piece.placed import Piece
from mockup.render.record import Document
from mockup.render.svg import svg_text
from mockup.stock.order import Order
from mockup.worksheets.documents import build_document, cost_document, quote_document
from mockup.worksheets.opening import paper_for, read_order
from tests.trust.printed import length, words
from tests.trust.running import SAMPLES

JOBS = ("alder-weekend", "larkspur-stage")
PRICED = ("alder-weekend",)
"""A job whose book has no price for a balloon is not quoted; its cost is told without that."""
ISSUED = date(2027, 3, 1)
BOOK: dict[str, Any] = tomllib.loads((SAMPLES / "jobs/studio.toml").read_text("utf-8"))
COIN = Decimal("0.01")
TASKS = {
    "Lay out colours, gauge and pump; mark the tubes": ("prepare", "job"),
    "Fill every balloon to its hole and knot it": ("inflate", "balloon"),
    "Tie the clusters": ("tie", "cluster"),
    "Set the clusters on the frame": ("place", "cluster"),
    "Fill, trim and fix the numerals": ("numeral", "numeral"),
    "Finish and check": ("finish", "piece"),
    "Wrap and load": ("load", "piece"),
    "Drive there": ("drive", "job"),
    "Drive there and back": ("drive", "job"),
    "Carry in, stand, weigh down, look over": ("set_up", "piece"),
    "Take down": ("take_down", "piece"),
}
ALONE = {"prepare", "drive"}
"""Tasks that a second pair of hands does not shorten."""


@cache
def order_of(name: str) -> Order:
    return read_order(SAMPLES / f"jobs/{name}.toml", None, "")


@cache
def said(name: str, kind: str) -> tuple[str, ...]:
    order = order_of(name)
    paper = paper_for(order, None)
    document: Document
    if kind == "build":
        document = build_document(order, paper)
    else:
        document = {"quote": quote_document, "cost": cost_document}[kind](order, ISSUED, paper)
    return tuple(
        text for sheet in document.sheets for text in words(svg_text(sheet, title=sheet.name))
    )


def amount(text: str) -> Decimal:
    assert re.fullmatch(r"\$[\d,]+\.\d\d", text), text
    return Decimal(text.removeprefix("$").replace(",", ""))


def after(text: tuple[str, ...], start: str) -> Decimal:
    """The amount behind the first line that begins so."""
    at = next(k for k, each in enumerate(text) if each.startswith(start) and "$" in text[k + 1])
    return amount(text[at + 1])


def coins(exact: Decimal) -> Decimal:
    return exact.quantize(COIN, ROUND_HALF_UP)


@cache
def counts(name: str) -> dict[str, int]:
    """What work is counted by, from the layouts of the pieces."""
    found = {"job": 1, "piece": 0, "cluster": 0, "balloon": 0, "numeral": 0}
    for piece, number in order_of(name).pieces:
        data = layout_data(piece)
        found["piece"] += number
        found["cluster"] += number * len(data["clusters"])
        found["balloon"] += number * len(data["balloons"])
        panel = piece.design.panel
        found["numeral"] += number * len(panel.text.replace(" ", "") if panel else "")
    return found


def minutes(name: str, task: str, per: str) -> Decimal:
    return Decimal(str(BOOK["minutes"][task])) * counts(name)[per]


@pytest.mark.parametrize("name", PRICED)
def test_every_amount_of_a_quote_follows_from_the_one_before(name: str) -> None:
    text, cost, pricing = said(name, "quote"), said(name, "cost"), BOOK["price"]
    start, stop = text.index("Price"), text.index("Sum")
    lines = [amount(each) for each in text[start:stop] if "$" in each]
    net, total = after(text, "Sum"), after(text, "Total")
    tax, deposit = after(text, "Sales tax"), after(text, "Deposit")
    assert net == sum(lines)
    assert tax == coins(net * Decimal(str(pricing["tax"]).rstrip("%")) / 100)
    assert total == net + tax
    assert deposit == coins(total * Decimal(str(pricing["deposit"]).rstrip("%")) / 100)
    assert after(text, "Balance") == total - deposit
    assert any(f": ${total:,} in all." in each for each in text)
    assert lines[0] == after(cost, "Price of the work, by a mark-up")
    until = ISSUED + timedelta(days=pricing["valid_days"])
    assert f"{until:%B} {until.day}, {until.year}" in text


@pytest.mark.parametrize("name", PRICED)
def test_every_piece_of_a_quote_has_its_size_and_its_balloons(name: str) -> None:
    rows = [each for each in said(name, "quote") if "(width × height × depth)" in each]
    for (piece, _), row in zip(order_of(name).pieces, rows, strict=True):
        data = layout_data(piece)
        sizes = [length(each) for each in row.partition(" (width")[0].split(" × ")]
        overall = [data["overall"][side] for side in ("width", "height", "depth")]
        assert sizes == pytest.approx(overall, abs=25.4 / 16 + 0.02)
        assert f", {len(data['balloons'])} balloons in " in row


@pytest.mark.parametrize("name", JOBS)
def test_every_minute_and_amount_of_a_cost_is_reckoned_anew(name: str) -> None:
    text, hourly = said(name, "cost"), Decimal(str(BOOK["price"]["hourly"]))
    spent, paid = Decimal(0), Decimal(0)
    for at, words_of_task in ((k, each) for k, each in enumerate(text) if each in TASKS):
        must = minutes(name, *TASKS[words_of_task]) * (2 if "and back" in words_of_task else 1)
        assert Decimal(text[at + 1]) == must
        assert amount(text[at + 2]) == coins(must * hourly / 60)
        spent, paid = spent + must, paid + coins(must * hourly / 60)
    at = max(k for k, each in enumerate(text) if each == "Labour")
    assert (Decimal(text[at + 1]), amount(text[at + 2])) == (spent, paid)
    first, last = text.index("Materials"), text.index("Labour")
    *bought, materials = (amount(each) for each in text[first:last] if "$" in each[:1])
    assert materials == sum(bought)
    whole = after(text, "Cost: materials and labour")
    work = after(text, "Price of the work")
    assert whole == materials + paid
    assert work == coins(whole * (100 + Decimal(BOOK["price"]["markup"].rstrip("%"))) / 100)
    (left,) = (found for each in text if (found := re.search(r"paid \(([\d.]+)% of", each)))
    assert after(text, "Left when") == work - whole
    assert float(left[1]) == pytest.approx(float(100 * (work - whole) / work), abs=0.051)


@pytest.mark.parametrize("name", JOBS)
def test_every_hour_of_a_time_plan_is_reckoned_anew(name: str) -> None:
    """Each task takes its minutes, shared by the hands and rounded up; none runs into another."""
    text, job = said(name, "build"), order_of(name).job
    hands = job.helpers + 1
    assert f"{hands} pair{'s' if hands > 1 else ''} of hands" in text
    took: dict[str, timedelta] = {}
    ended: datetime | None = None
    for at, each in enumerate(text):
        if hours := re.fullmatch(r"(\d\d:\d\d)–(\d\d:\d\d)", each):
            on = datetime.strptime(text[at - 1], "%B %d, %Y")
            starts, ends = (
                on + (datetime.strptime(hour, "%H:%M") - datetime(1900, 1, 1))
                for hour in hours.groups()
            )
            assert starts < ends
            assert ended is None or ended <= starts
            ended = ends
            took[text[at + 1]] = took.get(text[at + 1], timedelta()) + (ends - starts)
    assert len(took) > 5
    stands = next(k for k, each in enumerate(text) if each.startswith("Everything stands"))
    assert ended is not None
    assert f"{ended:%H:%M}" == text[stands - 1]
    for task, spent in took.items():
        must = minutes(name, *TASKS[task]) / (1 if TASKS[task][0] in ALONE else hands)
        assert spent == timedelta(minutes=int(must.to_integral_value(ROUND_CEILING))), task


FITTED = ("ruby-thirty", "juniper-two", "club-hundred", "alder-half-ring", "wishes-hundred")


@pytest.mark.parametrize("name", FITTED)
def test_what_fit_says_is_what_the_numerals_and_balloons_measure(name: str) -> None:
    piece = assemble(read_design(SAMPLES / f"{name}.toml"))
    panel, fit = piece.design.panel, piece.fit
    assert panel is not None
    assert fit is not None
    told = CliRunner().invoke(fit_command, [str(SAMPLES / f"{name}.toml")]).output
    data = fit_data(fit)
    tall = re.search(r"stands? ([\d /.]+ (?:in|cm)) tall", told)
    spare = re.search(r"(?:with |\()([\d /.]+ (?:in|cm)) to spare", told)
    most = re.search(
        r"stand ([\d /.]+ (?:in|cm)) filled \(named about ([\d /.]+ (?:in|cm))\)", told
    )
    step = 25.4 / 16 + 0.02
    heights = [shape.polygon().bounds for shape in fit.numerals]
    height = max(b[3] for b in heights) - min(b[1] for b in heights)
    assert tall
    assert length(tall[1]) == pytest.approx(height, abs=step)
    assert data["height"] == pytest.approx(height, abs=0.3)
    assert most
    assert length(most[1]) == pytest.approx(data["largest_height"], abs=step)
    named = data["largest_height"] / (1 - piece.design.limits.foil_shrink)
    assert length(most[2]) == pytest.approx(named, abs=step)
    assert spare
    assert length(spare[1]) == pytest.approx(data["room"], abs=step)
    if fit.verdict == "clear":
        assert data["room"] == pytest.approx(apart(piece), abs=0.3)


def apart(piece: Piece) -> float:
    """How far the numerals are from the opening's edge and from what of a balloon is in their slab.

    A ball whose middle lies behind the slab is met there by a smaller circle, or not at all.
    """
    assert piece.fit is not None
    assert piece.design.panel is not None
    opening = piece.frame.opening(piece.design.panel.place)
    assert opening is not None
    row = shapely.union_all([shape.polygon() for shape in piece.fit.numerals])
    edge = opening[2] - max(dist(at, opening[:2]) for at in shapely.get_coordinates(row))
    back = panel_plane(piece.design.panel, piece.frame) - piece.design.panel.thickness / 2
    met = [(b, b.radius**2 - max(0.0, back - b.centre[2]) ** 2) for b in piece.balloons]
    balls = [
        row.distance(shapely.Point(b.centre[:2])) - sqrt(square) for b, square in met if square > 0
    ]
    return float(min(edge, *balls))
