"""Every place of the page, from the stripes to the costs."""

import shutil
from pathlib import Path

from desk_browser import Watched
from playwright.sync_api import Page, expect
from sand_bar import PATTERN, SHEET, at, place, text_of, until


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
