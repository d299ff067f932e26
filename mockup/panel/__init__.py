"""The numerals and the opening they stand in."""
