"""sRGB colours: their hex form, linear light, CIELAB, OKLab, luminance and contrast.

Sources: sRGB by IEC 61966-2-1; CIELAB by CIE 15 with the D65 white of sRGB; OKLab by B. Ottosson,
"A perceptual color space for image processing" (2020; matrices as corrected in January 2021,
written from memory and compared with several public copies); contrast by WCAG 2.2.
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import atan2, cbrt, cos, degrees, hypot, radians, sin

from mockup.errors import MockupError

Triple = tuple[float, float, float]
Matrix = tuple[Triple, Triple, Triple]

_HEX = re.compile(r"#[0-9a-fA-F]{6}")
_FITS = 1e-6
_HALVINGS = 20

LINEAR_TO_XYZ: Matrix = (
    (0.41239079926595934, 0.357584339383878, 0.1804807884018343),
    (0.21263900587151027, 0.715168678767756, 0.07219231536073371),
    (0.01933081871559182, 0.11919477979462598, 0.9505321522496607),
)
"""Linear sRGB to CIE XYZ (Y = 1 for white), from the primaries and the white of the standard."""

_WHITE: Triple = (sum(LINEAR_TO_XYZ[0]), sum(LINEAR_TO_XYZ[1]), sum(LINEAR_TO_XYZ[2]))

_LINEAR_TO_CONES: Matrix = (
    (0.4122214708, 0.5363325363, 0.0514459929),
    (0.2119034982, 0.6806995451, 0.1073969566),
    (0.0883024619, 0.2817188376, 0.6299787005),
)
_CONES_TO_LINEAR: Matrix = (
    (4.0767416621, -3.3077115913, 0.2309699292),
    (-1.2684380046, 2.6097574011, -0.3413193965),
    (-0.0041960863, -0.7034186147, 1.7076147010),
)
_ROOTS_TO_OKLAB: Matrix = (
    (0.2104542553, 0.7936177850, -0.0040720468),
    (1.9779984951, -2.4285922050, 0.4505937099),
    (0.0259040371, 0.7827717662, -0.8086757660),
)
_OKLAB_TO_ROOTS: Matrix = (
    (1.0, 0.3963377774, 0.2158037573),
    (1.0, -0.1055613458, -0.0638541728),
    (1.0, -0.0894841775, -1.2914855480),
)


class NotAColour(MockupError, ValueError):
    """Text that is not a colour; ``what`` is wrong with it and what to write ``instead``."""

    def __init__(self, text: str) -> None:
        shown = text if len(text) <= 20 else text[:17] + "..."
        self.what = f"'{shown}' is not a colour"
        self.instead = "write # and six hex digits, such as #1f6f74"
        super().__init__(f"{self.what}; {self.instead}")


def apply(matrix: Matrix, triple: Triple) -> Triple:
    """A 3 x 3 matrix times a column of three.

    >>> apply(((1, 0, 0), (0, 2, 0), (0, 0, 3)), (1.0, 1.0, 1.0))
    (1.0, 2.0, 3.0)
    """
    x, y, z = triple
    (a, b, c), (d, e, f), (g, h, i) = matrix
    return (a * x + b * y + c * z, d * x + e * y + f * z, g * x + h * y + i * z)


def parse_hex(text: str) -> tuple[int, int, int]:
    """The three channels, 0 to 255, of ``#rrggbb``; raises ``NotAColour`` for anything else.

    >>> parse_hex("#1f6f74")
    (31, 111, 116)
    """
    if not _HEX.fullmatch(text):
        raise NotAColour(text)
    return (int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16))


def to_hex(channels: Triple) -> str:
    """``#rrggbb`` of three channels, 0 to 255, rounded and cut to that range.

    >>> to_hex((31, 111.2, 300))
    '#1f6fff'
    """
    return "#" + "".join(f"{round(min(max(each, 0.0), 255.0)):02x}" for each in channels)


def decoded(channel: float) -> float:
    """Linear light, 0 to 1, of an encoded sRGB channel, 0 to 1 (IEC 61966-2-1).

    >>> round(decoded(0.5), 6)
    0.214041
    """
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)


def encoded(light: float) -> float:
    """An encoded sRGB channel, 0 to 1, of linear light; light outside 0 to 1 is cut off.

    >>> round(encoded(decoded(0.5)), 6), round(encoded(1.7), 6)
    (0.5, 1.0)
    """
    light = min(max(light, 0.0), 1.0)
    return light * 12.92 if light <= 0.0031308 else float(1.055 * light ** (1 / 2.4) - 0.055)


@lru_cache(maxsize=4096)
def to_linear(colour: str) -> Triple:
    """Linear light (red, green, blue), each 0 to 1, of ``#rrggbb``.

    >>> to_linear("#ff0000")
    (1.0, 0.0, 0.0)
    """
    red, green, blue = parse_hex(colour)
    return (decoded(red / 255), decoded(green / 255), decoded(blue / 255))


def from_linear(light: Triple) -> str:
    """``#rrggbb`` of linear light; each channel is cut to what a screen can show.

    >>> from_linear((1.2, 0.215861, -0.1))
    '#ff8000'
    """
    red, green, blue = (255 * encoded(each) for each in light)
    return to_hex((red, green, blue))


@lru_cache(maxsize=4096)
def lab(colour: str) -> Triple:
    """CIELAB (L 0 to 100, a, b) under D65 of ``#rrggbb``.

    >>> [round(each, 2) for each in lab("#808080")]
    [53.59, 0.0, 0.0]
    """
    xyz = apply(LINEAR_TO_XYZ, to_linear(colour))
    x, y, z = (_root(each / white) for each, white in zip(xyz, _WHITE, strict=True))
    return (116 * y - 16, 500 * (x - y), 200 * (y - z))


def _root(share: float) -> float:
    # The straight piece near black, in the exact fractions of CIE 15:2004.
    return cbrt(share) if share > (6 / 29) ** 3 else share * (29 / 6) ** 2 / 3 + 4 / 29


def oklab_of_linear(light: Triple) -> Triple:
    """OKLab (L 0 to 1, a, b) of linear sRGB light, which may lie outside 0 to 1.

    >>> [round(each, 3) + 0.0 for each in oklab_of_linear((1.0, 1.0, 1.0))]
    [1.0, 0.0, 0.0]
    """
    long, middle, short = apply(_LINEAR_TO_CONES, light)
    return apply(_ROOTS_TO_OKLAB, (cbrt(long), cbrt(middle), cbrt(short)))


def linear_of_oklab(oklab_colour: Triple) -> Triple:
    """Linear sRGB light of OKLab, uncut: the way back from ``oklab_of_linear``.

    >>> [round(each, 3) for each in linear_of_oklab((1.0, 0.0, 0.0))]
    [1.0, 1.0, 1.0]
    """
    long, middle, short = apply(_OKLAB_TO_ROOTS, oklab_colour)
    return apply(_CONES_TO_LINEAR, (long**3, middle**3, short**3))


@lru_cache(maxsize=4096)
def oklab(colour: str) -> Triple:
    """OKLab (L 0 to 1, a, b) of ``#rrggbb``.

    >>> [round(each, 3) for each in oklab("#ff0000")]
    [0.628, 0.225, 0.126]
    """
    return oklab_of_linear(to_linear(colour))


def oklch(colour: str) -> Triple:
    """OKLab as lightness 0 to 1, chroma, and hue in degrees 0 to 360, of ``#rrggbb``.

    >>> [round(each, 2) for each in oklch("#ff0000")]
    [0.63, 0.26, 29.23]
    """
    lightness, a, b = oklab(colour)
    return (lightness, hypot(a, b), degrees(atan2(b, a)) % 360)


def from_oklch(lightness: float, chroma: float, hue_deg: float) -> str:
    """``#rrggbb`` of OKLab lightness, chroma and hue; see ``from_oklab`` for what cannot be shown.

    >>> from_oklch(*oklch("#1f6f74"))
    '#1f6f74'
    """
    hue = radians(hue_deg)
    return from_oklab((lightness, chroma * cos(hue), chroma * sin(hue)))


@lru_cache(maxsize=8192)
def from_oklab(oklab_colour: Triple) -> str:
    """``#rrggbb`` of OKLab; a colour no screen shows keeps lightness and hue and loses chroma.

    >>> from_oklab((1.4, 0.1, 0.0)), from_oklab(oklab("#c08a3e"))
    ('#ffffff', '#c08a3e')
    """
    lightness, a, b = oklab_colour
    lightness = min(max(lightness, 0.0), 1.0)
    low, high = 0.0, 1.0
    if _shows(lightness, a, b):
        low = 1.0
    else:
        for _ in range(_HALVINGS):
            share = (low + high) / 2
            low, high = (share, high) if _shows(lightness, a * share, b * share) else (low, share)
    return from_linear(linear_of_oklab((lightness, a * low, b * low)))


def _shows(lightness: float, a: float, b: float) -> bool:
    return all(-_FITS <= each <= 1 + _FITS for each in linear_of_oklab((lightness, a, b)))


def lighter(colour: str, by: float) -> str:
    """``#rrggbb`` made lighter by ``by`` in OKLab lightness (darker below zero), hue kept.

    >>> lighter("#1f6f74", 0.2), lighter("#1f6f74", -0.2), lighter("#1f6f74", 1.0)
    ('#61acb1', '#003438', '#ffffff')
    """
    lightness, a, b = oklab(colour)
    return from_oklab((lightness + by, a, b))


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, which rounds these weights to four places).

    >>> round(luminance("#ff0000"), 4)
    0.2126
    """
    return apply(LINEAR_TO_XYZ, to_linear(colour))[1]


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2).

    >>> round(contrast("#000000", "#ffffff"), 2)
    21.0
    """
    dark, light = sorted((luminance(first), luminance(second)))
    return (light + 0.05) / (dark + 0.05)


def grey(colour: str) -> str:
    """The grey of equal luminance: the colour on a black-and-white print.

    >>> grey("#ff0000")
    '#7f7f7f'
    """
    light = luminance(colour)
    return from_linear((light, light, light))
