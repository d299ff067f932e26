"""One chromium for every test that opens a page: a second driver in the same process fails."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

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
        browser = driver.chromium.launch(executable_path=found, args=list(FLAGS))
        yield browser
        browser.close()
