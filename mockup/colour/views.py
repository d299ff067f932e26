"""Ways to show colours otherwise than they are, by name: one function each, made once."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from mockup.colour.sight import Sight, seen_as


@cache
def shown_as(sight: Sight) -> Callable[[str], str]:
    """The recolouring of a sight: the same function for the same sight, so that it can be a key.

    >>> shown_as("grey")("#ff0000"), shown_as("grey") is shown_as("grey")
    ('#7f7f7f', True)
    """

    @cache
    def recoloured(colour: str) -> str:
        return colour if colour == "none" else seen_as(colour, sight)

    return recoloured


def sight_words(sight: Sight) -> str:
    """What a sheet says of the sight it is shown in; nothing for the usual one.

    >>> sight_words("grey"), sight_words("deutan"), sight_words("normal")
    ('in grey', 'deutan sight', '')
    """
    return {"normal": "", "grey": "in grey"}.get(sight, f"{sight} sight")
