"""How crescents lie, kept for the next option that has the same ones.

A long crescent at the top and a short one at the bottom lie as they do the other way round, and
the short one lies alike under many long ones. How they lie does not depend on what they are
settled with, so remembering it changes nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mockup.suggest.crescents import Body, Placed
from mockup.suggest.easing import eased
from mockup.suggest.space import Shape

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.intp]

MOST_KEPT = 2_000
"""Of each kind of body; each takes about half a kilobyte."""


class Memory:
    """How the bodies of some shapes lie, each worked out once while there is room."""

    def __init__(self, shapes: Sequence[Shape]) -> None:
        met = Counter(kind_of(shape) for shape in shapes)
        often = [kind for kind, times in met.items() if times > 1]
        parts = [kind_of(part) for shape in shapes if len(shape.alike) > 1 for part in shape.alike]
        self.known: dict[Hashable, dict[bytes, Singles]] = {kind: {} for kind in often + parts}

    def settled(self, shape: Shape, body: Body, placed: Placed, fills: Ints) -> Floats:
        """The settled centres (3, k, m) of a shape's body with these ``fills`` (m, length)."""
        known = self.known.get(kind_of(shape))
        if known is None:
            return eased(body, placed)
        rows = [row.tobytes() for row in np.ascontiguousarray(fills)]
        lain = {row: known[row] for row in rows if row in known}
        new = {row: n for n, row in enumerate(rows) if row not in lain}
        if new:
            fresh = eased(body, placed.only(np.array(list(new.values())))).astype(np.float32)
            found = {row: fresh[:, :, n].copy() for n, row in enumerate(new)}
            lain |= found
            _keep(known, found)
        return np.stack([lain[row] for row in rows], axis=-1).astype(np.float64)


def _keep(known: dict[bytes, Singles], found: dict[bytes, Singles]) -> None:
    known.update(found)
    for row in list(known)[: max(0, len(known) - MOST_KEPT)]:
        del known[row]


def kind_of(shape: Shape) -> Hashable:
    """What two shapes must share for options of the same fills to lie alike."""
    parts = [(part.sides, part.beyond) for part in shape.alike]
    return replace(shape, sides=(), places=()), shape.facing, tuple(parts)
