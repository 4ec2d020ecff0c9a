"""The desk in a browser: what a designer does there, from the first run to the last save.

Accessibility is judged by axe-core: the rules of WCAG 2.0 to 2.2, levels A and AA, and its
best practices.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from desk_browser import Watched, chromium, opened
from desk_served import Served, served
from playwright.sync_api import Browser, Page, Route, expect

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


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    # One desk for all pages: its processes are as quick as they are for whoever works on.
    folder = tmp_path_factory.mktemp("desk") / "sand-bar"
    folder.mkdir()
    with served(folder) as found:
        yield found


@pytest.fixture
def project(desk: Served) -> Path:
    """The folder of the desk as it was at first."""
    shutil.rmtree(desk.folder / "earlier", ignore_errors=True)
    write(desk.folder)
    return desk.folder


def write(folder: Path) -> None:
    (folder / "pattern.md").write_text(PATTERN, "utf-8")
    (folder / "worksheet.toml").write_text(SHEET, "utf-8")


@pytest.fixture
def page(browser: Browser, desk: Served, project: Path) -> Iterator[Page]:
    assert project == desk.folder
    watched = opened(browser, desk.page)
    seen(watched.page)
    yield watched.page
    watched.page.context.close()
    assert watched.said == []


@pytest.fixture
def window(browser: Browser) -> Iterator[Callable[..., Watched]]:
    """Opens further windows, and closes them."""
    windows: list[Watched] = []

    def another(
        url: str, width: int = 1280, height: int = 800, theme: str = "light"
    ) -> Watched:
        windows.append(opened(browser, url, width, height, theme))
        return windows[-1]

    yield another
    for one in windows:
        one.page.context.close()


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


def test_a_stripe_is_dragged_and_the_order_written(page: Page, project: Path) -> None:
    place(page, "Colours")
    stripes = page.locator(".sequence button")
    expect(stripes).to_have_count(3)
    before = [one.split(",")[0] for one in names(page)]
    stripes.first.scroll_into_view_if_needed()
    first, last = stripes.nth(0).bounding_box(), stripes.nth(2).bounding_box()
    assert first is not None
    assert last is not None
    page.mouse.move(first["x"] + 20, first["y"] + 20)
    page.mouse.down()
    page.mouse.move(last["x"] + last["width"] - 10, last["y"] + 20, steps=6)
    page.mouse.up()
    until(lambda: [one.split(",")[0] for one in names(page)] == [*before[1:], before[0]])
    page.get_by_role("button", name="Write this order").click()
    until(lambda: "2 rows B, 2 rows C, 2 rows A" in text_of(project))
    page.keyboard.press("Control+z")
    until(lambda: text_of(project) == PATTERN)


def names(page: Page) -> list[str]:
    return page.locator(".sequence button .hidden").all_inner_texts()


def test_a_stripe_is_moved_by_keys_and_each_move_is_said(page: Page) -> None:
    place(page, "Colours")
    page.locator(".sequence button").first.focus()
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")
    expect(page.locator(".spoken")).to_contain_text("now between")
    page.keyboard.press("ArrowUp")
    expect(page.locator(".spoken")).to_contain_text("3 rows")
    page.keyboard.press("Escape")
    assert names(page)[0].startswith("Skerry, 2 rows")


def test_a_wish_stands_in_the_worksheet_and_can_be_taken_back(
    page: Page, project: Path
) -> None:
    place(page, "Colours")
    page.get_by_text("Wish something").click()
    page.get_by_role("button", name="Wish it").click()
    sheet = project / "worksheet.toml"
    until(lambda: "keep_apart" in sheet.read_text("utf-8"))
    page.locator(".place").focus()
    page.keyboard.press("Control+z")
    until(lambda: sheet.read_text("utf-8") == SHEET)


def test_a_size_is_asked_for_and_written(page: Page, project: Path) -> None:
    place(page, "Sizes")
    page.get_by_label("How wide, in cm").fill("40")
    page.get_by_role("button", name="Work it out").click()
    page.get_by_role("button", name="Show it in the words").first.click()
    expect(page.locator(".decided ins").first).to_be_visible()
    page.get_by_role("button", name="Write this size").click()
    until(lambda: "Ch 34." not in text_of(project))
    expect(page.locator(".band [aria-current] b")).to_have_text("all rows close")


def test_a_swatch_is_noted(page: Page, project: Path) -> None:
    place(page, "Swatch")
    page.get_by_text("Note another swatch").click()
    page.get_by_label("How many across").fill("15")
    page.get_by_label("How wide, in cm").fill("10")
    page.get_by_role("button", name="Note it").click()
    until(lambda: "[[swatch]]" in (project / "worksheet.toml").read_text("utf-8"))
    expect(page.locator(".swatches li")).to_contain_text("15 stitches")


def test_an_edging_is_written_into_the_pattern(page: Page, project: Path) -> None:
    place(page, "Edging")
    page.get_by_role("button", name="Write it into the pattern").first.click()
    until(lambda: "edging" in text_of(project).lower())
    expect(page.locator(".band [aria-current] b")).to_have_text("all rows close")


def test_every_copy_is_made_and_shown(page: Page, project: Path) -> None:
    place(page, "Release")
    page.get_by_role("button", name="Make every copy").click()
    expect(page.locator(".copies li").first).to_be_visible(timeout=180_000)
    drawn = page.get_by_role("img", name="Page 1 of").first
    drawn.scroll_into_view_if_needed()
    assert drawn.evaluate("one => one.naturalWidth") > 300
    assert Watched(page).violations() == []
    made = {path.name for path in (project / "release").iterdir()}
    assert any(name.endswith("us-a4.pdf") for name in made)
    assert set(page.locator(".copies button").all_inner_texts()) <= made
    shutil.rmtree(project / "release")


def test_a_pattern_that_has_to_be_mended_is_no_more_than_a_draft(page: Page) -> None:
    at(page, "(31")
    page.keyboard.press("Backspace")
    expect(page.locator(".slip").first).to_be_visible()
    place(page, "Release")
    expect(page.get_by_role("button", name="Make a draft")).to_be_visible()


def test_every_ball_is_drawn(page: Page) -> None:
    place(page, "Yarn")
    expect(page.locator(".yarns tbody tr")).to_have_count(3)


FILMED = """WEBVTT

00:00:01.000 --> 00:00:06.000
Chain thirty four.

00:00:10.000 --> 00:00:20.000
Row one. Single crochet in the fourth chain from the hook and in each chain across.
"""


def test_a_lesson_is_planned_and_a_filmed_one_held_to_the_words(
    page: Page, tmp_path: Path
) -> None:
    place(page, "Lesson")
    expect(page.locator(".film li").first).to_contain_text("Camera:")
    expect(page.locator(".decided")).to_contain_text("Dc in 4th ch from hook")
    with page.expect_download() as kept:
        page.get_by_role("button", name="captions.vtt").click()
    assert Path(kept.value.path()).read_text("utf-8").startswith("WEBVTT")
    film = tmp_path / "film.vtt"
    film.write_text(FILMED, "utf-8")
    page.get_by_label("Choose its captions").first.set_input_files(film)
    expect(page.locator(".note strong")).to_contain_text("single crochet")
    expect(page.locator(".chapters")).to_contain_text("0:10 Panel, Row 1")


REPORTS = "name;wide;yarn A;hours;confusing\nIna;41 cm;90 m;5;1\nJo;16 in;100 yd;;\n"


def test_what_testers_report_is_read_and_their_sheet_kept(
    page: Page, project: Path, tmp_path: Path
) -> None:
    place(page, "Testers")
    with page.expect_download() as kept:
        page.get_by_role("button", name="As a file to fill in").click()
    assert Path(kept.value.path()).read_text("utf-8").startswith("tester,")
    sent = tmp_path / "sent.csv"
    sent.write_text(REPORTS, "utf-8")
    page.get_by_label("Choose a file of reports").first.set_input_files(sent)
    expect(page.get_by_role("cell", name="Jo")).to_be_visible()
    expect(page.get_by_role("cell", name="40.6 cm")).to_be_visible()
    expect(page.locator(".band li", has_text="Testers")).to_contain_text("2 reports")
    assert (project / "trials.csv").read_text("utf-8") == REPORTS
    (project / "trials.csv").unlink()


def test_a_maker_is_answered_with_a_letter_to_copy(page: Page) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    place(page, "Answers")
    page.get_by_label("She counts").fill("row 3: 30")
    page.keyboard.press("Enter")
    expect(page.locator(".letter")).to_contain_text("has 31 stitches; you count 30")
    assert Watched(page).violations() == []
    page.get_by_role("button", name="Copy the letter").click()
    expect(page.locator(".spoken")).to_contain_text("Copied")
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied.startswith("Sand Bar\n\nMy count is off\n")


def test_a_version_is_kept_and_later_changes_are_told_its_makers(
    page: Page, project: Path
) -> None:
    place(page, "Corrections")
    page.get_by_label("As version").fill("1.0")
    page.get_by_role("button", name="Keep it").click()
    until((project / "versions" / "1.0.md").exists)
    page.locator(".band span:text-is('Pattern')").click()
    at(page, "Rows 2-6")
    page.keyboard.press("Backspace")
    page.keyboard.type("8")
    until(lambda: "Rows 2-8" in text_of(project))
    place(page, "Corrections")
    expect(page.locator(".decided")).to_contain_text("If you are already past it")
    expect(page.locator(".decided")).to_contain_text("Rows 7-8")
    shutil.rmtree(project / "versions")


def test_hours_and_a_price_come_to_copies(page: Page, project: Path) -> None:
    place(page, "Costs")
    for label, words in (("On what", "yarn"), ("How much", "20")):
        page.get_by_label(label).fill(words)
    page.get_by_role("button", name="Note it").nth(1).click()
    until(lambda: "[[spent]]" in (project / "worksheet.toml").read_text("utf-8"))
    page.get_by_label("The price of a copy").fill("5")
    page.get_by_role("button", name="Note it").nth(2).click()
    expect(page.locator(".facts").first).to_contain_text("comes back with 4 copies")


def test_it_is_read_in_the_other_terms(page: Page) -> None:
    page.get_by_role("button", name="UK terms").click()
    expect(page.locator(".worded .reading")).to_contain_text("Tr in 4th ch from hook")
    expect(page.locator(".worded")).to_contain_text("the same fabric, row for row")
    page.get_by_role("button", name="Back to your own words").click()


def test_a_change_from_elsewhere_is_shown_and_can_be_undone(
    page: Page, project: Path
) -> None:
    (project / "pattern.md").write_text(PATTERN.replace("Sand Bar", "Mud Bank"), "utf-8")
    expect(page.locator(".aside")).to_contain_text("changed outside the desk")
    expect(page.locator(".cm-content")).to_contain_text("Mud Bank")
    page.locator(".cm-content").click()
    page.keyboard.press("Control+z")
    until(lambda: text_of(project) == PATTERN)


def test_two_changes_at_once_are_both_kept(page: Page, desk: Served, project: Path) -> None:
    theirs = PATTERN.replace("Sand Bar", "Mud Bank")

    def changed_first(route: Route) -> None:
        (project / "pattern.md").write_text(theirs, "utf-8")
        route.continue_()

    page.route("**/save", changed_first, times=1)
    at(page, "Written in US terms.")
    page.keyboard.insert_text(" Mine too.")
    expect(page.get_by_role("heading", level=2)).to_contain_text("changed outside the desk")
    assert text_of(project) == theirs
    assert Watched(page).violations() == []
    page.get_by_role("button", name="Go on with yours").click()
    until(lambda: "Mine too." in text_of(project))
    kept = [
        desk.get(f"/earlier/pattern?version={one['id']}").told()["text"]
        for one in desk.get("/earlier/pattern").told()["versions"]
    ]
    assert theirs in kept


def test_an_earlier_version_is_brought_back(page: Page, project: Path) -> None:
    at(page, "Written in US terms.")
    page.keyboard.type(" More words.")
    until(lambda: "More words." in text_of(project))
    page.locator(".head .saved").click()
    page.locator(".versions button").last.click()
    expect(page.locator(".decided del").first).to_be_visible()
    page.get_by_role("button", name="Bring it back").click()
    until(lambda: text_of(project) == PATTERN)


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


def test_the_first_run_offers_the_shelf(window: Opens, tmp_path: Path) -> None:
    with served(tmp_path / "new") as desk:
        watched = window(desk.page)
        page = watched.page
        page.get_by_role("button", name="moss").first.wait_for()
        assert watched.violations() == []
        page.get_by_role("button", name="moss").first.click()
        seen(page)
        expect(page.locator(".head h1")).to_have_text("Moss Stitch")
        until((tmp_path / "new" / "worksheet.toml").exists)
        assert watched.said == []


def test_her_own_draft_is_laid_on_the_page(window: Opens, tmp_path: Path) -> None:
    draft = tmp_path / "bar.html"
    draft.write_text(
        "<h1>Bar</h1><p>Ch 10.</p><p>Row 1: Sc in 2nd ch from hook and in each ch across. (8 sc)</p>",
        "utf-8",
    )
    with served(tmp_path / "new") as desk:
        watched = window(desk.page)
        watched.page.locator("input[type=file]").set_input_files(draft)
        seen(watched.page)
        expect(watched.page.locator(".slip").first).to_have_text("(8 sc)")
        until((tmp_path / "new" / "pattern.md").exists)
        assert "(8 sc)" in text_of(tmp_path / "new")


def test_without_the_secret_the_page_says_so(window: Opens, desk: Served) -> None:
    watched = window(f"{desk.here}/")
    expect(watched.page.get_by_role("heading")).to_have_text("The desk is not open here")
    assert watched.violations() == []


STARTED = [sys.executable, "-m", "hookwright", "desk", "--no-browser"]


def started(project: Path) -> tuple[subprocess.Popen[str], str]:
    desk = subprocess.Popen([*STARTED, str(project)], stdout=subprocess.PIPE, text=True)  # noqa: S603 - ourselves
    assert desk.stdout is not None
    with desk.stdout as told:
        return desk, told.readline().strip().partition(": ")[2]


def test_a_desk_that_is_killed_loses_nothing_and_goes_on(
    window: Opens, tmp_path: Path
) -> None:
    project = tmp_path / "sand-bar"
    project.mkdir()
    write(project)
    desk, url = started(project)
    watched = window(url)
    page = watched.page
    seen(page)
    at(page, "Written in US terms.")
    page.keyboard.type(" Kept.")
    time.sleep(1)
    os.kill(desk.pid, signal.SIGKILL)
    desk.wait()
    assert "Kept." in text_of(project)
    page.keyboard.type(" Written while it was gone.")
    expect(page.locator(".head [role=alert]")).to_contain_text("The desk has stopped")
    place(page, "Costs")
    expect(page.locator(".place")).to_contain_text("The desk has stopped")
    again, same = started(project)
    assert same == url
    until(lambda: "Written while it was gone." in text_of(project))
    expect(page.locator(".head [role=alert]")).to_have_count(0)
    again.send_signal(signal.SIGINT)
    assert again.wait(10) == 0
    assert not (project / ".desk").exists()


PLACES = (
    "Swatch", "Sizes", "Colours", "Yarn", "Edging", "Lesson", "Testers", "Answers",
    "Corrections", "Costs", "Release",
)  # fmt: skip


def states(page: Page) -> Iterator[str]:
    """Bring the page from state to state."""
    yield "writing"
    page.locator(".cm-content").click()
    page.keyboard.press("F8")
    yield "a note"
    page.keyboard.press("Escape")
    page.keyboard.press("F2")
    yield "a word"
    for view in ("Chart", "Schematic", "Stripes", "Table", "Fabric"):
        page.get_by_role("button", name=view, exact=True).click()
        page.wait_for_selector(".empty", state="detached")
        yield view
    for name in PLACES:
        place(page, name)
        yield name
    page.locator(".head .saved").click()
    yield "earlier versions"
    page.keyboard.press("Control+/")
    yield "the keys"
    page.keyboard.press("Escape")
    page.get_by_role("button", name="UK terms").click()
    page.locator(".worded .reading p").first.wait_for()
    yield "the other terms"


@pytest.mark.parametrize(("theme", "width"), [("light", 1280), ("dark", 390)])
def test_nobody_is_kept_from_using_it(
    window: Opens, desk: Served, project: Path, theme: str, width: int
) -> None:
    assert text_of(project) == PATTERN
    watched = window(desk.page, width, 844, theme)
    seen(watched.page)
    for state in states(watched.page):
        assert (state, watched.violations()) == (state, [])
        assert (state, watched.scrolls_sideways()) == (state, False)
    assert watched.said == []


@pytest.mark.parametrize(("theme", "width"), [("dark", 1280), ("light", 390)])
def test_everything_can_be_told_from_its_ground(
    window: Opens, desk: Served, project: Path, theme: str, width: int
) -> None:
    assert text_of(project) == PATTERN
    watched = window(desk.page, width, 844, theme)
    seen(watched.page)
    for state in states(watched.page):
        assert (state, watched.violations(["color-contrast"])) == (state, [])
        assert (state, watched.scrolls_sideways()) == (state, False)


def test_all_of_a_place_is_reached_on_a_phone(window: Opens, desk: Served) -> None:
    page = window(desk.page, 390, 844).page
    seen(page)
    place(page, "Answers")
    page.get_by_role("button", name="As a page").click()
    expect(page.locator(".buttons [role=status]").last).to_contain_text(
        "-help.html is made"
    )


def test_large_type_on_a_small_screen_scrolls_no_way_but_down(
    window: Opens, desk: Served
) -> None:
    watched = window(desk.page, 320, 640)
    page = watched.page
    seen(page)
    for _ in range(2):
        page.get_by_role("button", name="Larger type").click()
        assert not watched.scrolls_sideways()
    for name in PLACES:
        place(page, name)
        assert (name, watched.scrolls_sideways()) == (name, False)


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
