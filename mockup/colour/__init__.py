"""Colours as numbers: sRGB, differences that the eye sees, sight, and palettes."""
