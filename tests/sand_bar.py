"""A small blanket on the desk, and what a test of its page does over and over."""

import time
from collections.abc import Callable
from pathlib import Path

from desk_browser import Watched
from playwright.sync_api import Page

PATTERN = """# Sand Bar

Written in US terms. The chain at the start of a row does not count as a stitch.

## Gauge

16 sts and 8 rows in dc are 10 cm (4 in), blocked.

**Stripe sequence:** 2 rows A, 2 rows B, 2 rows C.

## Panel

Ch 34.

**Row 1 (RS):** Dc in 4th ch from hook and in each ch across. Turn. (31 dc)

**Rows 2-6:** Ch 3, dc in each st across. Turn. (31 dc)
"""
SHEET = """[design]
title = "Sand Bar"
terms = "US"
units = "cm"

[[yarn]]
letter = "A"
colour = "Skerry"
hex = "#33475B"

[[yarn]]
letter = "B"
colour = "Foam"
hex = "#F0EBDD"

[[yarn]]
letter = "C"
colour = "Dulse"
hex = "#7A3340"
"""
SOON = 120.0
Opens = Callable[..., Watched]


def write(folder: Path) -> None:
    (folder / "pattern.md").write_text(PATTERN, "utf-8")
    (folder / "worksheet.toml").write_text(SHEET, "utf-8")


def seen(page: Page) -> None:
    """Wait until the words are proven as they stand."""
    page.wait_for_selector("html[data-seen]")
    until(lambda: page.evaluate("document.documentElement.dataset.seen") != "")


def until(holds: Callable[[], bool]) -> None:
    end = time.monotonic() + SOON
    while not holds():
        assert time.monotonic() < end, "it did not come about"
        time.sleep(0.05)


def text_of(folder: Path) -> str:
    return (folder / "pattern.md").read_text("utf-8")


BEHIND = """words => {
  const content = document.querySelector(".cm-content");
  const walk = document.createTreeWalker(content, NodeFilter.SHOW_TEXT);
  content.focus();
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const at = node.data.indexOf(words);
    if (at < 0) continue;
    getSelection().collapse(node, at + words.length);
    return true;
  }
  return false;
}"""


def at(page: Page, words: str) -> None:
    """Put the cursor behind the first such words."""
    assert page.evaluate(BEHIND, words)
    page.wait_for_timeout(60)


def place(page: Page, name: str) -> None:
    page.locator(f".band span:text-is('{name}')").click()
    page.wait_for_selector(".waiting", state="detached")
