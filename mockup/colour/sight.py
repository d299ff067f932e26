"""Colours as other eyes and a black-and-white printer see them.

Source: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE TVCG 15(6), 2009: their published matrices at full severity, applied in
linear light. (The tritan one is the least certain of the three, as its authors say themselves.)
"""

from __future__ import annotations

from typing import Literal

from mockup.colour.srgb import Matrix, apply, from_linear, grey, to_linear

Sight = Literal["normal", "deutan", "protan", "tritan", "grey"]

SIGHTS: tuple[Sight, ...] = ("normal", "deutan", "protan", "tritan", "grey")

DEFICIENCIES: dict[str, Matrix] = {
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def seen_as(colour: str, sight: Sight) -> str:
    """``#rrggbb`` as it looks without green (deutan), red (protan) or blue cones (tritan), or grey.

    >>> seen_as("#ff0000", "deutan"), seen_as("#ff0000", "grey"), seen_as("#ff0000", "normal")
    ('#a39000', '#7f7f7f', '#ff0000')
    """
    if sight == "grey":
        return grey(colour)
    if sight == "normal":
        return colour
    return from_linear(apply(DEFICIENCIES[sight], to_linear(colour)))
