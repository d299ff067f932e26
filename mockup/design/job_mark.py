"""What marks a file as a job: it lists pieces. Every check asks, so it imports next to nothing."""

from __future__ import annotations

from mockup.design.syntax import parse


def is_job(text: str) -> bool:
    """Whether the text lists pieces and so is a job file.

    >>> is_job('title = "Alder weekend"\\n[[piece]]\\nfile = "ring.toml"'), is_job('title = "Ruby"')
    (True, False)
    """
    if "piece" not in text:  # most piece files need not be parsed twice
        return False
    data = parse(text).data
    return data is not None and "piece" in data and "section" not in data
