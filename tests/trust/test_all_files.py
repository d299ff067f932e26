"""Jobs, walls, wishes, logs and studio books with a slip or two: told line by line, or used.

The default run takes the same few each time. A longer hunt, with new ones each time:
``TRUST_EXAMPLES=2000 uv run pytest tests/trust/test_all_files.py``.
"""

from __future__ import annotations

import os
import warnings
from pathlib import Path
from random import Random, SystemRandom

import pytest

from tests.trust.all_files import READERS, laid, seeds, spoilt_one

HUNT = int(os.environ.get("TRUST_EXAMPLES", "0"))


@pytest.mark.parametrize("kind", sorted(READERS))
def test_a_file_with_a_slip_is_told_or_used(kind: str, tmp_path: Path) -> None:
    folder, dice = laid(tmp_path), SystemRandom()
    with warnings.catch_warnings():
        warnings.simplefilter("error", RuntimeWarning)
        for text in seeds(kind):
            READERS[kind](text, folder)
        for seed in range(HUNT or 25):
            spoilt = spoilt_one(kind, Random(dice.getrandbits(32) if HUNT else seed))
            try:
                READERS[kind](spoilt, folder)
            except Exception:
                print(spoilt)
                raise
