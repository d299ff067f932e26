"""How many more balloons to have than the piece has places for."""

from __future__ import annotations

from decimal import ROUND_CEILING

from mockup.design.studio import Spares


def spare_count(count: int, outdoors: int, rules: Spares) -> int:
    """Spares for ``count`` balloons of one kind, of which ``outdoors`` stand outdoors.

    A share of each (rounded up together), and at least ``rules.least``; none for none. Common
    practice, no source: 5-10 %, at least one a colour, more outdoors.

    >>> from decimal import Decimal
    >>> spare_count(100, 0, Spares(share=Decimal("0.07"))), spare_count(3, 0, Spares())
    (7, 1)
    """
    if count <= 0:
        return 0
    share = rules.share * (count - outdoors) + rules.outdoors * outdoors
    return max(rules.least, int(share.to_integral_value(ROUND_CEILING)))
