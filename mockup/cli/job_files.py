"""Telling a job file from a piece file, before either is read."""

from __future__ import annotations

from pathlib import Path


def is_job_file(file: Path) -> bool:
    """Whether the file lists the pieces of a job."""
    from mockup.design.job_mark import is_job
    from mockup.design.opening import read_text

    return is_job(read_text(file))
