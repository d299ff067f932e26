"""Colours: sRGB, differences, how they look to other eyes, palettes."""
