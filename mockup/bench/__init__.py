"""The bench: a page on the decorator's own computer, where every change redraws the piece."""
