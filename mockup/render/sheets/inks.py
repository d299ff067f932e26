"""The few inks and line widths of a sheet (ISO 128 widths, thick to thin 2 : 1)."""

from __future__ import annotations

from mockup.render.record import Style

WIDTHS = (0.18, 0.25, 0.35, 0.5, 0.7)
"""Line widths of ISO 128, mm."""

THIN, THICK = 0.18, 0.35

PAPER = "#ffffff"
INK = "#1c1c1e"
SOFT = "#5b5e64"
"""For labels and small print: 6.5 : 1 on white."""
HAIR = "#c6c9ce"
ALARM = "#8f1d21"
CARE = "#7a5200"
GOOD = "#1d6b43"

FRAME_LINE = Style(stroke=INK, stroke_width=THICK)
HAIRLINE = Style(stroke=HAIR, stroke_width=THIN)
WRITING_LINE = Style(stroke=INK, stroke_width=THIN)
UNSEEN = Style()
"""The bounds of a cell that is kept clear by white space alone."""
