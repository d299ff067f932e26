"""Tones of one colour: how light or dark each part of a shaded thing is."""

from __future__ import annotations

from functools import lru_cache

from mockup.colour.srgb import from_oklch, oklch

_PALE, _SPARED = 0.6, 0.28


@lru_cache(maxsize=8192)
def tone(colour: str, amount: float) -> str:
    """``#rrggbb`` moved toward white (``amount`` up to 1) or toward black (down to -1).

    The share is of the OKLab lightness that is left on that side, so that no colour runs into
    white or black before another; pale colours are spared some of the shade, or they look dirty.
    Chroma gives way slower than lightness in the shade and fast in the light, as it does on latex.

    >>> tone("#1f6f74", 0.0), tone("#1f6f74", 1.0), tone("#1f6f74", -1.0)
    ('#1f6f74', '#ffffff', '#000000')
    """
    lightness, chroma, hue = oklch(colour)
    moved = lightness_at(lightness, amount)
    if amount >= 0:
        return from_oklch(moved, chroma * (1 - min(amount, 1.0)) ** 0.8, hue)
    left = moved / lightness if lightness > 0 else 0.0
    return from_oklch(moved, chroma * left**0.2, hue)


def lightness_at(lightness: float, amount: float) -> float:
    """The OKLab lightness of a tone of a colour whose own lightness is given.

    >>> lightness_at(0.5, 0.2), lightness_at(0.5, -0.2)
    (0.6, 0.4)
    """
    if amount >= 0:
        return lightness + min(amount, 1.0) * (1 - lightness)
    spared = 1 - _SPARED * max(0.0, lightness - _PALE) / (1 - _PALE)
    return lightness * max(0.0, 1 + amount * spared)
