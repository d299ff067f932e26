"""The numerals in the opening: their outlines, the window they must stand in, and how they fit."""
