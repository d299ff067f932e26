"""True-scale mock-ups of framed balloon pieces."""

__version__ = "0.1.0"
