"""What all tests share: no law is judged by the clock, and one chromium opens every page.

A second driver of it in the same process fails.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, expect, sync_playwright

# How long a law takes is for the benchmarks to judge: a busy machine must not fail one.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Debian's chromium, without a network of its own."""
    found = shutil.which("chromium")
    if found is None:
        pytest.skip("Chromium is not installed, so the pages are not tried in a browser.")
    with sync_playwright() as driver:
        expect.set_options(timeout=20_000)  # a busy machine is slow; a condition that holds is not
        browser = driver.chromium.launch(executable_path=found, args=list(FLAGS))
        yield browser
        browser.close()
