"""How soon is the desk ready, how soon does it answer a key, how smoothly moves the cloth?

In a real browser, over a pattern of 300 rows that are all different: from the beginning of
the navigation to the frame that shows all marks and counts, beside the same page without a
pattern, and from the command to there, beside the bare interpreter; from a key to the frame
that shows all marks and counts, beside a bare question to the desk and the frame after it;
and from frame to frame while a cloth of 90,000 stitches is moved about, beside a
page on which nothing moves. Under load, look at the ratios and the shortest times.
"""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from desk_browser import chromium, opened
from desk_served import KEY, served
from playwright.sync_api import Browser, Page

_KEYS = 40
_WATCH = """() => {
  window.times = [];
  let pressed = 0;
  addEventListener("keydown", () => { pressed = performance.now(); }, true);
  new MutationObserver(() => {
    const begun = pressed;
    pressed = 0;
    if (begun) requestAnimationFrame(() => times.push(performance.now() - begun));
  }).observe(document.documentElement, { attributeFilter: ["data-seen"] });
}"""
_BARE = """async key => {
  const times = [];
  for (let at = 0; at < 20; at++) {
    const begun = performance.now();
    await (await fetch("/earlier/pattern", { headers: { "x-desk-key": key } })).text();
    await new Promise(requestAnimationFrame);
    times.push(performance.now() - begun);
  }
  return times;
}"""
_OPENS = 7
_READY = """() => {
  new MutationObserver((_, watching) => {
    if (!document.querySelector(window.wanted)) return;
    watching.disconnect();
    requestAnimationFrame(() => {
      document.documentElement.dataset.ready = performance.now();
    });
  }).observe(document, { attributes: true, childList: true, subtree: true });
}"""
_FRAMES = """async moves => {
  const canvas = document.querySelector(".hang canvas");
  const times = [];
  let before = await new Promise(requestAnimationFrame);
  for (let at = 0; at < 180; at++) {
    const told = { deltaX: 6 * Math.sin(at / 20), deltaY: 9, cancelable: true };
    if (moves) canvas.dispatchEvent(new WheelEvent("wheel", told));
    if (moves && at % 45 === 44)
      canvas.dispatchEvent(
        new WheelEvent("wheel", { ...told, deltaY: -30, ctrlKey: true }));
    const now = await new Promise(requestAnimationFrame);
    times.push(now - before);
    before = now;
  }
  return times;
}"""


_SEEN = "html[data-seen]"


def main() -> None:
    """Prints the figures."""
    with chromium() as browser, tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "pattern.md").write_text(_unlike_rows(), "utf-8")
        with served(folder) as desk:
            bare = [_opened(browser, f"{desk.here}/", "h1") for _ in range(_OPENS)]
            ready = [_opened(browser, desk.page, _SEEN) for _ in range(_OPENS)]
            _told("the page opened to all marks, 300 rows", ready, bare)
            page = opened(browser, desk.page).page
            page.wait_for_selector("html[data-seen]")
            page.get_by_role("button", name="Table").click()
            keys, bare = _keystrokes(page), page.evaluate(_BARE, KEY)
            _told("a key to all marks, 300 rows", keys, bare)
            page.context.close()
        started = [_started(browser, folder) for _ in range(_OPENS)]
        _told("the command to all marks, 300 rows", started, _interpreter())
        with served(folder) as desk:
            (folder / "pattern.md").write_text(_large(), "utf-8")
            page = opened(browser, desk.page).page
            page.wait_for_selector("canvas[data-rest]", timeout=120_000)
            page.wait_for_timeout(8_000)
            still = page.evaluate(_FRAMES, arg=False)
            _told(
                "frame to frame, 90,000 stitches", page.evaluate(_FRAMES, arg=True), still
            )


def _opened(browser: Browser, url: str, wanted: str) -> float:
    """Milliseconds from the beginning of the navigation to the frame that shows it."""
    page = browser.new_context().new_page()
    page.add_init_script(f"window.wanted = {wanted!r}; ({_READY})()")
    page.goto(url)
    found = _ready(page)
    page.context.close()
    return found


def _ready(page: Page) -> float:
    page.wait_for_selector("html[data-ready]", state="attached")
    return float(page.evaluate("Number(document.documentElement.dataset.ready)"))


def _started(browser: Browser, folder: Path) -> float:
    """Milliseconds from the command to the frame that shows all marks."""
    page = browser.new_context().new_page()
    page.add_init_script(f"window.wanted = {_SEEN!r}; ({_READY})()")
    begun = time.time()
    called = [sys.executable, "-m", "hookwright", "desk", "--no-browser", str(folder)]
    with subprocess.Popen(called, stdout=subprocess.PIPE, text=True) as desk:
        assert desk.stdout is not None
        page.goto(desk.stdout.readline().strip().partition(": ")[2])
        shown = _ready(page) + float(page.evaluate("performance.timeOrigin"))
        page.context.close()
        desk.send_signal(signal.SIGINT)
    return shown - 1000 * begun


def _interpreter() -> list[float]:
    """Milliseconds that an interpreter takes to begin and end."""
    times = []
    for _ in range(_OPENS):
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", ""], check=True)
        times.append(1000 * (time.perf_counter() - begun))
    return times


def _keystrokes(page: Page) -> list[float]:
    page.wait_for_timeout(2_000)
    page.locator(".cm-content").click()
    page.keyboard.press("Control+Home")
    for _ in range(40):
        page.keyboard.press("ArrowDown")
    page.evaluate(_WATCH)
    for number in range(_KEYS):
        page.keyboard.press("Backspace" if number % 2 else "x")
        page.wait_for_timeout(400)
    found: list[float] = page.evaluate("times")
    return found


def _told(what: str, times: list[float], peer: list[float]) -> None:
    own, other = sorted(times), sorted(peer)
    median, beside = own[len(own) // 2], other[len(other) // 2]
    late = own[int(0.95 * len(own))]
    print(
        f"{what}: shortest {own[0]:.1f} ms, median {median:.1f} ms, 95th percentile"
        f" {late:.1f} ms; peer {beside:.1f} ms, ratio {median / beside:.1f}"
    )


def _unlike_rows() -> str:
    chance = random.Random(3)  # noqa: S311 - rows, not secrets
    rows = [
        "# Long Bar\n\nUS terms. Ch 1 does not count as a stitch.\n\n## Panel\n\nCh 121.\n",
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (120 sc)",
    ]
    for number in range(2, 301):
        first, pairs = chance.randint(3, 50), chance.randint(2, 20)
        stitch, rest = chance.choice(("sc", "dc", "hdc")), 120 - first - 2 * pairs
        rows.append(
            f"Row {number}: Ch 1, {stitch} in next {first} sts, *sc in next st, dc in next"
            f" st; rep from * {pairs - 1} more times, {stitch} in each of next {rest} sts,"
            " turn. (120 sts)"
        )
    return "\n".join(rows) + "\n"


def _large() -> str:
    return (
        "# Sheet\n\nUS terms. Ch 1 does not count as a stitch.\n\nCh 301.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (300 sc)\n"
        "Rows 2-300: Ch 1, sc in each st across, turn. (300 sc)\n"
    )


if __name__ == "__main__":
    main()
