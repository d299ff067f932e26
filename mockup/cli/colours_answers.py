"""The answers of ``mockup colours`` as plain data, and how they are shown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mockup.cli.showing import counted
from mockup.errors import Fault, FaultsFound

if TYPE_CHECKING:
    from mockup.colour.palettes import Palette
    from mockup.piece.placed import Piece

_SIGHTS = {
    "normal": "in normal sight",
    "deutan": "to an eye that sees greens weakly",
    "protan": "to an eye that sees reds weakly",
    "tritan": "to an eye that sees blues weakly",
    "grey": "in a grey print",
}


@dataclass(frozen=True)
class Short:
    """Letters and by how many they are short, and how many more of others are at hand."""

    letters: Mapping[str, int]
    at_hand: Mapping[str, int]


def answers(
    piece: Piece, folder: Path, palette: str | None, short: Short, most: int
) -> dict[str, Any]:
    """Orders, the best assignment, and what to do about each colour that is short."""
    return {
        "version": 1,
        "title": piece.design.title,
        "orders": _orders(piece, folder, most),
        "told_apart": _told_apart(piece, folder, palette),
        "short": [_short(piece, x, n, short.at_hand) for x, n in short.letters.items()],
    }


def _orders(piece: Piece, folder: Path, most: int) -> dict[str, Any]:
    from mockup.cli.colours_buying import purchase_for
    from mockup.suggest.orders import colour_orders

    purchase = purchase_for(piece, folder)
    found = colour_orders(piece, purchase.figure)
    return {
        "to_buy_is": purchase.says,
        "count": sum(order.ways for order in found),
        "kinds": len(found),
        "best": [
            {
                "letters": list(order.letters),
                "balloons": order.counts,
                "to_buy": order.to_buy,
                "ways": order.ways,
            }
            for order in found[:most]
        ],
    }


def _told_apart(piece: Piece, folder: Path, name: str | None) -> dict[str, Any]:
    from mockup.colour.alike import Latex
    from mockup.suggest.telling_apart import best_assignment, told_apart

    used = sorted({balloon.letter for balloon in piece.balloons})
    uses = {letter: piece.design.colours[letter] for letter in used}
    now = {letter: Latex(use.srgb, use.finish) for letter, use in uses.items()}
    palette = _palette(piece, folder, name)
    if palette is None or len(used) < 2:
        return {}
    found = best_assignment(now, [Latex(each.srgb, each.finish) for each in palette.colours])
    pairs = [(a, b) for a in used for b in used if a < b]
    return {
        "palette": palette.name,
        "now": round(min(told_apart(now[a], now[b])[0] for a, b in pairs), 2),
        "least": round(found.least, 2),
        "hardest": list(found.hardest),
        "sight": found.sight,
        "colours": {
            letter: {
                "name": palette.colours[place].name,
                "srgb": palette.colours[place].srgb,
                "instead_of": piece.design.colours[letter].name,
            }
            for letter, place in found.places.items()
        },
    }


def _palette(piece: Piece, folder: Path, name: str | None) -> Palette | None:
    """The palette of that name; without one, the one that holds most of the piece's colours."""
    from mockup.design.palette_files import gather_palettes
    from mockup.spelling import did_you_mean

    palettes, faults = gather_palettes(folder)
    if faults:
        raise FaultsFound(faults)
    if name is not None:
        if name not in palettes:
            what = f"there is no palette '{name}'"
            raise FaultsFound([Fault("--palette", what, did_you_mean(name, palettes))])
        return palettes[name]
    names = {use.name for use in piece.design.colours.values()}
    best = max(
        (palettes[key] for key in sorted(palettes)),
        key=lambda each: len(names & set(each.names)),
        default=None,
    )
    return best if best is not None and names & set(best.names) else None


def _short(piece: Piece, letter: str, count: int, spare: Mapping[str, int]) -> dict[str, Any]:
    from mockup.suggest.shortage import relief, relief_words

    found = relief(piece, letter, count, spare)
    return {
        "letter": letter,
        "name": piece.design.colours[letter].name,
        "short": count,
        "clusters": found.clusters,
        "balloons": found.balloons,
        "changes": [
            {"clusters": list(c.clusters), "before": c.before, "after": c.after}
            for c in found.changes
        ],
        "says": list(relief_words(piece, found)),
    }


def show(data: dict[str, Any]) -> None:
    """The answers in words."""
    for line in (*_order_lines(data["orders"]), *_apart_lines(data["told_apart"])):
        click.echo(line)
    for one in data["short"]:
        click.echo(
            f"\n{one['name']} ({one['letter']}) short by {one['short']}: change "
            f"{counted(one['clusters'], 'cluster')}, {counted(one['balloons'], 'balloon')}:"
        )
        for said in one["says"]:
            click.echo(f"  {said}")


def _order_lines(orders: dict[str, Any]) -> Iterator[str]:
    yield (
        f"{counted(orders['count'], 'order')} of colours {_keeps(orders['count'])} mirror and "
        f"alternation{_ways(orders)}; least to buy first ({orders['to_buy_is']}):"
    )
    for order in orders["best"]:
        amounts = ", ".join(f"{n} {letter}" for letter, n in order["balloons"].items())
        yield (
            f"  buy {order['to_buy']:>6g} for {amounts:<24} {' '.join(order['letters'])}"
            f"  ({counted(order['ways'], 'order')} take as many)"
        )


def _keeps(count: int) -> str:
    return "keeps" if count == 1 else "keep"


def _ways(orders: dict[str, Any]) -> str:
    """In how many ways they share the balloons out among the colours."""
    kinds = orders["kinds"]
    if kinds == 1:
        return "" if orders["count"] == 1 else ", all with as many of each colour"
    return f", sharing out the balloons in {kinds:,} ways"


def _apart_lines(found: dict[str, Any]) -> Iterator[str]:
    if not found:
        return
    yield f"\nTold apart best, from the palette {found['palette']}:"
    for letter, colour in found["colours"].items():
        kept = colour["name"] == colour["instead_of"]
        more = "as it is" if kept else f"instead of {colour['instead_of']}"
        yield f"  {letter}  {colour['name']} ({more})"
    a, b = found["hardest"]
    yield (
        f"  the hardest to tell apart are {a} and {b}, {found['least']:.1f} (CIEDE2000) "
        f"{_SIGHTS[found['sight']]}; now it is {found['now']:.1f}"
    )
