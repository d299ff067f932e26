"""First piece files of other frames than a ring; each holds as it stands, whatever its size."""

from __future__ import annotations

from mockup.records import dataclass

_FOOT = 304.8


@dataclass(frozen=True)
class Beginning:
    """A frame to begin with: which measure its one size is, and the sizes that are offered.

    It is begun from ``least`` to ``most`` mm; a second measure in the text is ``share`` of the
    size, and ``numerals`` are those it has when none are named.
    """

    name: str
    key: str
    size_is: str
    usual: tuple[str, ...]
    text: str
    share: float = 1.0
    least: float = 1219.0  # 4 ft
    most: float = 30 * _FOOT
    numerals: str = ""


_ARCH = """\
size = "11in"
frame = {{ kind = "arch", width = {size}, height = {second}, tube = "3/4in" }}
stand = {{ rise = "2in" }}
colours = {{ A = "night tide", B = "oat", C = "brass" }}

[[section]]
at = "12"
whole = true                   # from foot to foot
kind = "trio"
pattern = "spiral"             # colours the clusters that name none
order = "ABC"
clusters = [{{ fill = "9 1/2in" }}]
"""

_COLUMN = """\
size = "11in"
frame = {{ kind = "pole", height = {size}, tube = "1in" }}
stand = {{ rise = "1in", plate = "20in" }}
colours = {{ A = "night tide", B = "oat", C = "brass" }}

[[section]]
at = "8in"                     # from the foot of the pole
toward = "up"
whole = true                   # from there to the top
kind = "trio"
pattern = "spiral"             # colours the clusters that name none
order = "ABC"
clusters = [{{ fill = "9 1/2in" }}]

[topper]
size = "36in"
fill = "24in"
colours = "C"
"""

_HEART = """\
frame = {{ kind = "heart", width = {size}, height = {size}, corner = {second} }}
stand = {{ rise = "14in" }}
colours = {{ A = "deep teal", B = "oat" }}

[[section]]
at = "12"
whole = true                   # all round, as many as close best
kind = "trio"
clusters = [{{ fill = "3 1/2in", colours = "A" }}, {{ fill = "3 1/2in", colours = "B" }}]
"""

_GARLAND = """\
frame = {{ outside = {size}, tube = "3/4in" }}
stand = {{ rise = "12in", plate = "20in" }}
colours = {{ A = "deep teal", B = "sail white", C = "sea glass", D = "night tide" }}

[[garland]]                    # mixed sizes over part of the ring
from = "6"                     # where it begins and ends, on the clock
to = "12"
width = "14in"
coverage = "99%"
colours = "AABBDDC"
seed = 1                       # another one grows another garland
recipe = [
  {{ size = "11in", fill = "10in", share = "10%" }},
  {{ size = "11in", fill = "7 1/2in", share = "35%" }},
  {{ size = "5in", fill = "3 1/2in", share = "55%" }},
]

[panel]
numerals = {numerals}
height = {second}
colour = "C"
"""

_WALL = """\
size = "5in"
frame = {{ kind = "wall", width = {size}, height = {second}, tube = "3/4in" }}
stand = {{ rise = "3in", plate = "14in" }}
colours = {{ A = "night tide", B = "oat", C = "brass" }}

[wall]
mesh = "staggered"             # each row moved by half a balloon
fill = "4 1/2in"
pattern = "diamond"
"""

_OFFERED = (
    Beginning("arch", "width", "its width", ("6ft", "8ft", "10ft"), _ARCH, 0.9),
    Beginning("column", "height", "its height", ("5ft", "6ft", "7ft"), _COLUMN, least=914.0),
    Beginning("heart", "width", "its width", ("4ft", "5ft", "6ft"), _HEART, 0.117),
    Beginning(
        "garland",
        "outside",
        "the ring it covers in part",
        ("4ft", "5ft", "6ft"),
        _GARLAND,
        share=0.4,
        most=10 * _FOOT,
        numerals="40",
    ),
    Beginning("wall", "width", "its width", ("6ft", "8ft", "10ft"), _WALL, 0.8, 609.0),
)
BEGINNINGS = {each.name: each for each in _OFFERED}
"""By the name of the frame, in the order they are offered."""
