"""An order's sheets as plain data for ``--json``: lengths in mm, money as decimal text.

The data carry a ``version``; those of a quote are made from ``ClientQuote`` alone, so that no cost
is in them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from mockup.stock.buy_csv import plain

if TYPE_CHECKING:
    from mockup.design.studio import TakenRow
    from mockup.stock.build_plan import Placing, Tying
    from mockup.stock.buying import BalloonLine, BuyList, FoilLine, MaterialLine
    from mockup.stock.gauging import GaugeHole
    from mockup.stock.order import Order
    from mockup.stock.quoting import ClientQuote
    from mockup.stock.time_plan import TimePlan

VERSION = 1


def about(order: Order) -> dict[str, Any]:
    """What tells an order from any other; the beginning of all data here."""
    return {
        "version": VERSION,
        "title": order.job.title,
        "code": order.code,
        "revision": order.revision,
        "colourway": order.colourway,
        "pieces": order.count,
        "balloons": order.picking.balloons,
    }


def buy_data(order: Order, bought: BuyList, gauge_sheets: int) -> dict[str, Any]:
    """What is needed, what lies on the shelf, and what to buy."""
    return {
        **about(order),
        "changed": list(order.changed),
        "currency": order.studio.currency,
        "kinds": [_balloons(line) for line in bought.balloons],
        "foils": [_foil(line) for line in bought.foils],
        "materials": [_material(line) for line in bought.materials],
        "gauge_sheets": gauge_sheets,
        "to_find": bought.to_find,
        "cost": plain(bought.cost),
    }


def _balloons(line: BalloonLine) -> dict[str, Any]:
    kind = line.need.kind
    return {
        "size_mm": kind.size,
        "colour": line.need.name,
        "finish": kind.finish,
        "needed": line.need.count,
        "fills": [{"diameter_mm": own.diameter, "count": own.count} for own in line.need.fills],
        "spares": line.spares,
        "on_hand": line.on_hand,
        "to_buy": line.to_buy,
        "bags": [
            {
                "holds": own.bag.count,
                "number": own.number,
                "price": plain(own.bag.price),
                "supplier": own.bag.supplier,
            }
            for own in line.bags
        ],
        "left_over": line.left_over,
        "to_find": line.to_find,
        "cost": plain(line.cost),
    }


def _foil(line: FoilLine) -> dict[str, Any]:
    kind = line.need.kind
    return {
        "numeral": kind.character,
        "height_mm": kind.height,
        "colour": line.need.name,
        "finish": kind.finish,
        "needed": line.need.count,
        "on_hand": line.on_hand,
        "to_buy": line.to_buy,
        "supplier": line.offer.supplier if line.offer else "",
        "to_find": line.to_find,
        "cost": plain(line.cost),
    }


def _material(line: MaterialLine) -> dict[str, Any]:
    own = line.material
    return {
        "name": own.name,
        "unit": own.unit,
        "needed": plain(line.needed),
        "on_hand": plain(line.on_hand),
        "pack": plain(own.pack),
        "packs": line.packs,
        "supplier": own.supplier,
        "left_over": plain(line.left_over),
        "cost": plain(line.cost),
    }


def taken_data(row: TakenRow) -> dict[str, Any]:
    """One thing that was booked out of the studio book, or put back."""
    if row.material:
        return {"material": row.material, "count": plain(row.count)}
    own: dict[str, Any] = {"size_mm": row.size, "colour": row.colour, "finish": row.finish}
    numeral = {"numeral": row.numeral} if row.numeral else {}
    return own | numeral | {"count": plain(row.count)}


def quote_data(order: Order, quoted: ClientQuote) -> dict[str, Any]:
    """What the client is asked for, and nothing of what it costs."""
    return {
        **about(order),
        "marked_for": "client",
        "changed": [each.tells for each in order.differences],
        "currency": order.studio.currency,
        "lines": [{"name": own.name, "amount": plain(own.amount)} for own in quoted.lines],
        **{
            name: plain(getattr(quoted, name))
            for name in ("net", "tax", "total", "deposit", "balance")
        },
        "valid_until": quoted.valid_until.isoformat(),
    }


def gauge_data(order: Order, holes: tuple[GaugeHole, ...], sheets: int) -> dict[str, Any]:
    """Every hole of the gauge."""
    return {
        **about(order),
        "changed": list(order.changed),
        "holes": [
            {
                "diameter_mm": hole.diameter,
                "strokes": list(hole.strokes),
                "uses": [
                    {
                        "size_mm": kind.size,
                        "colour": kind.colour,
                        "finish": kind.finish,
                        "count": count,
                    }
                    for kind, count in hole.uses
                ],
            }
            for hole in holes
        ],
        "sheets": sheets,
    }


def build_data(order: Order, plan: TimePlan) -> dict[str, Any]:
    """What to fill, how to tie it, where each cluster goes, and when."""
    from mockup.stock.build_plan import fillings, placings, tyings

    return {
        **about(order),
        "changed": list(order.changed),
        "hands": plan.hands,
        "times": [
            {"task": own.task, **_moments(plan, own.starts.isoformat(), own.ends.isoformat())}
            for own in plan.slots
        ],
        "fill": [
            {
                "diameter_mm": own.diameter,
                "strokes": own.strokes,
                "size_mm": own.kind.size,
                "colour": own.colour.name,
                "finish": own.kind.finish,
                "count": own.count,
            }
            for own in fillings(order.pieces)
        ],
        "builds": [
            {
                "title": piece.design.title,
                "code": code,
                "count": count,
                "tie": [_tying(own) for own in tyings(piece)],
                "place": [_placing(own) for own in placings(piece)],
            }
            for (piece, count), code in zip(order.pieces, order.proofs, strict=True)
        ],
    }


def _moments(plan: TimePlan, starts: str, ends: str) -> dict[str, str | None]:
    """The two moments; without a day for the event there are none to tell."""
    return {"starts": starts if plan.dated else None, "ends": ends if plan.dated else None}


def _tying(own: Tying) -> dict[str, Any]:
    cluster = own.cluster
    return {
        "sign": own.sign,
        "kind": cluster.kind,
        "letters": "".join(cluster.letters),
        "size_mm": round(cluster.nominal, 1),
        "diameter_mm": round(cluster.diameter, 1),
        "strokes": own.strokes,
        "count": own.count,
    }


def _placing(own: Placing) -> dict[str, Any]:
    cluster = own.cluster
    return {
        "number": own.number,
        "sign": own.sign,
        "section": cluster.section,
        "along_mm": round(cluster.along, 1) + 0.0,
        "turn": own.turn,
        "first": own.first,
        "end_cap": cluster.end_cap,
    }
