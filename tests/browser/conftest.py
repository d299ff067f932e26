"""A chromium without a network, for pages that are opened from a file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

Opened = Callable[..., Page]


@pytest.fixture
def opened(chromium: Browser, tmp_path: Path) -> Iterator[Opened]:
    """``opened(text, width=360)`` shows a page; what it asks for and complains of is refused."""
    contexts: list[Any] = []
    trouble: list[str] = []

    def show(text: str, *, width: int = 1440, scripts: bool = True) -> Page:
        file = tmp_path / "page.html"
        file.write_text(text, encoding="utf-8")
        context = chromium.new_context(
            viewport={"width": width, "height": 900}, java_script_enabled=scripts, offline=True
        )
        contexts.append(context)
        page = context.new_page()
        page.on("request", lambda asked: _note(trouble, asked.url, file))
        page.on("console", lambda said: trouble.append(f"console: {said.text}"))
        page.goto(file.as_uri())
        return page

    yield show
    for context in contexts:
        context.close()
    assert trouble == []


def _note(trouble: list[str], url: str, file: Path) -> None:
    if url != file.as_uri() and not url.startswith("data:font/woff;"):
        trouble.append(f"asked for {url}")
