"""The words of the pattern on the page: marked, explained and lit as they are written."""

import json
from pathlib import Path

from desk_browser import Watched
from desk_served import Served
from playwright.sync_api import Browser, Page, expect
from sand_bar import PATTERN, SHEET, at, seen, text_of, until

LATE = """const later = setTimeout.bind(window);
window.setTimeout = (call, ms, ...given) => later(call, (ms ?? 0) + 700, ...given);
window.requestAnimationFrame = call => later(() => call(performance.now()), 700);"""


def test_an_answer_that_comes_before_the_words_are_drawn_is_shown(
    browser: Browser, desk: Served, project: Path
) -> None:
    assert text_of(project) == PATTERN
    watched = Watched(browser.new_context().new_page())
    watched.page.add_init_script(LATE)
    watched.page.goto(desk.page)
    seen(watched.page)
    assert watched.said == []
    watched.page.context.close()


def test_an_answer_that_was_cut_off_is_asked_for_again(
    browser: Browser, desk: Served, project: Path
) -> None:
    assert text_of(project) == PATTERN
    watched = Watched(browser.new_context().new_page())
    cut = {"status": 503, "json": {"refused": "Stopped.", "stopped": True}}
    watched.page.route("**/ask/seen", lambda route: route.fulfill(**cut), times=1)
    watched.page.goto(desk.page)
    seen(watched.page)
    watched.page.context.close()


def test_beside_every_row_stands_what_it_uses_and_makes(page: Page) -> None:
    counts = page.locator(".counts .cm-gutterElement .count")
    expect(counts.filter(has_text="31 → 31").first).to_be_visible()
    expect(page.locator(".band [aria-current]")).to_have_text("Patternall rows close")


def test_a_slip_is_seen_as_it_is_typed_and_mended_with_one_key(
    page: Page, project: Path
) -> None:
    at(page, "(31")
    page.keyboard.press("Backspace")
    page.keyboard.type("9")
    expect(page.locator(".slip").first).to_have_text("(39 dc)")
    expect(page.locator(".ring b").first).to_have_text("makes 31")
    page.keyboard.press("F8")
    expect(page.locator(".note strong")).to_contain_text("makes 31 stitches, not 39")
    page.keyboard.press("Control+Enter")
    expect(page.locator(".slip")).to_have_count(0)
    until(lambda: text_of(project) == PATTERN)
    page.keyboard.press("Control+z")
    expect(page.locator(".slip").first).to_have_text("(39 dc)")
    until(lambda: "(39 dc)" in text_of(project))
    page.keyboard.press("Control+z")
    until(lambda: text_of(project) == PATTERN)


def test_a_word_is_explained_and_lights_its_stitches_and_back(page: Page) -> None:
    page.wait_for_selector("canvas[data-rest=true]")
    at(page, "Ch 3, d")
    page.keyboard.press("F2")
    expect(page.locator(".note-word")).to_contain_text("double crochet")
    expect(page.locator(".note-word")).to_contain_text("UK: tr")
    until(lambda: int(page.locator(".hang canvas").get_attribute("data-lit") or 0) >= 31)
    page.keyboard.press("Escape")
    expect(page.locator(".note-word")).to_have_count(0)
    page.get_by_role("button", name="some rows").click()
    box = page.locator(".hang canvas").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 80, box["y"] + 60)
    expect(page.locator(".lit").first).to_be_visible()
    expect(page.locator(".caption")).to_contain_text("of 31")


def test_the_table_tells_what_the_picture_shows(page: Page) -> None:
    page.get_by_role("button", name="Table").click()
    row = page.get_by_role("row", name="Rows 2-6")
    expect(row.first).to_contain_text("31")
    expect(page.get_by_role("columnheader", name="Makes")).to_be_visible()


def test_it_is_read_in_the_other_terms(page: Page) -> None:
    page.get_by_role("button", name="UK terms").click()
    expect(page.locator(".worded .reading")).to_contain_text("Tr in 4th ch from hook")
    expect(page.locator(".worded")).to_contain_text("the same fabric, row for row")
    page.get_by_role("button", name="Back to your own words").click()


def test_scripts_in_the_text_of_a_pattern_stay_words(page: Page) -> None:
    at(page, "Written in US terms.")
    page.keyboard.type(" <img src=x onerror=window.hit=1> <script>window.hit=1</script>")
    page.keyboard.type(
        "\n\n## <b onclick=hit()>Bold</b>\n\nRow 9: <svg onload=window.hit=1>."
    )
    page.wait_for_timeout(600)
    for name in ("Colours", "Sizes", "Pattern"):
        page.locator(".band button", has_text=name).click()
    assert page.evaluate("window.hit") is None
    assert page.locator("#desk script").count() == 0


SLOW_TO_DRAW = """
  const [frame, later] = [requestAnimationFrame, setTimeout];
  const SLOW_MS = 1500;
  window.requestAnimationFrame = call => later(() => frame(call), SLOW_MS);
  window.setTimeout = (call, ms = 0, ...given) => later(call, ms + SLOW_MS, ...given);
"""


def test_an_answer_that_is_there_before_the_page_is_drawn_is_shown(
    browser: Browser, desk: Served, project: Path
) -> None:
    told = {"text": text_of(project), "worksheet": SHEET}
    desk.post("/ask/seen", told)  # from now on it is known, and told at once
    context = browser.new_context()
    context.add_init_script(SLOW_TO_DRAW)
    page = context.new_page()
    page.goto(desk.page)
    seen(page)
    expect(page.locator(".gutter-counts, .counts").first).to_be_visible()
    context.close()


def test_a_keystroke_asks_for_the_newest_text_only(page: Page) -> None:
    asked: list[int] = []

    def heard(request: object) -> None:
        if str(getattr(request, "url", "")).endswith("/ask/seen"):
            asked.append(len(json.loads(getattr(request, "post_data", "{}"))["text"]))

    page.on("request", heard)
    at(page, "Written in US terms.")
    page.keyboard.type(" A good many words typed without a pause.", delay=1)
    until(lambda: asked != [] and asked[-1] == max(asked))
    assert len(asked) < 41


def test_the_wire_is_watched_by_whoever_opens_it(browser: Browser, desk: Served) -> None:
    # The page asks nobody but the desk that has sent it.
    asked: list[str] = []
    watched = Watched(browser.new_context().new_page())
    watched.page.on("request", lambda request: asked.append(request.url))
    watched.page.goto(desk.page)
    seen(watched.page)
    assert all(url.startswith((desk.here, "data:", "blob:")) for url in asked)
