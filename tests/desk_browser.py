"""Pages in Debian's chromium, for tests: with their console, and looked at by axe."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text("utf-8")
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
QUIET = [
    "--disable-background-networking", "--disable-component-update", "--no-first-run",
    "--disable-sync", "--disable-default-apps",
]  # fmt: skip


@contextmanager
def chromium() -> Iterator[Browser]:
    """The browser; where there is none the test is skipped, in continuous integration not."""
    found = shutil.which("chromium")
    if found is None:
        assert not os.environ.get("CI"), "chromium is missing: apt-get install chromium"
        pytest.skip("there is no chromium here")
    expect.set_options(timeout=120_000)
    with sync_playwright() as playwright:
        root = ["--no-sandbox"] if os.geteuid() == 0 else []
        browser = playwright.chromium.launch(executable_path=found, args=[*QUIET, *root])
        try:
            yield browser
        finally:
            browser.close()


class Watched:
    """A page, with what its console says."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.said: list[str] = []
        page.on("console", self._heard)
        page.on("pageerror", lambda error: self.said.append(str(error)))

    def _heard(self, message: object) -> None:
        kind, text = getattr(message, "type", ""), getattr(message, "text", "")
        if kind in {"error", "warning"}:
            self.said.append(text)

    def violations(self, rules: list[str] = RULES) -> list[str]:
        """What axe finds, each as its rule and the first element it is of."""
        if not self.page.evaluate("'axe' in window"):
            self.page.evaluate(AXE)
        found = self.page.evaluate("rules => axe.run({runOnly: rules})", rules)
        return [
            f"{one['id']}: {node['html'][:160]}"
            for one in found["violations"]
            for node in one["nodes"][:1]
        ]

    def scrolls_sideways(self) -> bool:
        """Whether the page is wider than the window."""
        return bool(
            self.page.evaluate("document.documentElement.scrollWidth > innerWidth + 1")
        )


def opened(
    browser: Browser, url: str, width: int = 1280, height: int = 800, theme: str = "light"
) -> Watched:
    """A page in a window of its own."""
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if theme == "dark" else "light",
        reduced_motion="reduce",
    )
    context.set_default_timeout(180_000)
    watched = Watched(context.new_page())
    watched.page.goto(url)
    return watched
